//! Pages and the JSON API.
//!
//! Pages are rendered on the server and complete without script. A page is a folder under `pages/`: `query.rs` asks the
//! state, `view.rs` turns the answer into words, `markup.rs` is markup only, `mod.rs` is the handler of about ten lines.
//! [`parts`] are what pages are made of, [`plot`] the drawings, [`words`] how numbers and moments are written.

mod api;
mod assets;
mod failure;
mod guard;
mod house;
mod link;
mod pages;
pub mod papers;
pub mod parts;
pub mod plot;
mod reading;
mod sent;
mod serve;
#[cfg(test)]
mod testing;
pub mod words;

/// Members of every ensemble a page computes.
pub(crate) const DRAWS: usize = 256;
/// Its seed: the same question gives the same answer, to the last digit.
pub(crate) const SEED: u64 = 1;

pub use house::House;
pub use journal::Kitchen;
pub use link::Links;
pub use serve::{Options, ServeError, app, serve};
