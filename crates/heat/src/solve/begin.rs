//! Before the first step: what is asked is checked, and the grid is filled.

use super::face::Skin;
use super::grid::End;
use super::march::{Piece, face_at};
use super::state::State;
use crate::{Evaporation, Face, HeatError, Settings, Shape, Stage, Start, Until};

pub(super) fn check(
    shape: &Shape,
    start: &Start,
    stages: &[Stage],
    settings: &Settings,
) -> Result<(), HeatError> {
    shape.check()?;
    settings.check()?;
    if stages.is_empty() {
        return Err(HeatError::NoStage);
    }
    for stage in stages {
        stage.check()?;
        if let Until::Kill { organism, .. } = stage.until {
            let known = settings.organisms.len();
            if organism >= known {
                let kind = "organism";
                let (name, known) = (organism.to_string(), format!("{known} in the settings"));
                return Err(HeatError::Unknown { kind, name, known });
            }
        }
    }
    if let Start::Profile(rows) = start {
        if rows.is_empty() {
            return Err(HeatError::Rows {
                what: "start profile".to_owned(),
                found: 0,
                needed: "at least one",
            });
        }
        if let Some(row) = (1..rows.len()).find(|&i| rows[i].0 <= rows[i - 1].0) {
            return Err(HeatError::NotRising { what: "start profile".to_owned(), row: row + 1 });
        }
    }
    Ok(())
}

pub(super) fn at_start(piece: &Piece, start: &Start, stages: &[Stage]) -> Result<State, HeatError> {
    let axis = &piece.grid.axes[0];
    let line = axis.depth.len();
    let (low_c, high_c) = piece.meat.fitted_c();
    let mut u = Vec::with_capacity(piece.volumes.len());
    let mut last = (f64::NAN, f64::NAN);
    for node in 0..piece.volumes.len() {
        let t = match start {
            Start::Even(t) => t.c(),
            Start::Profile(rows) => profile(rows, axis.depth[node % line]),
        };
        if !(t >= low_c && t <= high_c) {
            let (stage, property) = ("start".to_owned(), "enthalpy");
            return Err(HeatError::OutsideFit { stage, property, found_c: t, low_c, high_c });
        }
        if t != last.0 {
            last = (t, piece.meat.table().u_at_temperature(t));
        }
        u.push(last.1);
    }
    let skin = |end| Skin { drawn: drawn_before(stages, end), plate_c: f64::NAN, ..Skin::default() };
    let skins = piece.grid.rims.iter().flat_map(|rim| vec![skin(rim.end); rim.nodes.len()]).collect();
    Ok(State::new(u, skins))
}

fn profile(rows: &[(quantity::Length, quantity::Temperature)], depth: f64) -> f64 {
    let i = rows.partition_point(|(at, _)| at.m() <= depth);
    match (i.checked_sub(1).map(|i| rows[i]), rows.get(i)) {
        (Some((a, ta)), Some((b, tb))) => ta.c() + (tb.c() - ta.c()) * (depth - a.m()) / (b.m() - a.m()),
        (Some((_, t)), None) => t.c(),
        (None, Some((_, t))) => t.c(),
        (None, None) => f64::NAN,
    }
}

/// Water drawn before the first stage in which this face dries.
fn drawn_before(stages: &[Stage], end: End) -> f64 {
    stages
        .iter()
        .find_map(|stage| match face_at(&stage.faces, end) {
            Some(Face::Open(around)) => match around.evaporation {
                Evaporation::Drying(_, supply) => Some(supply.drawn_kg_m2),
                _ => None,
            },
            _ => None,
        })
        .unwrap_or(0.0)
}
