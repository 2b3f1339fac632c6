//! The yield and cost test of one piece, step by step, nothing rounded.

use crate::error::{MOST_GRAMS, MOST_MONEY};
use crate::{AfterCooking, Cooked, Grams, PerMass, Place, Price, Use, Worth, WorthError};
use rust_decimal::Decimal;

/// What one set of exact numbers comes to. Money and masses unrounded.
pub(crate) struct Chain {
    pub(crate) usable: Grams,
    pub(crate) yield_share: Decimal,
    pub(crate) purchase: Decimal,
    pub(crate) credit: Decimal,
    pub(crate) net: Decimal,
    pub(crate) bag_count: Decimal,
    pub(crate) bags: Decimal,
    pub(crate) energy: Decimal,
    pub(crate) labour: Decimal,
    pub(crate) all_in: Decimal,
    pub(crate) per_kg: Decimal,
    pub(crate) portion: Option<PortionCost>,
    pub(crate) factor: Option<Decimal>,
    pub(crate) cooked: Option<CookedChain>,
    pub(crate) saving: Option<Decimal>,
    pub(crate) unexplained: Grams,
    pub(crate) lines: Vec<ChainLine>,
}

pub(crate) struct PortionCost {
    pub(crate) each: Decimal,
    pub(crate) full: Decimal,
    pub(crate) factor: Option<Decimal>,
}

pub(crate) struct CookedChain {
    pub(crate) saleable: Grams,
    pub(crate) per_kg: Decimal,
    pub(crate) portion: Option<PortionCost>,
    pub(crate) factor: Option<Decimal>,
}

pub(crate) struct ChainLine {
    pub(crate) mass: Grams,
    pub(crate) share: Decimal,
    pub(crate) value: Decimal,
}

impl Chain {
    /// Runs the test: what was paid, less the credits, over what can be eaten.
    pub(crate) fn of(worth: &Worth) -> Result<Self, WorthError> {
        check(worth)?;
        let bought = worth.piece.mass;
        let purchase = match worth.piece.price {
            Price::Total(total) => total,
            Price::Per(price) => fits(price.of(bought))?,
        };
        let usable: Grams =
            worth.parts.iter().filter(|part| part.used == Use::Portion).map(|part| part.mass).sum();
        if usable.g() < SMALLEST {
            return Err(WorthError::NoPortions);
        }
        let credits = credits(worth)?;
        let credit: Decimal = credits.iter().sum();
        let net = purchase - credit;
        let full = worth.portion.map(|portion| (usable.g() / portion.g()).floor());
        let bag_count = bag_count(worth, full)?;
        let bags = worth.costs.bag * bag_count;
        let energy = energy(worth, usable)?;
        let all_in = net + bags + energy + worth.costs.labour;
        let per_kg = all_in / usable.kg();
        let price_per_kg = fits(purchase.checked_div(bought.kg()))?;
        let portion = worth.portion.map(|size| portion_cost(per_kg, size, usable, price_per_kg));
        let saving = match worth.counter {
            Some(counter) => Some(fits(counter.of(usable))? - all_in),
            None => None,
        };
        Ok(Self {
            usable,
            yield_share: usable.g() / bought.g(),
            purchase,
            credit,
            net,
            bag_count,
            bags,
            energy,
            labour: worth.costs.labour,
            all_in,
            per_kg,
            portion,
            factor: per_kg.checked_div(price_per_kg),
            cooked: worth
                .cooked
                .map(|cooked| cook(cooked, usable, all_in, worth.portion, price_per_kg))
                .transpose()?,
            saving,
            unexplained: bought - accounted(worth),
            lines: lines(worth, &credits, usable, net),
        })
    }
}

/// Purge and parts together.
pub(crate) fn accounted(worth: &Worth) -> Grams {
    worth.parts.iter().map(|part| part.mass).sum::<Grams>() + worth.piece.purge.unwrap_or_default()
}

fn credits(worth: &Worth) -> Result<Vec<Decimal>, WorthError> {
    worth
        .parts
        .iter()
        .map(|part| match part.used {
            Use::Keep { value: Some(value) } => fits(value.of(part.mass)),
            _ => Ok(Decimal::ZERO),
        })
        .collect()
}

fn bag_count(worth: &Worth, full: Option<Decimal>) -> Result<Decimal, WorthError> {
    match (worth.costs.bags, full) {
        _ if worth.costs.bag.is_zero() => Ok(Decimal::ZERO),
        (Some(bags), _) => Ok(Decimal::from(bags)),
        (None, Some(full)) => Ok(full),
        (None, None) => Err(WorthError::HowManyBags),
    }
}

fn energy(worth: &Worth, usable: Grams) -> Result<Decimal, WorthError> {
    match worth.costs.energy_month {
        Some(price) => fits(price.of(usable).and_then(|month| month.checked_mul(worth.costs.months))),
        None => Ok(Decimal::ZERO),
    }
}

fn portion_cost(per_kg: Decimal, size: Grams, of: Grams, price_per_kg: Decimal) -> PortionCost {
    let each = per_kg * size.kg();
    PortionCost { each, full: (of.g() / size.g()).floor(), factor: each.checked_div(price_per_kg) }
}

