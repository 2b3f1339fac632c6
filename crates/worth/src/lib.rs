//! Grams and money: where each gram and each cent of a piece went, and whether the whole piece beats the counter.
//!
//! The yield and cost test as the trade teaches it. Money is exact decimal from end to end, and so are masses here, so
//! that a ledger closes to the last digit; rounding happens once, when an amount is printed ([`coins`]).
//!
//! | step | formula |
//! |---|---|
//! | purchase cost | mass × price, or the total on the label |
//! | credit | Σ kept part × what it replaces |
//! | net cost | purchase cost − credit |
//! | cost of a usable kilo | (net cost + bags + electricity + work) / usable kilos |
//! | cost factor | cost of a usable kilo / price of a purchased kilo |
//! | cooked | the same sum over what is left after cooking and carving |
//! | unexplained | mass − purge − Σ parts, never weighed |
//! | saving | counter price × usable kilos − (net cost + costs) |
//!
//! # Source
//! Butcher test, cost factors and cutting loss: P. Dittmer, *Principles of Food, Beverage, and Labor Cost Controls*
//! (published); raw yield test: W. Gisslen, *Professional Cooking* (published). Two habits exist for the cooked cost, to
//! carry the whole invoice or the net value: here it is the net value.

mod answer;
mod chain;
mod coins;
mod error;
mod grams;
mod input;
mod kitchen;
mod ledger;
mod question;
mod scale;
mod transpose;
mod uncut;

pub use answer::{
    Answer, Ask, Call, CookedAnswer, CostLines, Figure, Heap, Line, PortionAnswer, Unexplained, Verdict,
};
pub use coins::coins;
pub use error::{Place, WorthError};
pub use grams::{Grams, PerMass};
pub use input::{AfterCooking, Bought, Cooked, Costs, Part, Price, Use, Worth};
pub use kitchen::{MinceError, Square, pearson_square, portions_from, quantity_to_buy};
pub use ledger::worth;
pub use question::{Answered, Number, Question, Ranged, answer, outward};
pub use scale::{Class, Scale, Scales};
pub use uncut::{Assumed, TrimLevel, Uncut};
