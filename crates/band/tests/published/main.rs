//! Checks against figures from outside this project, one file a source.

mod shares;
