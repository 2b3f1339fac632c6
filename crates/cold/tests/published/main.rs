//! Thawing hours as others saw or told them, one file a source.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

mod eastridge;
mod kaes;
mod told;
