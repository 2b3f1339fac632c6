//! Salt, heat, the plate and the bin.

use super::check::{fits, never_gone, not_before, still_there};
use super::{Made, Out, Portion, State, Thrown};
use crate::{
    At, Contents, Discarded, Dose, Entry, Outcome, ProbeRead, Probed, Pulled, PutOn, Refusal, Salted, Served,
};
use quantity::{Mass, Temperature};
use uuid::Uuid;

/// Salt given to one portion.
#[derive(Clone, Debug, PartialEq)]
pub struct Salting {
    /// The entry.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// Its share by mass; nothing where nobody weighed it.
    pub salt: Option<Mass>,
    /// Which salt.
    pub crystal: Option<String>,
}

/// One time on the heat.
#[derive(Clone, Debug, PartialEq)]
pub struct OnHeat {
    /// The entry.
    pub entry: Uuid,
    /// Since when.
    pub at: At,
    /// The equipment.
    pub on: String,
    /// Its medium.
    pub medium: Option<String>,
    /// The medium's temperature.
    pub temperature: Option<Temperature>,
}

/// One time off the heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// The entry.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// Core, if seen.
    pub core: Option<Temperature>,
}

/// A probe read by hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Probe {
    /// The entry.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// Core.
    pub core: Temperature,
    /// Surface, if read.
    pub surface: Option<Temperature>,
}

/// What came of a portion.
#[derive(Clone, Debug, PartialEq)]
pub struct ServedAs {
    /// The entry.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// What was said.
    pub served: Served,
}

/// How far a portion has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Cut and weighed, in no pack.
    Loose,
    /// In a pack in the store.
    Packed,
    /// Its pack is out.
    Out,
    /// On the heat.
    OnHeat,
    /// Off the heat.
    Pulled,
    /// Served, and what came of it.
    Served(Outcome),
    /// Thrown away before it was served.
    Discarded,
}

impl Stage {
    /// The word of that stage, as tables and programs have it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Loose => "loose",
            Self::Packed => "packed",
            Self::Out => "out",
            Self::OnHeat => "on-heat",
            Self::Pulled => "pulled",
            Self::Served(outcome) => outcome.word(),
            Self::Discarded => "discarded",
        }
    }
}

impl State {
    /// How far a portion has come.
    #[must_use]
    pub fn stage(&self, portion: &Portion) -> Stage {
        if portion.discarded.is_some() {
            return Stage::Discarded;
        }
        if let Some(served) = portion.served.last() {
            return Stage::Served(served.served.outcome);
        }
        let (on, off) = (portion.on_heat.last(), portion.pulled.last());
        if off.is_some_and(|off| on.is_none_or(|on| off.at >= on.at)) {
            return Stage::Pulled;
        }
        if on.is_some() {
            return Stage::OnHeat;
        }
        match portion.pack.and_then(|id| self.pack(id)) {
            None => Stage::Loose,
            Some(pack) if pack.out.is_some() => Stage::Out,
            Some(_) => Stage::Packed,
        }
    }

    pub(super) fn may_salt(&self, entry: &Entry, body: &Salted) -> Result<(), Refusal> {
        let portions = self.named_portions(entry, &body.portions)?;
        let meat: Mass = portions.iter().map(|portion| portion.weighed.mass).sum();
        if let Dose::Salt(salt) = body.dose {
            let found = || format!("{} g of salt on {} g of meat", salt.g(), meat.g());
            fits(salt <= meat * 0.1, "body.salt_g", found, "up to a tenth of the meat")?;
        }
        Ok(())
    }

    pub(super) fn salt(&mut self, entry: &Entry, body: &Salted) {
        let mass = |state: &Self, id: &Uuid| state.portion(*id).map(|portion| portion.weighed.mass);
        let meat: Mass = body.portions.iter().filter_map(|id| mass(self, id)).sum();
        for id in &body.portions {
            let Some(own) = mass(self, id) else { continue };
            let salt = match body.dose {
                Dose::Salt(salt) => Some(salt * (own / meat)),
                Dose::Percent(percent) => Some(own * (percent / 100.0)),
                Dose::Unknown => None,
            };
            let salting = Salting { entry: entry.id, at: entry.at, salt, crystal: body.crystal.clone() };
            self.with_portion(*id, |portion| in_order(&mut portion.salted, salting, |item| item.at));
        }
    }

