//! Why an entry may not follow what stands in the record.

mod problem;

use crate::{At, Kind, Problem};
use quantity::Mass;
use thiserror::Error;
use uuid::Uuid;

/// How much the clocks of two devices may differ before the order of their entries is doubted, min.
///
/// Phones and tablets keep network time to seconds; one off the network drifts by seconds a week. Ten minutes forgives a
/// clock set by hand and still catches a wrong day or a wrong zone. Common practice, not a standard.
pub const CLOCK_SLACK_MIN: i64 = 10;

/// What stands against an entry: what was found, what is allowed, what to do.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum Refusal {
    /// The entry cannot be read.
    #[error("the entry cannot be read: {}", list(.problems))]
    Unreadable {
        /// Everything that is wrong with it.
        problems: Vec<Problem>,
    },
    /// Values that are each allowed do not go together.
    #[error("{key}: found {found}; allowed: {allowed}")]
    DoesNotFit {
        /// Dotted key.
        key: &'static str,
        /// What stood there.
        found: String,
        /// What may stand there.
        allowed: String,
    },
    /// An id is already that of an entry.
    #[error("entry {id} is already in the record as number {number}; give a new entry a new id")]
    IdTaken {
        /// The id.
        id: Uuid,
        /// The number of the entry that has it.
        number: u64,
    },
    /// A reference names nothing, something else, or something taken back.
    #[error("{key} = {id} is {found}; allowed: the id of an entry that made a {wanted}")]
    UnknownReference {
        /// Dotted key.
        key: &'static str,
        /// What stood there.
        id: Uuid,
        /// What is meant to be there.
        wanted: &'static str,
        /// What it is.
        found: String,
    },
    /// It happened before the thing existed.
    #[error(
        "at = {at}, but {thing} was made at {made}; allowed: from {CLOCK_SLACK_MIN} minutes before that on. Check the clock of the device, or correct the earlier entry"
    )]
    BeforeItExisted {
        /// What it happened to.
        thing: String,
        /// When that was made.
        made: At,
        /// When this is said to have happened.
        at: At,
    },
    /// A place on the piece was weighed before.
    #[error("{portion} was weighed before, {} g at {weighed}; allowed: a place that is not yet weighed. To change the weight, correct that entry ({entry})", grams(.mass))]
    WeighedTwice {
        /// Word and place.
        portion: String,
        /// What it weighed.
        mass: Mass,
        /// When.
        weighed: At,
        /// The entry that weighed it.
        entry: Uuid,
    },
    /// More comes out than went in.
    #[error("{offered} g more would make {accounted} g out of {thing}, where {came_in} g came in; allowed: {left} g, scales' error of {slack} g included. Weigh again, or correct what is wrong above", offered = grams(.offered), accounted = grams(.accounted), came_in = grams(.came_in), slack = grams(.slack), left = self.left())]
    GramsFromNowhere {
        /// Dotted key.
        key: &'static str,
        /// What they would come from.
        thing: String,
        /// What went in.
        came_in: Mass,
        /// All that would have come out.
        accounted: Mass,
        /// What this entry adds.
        offered: Mass,
        /// How much the scales may be wrong.
        slack: Mass,
    },
    /// The word is another piece's.
    #[error("the word {word} is taken by the piece of {since}; the next free one is {next}")]
    WordTaken {
        /// The word.
        word: String,
        /// When that piece came in.
        since: At,
        /// The next free one.
        next: String,
    },
    /// The word cannot be told from another one on a rubbed label.
    #[error(
        "the word {word} differs from {like} in one letter, so a rubbed label could mean either; the next free one is {next}"
    )]
    WordTooLike {
        /// The word.
        word: String,
        /// The word in use it is like.
        like: String,
        /// The next free one.
        next: String,
    },
    /// Not a word a piece can have.
    #[error(
        "\"{found}\" is not a word for a piece; allowed: four letters A to Z, as {next}, the next free one"
    )]
    NotAWord {
        /// What stood there.
        found: String,
        /// The next free one.
        next: String,
    },
    /// The list of words is used up.
    #[error(
        "all words of the list are taken; give the piece one of your own: \"word\", four letters that differ from every other in two"
    )]
    NoWordLeft,
    /// It is in a pack already.
    #[error(
        "{thing} is in the pack {pack} since {since}; allowed: what is in no pack, or whose pack was taken out or found loose"
    )]
    PackedTwice {
        /// Portion or heap.
        thing: String,
        /// The pack it is in.
        pack: String,
        /// When that was sealed.
        since: At,
    },
    /// A pack holds portions of one piece.
    #[error("portions of {one} and of {other} in one pack; allowed: portions of one piece. Seal two packs")]
    TwoPieces {
        /// A word.
        one: String,
        /// The other one.
        other: String,
    },
    /// It was taken out already.
    #[error(
        "the pack {pack} was taken out at {since} and lies in {place}; to take it out again, first write that it was moved back"
    )]
    TakenOutTwice {
        /// The pack.
        pack: String,
        /// When.
        since: At,
        /// Where it lies.
        place: String,
    },
    /// It is no longer there.
    #[error(
        "{thing} was {how} at {since}; nothing more can happen to it. If that is wrong, correct that entry ({entry})"
    )]
    Gone {
        /// What.
        thing: String,
        /// What became of it.
        how: &'static str,
        /// When.
        since: At,
        /// The entry that says so.
        entry: Uuid,
    },
    /// No setting has this key.
    #[error("there is no setting \"{key}\"{}", .nearest.as_ref().map_or(String::new(), |near| format!("; the nearest is \"{near}\"")))]
    NoSuchSetting {
        /// What stood there.
        key: String,
        /// The nearest key.
        nearest: Option<String>,
    },
    /// A correction names a correction.
    #[error(
        "entry {entry} is itself a correction; correct the entry it corrects ({corrects}) once more instead"
    )]
    CorrectsACorrection {
        /// The correction it names.
        entry: Uuid,
        /// The entry that one corrects.
        corrects: Uuid,
    },
    /// Later entries stand on what would change.
    #[error(
        "if this were corrected so, entry number {number} ({kind}, {at}) could not stand: {because}. Correct that one first"
    )]
    LaterStandsOnIt {
        /// The later entry's number.
        number: u64,
        /// Its kind.
        kind: Kind,
        /// When it happened.
        at: At,
        /// Its id.
        entry: Uuid,
        /// Why it could not stand.
        because: Box<Refusal>,
    },
}

