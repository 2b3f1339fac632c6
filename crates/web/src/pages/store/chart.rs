//! The official chart of keeping, laid on a pack's own days, in words.

use catalogue::{Kept, keeps};
use season::{Chart, Lain};

use crate::house::Visit;

/// The rule, who says so, and what it means for this pack.
pub(crate) struct Words {
    pub(crate) rule: String,
    pub(crate) authority: String,
    pub(crate) here: String,
}

/// The rule of a pack and what it means here: two sentences that are never mixed.
pub(crate) fn words(lain: &Lain<'_>, visit: &Visit) -> Words {
    let chart = &lain.chart;
    Words { rule: rule(chart), authority: authority(chart), here: here(lain, visit) }
}

/// The row as a sentence.
pub(super) fn rule(chart: &Chart) -> String {
    let steaks_and_roasts = keeps(Kept::Steaks).freezer_months == keeps(Kept::Roasts).freezer_months
        && keeps(Kept::Steaks).fridge_days == keeps(Kept::Roasts).fridge_days;
    let what = match chart.row.what {
        Kept::Steaks | Kept::Roasts if steaks_and_roasts => "Raw steaks and roasts",
        Kept::Steaks => "Raw steaks",
        Kept::Roasts => "Raw roasts",
        Kept::Mince => "Minced meat",
    };
    if chart.frozen {
        let (from, to) = chart.row.freezer_months;
        format!(
            "{what} keep {from} to {to} months frozen; this is about eating quality, frozen food stays safe."
        )
        .replace("Minced meat keep", "Minced meat keeps")
    } else {
        let (from, to) = chart.row.fridge_days;
        format!("{what} keep {from} to {to} days in the fridge.")
            .replace("Minced meat keep", "Minced meat keeps")
    }
}

pub(super) fn authority(chart: &Chart) -> String {
    format!("{}, {}", chart.row.authority, chart.row.which)
}

fn here(lain: &Lain<'_>, visit: &Visit) -> String {
    let chart = &lain.chart;
    let day = |date: jiff::civil::Date| day_words(date, visit);
    let today = visit.now().date();
    let since = day(chart.since);
    let (from, until) = (day(chart.from), day(chart.until));
    let start =
        if chart.frozen { format!("Frozen since {since}") } else { format!("Cut {since}, not frozen") };
    if today > chart.until {
        format!("{start}: that span ended {until}.")
    } else if today >= chart.from {
        format!("{start}: it is inside that span, which began {from} and ends {until}.")
    } else {
        format!("{start}: that span runs from {from} to {until}.")
    }
}

/// `5 Jul`, with its year where it is another one.
pub(super) fn day_words(date: jiff::civil::Date, visit: &Visit) -> String {
    match date.at(12, 0, 0, 0).to_zoned_datetime(visit.now().time_zone().clone()) {
        Ok(day) => visit.moments.day(&day),
        Err(_) => date.to_string(),
    }
}
