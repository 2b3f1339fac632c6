//! Places: packs and pieces put somewhere, packs taken out, counted, found loose.

use super::check::{each_once, not_before, still_there};
use super::pack::{Leak, Lying, Out};
use super::{Made, PlaceKind, State};
use crate::{Counted, Entry, LeakerFound, Moved, Refusal, TakenOut};
use uuid::Uuid;

impl State {
    pub(super) fn may_move(&self, entry: &Entry, body: &Moved) -> Result<(), Refusal> {
        if let Some(piece) = self.piece(body.what) {
            not_before(entry, piece.at, || piece.word.to_string())?;
            return still_there(piece.gone(), entry.at);
        }
        if self.pack(body.what).is_none() {
            return Err(self.unknown("body.what", body.what, "pack (pack-sealed) or piece (piece-received)"));
        }
        let pack = self.named_pack(entry, "body.what", body.what)?;
        still_there(pack.gone(), entry.at)
    }

    pub(super) fn put(&mut self, entry: &Entry, body: &Moved) {
        let lying = self.lying_at(entry, &body.place, body.spot.clone(), body.frozen);
        match self.made.get(body.what) {
            Some(Made::Pack(place)) => {
                if let Some(pack) = self.packs.get_mut(place) {
                    pack.put(lying);
                }
            }
            Some(Made::Piece(place)) => {
                if let Some(piece) = self.pieces.get_mut(place)
                    && piece.lying.as_ref().is_none_or(|now| lying.since >= now.since)
                {
                    piece.lying = Some(lying);
                }
            }
            _ => {}
        }
    }

    /// A place as the entry says it; whether it freezes is the entry's word, else the setting of the place.
    pub(super) fn lying_at(
        &self,
        entry: &Entry,
        place: &str,
        spot: Option<String>,
        frozen: Option<bool>,
    ) -> Lying {
        let freezes = frozen.or_else(|| self.settings.place_kind(place).map(PlaceKind::freezes));
        Lying { place: place.to_owned(), spot, since: entry.at, freezes }
    }

    pub(super) fn may_take_out(&self, entry: &Entry, body: &TakenOut) -> Result<(), Refusal> {
        each_once("body.packs", &body.packs)?;
        for id in &body.packs {
            let pack = self.named_pack(entry, "body.packs", *id)?;
            still_there(pack.gone(), entry.at)?;
            if let Some(out) = pack.out.as_ref().filter(|out| out.method.is_some()) {
                let (pack, since, place) = (pack.name.clone(), out.at, out.place.clone());
                return Err(Refusal::TakenOutTwice { pack, since, place });
            }
        }
        Ok(())
    }

    pub(super) fn take_out(&mut self, entry: &Entry, body: &TakenOut) {
        for id in &body.packs {
            let Some(pack) = self.pack_mut(*id) else { continue };
            let out = Out {
                at: entry.at,
                place: body.place.clone(),
                method: Some(body.method),
                temperature: body.temperature,
            };
            pack.missing = None;
            // Put back since, as a device that was on-line has told: this was an earlier outing.
            if pack.lying.as_ref().is_some_and(|lying| lying.since > entry.at) {
                pack.outs.push(out);
            } else {
                pack.out = Some(out);
            }
        }
    }

    pub(super) fn may_count(&self, entry: &Entry, body: &Counted) -> Result<(), Refusal> {
        let both: Vec<Uuid> = body.here.iter().chain(&body.missing).copied().collect();
        each_once("body.here", &both)?;
        for id in &body.here {
            still_there(self.named_pack(entry, "body.here", *id)?.gone(), entry.at)?;
        }
        for id in &body.missing {
            still_there(self.named_pack(entry, "body.missing", *id)?.gone(), entry.at)?;
        }
        Ok(())
    }

    pub(super) fn count(&mut self, entry: &Entry, body: &Counted) {
        let lying = self.lying_at(entry, &body.place, None, None);
        for id in &body.here {
            let Some(pack) = self.pack_mut(*id) else { continue };
            pack.counted = pack.counted.max(Some(entry.at));
            let as_listed =
                pack.out.is_none() && pack.lying.as_ref().is_some_and(|now| now.place == body.place);
            if as_listed {
                pack.missing = pack.missing.take().filter(|missed| *missed > entry.at);
            } else {
                pack.put(lying.clone());
            }
        }
        for id in &body.missing {
            let Some(pack) = self.pack_mut(*id) else { continue };
            if pack.lying.as_ref().is_none_or(|now| entry.at >= now.since) && pack.counted <= Some(entry.at) {
                pack.missing = Some(entry.at);
            }
        }
    }

    pub(super) fn may_find_leaker(&self, entry: &Entry, body: &LeakerFound) -> Result<(), Refusal> {
        still_there(self.named_pack(entry, "body.pack", body.pack)?.gone(), entry.at)
    }

    pub(super) fn find_leaker(&mut self, entry: &Entry, body: &LeakerFound) {
        if let Some(pack) = self.pack_mut(body.pack)
            && pack.leaker.as_ref().is_none_or(|leak| entry.at < leak.at)
        {
            pack.leaker = Some(Leak { at: entry.at, note: body.note.clone() });
        }
    }
}
