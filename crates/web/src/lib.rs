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
mod kitchen;
mod pages;
pub mod parts;
pub mod plot;
mod sent;
mod serve;
pub mod words;

pub use house::House;
pub use kitchen::Kitchen;
pub use serve::{Options, ServeError, app, serve};
