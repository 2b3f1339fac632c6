//! The rows as a person reads them; with ranges given, those of the middle of each.

use super::Member;
use crate::Flags;
use crate::answer::say::headed;
use quantity::{Grain, Temperature, Units, group};
use std::fmt::Write;

pub(super) fn of(member: &Member, flags: &Flags) -> String {
    let units = if flags.us { Units::US } else { Units::METRIC };
    let degrees = |celsius: f64| units.temperature(Temperature::from_c(celsius), Grain::Reading);
    let mut text = match member.freezing_point_c {
        Some(point) => format!("Freezing starts at {}.\n\n", degrees(point)),
        None => "The properties are constant, or as measured: no freezing point.\n\n".to_owned(),
    };
    let mut rows = vec![
        ["at", "ice", "density", "specific heat", "conductivity", "across", "along", "enthalpy"]
            .map(str::to_owned)
            .to_vec(),
        ["", "kg/kg", "kg/m³", "J/(kg·K)", "W/(m·K)", "W/(m·K)", "W/(m·K)", "kJ/kg"]
            .map(str::to_owned)
            .to_vec(),
    ];
    for row in &member.rows {
        rows.push(vec![
            degrees(row.c),
            group(row.ice_share, 3),
            group(row.density_kg_m3, 0),
            group(row.specific_heat_j_kg_k, 0),
            group(row.conductivity_w_m_k, 3),
            group(row.conductivity_perpendicular_w_m_k, 3),
            group(row.conductivity_parallel_w_m_k, 3),
            group(row.enthalpy_j_kg / 1000.0, 1),
        ]);
    }
    let _ = write!(text, "{}", headed(&rows, 2));
    text
}
