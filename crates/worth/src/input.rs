//! What is asked: a piece as purchased, its parts, and what it is held against.

use crate::{Grams, PerMass, Scales};
use quantity::Currency;
use rust_decimal::Decimal;

/// A whole piece, its parts, and the counter it is held against. All masses exact grams, all money exact decimals.
#[derive(Clone, Debug, PartialEq)]
pub struct Worth {
    /// The one currency of every amount.
    pub currency: Currency,
    /// The piece as purchased.
    pub piece: Bought,
    /// What it was cut into; at least one part is used as portions.
    pub parts: Vec<Part>,
    /// What the counter asks for the same meat, cut.
    pub counter: Option<PerMass>,
    /// What it costs beyond the meat.
    pub costs: Costs,
    /// What is left after cooking.
    pub cooked: Option<Cooked>,
    /// The size of one portion as served.
    pub portion: Option<Grams>,
    /// The scales behind the masses.
    pub scales: Scales,
}

/// A piece as purchased.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// On the label, bag and all.
    pub mass: Grams,
    /// What was asked for it.
    pub price: Price,
    /// Bag and liquid, where they were weighed.
    pub purge: Option<Grams>,
}

/// A price, as it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Price {
    /// For each kilo or pound.
    Per(PerMass),
    /// For the piece.
    Total(Decimal),
}

/// One heap on the board.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What the person calls it.
    pub name: String,
    /// What becomes of it.
    pub used: Use,
    /// What it weighs.
    pub mass: Grams,
}

/// What becomes of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Eaten as what the piece was bought for; the cost lies on these.
    Portion,
    /// Kept, and credited at what it replaces; without a value it is credited nothing, and the answer says so.
    Keep {
        /// What the same would have cost.
        value: Option<PerMass>,
    },
    /// Thrown away.
    Waste,
}

/// What a piece costs beyond its price.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Costs {
    /// Price of one bag.
    pub bag: Decimal,
    /// How many bags; left out, one for each full portion.
    pub bags: Option<u32>,
    /// Keeping a kilo for a month.
    pub energy_month: Option<PerMass>,
    /// Months it is kept, on average.
    pub months: Decimal,
    /// The work, as one amount.
    pub labour: Decimal,
}

/// What is left after cooking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cooked {
    /// How much the portions lost or weigh.
    pub after: AfterCooking,
    /// What is carved off and thrown away after cooking.
    pub waste: Grams,
}

/// Cooking seen as a loss or as a weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AfterCooking {
    /// Share of the raw portions lost, 0 to below 1.
    Loss(Decimal),
    /// What the portions weigh when cooked.
    Mass(Grams),
}
