//! The ledger of one piece: where its grams and its money are.

use catalogue::Trim;
use quantity::{Mass, Money};
use record::{At, Contents, Pack, PartName, Piece, Portion, Stage, State, Where};
use rust_decimal::Decimal;
use std::collections::BTreeMap;
use worth::{Ask, Bought, Costs, Grams, PerMass, Scales, Worth, WorthError};

/// Where grams and money of a piece are, as far as they are written down.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceLedger {
    /// Portions by where they are, heaps, purge, what is not explained; their grams add to `came_in`, their money to `paid`.
    pub rows: Vec<LedgerRow>,
    /// On the label.
    pub came_in: Mass,
    /// What was paid.
    pub paid: Money,
    /// How it stands.
    pub standing: Standing,
    /// What one's plates come to; nothing before a portion was weighed.
    pub plates: Option<Plates>,
    /// Kept heaps that nobody put a value on: they count as worth nothing.
    pub unvalued: Vec<PartName>,
    /// How many weighings stand behind it, the label among them.
    pub weighings: usize,
}

/// One line of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct LedgerRow {
    /// What it is.
    pub heap: Heap,
    /// Its grams; below zero where more was weighed than came in.
    pub mass: Mass,
    /// Share of what came in.
    pub share: f64,
    /// What it carries of the price; zero for what carries nothing.
    pub value: Money,
}

/// What a line stands for.
#[derive(Clone, Debug, PartialEq)]
pub enum Heap {
    /// Portions that are in one place.
    Portions {
        /// Where.
        whereabouts: Whereabouts,
        /// Their places in the roll.
        places: Vec<u32>,
        /// In how many packs.
        packs: usize,
    },
    /// A heap that is no portion.
    Part {
        /// Which.
        part: PartName,
        /// What it was called, where the name of the heap does not say.
        called: Option<String>,
        /// Where it is, if it was kept.
        whereabouts: Option<Whereabouts>,
        /// What a kilo of it replaces.
        value_per_kg: Option<Decimal>,
    },
    /// The piece itself, while nothing was cut off it.
    Whole,
    /// Liquid of the bag.
    Purge,
    /// Thrown away before it was cut.
    ThrownAway,
    /// On the board still, or lost.
    NotExplained,
}

/// Where portions or heaps are.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whereabouts {
    /// Out of the store, in this place.
    Out(String),
    /// Cut, in no pack.
    Loose,
    /// On the heat or resting.
    Heat,
    /// In the store, in this place if it was said.
    Store(Option<String>),
    /// Left over.
    Spare,
    /// Eaten.
    Eaten,
    /// Thrown away.
    Discarded,
}

/// How a ledger stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// Nothing was cut yet.
    Uncut,
    /// What is not explained is inside the scales' error.
    Balances {
        /// Not explained.
        grams: Mass,
        /// What the scales may be wrong by together.
        scales: Mass,
    },
    /// So much is not written down: more than any scale is wrong by.
    Missing {
        /// Grams.
        grams: Mass,
        /// What the scales may be wrong by together.
        scales: Mass,
        /// Whether the purge was weighed.
        purge_weighed: bool,
        /// Whether it is as much as a portion, so that the piece may still lie on the board.
        on_the_board: bool,
    },
    /// More was weighed than came in, beyond what the scales explain.
    MoreOutThanIn {
        /// By how much.
        over: Mass,
    },
}

/// What the plates of a piece come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Plates {
    /// How many.
    pub count: usize,
    /// Raw, together.
    pub mass: Mass,
    /// What they carry of the price: paid less what was kept.
    pub carry: Money,
    /// Bags and electricity.
    pub costs: Money,
    /// Both together.
    pub all_in: Money,
    /// One plate.
    pub each: Money,
    /// A trimmed kilo.
    pub per_kg: Money,
    /// What the counter would have asked for the same.
    pub counter: Option<Money>,
    /// Saved against it.
    pub saved: Option<Money>,
}

