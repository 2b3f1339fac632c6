//! The thread: the seven steps in the life of a piece, as far as it has come.

use record::{At, Outcome, Piece, Portion, State};

/// A step of the thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Knot {
    /// Bought and received.
    Buy,
    /// Cut and weighed.
    Cut,
    /// Packed and frozen, or kept.
    Store,
    /// Out of the store.
    Thaw,
    /// Salted.
    Salt,
    /// On the heat.
    Cook,
    /// On the plate.
    Plate,
}

impl Knot {
    /// All seven, in order.
    pub const ALL: [Self; 7] =
        [Self::Buy, Self::Cut, Self::Store, Self::Thaw, Self::Salt, Self::Cook, Self::Plate];
}

/// How far a life has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Life {
    /// When each step was first done, in order of [`Knot::ALL`].
    pub done: [Option<At>; 7],
    /// The step it is in, or that is next; nothing once all is eaten or gone.
    pub now: Option<Knot>,
    /// The supper its portions are set aside for, if that is still to come: where thaw, salt, cook and plate belong.
    pub supper: Option<String>,
    /// When that supper is on the plate.
    pub plate: Option<At>,
}

/// The life of a piece. Its portions part after the knife: those not yet eaten lead, the furthest of them first.
#[must_use]
pub fn life_of_piece(state: &State, piece: &Piece) -> Life {
    let portions: Vec<&Portion> = state.portions_of(piece).collect();
    let living: Vec<&Portion> = portions.iter().copied().filter(|portion| !is_over(portion)).collect();
    let leading = living
        .iter()
        .copied()
        .max_by_key(|portion| (last_done(&steps(state, piece, portion)), std::cmp::Reverse(portion.n)))
        .or_else(|| portions.iter().copied().max_by_key(|portion| last_done(&steps(state, piece, portion))));
    let Some(leading) = leading else { return uncut(piece) };
    let mut life = life_of_portion(state, piece, leading);
    if living.is_empty() && !portions.is_empty() {
        life.now = None;
    }
    life
}

/// The life of a portion.
#[must_use]
pub fn life_of_portion(state: &State, piece: &Piece, portion: &Portion) -> Life {
    let done = steps(state, piece, portion);
    let supper = state
        .suppers()
        .filter(|supper| {
            supper.planned.portions.contains(&portion.id) && !supper.served.contains(&portion.id)
        })
        .max_by_key(|supper| supper.planned.serve.at.timestamp());
    Life {
        now: if is_over(portion) { None } else { Some(current(&done)) },
        done,
        supper: supper.map(|supper| supper.slug.clone()),
        plate: supper.map(|supper| supper.planned.serve.at),
    }
}

fn uncut(piece: &Piece) -> Life {
    let mut done = [None; 7];
    done[0] = Some(piece.at);
    let now = piece.discarded.is_none().then_some(Knot::Cut);
    Life { done, now, supper: None, plate: None }
}

fn steps(state: &State, piece: &Piece, portion: &Portion) -> [Option<At>; 7] {
    let pack = portion.pack.and_then(|id| state.pack(id));
    let out = pack.and_then(|pack| pack.out.as_ref().or(pack.outs.last()).map(|out| out.at));
    let stored =
        pack.map(|pack| pack.frozen.or_else(|| pack.lay.first().map(|lay| lay.since)).unwrap_or(pack.at));
    [
        Some(piece.at),
        Some(portion.at),
        stored,
        out,
        portion.salted.last().map(|salting| salting.at),
        portion.on_heat.first().map(|heat| heat.at),
        portion.served.first().map(|served| served.at),
    ]
}

/// Store, thaw, salt and cook last: a portion is in one of them until the next begins. Buy and cut are over when done.
fn current(done: &[Option<At>; 7]) -> Knot {
    match last_done(done) {
        Some(last @ (Knot::Store | Knot::Thaw | Knot::Salt | Knot::Cook)) => last,
        Some(Knot::Cut) => Knot::Store,
        Some(Knot::Plate) => Knot::Plate,
        Some(Knot::Buy) | None => Knot::Cut,
    }
}

fn last_done(done: &[Option<At>; 7]) -> Option<Knot> {
    Knot::ALL.into_iter().zip(done).filter(|(_, at)| at.is_some()).map(|(knot, _)| knot).next_back()
}

fn is_over(portion: &Portion) -> bool {
    portion.discarded.is_some()
        || portion.served.last().is_some_and(|served| served.served.outcome != Outcome::Spare)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::tarn;
    use serde_json::json;

    #[test]
    fn a_piece_is_where_its_furthest_living_portion_is() {
        let (mut record, piece, portions) = tarn();
        let life = |record: &crate::testing::Writing| {
            life_of_piece(&record.state, record.state.piece(piece).unwrap())
        };
        assert_eq!(life(&record).now, Some(Knot::Salt));
        assert!(life(&record).done[..5].iter().all(Option::is_some));
        record.put("2026-07-18T18:00:00+02:00", "put-on", json!({ "portions": portions[..9], "on": "oven" }));
        assert_eq!(life(&record).now, Some(Knot::Cook));
        for portion in &portions[..10] {
            record.put(
                "2026-07-18T19:30:00+02:00",
                "served",
                json!({ "portion": portion, "outcome": "eaten" }),
            );
        }
        assert_eq!(life(&record).now, Some(Knot::Store), "four lie in the store still");
    }

    #[test]
    fn an_uncut_piece_waits_for_the_knife() {
        let (mut record, _, _) = tarn();
        let body = json!({ "cut": "beef-strip-loin", "mass_g": 5900, "total": "120", "currency": "EUR" });
        let piece = record.put("2026-07-18T12:00:00+02:00", "piece-received", body);
        let life = life_of_piece(&record.state, record.state.piece(piece).unwrap());
        assert_eq!((life.now, life.done[1]), (Some(Knot::Cut), None));
    }
}
