//! Checks against figures from outside this project, one file a source.

#![allow(clippy::expect_used, reason = "a check that cannot set up its case has failed")]

mod highs;
mod imps;
mod numpy;
mod venv;
