//! From the form to the plan.

use super::fields as f;
use crate::Flags;
use crate::field::{Field, Unit};
use crate::read::{Table, Taken};
use quantity::{Length, Mass};
use roll::{
    Count, End, FromEnd, KnifePlan, Limits, Piece, RollError, Settings, Station, Target, Want, Weighed,
    plan_with,
};

/// What is asked of the knife.
pub(super) struct Asked {
    piece: Piece,
    pub(super) wants: Vec<Want>,
    limits: Limits,
    weighed: Vec<Weighed>,
}

/// Reads the whole form.
pub(super) fn asked(root: &Table<'_>) -> Option<Asked> {
    let piece = root.table(&f::PIECE).and_then(|table| piece(&table));
    let tables = root.tables(&f::WANT);
    let wants: Vec<Want> = tables.iter().enumerate().filter_map(|(at, table)| want(table, at)).collect();
    if root.has(&f::WANT) && tables.is_empty() {
        root.impossible(&f::WANT, "one [[want]] or more", "nothing is wanted of the piece");
    }
    let limits = root.table(&f::LIMITS).map_or_else(|| Some(Limits::default()), |table| limits(&table));
    let weighed = root.table(&f::BOARD).and_then(|table| table.numbers(&f::WEIGHED)).unwrap_or_default();
    let weighed = weighed.into_iter().map(|grams| Weighed::at_the_plan(Mass::from_g(grams))).collect();
    let complete = wants.len() == tables.len() && !wants.is_empty();
    complete.then_some(Asked { piece: piece?, wants, limits: limits?, weighed })
}

/// The plan; what contradicts itself goes back to the form.
pub(super) fn plan(root: &Table<'_>, asked: &Asked, flags: &Flags) -> Option<KnifePlan> {
    let settings = Settings { draws: flags.draws, seed: flags.seed, exact: flags.exact };
    plan_with(&asked.piece, &asked.wants, &asked.limits, &asked.weighed, &settings)
        .map_err(|error| object(root, asked, &error))
        .ok()
}

fn piece(table: &Table<'_>) -> Option<Piece> {
    let stations = table.tables(&f::STATION);
    let mut piece = Piece::of(table.word(&f::CUT)?).map_err(|error| no_shape(table, &error)).ok()?;
    piece.mass = table.given(&f::MASS).value(1e-3);
    piece.length = table.given(&f::LENGTH_OF).value(1e-3);
    if let Some(ends) = table.table(&f::ENDS) {
        let end = |field| End { slant: ends.given(field).value(1e-3), squared: true };
        piece.ends.first = end(&f::FIRST);
        piece.ends.last = end(&f::LAST);
    }
    if let Some(kerf) = length(table, &f::KNIFE) {
        piece.knife.kerf = kerf;
    }
    piece.stations = stations.iter().filter_map(station).collect();
    (piece.stations.len() == stations.len()).then_some(piece)
}

fn station(table: &Table<'_>) -> Option<Station> {
    Some(Station {
        at: length(table, &f::AT)?,
        width: length(table, &f::WIDTH)?,
        height: length(table, &f::HEIGHT)?,
    })
}

fn want(table: &Table<'_>, at: usize) -> Option<Want> {
    let target = target(table);
    let count = match (table.word(&f::COUNT), table.count(&f::COUNT)) {
        (Some(_), _) => Count::Max,
        (None, Some(count)) => Count::Exactly(count),
        (None, None) if table.has(&f::ROAST) && !table.has(&f::COUNT) => Count::Exactly(1),
        (None, None) => {
            if !table.has(&f::COUNT) {
                let message = format!("{} is missing: how many, or \"max\"", table.name(&f::COUNT));
                table.missing(&f::COUNT, &message);
            }
            return None;
        }
    };
    let from = match table.word(&f::FROM) {
        Some("first") => FromEnd::First,
        Some("last") => FromEnd::Last,
        _ => FromEnd::Any,
    };
    let name = table.text(&f::NAME).map_or_else(|| format!("want {}", at + 1), str::to_owned);
    let twins = table.flag(&f::TWINS).unwrap_or(false);
    Some(Want { name, count, target: target?, from, twins })
}

/// The wish with its tolerance, which is in the unit the wish was written in.
fn target(table: &Table<'_>) -> Option<Target> {
    let tolerance = table.given(&f::TOLERANCE).known();
    let within = |unit: Unit| {
        let within = unit.to_base(tolerance?)?;
        f64::try_from(within).ok()
    };
    let read = |field: &Field| {
        let taken: Taken = table.taken(field)?;
        let value = f64::try_from(taken.base().known()?).ok()?;
        Some((value, within(taken.unit)))
    };
    if let Some((mm, within)) = read(&f::THICKNESS) {
        return Some(Target::Thickness { at: Length::from_mm(mm), within: within.map(Length::from_mm) });
    }
    if let Some((grams, within)) = read(&f::PORTION) {
        return Some(Target::Mass { at: Mass::from_g(grams), within: within.map(Mass::from_g) });
    }
    read(&f::ROAST).map(|(mm, within)| Target::Roast {
        length: Length::from_mm(mm),
        within: within.map(Length::from_mm),
    })
}