    pub(super) fn may_put_on(&self, entry: &Entry, body: &PutOn) -> Result<(), Refusal> {
        for portion in self.named_portions(entry, &body.portions)? {
            if let Some(pack) = portion.pack.and_then(|id| self.pack(id)) {
                not_before(entry, pack.at, || format!("the pack {}", pack.name))?;
            }
        }
        Ok(())
    }

    pub(super) fn put_on(&mut self, entry: &Entry, body: &PutOn) {
        for id in &body.portions {
            let on = OnHeat {
                entry: entry.id,
                at: entry.at,
                on: body.on.clone(),
                medium: body.medium.clone(),
                temperature: body.temperature,
            };
            self.with_portion(*id, |portion| in_order(&mut portion.on_heat, on, |item| item.at));
            self.open_pack_of(*id, entry, &body.on);
        }
    }

    /// What is on the heat is out of its pack, whether or not somebody wrote it out.
    fn open_pack_of(&mut self, portion: Uuid, entry: &Entry, place: &str) {
        let Some(pack) = self.portion(portion).and_then(|portion| portion.pack) else { return };
        if let Some(pack) = self.pack_mut(pack)
            && pack.out.is_none()
            && pack.lying.as_ref().is_none_or(|lying| entry.at >= lying.since)
        {
            let place = place.to_owned();
            pack.out = Some(Out { at: entry.at, place, method: None, temperature: None });
            pack.missing = None;
        }
    }

    pub(super) fn may_probe(&self, entry: &Entry, body: &ProbeRead) -> Result<(), Refusal> {
        match body.probed {
            Probed::Portion(id) => {
                still_there(self.named_portion(entry, "body.portion", id)?.gone(), entry.at)
            }
            Probed::Piece(id) => still_there(self.named_piece(entry, "body.piece", id)?.gone(), entry.at),
        }
    }

    pub(super) fn probe(&mut self, entry: &Entry, body: &ProbeRead) {
        let probe = Probe { entry: entry.id, at: entry.at, core: body.core, surface: body.surface };
        match body.probed {
            Probed::Portion(id) => {
                self.with_portion(id, |portion| in_order(&mut portion.probes, probe, |item| item.at));
            }
            Probed::Piece(id) => {
                let Some(Made::Piece(place)) = self.made.get(id) else { return };
                if let Some(piece) = self.pieces.get_mut(place) {
                    in_order(&mut piece.probes, probe, |item| item.at);
                }
            }
        }
    }

    pub(super) fn may_pull(&self, entry: &Entry, body: &Pulled) -> Result<(), Refusal> {
        for portion in self.named_portions(entry, &body.portions)? {
            if let Some(first) = portion.on_heat.first() {
                not_before(entry, first.at, || {
                    format!("{} went on the {} then; its place on the heat", portion.name(), first.on)
                })?;
            }
        }
        Ok(())
    }

    pub(super) fn pull(&mut self, entry: &Entry, body: &Pulled) {
        let pull = Pull { entry: entry.id, at: entry.at, core: body.core };
        for id in &body.portions {
            self.with_portion(*id, |portion| in_order(&mut portion.pulled, pull, |item| item.at));
        }
    }

    pub(super) fn may_serve(&self, entry: &Entry, body: &Served) -> Result<(), Refusal> {
        let portion = self.named_portion(entry, "body.portion", body.portion)?;
        never_gone(portion.gone())?;
        if let Some(first) = portion.on_heat.first() {
            not_before(entry, first.at, || format!("{}'s time on the {}", portion.name(), first.on))?;
        }
        if let Some(supper) = body.supper {
            self.named_supper("body.supper", supper)?;
        }
        Ok(())
    }

