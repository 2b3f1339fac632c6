//! Portions and heaps: what the knife made of a piece.

use super::check::{Gone, fits, still_there};
use super::cook::{OnHeat, Probe, Pull, Salting, ServedAs};
use super::{Made, Piece, State};
use crate::{At, Entry, Outcome, PartName, PartWeighed, PortionWeighed, Refusal, Word};
use quantity::Mass;
use uuid::Uuid;

/// A portion, from the knife to the plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// The entry that weighed it.
    pub id: Uuid,
    /// That entry's number.
    pub number: u64,
    /// When it was weighed.
    pub at: At,
    /// The piece it is of.
    pub piece: Uuid,
    /// That piece's word.
    pub word: Word,
    /// Its place from the named end.
    pub n: u32,
    /// What was said when it was weighed.
    pub weighed: PortionWeighed,
    /// The pack it is or was last in.
    pub pack: Option<Uuid>,
    /// Salt given, in order.
    pub salted: Vec<Salting>,
    /// Times it went on the heat, in order.
    pub on_heat: Vec<OnHeat>,
    /// Times it came off, in order.
    pub pulled: Vec<Pull>,
    /// Probe readings, in order.
    pub probes: Vec<Probe>,
    /// What came of it, in order: left over, then eaten.
    pub served: Vec<ServedAs>,
    /// Whether it was thrown away uncooked or unserved.
    pub discarded: Option<Thrown>,
}

/// A heap that is no portion.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The entry that weighed it.
    pub id: Uuid,
    /// That entry's number.
    pub number: u64,
    /// When it was weighed.
    pub at: At,
    /// The piece it is of.
    pub piece: Uuid,
    /// That piece's word.
    pub word: Word,
    /// What was said when it was weighed.
    pub weighed: PartWeighed,
    /// The pack it is or was last in.
    pub pack: Option<Uuid>,
    /// Whether it was thrown away since.
    pub discarded: Option<Thrown>,
}

/// Something was thrown away.
#[derive(Clone, Debug, PartialEq)]
pub struct Thrown {
    /// The entry that says so.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// Why.
    pub because: String,
    /// How much, if weighed.
    pub mass: Option<Mass>,
}

impl Portion {
    /// As spoken: `TARN 4`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", self.word, self.n)
    }

    /// What became of it, once it was eaten or thrown away.
    #[must_use]
    pub fn gone(&self) -> Option<Gone> {
        if let Some(thrown) = &self.discarded {
            return Some(Gone::discarded(self.name(), thrown));
        }
        let served = self.served.last()?;
        let how = match served.served.outcome {
            Outcome::Eaten => "eaten",
            Outcome::Discarded => "discarded",
            Outcome::Spare => return None,
        };
        Some(Gone { thing: self.name(), how, since: served.at, entry: served.entry })
    }
}

impl Part {
    /// As spoken: `TARN lean-trim`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", self.word, self.weighed.name.as_deref().unwrap_or(self.weighed.part.word()))
    }

    /// What became of it, once it was thrown away.
    #[must_use]
    pub fn gone(&self) -> Option<Gone> {
        self.discarded.as_ref().map(|thrown| Gone::discarded(self.name(), thrown))
    }
}

/// Share of the piece a kitchen scale may gain beyond its divisions before grams count as from nowhere (common practice:
/// kitchen scales are never calibrated). What lies between this and the scales' error is asked about, not refused.
const GAIN: f64 = 0.01;

impl State {
    pub(super) fn may_weigh_portion(&self, entry: &Entry, body: &PortionWeighed) -> Result<(), Refusal> {
        let piece = self.named_piece(entry, "body.piece", body.piece)?;
        still_there(piece.gone(), entry.at)?;
        if let Some(before) = piece.portions.get(&body.n).and_then(|id| self.portion(*id)) {
            return Err(Refusal::WeighedTwice {
                portion: before.name(),
                mass: before.weighed.mass,
                weighed: before.at,
                entry: before.id,
            });
        }
        fits(
            body.twin != Some(body.n),
            "body.twin",
            || format!("{}, the portion itself", body.n),
            "another place",
        )?;
        if let (Some(from), Some(to)) = (body.from, body.to) {
            let found = || format!("{} mm, not beyond from_mm = {}", to.mm(), from.mm());
            fits(to > from, "body.to_mm", found, "more than from_mm")?;
        }
        self.may_come_off(piece, body.mass)
    }

