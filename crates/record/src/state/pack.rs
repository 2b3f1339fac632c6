//! Packs: sealed, put somewhere, taken out, counted.

use super::check::{Gone, never_gone};
use super::{Made, Portion, State};
use crate::{At, Contents, Entry, Method, PackSealed, Refusal, Word};
use quantity::{Mass, Temperature};
use uuid::Uuid;

/// A pack, from the sealer to the day it is empty.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// The entry that sealed it.
    pub id: Uuid,
    /// That entry's number.
    pub number: u64,
    /// When it was sealed.
    pub at: At,
    /// The piece its contents are of.
    pub piece: Uuid,
    /// That piece's word.
    pub word: Word,
    /// As spoken: `TARN 11+12`.
    pub name: String,
    /// As addresses and codes have it: `tarn-11-12`.
    pub slug: String,
    /// What was said when it was sealed.
    pub sealed: PackSealed,
    /// Mass of the meat in it when it was sealed: as weighed then, else the sum of what went in.
    pub mass: Mass,
    /// Where it lies; nothing if it was never said.
    pub lying: Option<Lying>,
    /// Where it lay before, oldest first.
    pub lay: Vec<Lying>,
    /// Since when it has lain in places that freeze, without a break.
    pub frozen: Option<At>,
    /// Whether its bag was found loose, and when first.
    pub leaker: Option<Leak>,
    /// Whether it is out of the store now.
    pub out: Option<Out>,
    /// Times it was out before and put back, oldest first.
    pub outs: Vec<Out>,
    /// When it was last seen in a count.
    pub counted: Option<At>,
    /// When a count missed it, if it was not seen since.
    pub missing: Option<At>,
    /// What became of it once nothing of it is left.
    pub gone: Option<PackGone>,
}

/// Where something lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Lying {
    /// The place.
    pub place: String,
    /// Where in there.
    pub spot: Option<String>,
    /// Since when.
    pub since: At,
    /// Whether the place freezes; nothing where nobody said.
    pub freezes: Option<bool>,
}

/// A bag that lost its vacuum.
#[derive(Clone, Debug, PartialEq)]
pub struct Leak {
    /// When it was found.
    pub at: At,
    /// What was said.
    pub note: Option<String>,
}

/// A pack out of the store.
#[derive(Clone, Debug, PartialEq)]
pub struct Out {
    /// Since when.
    pub at: At,
    /// Where it is.
    pub place: String,
    /// How it thaws; nothing where it went on the heat and nobody had written it out.
    pub method: Option<Method>,
    /// Temperature of that place.
    pub temperature: Option<Temperature>,
}

/// What became of a pack.
#[derive(Clone, Debug, PartialEq)]
pub struct PackGone {
    /// The entry that emptied it.
    pub entry: Uuid,
    /// When.
    pub at: At,
    /// `eaten`, `discarded`, `bagged again`.
    pub how: &'static str,
}

impl Pack {
    /// Whether it lies in the store: not out, not gone, and not missed by the last count.
    #[must_use]
    pub const fn is_in_store(&self) -> bool {
        self.out.is_none() && self.gone.is_none() && self.missing.is_none()
    }

    /// What became of it once nothing of it is left.
    #[must_use]
    pub fn gone(&self) -> Option<Gone> {
        let gone = self.gone.as_ref()?;
        Some(Gone { thing: self.name.clone(), how: gone.how, since: gone.at, entry: gone.entry })
    }

    /// Whether its contents are bound to it: sealed, sound and in the store.
    const fn holds(&self) -> bool {
        self.gone.is_none() && self.out.is_none() && self.leaker.is_none()
    }

    pub(super) fn put(&mut self, lying: Lying) {
        self.missing = None;
        if self.lying.as_ref().is_some_and(|now| now.since > lying.since) {
            // Late news of an earlier place: it is part of the past.
            self.lay.push(lying);
            self.lay.sort_by_key(|place| place.since);
            return;
        }
        if let Some(out) = self.out.take_if(|out| lying.since >= out.at) {
            self.outs.push(out);
            self.frozen = None;
        }
        self.frozen = match lying.freezes {
            Some(true) => self.frozen.or(Some(lying.since)),
            Some(false) => None,
            None => self.frozen,
        };
        self.lay.extend(self.lying.replace(lying));
    }
}

impl State {
    /// The portions a pack still holds: those that went in and were neither served, thrown away nor bagged again.
    pub fn portions_in<'s>(&'s self, pack: &'s Pack) -> impl Iterator<Item = &'s Portion> + Clone {
        let ids = match &pack.sealed.contents {
            Contents::Portions(ids) => ids.as_slice(),
            Contents::Part(_) => &[],
        };
        ids.iter()
            .filter_map(|id| self.portion(*id))
            .filter(|portion| portion.pack == Some(pack.id) && portion.gone().is_none())
    }

