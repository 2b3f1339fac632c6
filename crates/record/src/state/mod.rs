//! The state: what follows from all entries in order.

mod balance;
mod check;
mod chunks;
mod cook;
mod fold;
mod ledger;
mod log;
mod names;
mod pack;
mod piece;
mod portion;
mod settings;
mod store;
mod supper;

pub use balance::Imbalance;
pub use check::Gone;
pub use cook::{OnHeat, Probe, Pull, Salting, ServedAs, Stage};
pub use ledger::{Ledger, Purge, label_error, scale_error};
pub use log::{Correction, Logged};
pub use pack::{Leak, Lying, Out, Pack, PackGone};
pub use piece::{Measured, Piece, Planned};
pub use portion::{Part, Portion, Thrown};
pub use settings::{PlaceKind, Setting, Settings, place_key, setting_keys};
pub use supper::Supper;

use crate::{At, PriceNoted, TemperatureRead, Word};
use chunks::{ById, Table};
use log::Log;
use std::collections::BTreeMap;
use std::sync::Arc;
use uuid::Uuid;

/// Everything the record says, as of its last entry. Cheap to copy: copies share what did not change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    log: Log,
    made: ById<Made>,
    words: Arc<BTreeMap<Word, Uuid>>,
    slugs: Arc<BTreeMap<String, Uuid>>,
    pieces: Table<Piece>,
    portions: Table<Portion>,
    parts: Table<Part>,
    packs: Table<Pack>,
    suppers: Table<Supper>,
    settings: Settings,
    prices: Table<Noted<PriceNoted>>,
    temperatures: Table<Noted<TemperatureRead>>,
}

/// What an entry made, and its place in its table.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Made {
    Piece(usize),
    Portion(usize),
    Part(usize),
    Pack(usize),
    Supper(usize),
}

/// A note with its hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Noted<T> {
    /// The entry that holds it.
    pub id: Uuid,
    /// When it was noted.
    pub at: At,
    /// What was noted.
    pub note: T,
}

impl State {
    /// The number of the last entry; 0 where there is none.
    #[must_use]
    pub fn number(&self) -> u64 {
        self.log.last()
    }

    /// Every entry in order of number, struck ones too.
    pub fn log(&self) -> impl DoubleEndedIterator<Item = &Logged> + Clone {
        self.log.iter()
    }

    /// The entry of a number.
    #[must_use]
    pub fn entry(&self, number: u64) -> Option<&Logged> {
        self.log.row(number)
    }

    /// The entry of an id.
    #[must_use]
    pub fn entry_of(&self, id: Uuid) -> Option<&Logged> {
        self.log.of(id)
    }

    /// Every piece, in the order they came.
    pub fn pieces(&self) -> impl DoubleEndedIterator<Item = &Piece> + Clone {
        self.pieces.iter()
    }

    /// The piece received by this entry.
    #[must_use]
    pub fn piece(&self, id: Uuid) -> Option<&Piece> {
        match self.made.get(id)? {
            Made::Piece(place) => self.pieces.get(place),
            _ => None,
        }
    }

    /// The piece of a word, in either case.
    #[must_use]
    pub fn piece_of(&self, word: &str) -> Option<&Piece> {
        self.piece(*self.words.get(&Word::read(word)?)?)
    }

    /// Every portion, in the order they were weighed.
    pub fn portions(&self) -> impl DoubleEndedIterator<Item = &Portion> + Clone {
        self.portions.iter()
    }

    /// The portion weighed by this entry.
    #[must_use]
    pub fn portion(&self, id: Uuid) -> Option<&Portion> {
        match self.made.get(id)? {
            Made::Portion(place) => self.portions.get(place),
            _ => None,
        }
    }

    /// Portions of a piece, from its named end.
    pub fn portions_of<'s>(&'s self, piece: &'s Piece) -> impl Iterator<Item = &'s Portion> + Clone {
        piece.portions.values().filter_map(|id| self.portion(*id))
    }

    /// Every heap, in the order they were weighed.
    pub fn parts(&self) -> impl DoubleEndedIterator<Item = &Part> + Clone {
        self.parts.iter()
    }

    /// The heap weighed by this entry.
    #[must_use]
    pub fn part(&self, id: Uuid) -> Option<&Part> {
        match self.made.get(id)? {
            Made::Part(place) => self.parts.get(place),
            _ => None,
        }
    }

    /// Heaps of a piece, in the order they were weighed.
    pub fn parts_of<'s>(&'s self, piece: &'s Piece) -> impl Iterator<Item = &'s Part> + Clone {
        piece.parts.iter().filter_map(|id| self.part(*id))
    }

    /// Every pack that was ever sealed, in that order.
    pub fn packs(&self) -> impl DoubleEndedIterator<Item = &Pack> + Clone {
        self.packs.iter()
    }

    /// The pack sealed by this entry.
    #[must_use]
    pub fn pack(&self, id: Uuid) -> Option<&Pack> {
        match self.made.get(id)? {
            Made::Pack(place) => self.packs.get(place),
            _ => None,
        }
    }

    /// The pack of a name as labels have it, in either case: `tarn-11-12`.
    #[must_use]
    pub fn pack_of(&self, slug: &str) -> Option<&Pack> {
        self.pack(*self.slugs.get(&slug.to_ascii_lowercase())?)
    }

    /// Packs of a piece, in the order they were sealed.
    pub fn packs_of<'s>(&'s self, piece: &'s Piece) -> impl Iterator<Item = &'s Pack> + Clone {
        piece.packs.iter().filter_map(|id| self.pack(*id))
    }

    /// Every supper, in the order they were first planned.
    pub fn suppers(&self) -> impl DoubleEndedIterator<Item = &Supper> + Clone {
        self.suppers.iter()
    }

    /// The supper of any entry that planned it, first or anew.
    #[must_use]
    pub fn supper(&self, id: Uuid) -> Option<&Supper> {
        match self.made.get(id)? {
            Made::Supper(place) => self.suppers.get(place),
            _ => None,
        }
    }

    /// The supper of an address: `2026-07-18`, a second one of that day `2026-07-18-2`.
    #[must_use]
    pub fn supper_of(&self, slug: &str) -> Option<&Supper> {
        self.suppers.iter().find(|supper| supper.slug == slug)
    }

    /// The settings of the kitchen.
    #[must_use]
    pub const fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Prices noted, in order of entry.
    pub fn prices(&self) -> impl DoubleEndedIterator<Item = &Noted<PriceNoted>> + Clone {
        self.prices.iter()
    }

    /// Temperatures of places read, in order of entry.
    pub fn temperatures(&self) -> impl DoubleEndedIterator<Item = &Noted<TemperatureRead>> + Clone {
        self.temperatures.iter()
    }

    /// Entries that concern a piece or anything that came of it, oldest first, struck ones too.
    pub fn entries_of<'s>(&'s self, piece: &'s Piece) -> impl DoubleEndedIterator<Item = &'s Logged> + Clone {
        piece.entries.iter().filter_map(|number| self.log.row(*number))
    }

    /// The grams of a piece.
    #[must_use]
    pub fn ledger(&self, piece: &Piece) -> Ledger {
        Ledger::of(self, piece)
    }

    /// The next free word of the list; nothing once all are taken.
    #[must_use]
    pub fn next_word(&self) -> Option<Word> {
        Word::next_free(self.words.keys())
    }
}