impl Refusal {
    /// A short name of the reason, for programs: `weighed-twice`.
    #[must_use]
    pub const fn reason(&self) -> &'static str {
        match self {
            Self::Unreadable { .. } => "unreadable",
            Self::DoesNotFit { .. } => "does-not-fit",
            Self::IdTaken { .. } => "id-taken",
            Self::UnknownReference { .. } => "unknown-reference",
            Self::BeforeItExisted { .. } => "before-it-existed",
            Self::WeighedTwice { .. } => "weighed-twice",
            Self::GramsFromNowhere { .. } => "grams-from-nowhere",
            Self::WordTaken { .. } => "word-taken",
            Self::WordTooLike { .. } => "word-too-like",
            Self::NotAWord { .. } => "not-a-word",
            Self::NoWordLeft => "no-word-left",
            Self::PackedTwice { .. } => "packed-twice",
            Self::TwoPieces { .. } => "two-pieces",
            Self::TakenOutTwice { .. } => "taken-out-twice",
            Self::Gone { .. } => "gone",
            Self::NoSuchSetting { .. } => "no-such-setting",
            Self::CorrectsACorrection { .. } => "corrects-a-correction",
            Self::LaterStandsOnIt { .. } => "later-stands-on-it",
        }
    }

    /// The key of the body the reason lies in, where it lies in one.
    #[must_use]
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::Unreadable { problems } => problems.first().map(|problem| problem.key.as_str()),
            Self::DoesNotFit { key, .. }
            | Self::UnknownReference { key, .. }
            | Self::GramsFromNowhere { key, .. } => Some(key),
            Self::IdTaken { .. } => Some("id"),
            Self::BeforeItExisted { .. } => Some("at"),
            Self::WeighedTwice { .. } => Some("body.n"),
            Self::WordTaken { .. } | Self::WordTooLike { .. } | Self::NotAWord { .. } | Self::NoWordLeft => {
                Some("body.word")
            }
            Self::PackedTwice { .. } | Self::TwoPieces { .. } => Some("body.portions"),
            Self::TakenOutTwice { .. } => Some("body.packs"),
            Self::NoSuchSetting { .. } => Some("body.key"),
            Self::CorrectsACorrection { .. } => Some("body.entry"),
            Self::Gone { .. } | Self::LaterStandsOnIt { .. } => None,
        }
    }

    /// Grams that would still be taken, rounded down: what is called allowed must be.
    fn left(&self) -> f64 {
        match self {
            Self::GramsFromNowhere { came_in, accounted, offered, slack, .. } => {
                let left = *came_in + *slack + *offered - *accounted;
                ((left.g() * 10.0).floor() / 10.0).max(0.0)
            }
            _ => 0.0,
        }
    }
}

impl From<Vec<Problem>> for Refusal {
    fn from(problems: Vec<Problem>) -> Self {
        Self::Unreadable { problems }
    }
}

fn list(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join(". ")
}

/// Grams to the tenth, without a tail of zeros.
fn grams(mass: &Mass) -> f64 {
    (mass.g() * 10.0).round() / 10.0
}
