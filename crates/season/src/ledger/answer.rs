//! The words of a ledger: lines, where things are, how it stands, what its plates come to.

use quantity::{Mass, Money};
use record::PartName;
use rust_decimal::Decimal;

/// Where grams and money of a piece are, as far as they are written down.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceLedger {
    /// Portions by where they are, heaps, purge, what is not explained; their grams add to `came_in`, their money to `paid`.
    pub rows: Vec<LedgerRow>,
    /// On the label.
    pub came_in: Mass,
    /// What was paid.
    pub paid: Money,
    /// How it stands.
    pub standing: Standing,
    /// What one's plates come to; nothing before a portion was weighed.
    pub plates: Option<Plates>,
    /// Kept heaps that nobody put a value on: they count as worth nothing.
    pub unvalued: Vec<PartName>,
    /// How many weighings stand behind it, the label among them.
    pub weighings: usize,
}

/// One line of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct LedgerRow {
    /// What it is.
    pub heap: Heap,
    /// Its grams; below zero where more was weighed than came in.
    pub mass: Mass,
    /// Share of what came in.
    pub share: f64,
    /// What it carries of the price; zero for what carries nothing.
    pub value: Money,
}

/// What a line stands for.
#[derive(Clone, Debug, PartialEq)]
pub enum Heap {
    /// Portions that are in one place.
    Portions {
        /// Where.
        whereabouts: Whereabouts,
        /// Their places in the roll.
        places: Vec<u32>,
        /// In how many packs.
        packs: usize,
    },
    /// A heap that is no portion.
    Part {
        /// Which.
        part: PartName,
        /// What it was called, where the name of the heap does not say.
        called: Option<String>,
        /// Where it is, if it was kept.
        whereabouts: Option<Whereabouts>,
        /// What a kilo of it replaces.
        value_per_kg: Option<Decimal>,
    },
    /// The piece itself, while nothing was cut off it.
    Whole,
    /// Liquid of the bag.
    Purge,
    /// Thrown away before it was cut.
    ThrownAway,
    /// On the board still, or lost.
    NotExplained,
}

/// Where portions or heaps are.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whereabouts {
    /// Out of the store, in this place.
    Out(String),
    /// Cut, in no pack.
    Loose,
    /// On the heat or resting.
    Heat,
    /// In the store, in this place if it was said.
    Store(Option<String>),
    /// Left over.
    Spare,
    /// Eaten.
    Eaten,
    /// Thrown away.
    Discarded,
}

/// How a ledger stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// Nothing was cut yet.
    Uncut,
    /// What is not explained is inside the scales' error.
    Balances {
        /// Not explained.
        grams: Mass,
        /// What the scales may be wrong by together.
        scales: Mass,
    },
    /// So much is not written down: more than any scale is wrong by.
    Missing {
        /// Grams.
        grams: Mass,
        /// What the scales may be wrong by together.
        scales: Mass,
        /// Whether the purge was weighed.
        purge_weighed: bool,
        /// Whether it is as much as a portion, so that the piece may still lie on the board.
        on_the_board: bool,
    },
    /// More was weighed than came in, beyond what the scales explain.
    MoreOutThanIn {
        /// By how much.
        over: Mass,
    },
}

/// What the plates of a piece come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Plates {
    /// How many.
    pub count: usize,
    /// Raw, together.
    pub mass: Mass,
    /// What they carry of the price: paid less what was kept.
    pub carry: Money,
    /// Bags and electricity.
    pub costs: Money,
    /// Both together.
    pub all_in: Money,
    /// One plate.
    pub each: Money,
    /// A trimmed kilo.
    pub per_kg: Money,
    /// What the counter would have asked for the same.
    pub counter: Option<Money>,
    /// Saved against it.
    pub saved: Option<Money>,
}