/// The ledger of a piece. `now` ends the months that packs still in store have been kept.
#[must_use]
pub fn piece_ledger(state: &State, piece: &Piece, now: At) -> PieceLedger {
    let currency = piece.received.currency;
    let money = |amount| Money::new(amount, currency);
    let heaps = heaps(state, piece);
    let paid = piece.received.paid.total(piece.received.mass);
    let so_far = state.ledger(piece);
    let weighings = 1
        + piece.portions.len()
        + piece.parts.len()
        + usize::from(piece.measured.purge.is_some() || piece.measured.bag_off.is_some());
    let mut ledger = PieceLedger {
        rows: Vec::new(),
        came_in: so_far.came_in,
        paid: money(paid).to_coin(),
        standing: Standing::Uncut,
        plates: None,
        unvalued: Vec::new(),
        weighings,
    };
    if piece.portions.is_empty() {
        ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::Whole);
        return ledger;
    }
    let asked = question(state, piece, &heaps, now);
    match worth::worth(&asked) {
        Ok(answer) => fill(&mut ledger, &answer, heaps, piece, state),
        Err(WorthError::MoreOutThanIn { over, .. }) => {
            ledger.standing = Standing::MoreOutThanIn { over: mass(over) };
            ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::NotExplained);
        }
        // What the record accepted, the sum can be done of; should it not, the grams still stand.
        Err(_) => ledger.rows = grams_alone(&heaps, &so_far, ledger.paid, Heap::NotExplained),
    }
    ledger
}

/// What was bought and what became portions, for a piece that was cut and balances: what the next one is judged by.
#[must_use]
pub fn own_yield(state: &State, piece: &Piece) -> Option<crate::OwnYield> {
    let ledger = state.ledger(piece);
    let settled = ledger.unexplained.g().abs() < ledger.came_in.g() * 0.02;
    (ledger.portions.g() > 0.0 && settled).then(|| crate::OwnYield {
        cut: piece.received.cut.clone(),
        trim: piece.received.trim.and_then(|trim| Trim::named(trim.word())),
        portions: ledger.portions / ledger.came_in,
    })
}

/// Portions by where they are and heaps by name, in the order of the ledger.
fn heaps(state: &State, piece: &Piece) -> Vec<(Heap, Mass)> {
    let mut groups: BTreeMap<Whereabouts, (Vec<u32>, Vec<uuid::Uuid>, Mass)> = BTreeMap::new();
    for portion in state.portions_of(piece) {
        let (places, packs, mass) = groups.entry(whereabouts(state, portion)).or_default();
        places.push(portion.n);
        if let Some(pack) = portion.pack.filter(|pack| !packs.contains(pack)) {
            packs.push(pack);
        }
        *mass = *mass + portion.weighed.mass;
    }
    let portions = groups.into_iter().map(|(whereabouts, (places, packs, mass))| {
        (Heap::Portions { whereabouts, places, packs: packs.len() }, mass)
    });
    let mut parts: Vec<(Heap, Mass)> = Vec::new();
    for part in state.parts_of(piece).filter(|part| part.weighed.part != PartName::Purge) {
        let heap = Heap::Part {
            part: part.weighed.part,
            called: part.weighed.name.clone(),
            whereabouts: part_whereabouts(state, part),
            value_per_kg: kept_value(state, part),
        };
        match parts.iter_mut().find(|(other, _)| *other == heap) {
            Some((_, mass)) => *mass = *mass + part.weighed.mass,
            None => parts.push((heap, part.weighed.mass)),
        }
    }
    portions.chain(parts).collect()
}

/// Where a portion is.
#[must_use]
pub fn whereabouts(state: &State, portion: &Portion) -> Whereabouts {
    let pack = portion.pack.and_then(|id| state.pack(id));
    match state.stage(portion) {
        Stage::Loose => Whereabouts::Loose,
        Stage::Packed => Whereabouts::Store(pack.and_then(place)),
        Stage::Out => Whereabouts::Out(pack.and_then(place).unwrap_or_default()),
        Stage::OnHeat | Stage::Pulled => Whereabouts::Heat,
        Stage::Served(record::Outcome::Eaten) => Whereabouts::Eaten,
        Stage::Served(record::Outcome::Spare) => Whereabouts::Spare,
        Stage::Served(record::Outcome::Discarded) | Stage::Discarded => Whereabouts::Discarded,
    }
}

fn place(pack: &Pack) -> Option<String> {
    match &pack.out {
        Some(out) => Some(out.place.clone()),
        None => pack.lying.as_ref().map(|lying| lying.place.clone()),
    }
}