fn limits(table: &Table<'_>) -> Option<Limits> {
    let usual = Limits::default();
    let one = |field, usual| if table.has(field) { length(table, field) } else { Some(usual) };
    let limits =
        Limits { thinnest: one(&f::THINNEST, usual.thinnest)?, thickest: one(&f::THICKEST, usual.thickest)? };
    if limits.thickest < limits.thinnest {
        let (thinnest, thickest) = (table.name(&f::THINNEST), table.name(&f::THICKEST));
        let (low, high) = (limits.thinnest.mm(), limits.thickest.mm());
        let message =
            format!("{thickest}, {high} mm, is below {thinnest}, {low} mm, so no portion can be cut");
        let centimetres = if high * 10.0 >= low {
            format!("; for {high} cm write {} mm", high * 10.0)
        } else {
            String::new()
        };
        let field = if table.has(&f::THICKEST) { &f::THICKEST } else { &f::THINNEST };
        table.impossible(field, &format!("{low} mm or more for the thickest{centimetres}"), &message);
        return None;
    }
    Some(limits)
}

fn length(table: &Table<'_>, field: &Field) -> Option<Length> {
    let mm = f64::try_from(table.given(field).known()?).ok()?;
    Some(Length::from_mm(mm))
}

fn no_shape(table: &Table<'_>, error: &RollError) {
    let sliced: Vec<&str> =
        catalogue::cuts().iter().filter(|cut| cut.profile().is_some()).map(|cut| cut.id.as_str()).collect();
    table.impossible(&f::CUT, &sliced.join(", "), &error.to_string());
}

/// Points at the number an error is about.
fn object(root: &Table<'_>, asked: &Asked, error: &RollError) {
    let message = error.to_string();
    let (piece, limits) = (root.table(&f::PIECE), root.table(&f::LIMITS));
    let want = |name: &str| {
        let at = asked.wants.iter().position(|want| want.name == name)?;
        root.tables(&f::WANT).into_iter().nth(at)
    };
    let station = |number: usize| piece.as_ref()?.tables(&f::STATION).into_iter().nth(number - 1);
    let say = |table: Option<&Table<'_>>, field: &Field, allowed: &str| {
        table.unwrap_or(root).impossible(if table.is_some() { field } else { &f::PIECE }, allowed, &message);
    };
    match error {
        RollError::LengthNeeded { .. } | RollError::NotExact { what: "the length" } => {
            say(piece.as_ref(), &f::LENGTH_OF, "one number, measured from tip to tip");
        }
        RollError::NotExact { what: "the mass" } => say(piece.as_ref(), &f::MASS, "one number"),
        RollError::NotExact { .. } | RollError::EndsMeet { .. } => {
            say(piece.as_ref(), &f::ENDS, "one number for each end, together less than the length");
        }
        RollError::StationOff { number, length, .. } => {
            say(station(*number).as_ref(), &f::AT, &format!("0 to {:.0} mm", length.mm()));
        }
        RollError::StationTooSmall { number, needs_g_mm, .. } => {
            say(
                station(*number).as_ref(),
                &f::WIDTH,
                &format!("a box of at least {needs_g_mm:.0} g a millimetre"),
            );
        }
        RollError::StationTooLarge { number, allows_g_mm, .. } => {
            say(
                station(*number).as_ref(),
                &f::WIDTH,
                &format!("a box of at most {allows_g_mm:.0} g a millimetre"),
            );
        }
        RollError::NoSection { .. } => say(piece.as_ref(), &f::STATION, "no station for this cut"),
        RollError::LimitsCrossed { .. } => say(limits.as_ref(), &f::THICKEST, "the thinnest or more"),
        RollError::TargetOutsideLimits { want: name, thinnest, thickest, .. } => {
            let allowed = format!("{:.0} to {:.0} mm, or wider limits", thinnest.mm(), thickest.mm());
            say(want(name).as_ref(), &f::THICKNESS, &allowed);
        }
        RollError::TwinsOdd { want: name, .. } => {
            say(want(name).as_ref(), &f::COUNT, "an even number, or no twins")
        }
        RollError::WeighedUnlikely { low, high, .. } => {
            let allowed = format!("{:.0} to {:.0} g", low.g(), high.g());
            say(root.table(&f::BOARD).as_ref(), &f::WEIGHED, &allowed);
        }
        RollError::WeighedTooMany { planned, .. } => {
            say(root.table(&f::BOARD).as_ref(), &f::WEIGHED, &format!("at most {planned}"));
        }
        RollError::TooManyWays { .. } => {
            root.impossible(&f::WANT, "fewer kinds of wishes, or \"max\"", &message)
        }
        RollError::UnknownCut { .. } | RollError::NotSliced { .. } => {
            say(piece.as_ref(), &f::CUT, "a cut that is sliced")
        }
        RollError::Impossible { allowed, .. } => say(piece.as_ref(), &f::MASS, allowed),
    }
}
