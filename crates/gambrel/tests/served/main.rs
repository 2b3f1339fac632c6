//! The program as it serves: killed at random moments, a second one on the same record, a full disk, a damaged row, the
//! end while somebody listens.
#![allow(clippy::expect_used, reason = "a test that cannot set up its case has failed")]

mod demo;
mod house;
mod killed;
mod trouble;
