//! House rules as tests: what ARCHITECTURE says in words, held against the tree.

// Clippy spares test functions, not their helpers.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod arrows;
mod catalogue_rows;
mod licences;
mod modules;
mod tree;
mod words;
