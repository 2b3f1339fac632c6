//! What each kind of entry says.
//!
//! Every body carries `"v": 1`. Keys are those of the forms: a unit stands in the name, and wherever `_g`, `_mm`, `_c` or
//! `_per_kg` stands its other units may (`_kg _oz _lb`, `_cm _in`, `_f`, `_per_lb`). References are ids of the entries that
//! made the thing.

mod cook;
mod house;
mod knife;
mod pack;
mod piece;
mod supper;

pub use cook::{Dose, Outcome, ProbeRead, Probed, Pulled, PutOn, Salted, Served};
pub use house::{
    Corrected, Discarded, PriceNoted, Replacement, SettingChanged, SettingValue, TemperatureRead, Where,
};
pub use knife::{
    Aim, Count, End, Ends, KnifePlanned, PartName, PartWeighed, PortionWeighed, Thickness, Use, Want,
};
pub use pack::{Contents, Counted, LeakerFound, Method, Moved, PackSealed, TakenOut, Wrap};
pub use piece::{DateKind, Lip, PackerDate, Paid, PieceMeasured, PieceReceived, Station, Trim};
pub use supper::{Equipment, EquipmentKind, Route, Seat, Serve, SupperPlanned, Wish};

use crate::read::{Note, Problem, Reader, Writer, nearest, shown};
use serde_json::Value;
use uuid::Uuid;

/// The one version of bodies there is.
const VERSION: u64 = 1;

/// The kinds, their words and their bodies, in the order the job meets them.
macro_rules! kinds {
    ($($(#[doc = $doc:literal])+ $name:ident = $word:literal,)+) => {
        /// What kind of thing happened.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Kind { $($(#[doc = $doc])+ $name,)+ }

        impl Kind {
            /// Every kind, in the order the job meets them.
            pub const ALL: &'static [Self] = &[$(Self::$name,)+];

            /// The word entries carry, as `piece-received`.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$name => $word,)+ }
            }

            /// What entries of this kind say.
            #[must_use]
            pub fn meaning(self) -> &'static str {
                match self { $(Self::$name => concat!($($doc),+).trim(),)+ }
            }

            /// What each key of its body means.
            #[must_use]
            pub fn notes(self) -> Vec<Note> {
                let mut notes = Vec::new();
                match self { $(Self::$name => $name::notes(&mut notes),)+ }
                notes
            }
        }

        /// What an entry says.
        #[derive(Clone, Debug, PartialEq)]
        #[allow(clippy::large_enum_variant, reason = "entries live behind an Arc")]
        pub enum Body { $($(#[doc = $doc])+ $name($name),)+ }

        impl Body {
            /// Its kind.
            #[must_use]
            pub const fn kind(&self) -> Kind {
                match self { $(Self::$name(_) => Kind::$name,)+ }
            }

            /// The body as JSON, in metric units.
            #[must_use]
            pub fn to_value(&self) -> Value {
                let mut writer = Writer::default();
                writer.put("v", VERSION.into());
                match self { $(Self::$name(body) => body.write(&mut writer),)+ }
                writer.into_value()
            }

            fn read_kind(kind: Kind, reader: &mut Reader<'_>) -> Option<Self> {
                match kind { $(Kind::$name => $name::read(reader).map(Self::$name),)+ }
            }
        }

        $(impl From<$name> for Body {
            fn from(body: $name) -> Self {
                Self::$name(body)
            }
        })+
    };
}

kinds! {
    /// A piece came in.
    PieceReceived = "piece-received",
    /// A piece was weighed or measured before the knife.
    PieceMeasured = "piece-measured",
    /// A knife plan was settled on.
    KnifePlanned = "knife-planned",
    /// A portion was cut and weighed.
    PortionWeighed = "portion-weighed",
    /// A heap that is no portion was weighed: ends, trim, fat, silver skin, bone, purge.
    PartWeighed = "part-weighed",
    /// A bag was sealed over portions or a heap.
    PackSealed = "pack-sealed",
    /// A pack or a whole piece went to another place.
    Moved = "moved",
    /// Packs left the store to thaw or to be cooked from frozen.
    TakenOut = "taken-out",
    /// Portions were salted.
    Salted = "salted",
    /// Portions went on the heat.
    PutOn = "put-on",
    /// A probe was read by hand.
    ProbeRead = "probe-read",
    /// Portions came off the heat.
    Pulled = "pulled",
    /// A portion was served, and what came of it.
    Served = "served",
    /// A pack, portion, heap or piece was thrown away.
    Discarded = "discarded",
    /// A place was counted: which packs are here and which are not.
    Counted = "counted",
    /// A bag was found to have lost its vacuum.
    LeakerFound = "leaker-found",
    /// The temperature of a place was read.
    TemperatureRead = "temperature-read",
    /// A price was seen.
    PriceNoted = "price-noted",
    /// A supper was planned or planned anew.
    SupperPlanned = "supper-planned",
    /// A setting of the kitchen was changed.
    SettingChanged = "setting-changed",
    /// An earlier entry was wrong: taken back, or replaced by what should have stood there.
    Corrected = "corrected",
}

impl Kind {
    /// The kind of that word, if there is one.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.word() == word)
    }

    /// The kind whose word is most like this one.
    #[must_use]
    pub fn nearest(word: &str) -> Option<Self> {
        nearest(word, Self::ALL.iter().map(|kind| kind.word())).and_then(Self::of)
    }
}

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.word())
    }
}