fn part_whereabouts(state: &State, part: &record::Part) -> Option<Whereabouts> {
    if part.discarded.is_some() || part.weighed.keep == record::Use::Waste {
        return Some(Whereabouts::Discarded);
    }
    let pack = part.pack.and_then(|id| state.pack(id))?;
    let holds = matches!(&pack.sealed.contents, Contents::Part(id) if *id == part.id);
    match (&pack.gone, &pack.out) {
        (Some(_), _) => Some(Whereabouts::Eaten),
        _ if !holds => None,
        (None, Some(out)) => Some(Whereabouts::Out(out.place.clone())),
        (None, None) => Some(Whereabouts::Store(place(pack))),
    }
}

/// What a kilo of a kept heap replaces: as said of it, else what the kitchen says such a heap is worth.
fn kept_value(state: &State, part: &record::Part) -> Option<Decimal> {
    if part.weighed.keep == record::Use::Waste {
        return None;
    }
    let settings = state.settings();
    part.weighed.value.map(record::Price::per_kg).or_else(|| match part.weighed.part {
        PartName::LeanTrim | PartName::EndsFirst | PartName::EndsLast => {
            settings.amount("money.lean_trim_per_kg")
        }
        PartName::CleanFat => settings.amount("money.clean_fat_per_kg"),
        _ => None,
    })
}

/// The piece as the yield and cost test takes it.
fn question(state: &State, piece: &Piece, heaps: &[(Heap, Mass)], now: At) -> Worth {
    let parts = heaps
        .iter()
        .map(|(heap, mass)| worth::Part {
            name: String::new(),
            used: match heap {
                Heap::Portions { .. } => worth::Use::Portion,
                Heap::Part { value_per_kg, part, whereabouts, .. }
                    if is_kept(*part, whereabouts.as_ref()) =>
                {
                    worth::Use::Keep { value: value_per_kg.map(PerMass::per_kg) }
                }
                _ => worth::Use::Waste,
            },
            mass: grams(*mass),
        })
        .collect();
    let settings = state.settings();
    let packs: Vec<&Pack> = state.packs_of(piece).collect();
    Worth {
        currency: piece.received.currency,
        piece: Bought {
            mass: grams(piece.received.mass),
            price: worth::Price::Total(piece.received.paid.total(piece.received.mass)),
            purge: state.ledger(piece).purge.map(|purge| grams(purge.mass())),
        },
        parts,
        counter: counter_price(state, piece).map(PerMass::per_kg),
        costs: Costs {
            bag: settings.amount("money.bag_each").unwrap_or_default(),
            bags: Some(u32::try_from(packs.len()).unwrap_or(u32::MAX)),
            energy_month: settings.amount("money.energy_per_kg_month").map(PerMass::per_kg),
            months: months_kept(&packs, now),
            labour: Decimal::ZERO,
        },
        cooked: None,
        portion: None,
        scales: Scales::default(),
    }
}

/// Kept unless it was waste on the board; what was kept and thrown away later still replaced nothing.
fn is_kept(_part: PartName, whereabouts: Option<&Whereabouts>) -> bool {
    whereabouts != Some(&Whereabouts::Discarded)
}

/// What the counter asked for the same, cut: as noted on receipt, else the latest price noted before that day was over.
#[must_use]
pub fn counter_price(state: &State, piece: &Piece) -> Option<Decimal> {
    let noted = || {
        let by_then = |at: At| at.timestamp() <= piece.at.timestamp() + jiff::SignedDuration::from_hours(24);
        let same = |note: &record::PriceNoted| {
            note.form == Where::Counter
                && note.cut == piece.received.cut
                && note.currency == piece.received.currency
        };
        state.prices().rfind(|price| by_then(price.at) && same(&price.note)).map(|price| price.note.price)
    };
    piece.received.counter_price.or_else(noted).map(record::Price::per_kg)
}

/// Months a kilo of it was kept frozen on average, by mass.
fn months_kept(packs: &[&Pack], now: At) -> Decimal {
    const SECONDS: f64 = 365.25 / 12.0 * 86400.0;
    let (mut weighted, mut all) = (0.0, 0.0);
    for pack in packs {
        all += pack.mass.g();
        let Some(since) = pack
            .frozen
            .or_else(|| pack.lay.iter().find(|lay| lay.freezes == Some(true)).map(|lay| lay.since))
        else {
            continue;
        };
        let ends = [
            pack.out.as_ref().map(|out| out.at),
            pack.outs.first().map(|out| out.at),
            pack.gone.as_ref().map(|gone| gone.at),
        ];
        let until = ends.into_iter().flatten().min_by_key(|at| at.timestamp()).unwrap_or(now);
        let seconds = until.timestamp().as_second() - since.timestamp().as_second();
        weighted += pack.mass.g() * seconds.max(0) as f64 / SECONDS;
    }
    if all > 0.0 { Decimal::try_from(weighted / all).unwrap_or_default().round_dp(3) } else { Decimal::ZERO }
}

