//! The knife plan's question, put together from what is written down of a piece.

use crate::board_mass;
use band::Value;
use quantity::{Length, Mass};
use record::{Aim, Count, Piece, State};
use roll::{
    End, Ends, FromEnd, Knife, Limits, OwnPiece, OwnPortion, Prior, RollError, Station, Target, Weighed,
};

use super::Asked;

/// A piece as the planner takes it.
pub(crate) struct Question {
    pub(crate) piece: roll::Piece,
    pub(crate) wants: Vec<roll::Want>,
    pub(crate) limits: Limits,
    pub(crate) weighed: Vec<Weighed>,
}

pub(crate) fn question(state: &State, piece: &Piece, asked: &Asked) -> Result<Question, RollError> {
    let prior = prior(state, piece)?;
    let measured = &piece.measured;
    let settings = state.settings();
    let end = |planned: Option<Length>, measured: Option<Length>| match planned.or(measured) {
        Some(slant) => End::squared(slant),
        None => End::default(),
    };
    let kerf = asked.knife.or_else(|| settings.number("board.knife_mm").map(Length::from_mm));
    Ok(Question {
        piece: roll::Piece {
            mass: mass(piece),
            length: measured.length.map_or(Value::Unknown, |length| Value::Known(length.m())),
            ends: Ends {
                first: end(asked.ends.as_ref().map(|ends| ends.first), measured.slant_first),
                last: end(asked.ends.as_ref().map(|ends| ends.last), measured.slant_last),
            },
            knife: Knife { kerf: kerf.unwrap_or_default(), ..Knife::default() },
            stations: measured.stations.iter().map(station).collect(),
            scale_division: settings.scale_division(),
            ..roll::Piece::with(prior)
        },
        wants: asked.want.iter().enumerate().map(|(place, want)| roll_want(place, want)).collect(),
        limits: limits(state, asked),
        weighed: weighed(state, piece, &asked.want),
    })
}

/// Limits of thickness: as asked, else as set, else what the planner takes.
pub(crate) fn limits(state: &State, asked: &Asked) -> Limits {
    let set = |key: &str, usual: Length| state.settings().number(key).map_or(usual, Length::from_mm);
    let usual = Limits::default();
    match &asked.limits {
        Some(limits) => Limits { thinnest: limits.thinnest, thickest: limits.thickest },
        None => Limits {
            thinnest: set("board.thinnest_mm", usual.thinnest),
            thickest: set("board.thickest_mm", usual.thickest),
        },
    }
}

/// Mass on the board in kg: weighed without its bag, else what the label leaves once the bag has lost its usual share.
fn mass(piece: &Piece) -> Value {
    let measured = &piece.measured;
    if measured.on_board.or(measured.bag_off).is_some() {
        return Value::Known(board_mass(piece).kg());
    }
    let label = piece.received.mass;
    if let Some(purge) = measured.purge.filter(|purge| *purge < label) {
        return Value::Known((label - purge).kg());
    }
    // Four times in five: the same part of the prior's spread that every band shows.
    const FOUR_IN_FIVE: f64 = 1.281_551_565_544_600_5;
    let (mean, sd) =
        catalogue::cut(&piece.received.cut).map_or((0.0, 0.0), |cut| (cut.purge.mean, cut.purge.sd));
    let left = |deviations: f64| label.kg() * (1.0 - (mean + deviations * sd).clamp(0.0, 0.5));
    Value::Range { low: left(FOUR_IN_FIVE), high: left(-FOUR_IN_FIVE) }
}

fn station(station: &record::Station) -> Station {
    Station { at: station.at, width: station.width, height: station.height }
}

pub(crate) fn roll_want(place: usize, want: &record::Want) -> roll::Want {
    let within_length = || want.tolerance.map(Length::from_mm);
    roll::Want {
        name: want.name.clone().unwrap_or_else(|| format!("want {}", place + 1)),
        count: match want.count {
            Some(Count::Max) => roll::Count::Max,
            Some(Count::Number(count)) => roll::Count::Exactly(count),
            None => roll::Count::Exactly(1),
        },
        target: match want.aim {
            Aim::Thickness(at) => Target::Thickness { at, within: within_length() },
            Aim::Portion(at) => Target::Mass { at, within: want.tolerance.map(Mass::from_g) },
            Aim::Roast(length) => Target::Roast { length, within: within_length() },
        },
        from: match want.from {
            None | Some(record::End::Any) => FromEnd::Any,
            Some(record::End::First) => FromEnd::First,
            Some(record::End::Last) => FromEnd::Last,
        },
        twins: want.twins == Some(true),
    }
}

