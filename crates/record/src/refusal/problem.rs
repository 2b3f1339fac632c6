//! A refusal as problems: at which key, what was found, what is allowed.

use super::{CLOCK_SLACK_MIN, Refusal, grams};
use crate::read::Problem;

impl Refusal {
    /// What stands against the entry, key by key: one problem, or all of an entry that cannot be read.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        if let Self::Unreadable { problems } = self {
            return problems.clone();
        }
        let nearest = match self {
            Self::NoSuchSetting { nearest, .. } => nearest.clone(),
            _ => None,
        };
        let key = self.key().unwrap_or("entry").to_owned();
        vec![Problem { key, found: self.found(), allowed: self.allowed(), nearest }]
    }

    fn found(&self) -> String {
        match self {
            Self::Unreadable { .. } | Self::NoWordLeft => "nothing".to_owned(),
            Self::DoesNotFit { found, .. } => found.clone(),
            Self::IdTaken { id, number } => format!("{id}, the id of entry number {number}"),
            Self::UnknownReference { id, found, .. } => format!("{id}, {found}"),
            Self::BeforeItExisted { thing, made, at } => format!("{at}, but {thing} was made at {made}"),
            Self::WeighedTwice { portion, mass, weighed, .. } => {
                format!("{portion}, weighed at {weighed}: {} g", grams(mass))
            }
            Self::GramsFromNowhere { thing, came_in, offered, .. } => {
                format!("{} g of {thing}, where {} g came in", grams(offered), grams(came_in))
            }
            Self::WordTaken { word, since, .. } => format!("{word}, the piece of {since}"),
            Self::WordTooLike { word, like, .. } => format!("{word}, one letter from {like}"),
            Self::NotAWord { found, .. } => found.clone(),
            Self::PackedTwice { thing, pack, since } => format!("{thing}, in the pack {pack} since {since}"),
            Self::TwoPieces { one, other } => format!("portions of {one} and of {other}"),
            Self::TakenOutTwice { pack, since, place } => {
                format!("{pack}, taken out at {since} and lying in {place}")
            }
            Self::Gone { thing, how, since, entry } => {
                format!("{thing}, {how} at {since} by entry {entry}")
            }
            Self::NoSuchSetting { key, .. } => key.clone(),
            Self::CorrectsACorrection { entry, .. } => format!("{entry}, itself a correction"),
            Self::LaterStandsOnIt { number, kind, at, because, .. } => {
                format!("entry number {number} ({kind}, {at}), which could not stand: {because}")
            }
        }
    }

    fn allowed(&self) -> String {
        match self {
            Self::Unreadable { .. } => "an entry".to_owned(),
            Self::DoesNotFit { allowed, .. } => allowed.clone(),
            Self::IdTaken { .. } => "an id no entry has".to_owned(),
            Self::UnknownReference { wanted, .. } => format!("the id of an entry that made a {wanted}"),
            Self::BeforeItExisted { .. } => {
                format!("from {CLOCK_SLACK_MIN} minutes before it was made on")
            }
            Self::WeighedTwice { .. } => "a place that is not yet weighed, or a correction".to_owned(),
            Self::GramsFromNowhere { .. } => {
                format!("up to {} g, the scales' error included", self.left())
            }
            Self::WordTaken { next, .. } | Self::WordTooLike { next, .. } | Self::NotAWord { next, .. } => {
                format!("four letters A to Z, as {next}, the next free one")
            }
            Self::NoWordLeft => {
                "four letters A to Z that differ from every other word in two; the list is used up".to_owned()
            }
            Self::PackedTwice { .. } => {
                "what is in no pack, or whose pack was taken out or found loose".to_owned()
            }
            Self::TwoPieces { .. } => "portions of one piece".to_owned(),
            Self::TakenOutTwice { .. } => "a pack that is in the store".to_owned(),
            Self::Gone { .. } => "what is still there, or a correction of what is wrong".to_owned(),
            Self::NoSuchSetting { .. } => "a key of the settings".to_owned(),
            Self::CorrectsACorrection { corrects, .. } => format!("{corrects}, the entry it corrects"),
            Self::LaterStandsOnIt { .. } => "a correction of that one first".to_owned(),
        }
    }
}
