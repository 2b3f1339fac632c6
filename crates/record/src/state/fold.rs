//! Entry by entry to the state, and corrections as if written right.

use super::{Made, Noted, State};
use crate::{Body, Corrected, Entry, PieceReceived, Refusal, Stored, Word};
use std::collections::BTreeSet;
use std::sync::Arc;
use uuid::Uuid;

impl State {
    /// The state of entries that were accepted before, as a journal gives them back: nothing is checked again.
    #[must_use]
    pub fn fold(entries: impl IntoIterator<Item = Stored>) -> Self {
        let mut state = Self::default();
        for stored in entries {
            state.log.push(Arc::new(stored));
        }
        // With all corrections known, one pass does: a correction counts from where the wrong entry stands.
        state.refolded()
    }

    /// The state with one more entry, if it may follow.
    ///
    /// # Errors
    /// [`Refusal`] if the entry contradicts what stands in the record; the state stays as it was.
    pub fn with(&self, stored: Stored) -> Result<Self, Refusal> {
        let mut next = self.clone();
        next.take(stored)?;
        Ok(next)
    }

    /// Takes one more entry into this state, if it may follow.
    ///
    /// # Errors
    /// [`Refusal`] if the entry contradicts what stands in the record; the state stays as it was.
    pub fn take(&mut self, stored: Stored) -> Result<(), Refusal> {
        self.is_new(&stored.entry)?;
        match &stored.entry.body {
            Body::Corrected(corrected) => {
                self.check_correction(&stored.entry, corrected)?;
                *self = self.corrected(stored)?;
            }
            _ => {
                self.check_effect(&stored.entry)?;
                let stored = Arc::new(stored);
                self.log.push(Arc::clone(&stored));
                self.effect(stored.number, &stored.entry);
            }
        }
        Ok(())
    }

    /// Whether an entry may follow.
    ///
    /// # Errors
    /// [`Refusal`] if the entry contradicts what stands in the record.
    pub fn check(&self, entry: &Entry) -> Result<(), Refusal> {
        self.is_new(entry)?;
        match &entry.body {
            Body::Corrected(corrected) => {
                self.check_correction(entry, corrected)?;
                let number = self.number() + 1;
                let (written, writer) = (entry.at.timestamp(), Arc::from(""));
                self.corrected(Stored { entry: entry.clone(), number, written, writer, hash: [0; 32] })
                    .map(drop)
            }
            _ => self.check_effect(entry),
        }
    }

    fn is_new(&self, entry: &Entry) -> Result<(), Refusal> {
        match self.log.of(entry.id) {
            Some(logged) => Err(Refusal::IdTaken { id: entry.id, number: logged.stored.number }),
            None => Ok(()),
        }
    }

    /// Entries that would be refused today, each with the reason: none in a record written by this program.
    #[must_use]
    pub fn contradictions(&self) -> Vec<(u64, Refusal)> {
        let mut state = self.with_log_alone();
        let mut found = Vec::new();
        for row in self.log.iter() {
            if let Some(entry) = row.effective()
                && let Err(refusal) = state.check_effect(entry)
            {
                found.push((row.stored.number, refusal));
            }
            state.replay(row.stored.number, row.effective(), &row.stored.entry);
        }
        found
    }

    /// What follows once a correction is in: every entry is tried again with the corrected one in its place.
    fn corrected(&self, stored: Stored) -> Result<Self, Refusal> {
        let mut state = self.with_log_alone();
        state.log.push(Arc::new(stored));
        let log = state.log.clone();
        for row in log.iter() {
            if let Some(entry) = row.effective() {
                state
                    .check_effect(entry)
                    .map_err(|refusal| self.why_not(row.stored.number, entry, refusal))?;
            }
            state.replay(row.stored.number, row.effective(), &row.stored.entry);
        }
        Ok(state)
    }

    /// A replacement may be wrong itself, or something later may stand on what it takes away.
    fn why_not(&self, number: u64, entry: &Entry, refusal: Refusal) -> Refusal {
        let is_the_replacement = self.log.of(entry.id).and_then(|row| row.effective()) != Some(entry);
        if is_the_replacement {
            return refusal;
        }
        Refusal::LaterStandsOnIt {
            number,
            kind: entry.kind(),
            at: entry.at,
            entry: entry.id,
            because: Box::new(refusal),
        }
    }

    fn check_correction(&self, entry: &Entry, corrected: &Corrected) -> Result<(), Refusal> {
        let key = "body.entry";
        let Some(row) = self.log.of(corrected.entry) else {
            let found = "not the id of any entry".to_owned();
            return Err(Refusal::UnknownReference {
                key,
                id: corrected.entry,
                wanted: "thing that is in the record",
                found,
            });
        };
        let wrong = &row.stored.entry;
        if let Body::Corrected(other) = &wrong.body {
            return Err(Refusal::CorrectsACorrection { entry: corrected.entry, corrects: other.entry });
        }
        super::check::not_before(entry, wrong.at, || format!("entry number {}", row.stored.number))?;
        if let Some(body) = &corrected.body {
            let body = Body::read(wrong.kind(), body.value(), "body.body")?;
            self.may_be_renamed(wrong.id, &body)?;
        } else if row.correction.as_ref().is_some_and(|before| before.instead.is_none()) {
            return Err(Refusal::DoesNotFit {
                key,
                found: "an entry that was taken back before".to_owned(),
                allowed: "an entry that counts, or a body to put in its place".to_owned(),
            });
        }
        Ok(())
    }