fn fill(
    ledger: &mut PieceLedger,
    answer: &worth::Answer,
    heaps: Vec<(Heap, Mass)>,
    piece: &Piece,
    state: &State,
) {
    // Books are to the coin: each line is, and they add to what was paid.
    let money = |amount: Decimal| Money::new(amount, answer.currency).to_coin();
    let amounts: Vec<Decimal> = answer.ledger.iter().map(|line| line.value.middle()).collect();
    let coins = worth::coins(&amounts, answer.currency);
    let mut heaps = heaps.into_iter().map(|(heap, _)| heap);
    ledger.rows = answer
        .ledger
        .iter()
        .zip(coins)
        .map(|(line, coins)| LedgerRow {
            heap: match line.what {
                worth::Heap::Part(_) => heaps.next().unwrap_or(Heap::NotExplained),
                worth::Heap::Purge => Heap::Purge,
                worth::Heap::Unexplained => Heap::NotExplained,
            },
            mass: mass(line.mass_g.middle()),
            share: plain(line.share.middle()),
            value: Money::new(coins, answer.currency),
        })
        .collect();
    let of_portions = |row: &&LedgerRow| matches!(row.heap, Heap::Portions { .. });
    let carry = ledger.rows.iter().filter(of_portions).map(|row| row.value.amount).sum();
    let count = piece.portions.len();
    let usable = answer.usable_kg.middle();
    let costs = money(answer.costs.all_in.middle() - answer.net_cost.middle());
    let all_in = costs.amount + carry;
    let counter = counter_price(state, piece).map(|price| money(price * usable));
    ledger.plates = Some(Plates {
        count,
        mass: Mass::from_kg(plain(usable)),
        carry: money(carry),
        costs,
        all_in: money(all_in),
        each: money(all_in / Decimal::from(count.max(1))),
        per_kg: money(answer.cost_per_kg.middle()),
        counter,
        saved: counter.map(|counter| money(counter.amount - all_in)),
    });
    let smallest =
        state.portions_of(piece).map(|portion| portion.weighed.mass.g()).fold(f64::INFINITY, f64::min);
    if let Some(found) = answer.unexplained {
        let (grams, scales) = (mass(found.grams.middle()), mass(found.scales.g()));
        let purge_weighed = answer.ledger.iter().any(|line| line.what == worth::Heap::Purge);
        ledger.standing = if found.beyond {
            let on_the_board = grams.g() >= smallest * 0.8;
            Standing::Missing { grams, scales, purge_weighed, on_the_board }
        } else {
            Standing::Balances { grams, scales }
        };
    }
    let unvalued = answer.asks.iter().any(|ask| matches!(ask, Ask::NoValue { .. }));
    if unvalued {
        ledger.unvalued = ledger.rows.iter().filter_map(|row| without_value(&row.heap)).collect();
    }
}

fn without_value(heap: &Heap) -> Option<PartName> {
    match heap {
        Heap::Part { part, whereabouts, value_per_kg: None, .. } if is_kept(*part, whereabouts.as_ref()) => {
            Some(*part)
        }
        _ => None,
    }
}

/// Grams before the money can be laid on portions: all of it lies on what is not cut.
fn grams_alone(heaps: &[(Heap, Mass)], grams: &record::Ledger, paid: Money, rest: Heap) -> Vec<LedgerRow> {
    let nothing = Money::new(Decimal::ZERO, paid.currency);
    let row = |heap: Heap, mass: Mass| LedgerRow { heap, mass, share: mass / grams.came_in, value: nothing };
    let mut rows: Vec<LedgerRow> = heaps.iter().map(|(heap, mass)| row(heap.clone(), *mass)).collect();
    rows.extend(grams.purge.map(|purge| row(Heap::Purge, purge.mass())));
    if grams.discarded.g() > 0.0 {
        rows.push(row(Heap::ThrownAway, grams.discarded));
    }
    rows.push(LedgerRow { value: paid, ..row(rest, grams.unexplained) });
    rows
}

