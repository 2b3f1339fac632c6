//! The plan as a person reads it.

use crate::Flags;
use crate::answer::say::table;
use quantity::{Grain, Length, Mass, Units};
use roll::{Conflict, GivenUp, KnifePlan, Missed, Portion};
use std::fmt::Write;

pub(super) fn of(plan: &KnifePlan, names: &[&str], flags: &Flags) -> String {
    let units = if flags.us { Units::US } else { Units::METRIC };
    let mut text = first(plan, &units);
    if plan.not_a_roll {
        text.push_str(
            "This cut is no single run of muscle: bands are wide, and planning by muscle is better.\n",
        );
    }
    let _ = write!(text, "\n{}\n", table(&rows(plan, names, &units, flags)));
    text.push_str(&rest(plan, names, &units));
    text
}

/// "14 portions of 380 g, 28 to 32 mm thick; 312 g squared off, 0 g left over."
fn first(plan: &KnifePlan, units: &Units) -> String {
    let count = plan.portions.len();
    let mean = |of: &dyn Fn(&Portion) -> f64| plan.portions.iter().map(of).sum::<f64>() / count.max(1) as f64;
    let ends = |of: &dyn Fn(&Portion) -> f64| {
        let all = plan.portions.iter().map(of);
        (all.clone().fold(f64::INFINITY, f64::min), all.fold(f64::NEG_INFINITY, f64::max))
    };
    let mut text = if count == 0 {
        "Nothing that is wanted can be cut from this piece".to_owned()
    } else {
        let (thin, thick) = ends(&|portion| portion.thickness.mm());
        let mass = units.mass(Mass::from_kg(mean(&|portion| portion.mass.median)), Grain::Forecast);
        let plural = if count == 1 { "portion" } else { "portions" };
        let of = if count == 1 { "of" } else { "of about" };
        format!(
            "{count} {plural} {of} {mass}, {} to {} thick",
            units.length(Length::from_mm(thin)),
            units.length(Length::from_mm(thick))
        )
    };
    let grams = |mass: Mass| units.mass(mass, Grain::Forecast);
    let _ = writeln!(text, "; {} squared off, {} left over.", grams(plan.squared_off), grams(plan.left_over));
    if let Some(next) = plan.next {
        let _ = writeln!(
            text,
            "Next mark: {} from the fresh face, {} from the end.",
            units.length(next.from_fresh_face),
            units.length(next.mark)
        );
    }
    text
}

fn rows(plan: &KnifePlan, names: &[&str], units: &Units, flags: &Flags) -> Vec<Vec<String>> {
    let cap = plan.portions.iter().any(|portion| portion.cap_share.is_some());
    let mut heading = vec!["portion", "from", "to", "thick", "weight", "for"];
    if cap {
        heading.push("cap");
    }
    let mut rows = vec![heading.into_iter().map(str::to_owned).collect::<Vec<_>>()];
    for portion in &plan.portions {
        let mut row = vec![
            portion.number.to_string(),
            units.length(portion.from),
            units.length(portion.to),
            units.length(portion.thickness),
            weight(portion, units, flags),
            portion.want.and_then(|want| names.get(want)).copied().unwrap_or("").to_owned(),
        ];
        if cap {
            row.push(portion.cap_share.map_or_else(String::new, |share| format!("{:.0} %", share * 100.0)));
        }
        rows.push(row);
    }
    rows
}

fn weight(portion: &Portion, units: &Units, flags: &Flags) -> String {
    let mass = |kg: f64, grain| units.mass(Mass::from_kg(kg), grain);
    if portion.weighed {
        return mass(portion.mass.median, Grain::Reading);
    }
    if flags.exact {
        return mass(portion.mass.median, Grain::Forecast);
    }
    format!(
        "{} ({} to {})",
        mass(portion.mass.median, Grain::Forecast),
        mass(portion.mass.low, Grain::Forecast),
        mass(portion.mass.high, Grain::Forecast)
    )
}

fn rest(plan: &KnifePlan, names: &[&str], units: &Units) -> String {
    let mut text = String::new();
    for given in &plan.given_up {
        let _ = writeln!(text, "Given up: {}.", given_up(given, names, units));
    }
    for conflict in &plan.conflicts {
        let _ = writeln!(text, "{}", conflict_words(conflict, names, units));
    }
    for input in plan.assumed.iter().filter(|input| !input.spread.is_exact()) {
        let size = |value: f64| match input.name.as_str() {
            "mass" => units.large(Mass::from_kg(value)),
            shares if shares.starts_with("section") || shares.starts_with("share") => {
                format!("{:.0} %", value * 100.0)
            }
            _ => units.length(Length::from_m(value)),
        };
        let (low, high) = (size(input.spread.quantile(0.1)), size(input.spread.quantile(0.9)));
        let _ = writeln!(text, "Assumed: {} between {low} and {high} four times in five.", input.name);
    }
    if let Some(first) = plan.narrow.first() {
        let _ = writeln!(
            text,
            "What would narrow the next portion: {}. It makes {:.0} % of the width.",
            first.input,
            first.share * 100.0
        );
    }
    text
}

fn given_up(given: &GivenUp, names: &[&str], units: &Units) -> String {
    let name = names.get(given.want).copied().unwrap_or("");
    match given.missed {
        Missed::Portions(1) => format!("one portion of {name} is not there"),
        Missed::Portions(count) => format!("{count} portions of {name} are not there"),
        Missed::Thickness { portion, by } => {
            let way = if by.mm() < 0.0 { "thinner" } else { "thicker" };
            let by = units.length(Length::from_mm(by.mm().abs()));
            format!("portion {portion} of {name} is {by} {way} than wished")
        }
        Missed::Mass { portion, by } => {
            let way = if by.g() < 0.0 { "lighter" } else { "heavier" };
            let by = units.mass(Mass::from_g(by.g().abs()), Grain::Forecast);
            format!("portion {portion} of {name} is {by} {way} than wished")
        }
    }
}

fn conflict_words(conflict: &Conflict, names: &[&str], units: &Units) -> String {
    let name = names.get(conflict.want).copied().unwrap_or("");
    let mass = |mass| units.mass(mass, Grain::Forecast);
    let (thin, thick) = conflict.thickness_runs;
    let (light, heavy) = conflict.weight_runs;
    format!(
        "{name}: keep the weight at {} and thickness runs from {} to {}; keep the thickness at {} and weight runs from {} to {}.",
        mass(conflict.weight),
        units.length(thin),
        units.length(thick),
        units.length(conflict.thickness),
        mass(light),
        mass(heavy)
    )
}