/// Portions weighed so far, from the named end.
fn weighed(state: &State, piece: &Piece, wants: &[record::Want]) -> Vec<Weighed> {
    let want = |name: &Option<String>| {
        let name = name.as_deref()?;
        wants.iter().position(|want| want.name.as_deref() == Some(name))
    };
    state
        .portions_of(piece)
        .map(|portion| Weighed {
            mass: portion.weighed.mass,
            marks: portion.weighed.from.zip(portion.weighed.to),
            thickness: portion.weighed.thickness,
            want: want(&portion.weighed.want),
        })
        .collect()
}

/// What is known of such pieces before this one is weighed: the catalogue's word and the household's own pieces that were
/// cut before it, looked at from the end this one is measured from.
pub(crate) fn prior(state: &State, piece: &Piece) -> Result<Prior, RollError> {
    let cut = shaped_cut(piece);
    let before = |other: &&Piece| match first_cut(state, piece) {
        Some(cut) => first_cut(state, other).is_some_and(|other| other < cut),
        None => true,
    };
    let mut own: Vec<(&Piece, OwnPiece)> = state
        .pieces()
        .filter(|other| other.id != piece.id && shaped_cut(other) == cut)
        .filter(before)
        .filter_map(|other| own_piece(state, other).map(|own| (other, own)))
        .collect();
    own.sort_by_key(|(other, _)| first_cut(state, other));
    let pieces: Vec<OwnPiece> = own.into_iter().map(|(_, own)| own).collect();
    let learned = roll::learn(&cut, &pieces)?;
    Ok(if is_turned(piece) { learned.prior.turned() } else { learned.prior })
}

/// The cut whose shape a piece has: a roll without its lip is another one.
pub(crate) fn shaped_cut(piece: &Piece) -> String {
    let cut = &piece.received.cut;
    let off = format!("{cut}-lip-off");
    if piece.received.lip == Some(record::Lip::Off) && catalogue::profile(&off).is_some() {
        off
    } else {
        cut.clone()
    }
}

/// Whether lengths are measured from the catalogue's last end.
pub(crate) fn is_turned(piece: &Piece) -> bool {
    let Some(named) = piece.measured.from_end.as_deref() else { return false };
    let Some(profile) = catalogue::profile(&piece.received.cut) else { return false };
    super::end_name(&profile.last_end).eq_ignore_ascii_case(named)
}

fn first_cut(state: &State, piece: &Piece) -> Option<jiff::Timestamp> {
    state.portions_of(piece).map(|portion| portion.at.timestamp()).min()
}

/// What a cut piece teaches; nothing where no portion has marks.
fn own_piece(state: &State, piece: &Piece) -> Option<OwnPiece> {
    let portions: Vec<OwnPortion> = state
        .portions_of(piece)
        .filter_map(|portion| {
            let (from, to) = portion.weighed.from.zip(portion.weighed.to)?;
            Some(OwnPortion { from, to, mass: portion.weighed.mass, thickness: portion.weighed.thickness })
        })
        .collect();
    let squared = |end: record::PartName| {
        let mass: Mass =
            state.parts_of(piece).filter(|part| part.weighed.part == end).map(|part| part.weighed.mass).sum();
        (mass.g() > 0.0).then_some(mass)
    };
    let measured = &piece.measured;
    (!portions.is_empty()).then(|| OwnPiece {
        mass: measured.on_board.or(measured.bag_off),
        length: measured.length,
        slants: [measured.slant_first, measured.slant_last],
        squared_off: [squared(record::PartName::EndsFirst), squared(record::PartName::EndsLast)],
        stations: measured.stations.iter().map(station).collect(),
        portions,
        marking: roll::Marking::FreshFace,
        turned: is_turned(piece),
        scale_division: Some(state.settings().scale_division()),
    })
}