/// Carries the net cost (credits taken off) on to what is left after cooking and carving.
fn cook(
    cooked: Cooked,
    usable: Grams,
    all_in: Decimal,
    portion: Option<Grams>,
    price_per_kg: Decimal,
) -> Result<CookedChain, WorthError> {
    let mass = match cooked.after {
        AfterCooking::Loss(loss) => Grams::new(usable.g() * (Decimal::ONE - loss)),
        AfterCooking::Mass(mass) if mass > usable => {
            return Err(WorthError::CookedHeavier {
                raw: usable.g().normalize(),
                cooked: mass.g().normalize(),
            });
        }
        AfterCooking::Mass(mass) => mass,
    };
    let saleable = mass - cooked.waste;
    if saleable.g() < SMALLEST {
        return Err(WorthError::NothingCarved {
            waste: cooked.waste.g().normalize(),
            cooked: mass.g().normalize(),
        });
    }
    let per_kg = all_in / saleable.kg();
    Ok(CookedChain {
        saleable,
        per_kg,
        portion: portion.map(|size| portion_cost(per_kg, size, saleable, price_per_kg)),
        factor: per_kg.checked_div(price_per_kg),
    })
}

/// Parts in order, then purge, then what is not explained; the portions carry the net cost by weight.
fn lines(worth: &Worth, credits: &[Decimal], usable: Grams, net: Decimal) -> Vec<ChainLine> {
    let bought = worth.piece.mass;
    let line = |mass: Grams, value| ChainLine { mass, share: mass.g() / bought.g(), value };
    let mut lines: Vec<ChainLine> = worth
        .parts
        .iter()
        .zip(credits)
        .map(|(part, &credit)| match part.used {
            Use::Portion => line(part.mass, net * part.mass.g() / usable.g()),
            _ => line(part.mass, credit),
        })
        .collect();
    lines.extend(worth.piece.purge.map(|purge| line(purge, Decimal::ZERO)));
    lines.push(line(bought - accounted(worth), Decimal::ZERO));
    lines
}

fn fits(amount: Option<Decimal>) -> Result<Decimal, WorthError> {
    amount.filter(|amount| amount.abs() <= MOST_MONEY).ok_or(WorthError::TooLarge)
}

/// A microgram: below it no scale reads and quotients leave the exact range.
const SMALLEST: Decimal = Decimal::from_parts(1, 0, 0, false, 6);
/// The smallest price that is not nothing.
const SMALLEST_PRICE: Decimal = Decimal::from_parts(1, 0, 0, false, 6);

fn check(worth: &Worth) -> Result<(), WorthError> {
    mass(Place::PieceMass, "the piece's mass in g", worth.piece.mass, SMALLEST)?;
    match worth.piece.price {
        Price::Per(price) => amount(Place::PiecePrice, "the price", price.amount())?,
        Price::Total(total) => amount(Place::PiecePrice, "the total", total)?,
    }
    if let Some(purge) = worth.piece.purge {
        mass(Place::Purge, "the purge in g", purge, Decimal::ZERO)?;
    }
    for (at, part) in worth.parts.iter().enumerate() {
        mass(Place::PartMass(at), "the part's mass in g", part.mass, Decimal::ZERO)?;
        if let Use::Keep { value: Some(value) } = part.used {
            amount(Place::PartValue(at), "the part's value", value.amount())?;
        }
    }
    if let Some(counter) = worth.counter {
        amount(Place::Counter, "the counter's price", counter.amount())?;
    }
    let costs = &worth.costs;
    let energy = costs.energy_month.map_or(Decimal::ZERO, PerMass::amount);
    for (what, cost) in [
        ("the price of a bag", costs.bag),
        ("the cost of keeping a kilo for a month", energy),
        ("the number of months", costs.months),
        ("the work", costs.labour),
    ] {
        amount(Place::Costs, what, cost)?;
    }
    if let Some(portion) = worth.portion {
        mass(Place::Portion, "the portion in g", portion, SMALLEST)?;
    }
    if let Some(cooked) = worth.cooked {
        check_cooked(cooked)?;
    }
    for scale in [worth.scales.label, worth.scales.board] {
        mass(Place::Division, "the scale's division in g", scale.division, SMALLEST)?;
    }
    Ok(())
}

fn check_cooked(cooked: Cooked) -> Result<(), WorthError> {
    mass(Place::CookedWaste, "the waste after cooking in g", cooked.waste, Decimal::ZERO)?;
    match cooked.after {
        AfterCooking::Mass(cooked) => mass(Place::Cooked, "the cooked mass in g", cooked, SMALLEST),
        AfterCooking::Loss(loss) if loss >= Decimal::ZERO && loss < Decimal::ONE => Ok(()),
        AfterCooking::Loss(found) => Err(WorthError::OutOfRange {
            place: Place::Cooked,
            what: "the cooking loss",
            found,
            allowed: "a share from 0 to below 1",
        }),
    }
}

fn mass(place: Place, what: &'static str, mass: Grams, least: Decimal) -> Result<(), WorthError> {
    if mass.g() >= least && mass <= MOST_GRAMS {
        return Ok(());
    }
    let allowed = if least.is_zero() { "0 to 1000000 g" } else { "above 0, to 1000000 g" };
    Err(WorthError::OutOfRange { place, what, found: mass.g(), allowed })
}

fn amount(place: Place, what: &'static str, amount: Decimal) -> Result<(), WorthError> {
    let sensible = amount.is_zero() || amount >= SMALLEST_PRICE;
    if sensible && amount <= MOST_MONEY {
        return Ok(());
    }
    Err(WorthError::OutOfRange { place, what, found: amount, allowed: "0, or 0.000001 to 1000000000" })
}
