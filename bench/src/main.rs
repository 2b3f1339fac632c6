//! The rivals of `cargo xtask bench`; the product never builds this crate.
fn main() {}