impl Body {
    /// Reads the body of one kind; `path` is its dotted place in messages.
    ///
    /// # Errors
    /// Every problem of the body at once: keys unknown, missing or given twice, values of a wrong type or out of range.
    pub fn read(kind: Kind, value: &Value, path: &str) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let body = Reader::object(value, path, &mut problems, |reader| {
            match reader.take("v") {
                Some(version) if version.as_u64() == Some(VERSION) => {}
                Some(version) => {
                    reader.problem("v", shown(version), "1, the only version this program knows");
                }
                None => reader.problem("v", "nothing", "1, the version of the body"),
            }
            Self::read_kind(kind, reader)
        });
        body.ok_or(problems)
    }
}

impl Body {
    /// Ids of the things this entry is about, in no order.
    #[must_use]
    pub fn references(&self) -> Vec<Uuid> {
        match self {
            Self::PieceReceived(_)
            | Self::TemperatureRead(_)
            | Self::PriceNoted(_)
            | Self::SettingChanged(_) => Vec::new(),
            Self::PieceMeasured(body) => vec![body.piece],
            Self::KnifePlanned(body) => vec![body.piece],
            Self::PortionWeighed(body) => vec![body.piece],
            Self::PartWeighed(body) => vec![body.piece],
            Self::PackSealed(body) => match &body.contents {
                Contents::Portions(portions) => portions.clone(),
                Contents::Part(part) => vec![*part],
            },
            Self::Moved(body) => vec![body.what],
            Self::TakenOut(body) => body.packs.clone(),
            Self::Salted(body) => body.portions.clone(),
            Self::PutOn(body) => body.portions.clone(),
            Self::ProbeRead(body) => match body.probed {
                Probed::Portion(id) | Probed::Piece(id) => vec![id],
            },
            Self::Pulled(body) => body.portions.clone(),
            Self::Served(body) => std::iter::once(body.portion).chain(body.supper).collect(),
            Self::Discarded(body) => vec![body.what],
            Self::Counted(body) => body.here.iter().chain(&body.missing).copied().collect(),
            Self::LeakerFound(body) => vec![body.pack],
            Self::SupperPlanned(body) => body.portions.iter().copied().chain(body.supper).collect(),
            Self::Corrected(body) => vec![body.entry],
        }
    }
}
