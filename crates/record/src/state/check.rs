//! What references must lead to, for every kind alike.

use super::{Pack, Part, Piece, Portion, State, Supper, Thrown};
use crate::refusal::CLOCK_SLACK_MIN;
use crate::{At, Entry, Refusal};
use jiff::SignedDuration;
use std::collections::BTreeSet;
use uuid::Uuid;

impl State {
    /// The piece a key names, made before this entry.
    pub(super) fn named_piece(&self, entry: &Entry, key: &'static str, id: Uuid) -> Result<&Piece, Refusal> {
        let piece = self.piece(id).ok_or_else(|| self.unknown(key, id, "piece (piece-received)"))?;
        not_before(entry, piece.at, || piece.word.to_string())?;
        Ok(piece)
    }

    /// The portion a key names.
    pub(super) fn named_portion(
        &self,
        entry: &Entry,
        key: &'static str,
        id: Uuid,
    ) -> Result<&Portion, Refusal> {
        let portion = self.portion(id).ok_or_else(|| self.unknown(key, id, "portion (portion-weighed)"))?;
        not_before(entry, portion.at, || portion.name())?;
        Ok(portion)
    }

    /// The portions a list names, each once and none of them gone by then.
    pub(super) fn named_portions(&self, entry: &Entry, ids: &[Uuid]) -> Result<Vec<&Portion>, Refusal> {
        let key = "body.portions";
        each_once(key, ids)?;
        let portions =
            ids.iter().map(|id| self.named_portion(entry, key, *id)).collect::<Result<Vec<_>, _>>()?;
        portions.iter().try_for_each(|portion| still_there(portion.gone(), entry.at))?;
        Ok(portions)
    }

    /// The heap a key names.
    pub(super) fn named_part(&self, entry: &Entry, key: &'static str, id: Uuid) -> Result<&Part, Refusal> {
        let part = self.part(id).ok_or_else(|| self.unknown(key, id, "heap (part-weighed)"))?;
        not_before(entry, part.at, || part.name())?;
        Ok(part)
    }

    /// The pack a key names.
    pub(super) fn named_pack(&self, entry: &Entry, key: &'static str, id: Uuid) -> Result<&Pack, Refusal> {
        let pack = self.pack(id).ok_or_else(|| self.unknown(key, id, "pack (pack-sealed)"))?;
        not_before(entry, pack.at, || pack.name.clone())?;
        Ok(pack)
    }

    /// The supper a key names.
    pub(super) fn named_supper(&self, key: &'static str, id: Uuid) -> Result<&Supper, Refusal> {
        self.supper(id).ok_or_else(|| self.unknown(key, id, "supper (supper-planned)"))
    }

    /// Why an id is not what a key wants.
    pub(super) fn unknown(&self, key: &'static str, id: Uuid, wanted: &'static str) -> Refusal {
        let found = match self.log.of(id) {
            None => "not the id of any entry".to_owned(),
            Some(row) => match row.effective() {
                None => format!("a {} that was taken back", row.stored.entry.kind()),
                Some(entry) => format!("the id of a {}", entry.kind()),
            },
        };
        Refusal::UnknownReference { key, id, wanted, found }
    }
}

/// What became of a thing that is no longer there.
#[derive(Clone, Debug, PartialEq)]
pub struct Gone {
    /// What it was.
    pub thing: String,
    /// `eaten`, `discarded`, `bagged again`.
    pub how: &'static str,
    /// Since when.
    pub since: At,
    /// The entry that says so.
    pub entry: Uuid,
}

impl Gone {
    pub(super) fn discarded(thing: String, thrown: &Thrown) -> Self {
        Self { thing, how: "discarded", since: thrown.at, entry: thrown.entry }
    }

    pub(super) fn into_refusal(self) -> Refusal {
        let Self { thing, how, since, entry } = self;
        Refusal::Gone { thing, how, since, entry }
    }
}

/// Refuses what happened to a thing after it was gone. News of what happened before may come late, from a device that was
/// off-line.
pub(super) fn still_there(gone: Option<Gone>, at: At) -> Result<(), Refusal> {
    match gone {
        Some(gone) if at >= gone.since => Err(gone.into_refusal()),
        _ => Ok(()),
    }
}

/// Refuses what can happen only once, late news or not.
pub(super) fn never_gone(gone: Option<Gone>) -> Result<(), Refusal> {
    gone.map_or(Ok(()), |gone| Err(gone.into_refusal()))
}

/// Refuses what happened before the thing it happened to was made.
pub(super) fn not_before(entry: &Entry, made: At, thing: impl FnOnce() -> String) -> Result<(), Refusal> {
    let early = made.timestamp().duration_since(entry.at.timestamp());
    if early > SignedDuration::from_mins(CLOCK_SLACK_MIN) {
        return Err(Refusal::BeforeItExisted { thing: thing(), made, at: entry.at });
    }
    Ok(())
}

/// Refuses a list that names a thing twice.
pub(super) fn each_once(key: &'static str, ids: &[Uuid]) -> Result<(), Refusal> {
    let mut seen = BTreeSet::new();
    match ids.iter().find(|id| !seen.insert(**id)) {
        None => Ok(()),
        Some(twice) => Err(Refusal::DoesNotFit {
            key,
            found: format!("{twice} twice"),
            allowed: "each id once".to_owned(),
        }),
    }
}

/// Refuses values that do not go together.
pub(super) fn fits(
    holds: bool,
    key: &'static str,
    found: impl FnOnce() -> String,
    allowed: &str,
) -> Result<(), Refusal> {
    if holds { Ok(()) } else { Err(Refusal::DoesNotFit { key, found: found(), allowed: allowed.to_owned() }) }
}