    /// A piece may take another word only if no piece has it now, even one that came later.
    fn may_be_renamed(&self, id: Uuid, body: &Body) -> Result<(), Refusal> {
        let Body::PieceReceived(PieceReceived { word: Some(word), .. }) = body else { return Ok(()) };
        let own = Word::read(word).and_then(|word| self.words.get(&word)) == Some(&id);
        if own { Ok(()) } else { self.may_be_called(word) }
    }

    fn with_log_alone(&self) -> Self {
        Self { log: self.log.clone(), ..Self::default() }
    }

    fn refolded(self) -> Self {
        let log = self.log.clone();
        let mut state = self;
        for row in log.iter() {
            state.replay(row.stored.number, row.effective(), &row.stored.entry);
        }
        state
    }

    fn replay(&mut self, number: u64, effective: Option<&Entry>, written: &Entry) {
        match effective {
            Some(entry) => self.effect(number, entry),
            None => self.keep_name_of(written),
        }
    }

    fn check_effect(&self, entry: &Entry) -> Result<(), Refusal> {
        match &entry.body {
            Body::PieceReceived(body) => self.may_receive(body),
            Body::PieceMeasured(body) => self.may_measure(entry, body),
            Body::KnifePlanned(body) => self.may_plan_knife(entry, body),
            Body::PortionWeighed(body) => self.may_weigh_portion(entry, body),
            Body::PartWeighed(body) => self.may_weigh_part(entry, body),
            Body::PackSealed(body) => self.may_seal(entry, body),
            Body::Moved(body) => self.may_move(entry, body),
            Body::TakenOut(body) => self.may_take_out(entry, body),
            Body::Salted(body) => self.may_salt(entry, body),
            Body::PutOn(body) => self.may_put_on(entry, body),
            Body::ProbeRead(body) => self.may_probe(entry, body),
            Body::Pulled(body) => self.may_pull(entry, body),
            Body::Served(body) => self.may_serve(entry, body),
            Body::Discarded(body) => self.may_discard(entry, body),
            Body::Counted(body) => self.may_count(entry, body),
            Body::LeakerFound(body) => self.may_find_leaker(entry, body),
            Body::TemperatureRead(_) | Body::PriceNoted(_) | Body::Corrected(_) => Ok(()),
            Body::SupperPlanned(body) => self.may_plan_supper(entry, body),
            Body::SettingChanged(body) => self.may_set(body),
        }
    }

    /// What an entry does. It never fails: what was accepted once is taken as it stands, and a reference that leads
    /// nowhere does nothing.
    fn effect(&mut self, number: u64, entry: &Entry) {
        match &entry.body {
            Body::PieceReceived(body) => self.receive(number, entry, body),
            Body::PieceMeasured(body) => self.measure(entry, body),
            Body::KnifePlanned(body) => self.plan_knife(entry, body),
            Body::PortionWeighed(body) => self.weigh_portion(number, entry, body),
            Body::PartWeighed(body) => self.weigh_part(number, entry, body),
            Body::PackSealed(body) => self.seal(number, entry, body),
            Body::Moved(body) => self.put(entry, body),
            Body::TakenOut(body) => self.take_out(entry, body),
            Body::Salted(body) => self.salt(entry, body),
            Body::PutOn(body) => self.put_on(entry, body),
            Body::ProbeRead(body) => self.probe(entry, body),
            Body::Pulled(body) => self.pull(entry, body),
            Body::Served(body) => self.serve(entry, body),
            Body::Discarded(body) => self.discard(entry, body),
            Body::Counted(body) => self.count(entry, body),
            Body::LeakerFound(body) => self.find_leaker(entry, body),
            Body::TemperatureRead(body) => {
                self.temperatures.push(Noted { id: entry.id, at: entry.at, note: body.clone() });
            }
            Body::PriceNoted(body) => {
                self.prices.push(Noted { id: entry.id, at: entry.at, note: body.clone() });
            }
            Body::SupperPlanned(body) => self.plan_supper(number, entry, body),
            Body::SettingChanged(body) => self.settings.set(entry, body),
            Body::Corrected(_) => {}
        }
        self.note_with_pieces(number, entry);
    }

    /// Puts the entry's number with every piece it concerns.
    fn note_with_pieces(&mut self, number: u64, entry: &Entry) {
        let mut concerned: Vec<Uuid> = entry.body.references();
        concerned.push(entry.id);
        if let Body::Corrected(corrected) = &entry.body
            && let Some(row) = self.log.of(corrected.entry)
        {
            concerned.extend(row.stored.entry.body.references());
            concerned.extend(row.effective().map(|entry| entry.body.references()).unwrap_or_default());
        }
        let pieces: BTreeSet<usize> = concerned.into_iter().filter_map(|id| self.piece_place(id)).collect();
        for place in pieces {
            if let Some(piece) = self.pieces.get_mut(place) {
                piece.entries.push(number);
            }
        }
    }

    /// The place of the piece a thing is or came of.
    fn piece_place(&self, id: Uuid) -> Option<usize> {
        let piece = match self.made.get(id)? {
            Made::Piece(place) => return Some(place),
            Made::Portion(place) => self.portions.get(place)?.piece,
            Made::Part(place) => self.parts.get(place)?.piece,
            Made::Pack(place) => self.packs.get(place)?.piece,
            Made::Supper(_) => return None,
        };
        match self.made.get(piece)? {
            Made::Piece(place) => Some(place),
            _ => None,
        }
    }
}
