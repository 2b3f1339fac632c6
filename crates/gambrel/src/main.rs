//! The command line: parses, calls, prints.
fn main() {}