    pub(super) fn serve(&mut self, entry: &Entry, body: &Served) {
        let served = ServedAs { entry: entry.id, at: entry.at, served: body.clone() };
        self.with_portion(body.portion, |portion| in_order(&mut portion.served, served, |item| item.at));
        self.open_pack_of(body.portion, entry, "the table");
        if let Some(supper) = body.supper
            && let Some(Made::Supper(place)) = self.made.get(supper)
            && let Some(supper) = self.suppers.get_mut(place)
            && !supper.served.contains(&body.portion)
        {
            supper.served.push(body.portion);
        }
        if let Some(pack) = self.portion(body.portion).and_then(|portion| portion.pack) {
            let how = if body.outcome == Outcome::Discarded { "discarded" } else { "eaten" };
            self.empty(pack, entry, how);
        }
    }

    pub(super) fn may_discard(&self, entry: &Entry, body: &Discarded) -> Result<(), Refusal> {
        let key = "body.what";
        let mass = match self.made.get(body.what) {
            Some(Made::Piece(_)) => {
                let piece = self.named_piece(entry, key, body.what)?;
                never_gone(piece.gone())?;
                let ledger = self.ledger(piece);
                ledger.unexplained + ledger.scale_error
            }
            Some(Made::Portion(_)) => {
                let portion = self.named_portion(entry, key, body.what)?;
                never_gone(portion.gone())?;
                portion.weighed.mass
            }
            Some(Made::Part(_)) => {
                let part = self.named_part(entry, key, body.what)?;
                never_gone(part.gone())?;
                part.weighed.mass
            }
            Some(Made::Pack(_)) => {
                let pack = self.named_pack(entry, key, body.what)?;
                never_gone(pack.gone())?;
                pack.mass
            }
            Some(Made::Supper(_)) | None => {
                return Err(self.unknown(key, body.what, "pack, portion, heap or piece"));
            }
        };
        match body.mass {
            Some(thrown) => self.may_weigh("body.mass_g", || "what is thrown away".to_owned(), mass, thrown),
            None => Ok(()),
        }
    }

    pub(super) fn discard(&mut self, entry: &Entry, body: &Discarded) {
        let thrown = Thrown { entry: entry.id, at: entry.at, because: body.because.clone(), mass: body.mass };
        match self.made.get(body.what) {
            Some(Made::Piece(place)) => {
                if let Some(piece) = self.pieces.get_mut(place) {
                    piece.discarded = Some(thrown);
                }
            }
            Some(Made::Portion(_) | Made::Part(_)) => {
                if let Some(pack) = self.throw(body.what, thrown) {
                    self.empty(pack, entry, "discarded");
                }
            }
            Some(Made::Pack(_)) => {
                let Some(pack) = self.pack(body.what) else { return };
                let inside: Vec<Uuid> = match pack.sealed.contents {
                    Contents::Portions(_) => self.portions_in(pack).map(|portion| portion.id).collect(),
                    Contents::Part(part) => vec![part],
                };
                // The mass of a pack is not that of each portion in it.
                let each = Thrown { mass: None, ..thrown };
                for id in inside {
                    self.throw(id, each.clone());
                }
                self.empty(body.what, entry, "discarded");
            }
            Some(Made::Supper(_)) | None => {}
        }
    }

    /// Throws a portion or heap away; the pack it was in.
    fn throw(&mut self, id: Uuid, thrown: Thrown) -> Option<Uuid> {
        match self.made.get(id)? {
            Made::Portion(place) => {
                let portion = self.portions.get_mut(place)?;
                portion.discarded = Some(thrown);
                portion.pack
            }
            Made::Part(place) => {
                let part = self.parts.get_mut(place)?;
                part.discarded = Some(thrown);
                part.pack
            }
            _ => None,
        }
    }

    fn with_portion(&mut self, id: Uuid, change: impl FnOnce(&mut Portion)) {
        if let Some(Made::Portion(place)) = self.made.get(id)
            && let Some(portion) = self.portions.get_mut(place)
        {
            change(portion);
        }
    }
}

/// Puts an item where its hour belongs, after those of the same hour: news may come late.
fn in_order<T>(list: &mut Vec<T>, item: T, at: impl Fn(&T) -> At) {
    let place = list.partition_point(|other| at(other) <= at(&item));
    list.insert(place, item);
}
