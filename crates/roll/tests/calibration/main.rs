//! Bands and errors of the posterior over drawn pieces, beside what a prototype of the same model gave.
//!
//! The prototype's figures are computed (1,000 drawn pieces, errors one portion ahead, in per cent of the portion); they
//! test this program, not the world: they say what its own assumptions are worth, and that its bands are honest under them.

#![allow(clippy::expect_used, reason = "a check that cannot set up its case has failed")]

mod counts;
mod household;
mod table;
mod world;
mod wrong;
