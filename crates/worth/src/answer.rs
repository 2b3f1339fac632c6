//! What comes back: plain numbers for exact inputs, bands where an input is a band.

use crate::Grams;
use quantity::Currency;
use rust_decimal::Decimal;

/// One result: exact, or with a band that holds it four times in five.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Nothing uncertain went into it.
    Plain(Decimal),
    /// Tenth, fiftieth and ninetieth percentile of the ensemble.
    Band {
        /// Half of the members lie below.
        median: Decimal,
        /// A tenth of the members lies below.
        low: Decimal,
        /// A tenth of the members lies above.
        high: Decimal,
    },
}

impl Figure {
    /// The number itself, or the middle of its band.
    #[must_use]
    pub const fn middle(self) -> Decimal {
        match self {
            Self::Plain(value) | Self::Band { median: value, .. } => value,
        }
    }
    /// The lower end.
    #[must_use]
    pub const fn low(self) -> Decimal {
        match self {
            Self::Plain(value) | Self::Band { low: value, .. } => value,
        }
    }
    /// The upper end.
    #[must_use]
    pub const fn high(self) -> Decimal {
        match self {
            Self::Plain(value) | Self::Band { high: value, .. } => value,
        }
    }
    /// Whether it carries a band.
    #[must_use]
    pub const fn is_band(self) -> bool {
        matches!(self, Self::Band { .. })
    }
}

/// What the piece comes to. Masses in kg or g as named, money unrounded in `currency`.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The one currency.
    pub currency: Currency,
    /// What became portions, kg.
    pub usable_kg: Figure,
    /// Usable over purchased, 0 to 1.
    pub yield_share: Figure,
    /// What was paid.
    pub purchase_cost: Figure,
    /// What the kept parts replace.
    pub credit: Figure,
    /// Paid less credit: what the portions carry.
    pub net_cost: Figure,
    /// Bags, electricity and work.
    pub costs: CostLines,
    /// Net cost and costs over usable kilos.
    pub cost_per_kg: Figure,
    /// The same for one portion, where its size is known.
    pub portion: Option<PortionAnswer>,
    /// Cost of a usable kilo over the price of a purchased one; `None` for a piece that cost nothing.
    pub cost_factor: Option<Figure>,
    /// The same after cooking.
    pub cooked: Option<CookedAnswer>,
    /// The counter's price for the usable kilos less everything paid; `None` without a counter price.
    pub saving: Option<Figure>,
    /// The counter price at which both come to the same.
    pub break_even_counter_per_kg: Figure,
    /// Whole or counter; `None` without a counter price.
    pub verdict: Option<Verdict>,
    /// Purchased less everything weighed; `None` where nothing has been weighed yet.
    pub unexplained: Option<Unexplained>,
    /// Where each gram and each coin of the price went: parts in order, purge, not explained.
    pub ledger: Vec<Line>,
    /// What the person should be asked.
    pub asks: Vec<Ask>,
}

/// What a piece costs beyond its price.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CostLines {
    /// How many bags were reckoned; 0 where bags have no price.
    pub bag_count: Figure,
    /// Bags.
    pub bags: Figure,
    /// Electricity of keeping it.
    pub energy: Figure,
    /// Work.
    pub labour: Figure,
    /// Net cost and all of these together.
    pub all_in: Figure,
}

/// One portion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PortionAnswer {
    /// Cost of one.
    pub each: Figure,
    /// How many full ones there are.
    pub full: Figure,
    /// Cost of one over the price of a purchased kilo.
    pub factor: Option<Figure>,
}

/// After cooking and carving; carries the net cost, with the credits already taken off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CookedAnswer {
    /// What can be served, kg.
    pub saleable_kg: Figure,
    /// Cost of a kilo of it.
    pub cost_per_kg: Figure,
    /// Cost of one cooked portion.
    pub portion: Option<PortionAnswer>,
    /// Over the price of a purchased kilo.
    pub cost_factor: Option<Figure>,
}

/// Whole or counter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// Which.
    pub call: Call,
    /// Share of the ensemble in which the whole piece is the cheaper.
    pub chance_whole: f64,
}

/// A call between the whole piece and the counter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Call {
    /// The whole piece is cheaper over the whole band.
    Whole,
    /// The counter is cheaper over the whole band.
    Counter,
    /// The gap is smaller than the band.
    CannotTell,
}

/// Grams nobody accounted for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unexplained {
    /// How many; below zero when more was weighed than was bought. Carries the scales' error as its band.
    pub grams: Figure,
    /// The scales' own error for these weighings: their limits in service, added in squares.
    pub scales: Grams,
    /// Whether it is more than the scales can be wrong by.
    pub beyond: bool,
}

/// One line of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is.
    pub what: Heap,
    /// Grams.
    pub mass_g: Figure,
    /// Share of what was bought.
    pub share: Figure,
    /// What it carries of the price.
    pub value: Figure,
}

/// What a ledger line stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Heap {
    /// A part, by its name.
    Part(String),
    /// Bag and liquid.
    Purge,
    /// Nobody knows.
    Unexplained,
}

/// A question back to the person.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Grams are missing beyond the scales' error.
    Missing {
        /// Grams.
        grams: Decimal,
        /// What the scales allow.
        scales: Grams,
        /// Whether the purge was weighed.
        purge_weighed: bool,
    },
    /// A kept part has no value and was credited nothing.
    NoValue {
        /// The part.
        part: String,
    },
    /// What is kept is worth more than was paid.
    CreditAbovePrice,
    /// The trim level was not said and moves the yield more than the animal does.
    TrimLevel,
}