/// A mass as exact decimal grams. Scales show tenths at best; the milligram keeps the sum exact.
#[must_use]
pub fn grams(mass: Mass) -> Grams {
    Grams::new(Decimal::try_from(mass.g()).unwrap_or_default().round_dp(3))
}

fn mass(grams: Decimal) -> Mass {
    Mass::from_g(plain(grams))
}

fn plain(value: Decimal) -> f64 {
    value.try_into().unwrap_or(f64::NAN)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{saturday, tarn};

    fn row<'a>(ledger: &'a PieceLedger, wanted: impl Fn(&Heap) -> bool) -> &'a LedgerRow {
        ledger.rows.iter().find(|row| wanted(&row.heap)).unwrap()
    }

    /// An invented piece whose figures were added by hand: 159.36 less 438 g at 11.80 and 489 g at 3.20 is 152.63, over
    /// 5.318 kg it is 28.70 a kilo; 5.318 kg at 38.50 is 204.74.
    #[test]
    fn grams_and_money_of_a_piece_balance() {
        let (record, piece, _) = tarn();
        let piece = record.state.piece(piece).unwrap();
        let ledger = piece_ledger(&record.state, piece, saturday());
        let plates = ledger.plates.as_ref().unwrap();
        assert_eq!(ledger.paid.to_string(), "159.36\u{202f}€");
        assert_eq!(plates.carry.to_string(), "152.63\u{202f}€");
        assert_eq!(plates.per_kg.to_string(), "28.70\u{202f}€");
        assert_eq!(plates.counter.unwrap().to_string(), "204.74\u{202f}€");
        assert_eq!(plates.count, 14);
        let grams: f64 = ledger.rows.iter().map(|row| row.mass.g()).sum();
        assert!((grams - 6400.0).abs() < 1e-6, "{grams}");
        let money: Decimal = ledger.rows.iter().map(|row| row.value.amount).sum();
        assert_eq!(money, ledger.paid.amount);
        assert!(
            matches!(ledger.standing, Standing::Balances { grams, .. } if (grams.g() - 7.0).abs() < 1e-6)
        );
    }

    #[test]
    fn portions_are_grouped_by_where_they_are() {
        let (record, piece, _) = tarn();
        let ledger = piece_ledger(&record.state, record.state.piece(piece).unwrap(), saturday());
        let out = row(
            &ledger,
            |heap| matches!(heap, Heap::Portions { whereabouts: Whereabouts::Out(place), .. } if place == "fridge"),
        );
        let store = row(&ledger, |heap| {
            matches!(heap, Heap::Portions { whereabouts: Whereabouts::Store(Some(place)), packs: 2, .. }
                if place == "cellar chest")
        });
        assert!((out.mass.g() - 3800.0).abs() < 1e-6 && (store.mass.g() - 1518.0).abs() < 1e-6);
        assert_eq!(out.value.to_string(), "109.06\u{202f}€");
        assert_eq!(store.value.to_string(), "43.57\u{202f}€");
    }

    #[test]
    fn a_missing_heap_is_asked_about() {
        let (mut record, _, _) = tarn();
        let piece = record.put(
            "2026-07-18T12:00:00+02:00",
            "piece-received",
            serde_json::json!({ "cut": "beef-strip-loin", "mass_g": 1000, "total": "20", "currency": "EUR" }),
        );
        let body = serde_json::json!({ "piece": piece, "n": 1, "mass_g": 900 });
        record.put("2026-07-18T12:30:00+02:00", "portion-weighed", body);
        let ledger = piece_ledger(&record.state, record.state.piece(piece).unwrap(), saturday());
        let Standing::Missing { grams, purge_weighed, on_the_board, .. } = ledger.standing else {
            panic!("{:?}", ledger.standing)
        };
        assert!((grams.g() - 100.0).abs() < 1e-6 && !purge_weighed && !on_the_board);
    }

    #[test]
    fn own_pieces_teach_their_yield() {
        let (record, piece, _) = tarn();
        let own = own_yield(&record.state, record.state.piece(piece).unwrap()).unwrap();
        assert!((own.portions - 5318.0 / 6400.0).abs() < 1e-9);
        assert_eq!(own.trim, Some(Trim::To6Mm));
    }
}