    pub(super) fn may_seal(&self, entry: &Entry, body: &PackSealed) -> Result<(), Refusal> {
        let mass = match &body.contents {
            Contents::Portions(ids) => {
                let portions = self.named_portions(entry, ids)?;
                for portion in &portions {
                    never_gone(portion.gone())?;
                    self.may_be_packed(portion.name(), portion.pack)?;
                }
                if let [first, rest @ ..] = portions.as_slice()
                    && let Some(other) = rest.iter().find(|portion| portion.piece != first.piece)
                {
                    let (one, other) = (first.word.to_string(), other.word.to_string());
                    return Err(Refusal::TwoPieces { one, other });
                }
                portions.iter().map(|portion| portion.weighed.mass).sum()
            }
            Contents::Part(id) => {
                let part = self.named_part(entry, "body.part", *id)?;
                never_gone(part.gone())?;
                self.may_be_packed(part.name(), part.pack)?;
                part.weighed.mass
            }
        };
        let Some(weighed) = weighed_mass(body) else { return Ok(()) };
        let key = if body.mass.is_some() { "body.mass_g" } else { "body.with_bag_g" };
        self.may_weigh(
            key,
            || self.label(&body.contents).map_or_else(String::new, |label| label.name),
            mass,
            weighed,
        )
    }

    /// Refuses a pack or a discard that weighs more than what went into it.
    pub(super) fn may_weigh(
        &self,
        key: &'static str,
        thing: impl FnOnce() -> String,
        went_in: Mass,
        mass: Mass,
    ) -> Result<(), Refusal> {
        let division = self.settings.scale_division();
        // Two readings of one scale, and the part of a gain between them that a warm scale shows (common practice: 1 %).
        let slack =
            super::scale_error(went_in, division) + super::scale_error(mass, division) + went_in * 0.01;
        if mass > went_in + slack {
            let thing = thing();
            return Err(Refusal::GramsFromNowhere {
                key,
                thing,
                came_in: went_in,
                accounted: mass,
                offered: mass,
                slack,
            });
        }
        Ok(())
    }

    fn may_be_packed(&self, thing: String, pack: Option<Uuid>) -> Result<(), Refusal> {
        match pack.and_then(|id| self.pack(id)).filter(|pack| pack.holds()) {
            Some(pack) => Err(Refusal::PackedTwice { thing, pack: pack.name.clone(), since: pack.at }),
            None => Ok(()),
        }
    }

    pub(super) fn seal(&mut self, number: u64, entry: &Entry, body: &PackSealed) {
        let Some(label) = self.name_pack(entry.id, &body.contents) else { return };
        let ids = match &body.contents {
            Contents::Portions(ids) => ids.clone(),
            Contents::Part(id) => vec![*id],
        };
        let went_in: Mass = ids.iter().filter_map(|id| self.mass_of(*id)).sum();
        let mut pack = Pack {
            id: entry.id,
            number,
            at: entry.at,
            piece: label.piece,
            word: self.piece(label.piece).map(|piece| piece.word).unwrap_or_default(),
            name: label.name,
            slug: label.slug,
            sealed: body.clone(),
            mass: weighed_mass(body).unwrap_or(went_in),
            lying: None,
            lay: Vec::new(),
            frozen: None,
            leaker: None,
            out: None,
            outs: Vec::new(),
            counted: None,
            missing: None,
            gone: None,
        };
        if let Some(place) = &body.place {
            pack.put(self.lying_at(entry, place, None, None));
        }
        let place = self.packs.push(pack);
        self.made.insert(entry.id, Made::Pack(place));
        if let Some(Made::Piece(piece)) = self.made.get(label.piece)
            && let Some(piece) = self.pieces.get_mut(piece)
        {
            piece.packs.push(entry.id);
        }
        let before: Vec<Uuid> = ids.iter().filter_map(|id| self.rebag(*id, entry.id)).collect();
        for pack in before {
            self.empty(pack, entry, "bagged again");
        }
    }

    fn mass_of(&self, id: Uuid) -> Option<Mass> {
        self.portion(id).map(|p| p.weighed.mass).or_else(|| self.part(id).map(|p| p.weighed.mass))
    }

    /// Puts a portion or heap into a pack; the pack it was in before.
    fn rebag(&mut self, id: Uuid, pack: Uuid) -> Option<Uuid> {
        match self.made.get(id)? {
            Made::Portion(place) => self.portions.get_mut(place)?.pack.replace(pack),
            Made::Part(place) => self.parts.get_mut(place)?.pack.replace(pack),
            _ => None,
        }
    }

    /// Marks a pack as gone if nothing is left in it.
    pub(super) fn empty(&mut self, id: Uuid, entry: &Entry, how: &'static str) {
        let Some(pack) = self.pack(id) else { return };
        let left = match &pack.sealed.contents {
            Contents::Portions(_) => self.portions_in(pack).next().is_some(),
            Contents::Part(part) => {
                self.part(*part).is_some_and(|p| p.pack == Some(id) && p.discarded.is_none())
            }
        };
        if left || pack.gone.is_some() {
            return;
        }
        if let Some(pack) = self.pack_mut(id) {
            pack.gone = Some(PackGone { entry: entry.id, at: entry.at, how });
        }
    }

    pub(super) fn pack_mut(&mut self, id: Uuid) -> Option<&mut Pack> {
        match self.made.get(id)? {
            Made::Pack(place) => self.packs.get_mut(place),
            _ => None,
        }
    }
}

/// The meat alone, as far as it was weighed when it was sealed.
fn weighed_mass(body: &PackSealed) -> Option<Mass> {
    body.mass.or_else(|| {
        let meat = body.with_bag? - body.bag?;
        (meat.g() > 0.0).then_some(meat)
    })
}
