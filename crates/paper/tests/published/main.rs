//! Paper held against the world: sizes and codes read back from the PDF by general readers, against the standards and
//! stock definitions that state them. A file per source; the citation on top.

// Clippy spares test functions, not their helpers.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod directive_76_211;
mod examples;
mod iso_18004;
mod label_stock;
mod page_description;
mod reader;
mod scalable_vector_graphics;
mod strip;
