//! Developers' commands.
fn main() {}
