//! The fold from outside: what is refused and how it reads, and the laws that hold for whatever is accepted.
#![allow(clippy::expect_used, reason = "a test that cannot set up its case has failed")]

mod book;
mod laws;
mod refused;
