//! Pages and the JSON API.
//!
//! Pages are rendered on the server and complete without script. A page is a folder under `pages/`: `query.rs` asks the
//! state, `view.rs` turns the answer into words, `markup.rs` is markup only, `mod.rs` is the handler of about ten lines.

mod assets;
pub mod parts;
pub mod plot;
pub mod words;
