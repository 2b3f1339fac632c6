//! Numbers, bands, moments and lists as the pages write them.
//!
//! A band's ends are rounded outward and its middle to nearest, so that rounding never narrows a promise. The first time
//! on a page it is written in words, `between 18:10 and 18:40`; then `19:10 to 19:16`; in tables only, `19:10–19:16`.

pub mod band;
pub mod list;
pub mod moment;
pub mod refusal;

pub use band::{Shown, chance};
pub use list::{and_list, counted, number_word, plural, sentence_case};
pub use moment::{Moments, day_month, hours_after_midnight, long_day};
pub use refusal::refused;