    pub(super) fn weigh_portion(&mut self, number: u64, entry: &Entry, body: &PortionWeighed) {
        let Some(Made::Piece(piece)) = self.made.get(body.piece) else { return };
        let place = self.portions.push(Portion {
            id: entry.id,
            number,
            at: entry.at,
            piece: body.piece,
            word: self.pieces.get(piece).map(|piece| piece.word).unwrap_or_default(),
            n: body.n,
            weighed: body.clone(),
            pack: None,
            salted: Vec::new(),
            on_heat: Vec::new(),
            pulled: Vec::new(),
            probes: Vec::new(),
            served: Vec::new(),
            discarded: None,
        });
        self.made.insert(entry.id, Made::Portion(place));
        if let Some(piece) = self.pieces.get_mut(piece) {
            piece.portions.insert(body.n, entry.id);
        }
    }

    pub(super) fn may_weigh_part(&self, entry: &Entry, body: &PartWeighed) -> Result<(), Refusal> {
        let piece = self.named_piece(entry, "body.piece", body.piece)?;
        still_there(piece.gone(), entry.at)?;
        let named = body.part != PartName::Other || body.name.is_some();
        fits(named, "body.name", || "nothing".to_owned(), "what the heap is, where part = \"other\"")?;
        if body.part == PartName::Purge {
            let weighed = self.parts_of(piece).any(|part| part.weighed.part == PartName::Purge);
            let found = || "purge, which was weighed before".to_owned();
            fits(!weighed, "body.part", found, "purge once; correct the entry that weighed it")?;
            return self.may_come_out("body.mass_g", piece, None, self.ledger(piece).cut(), body.mass);
        }
        self.may_come_off(piece, body.mass)
    }

    pub(super) fn weigh_part(&mut self, number: u64, entry: &Entry, body: &PartWeighed) {
        let Some(Made::Piece(piece)) = self.made.get(body.piece) else { return };
        let place = self.parts.push(Part {
            id: entry.id,
            number,
            at: entry.at,
            piece: body.piece,
            word: self.pieces.get(piece).map(|piece| piece.word).unwrap_or_default(),
            weighed: body.clone(),
            pack: None,
            discarded: None,
        });
        self.made.insert(entry.id, Made::Part(place));
        if let Some(piece) = self.pieces.get_mut(piece) {
            piece.parts.push(entry.id);
        }
    }

    /// Refuses grams that the piece cannot have had.
    fn may_come_off(&self, piece: &Piece, mass: Mass) -> Result<(), Refusal> {
        let ledger = self.ledger(piece);
        // Only weighed purge counts against a cut: a label a little short must not stop the knife.
        let purge = match ledger.purge {
            Some(super::Purge::Weighed(purge)) => purge,
            _ => Mass::default(),
        };
        self.may_come_out("body.mass_g", piece, None, purge + ledger.cut(), mass)
    }

    /// Whether `mass` more may come out of a piece that already gave `others`.
    pub(super) fn may_come_out(
        &self,
        key: &'static str,
        piece: &Piece,
        bag_off: Option<Mass>,
        others: Mass,
        mass: Mass,
    ) -> Result<(), Refusal> {
        let ledger = self.ledger(piece);
        // The label may be short of what the kitchen's own scale says; the larger is what came in.
        let own =
            bag_off.or(piece.measured.bag_off).unwrap_or_default() + piece.measured.purge.unwrap_or_default();
        let came_in = if own > ledger.came_in { own } else { ledger.came_in };
        let slack =
            ledger.scale_error + super::scale_error(mass, self.settings.scale_division()) + came_in * GAIN;
        let accounted = others + mass;
        if accounted > came_in + slack {
            let thing = piece.word.to_string();
            return Err(Refusal::GramsFromNowhere { key, thing, came_in, accounted, offered: mass, slack });
        }
        Ok(())
    }
}
