//! What stands beside the chain: what would narrow it, guests who come late, the rule where pink is served.

use band::Band;
use catalogue::official_rule;
use maud::{Markup, html};
use quantity::{Grain, Temperature};
use season::{SupperPlan, portions_words};

use super::chain::name;
use crate::house::Visit;
use crate::pages::table::hours::seen_from;
use crate::pages::table::law::{Law, law_of, region};
use crate::words::{Shown, and_list, sentence_case};

/// Notes in the margin.
pub(super) struct Beside {
    pub(super) narrow: Option<Markup>,
    /// The low place's name, where a reading of it would narrow.
    pub(super) read: Option<String>,
    pub(super) late: Vec<String>,
    pub(super) pink: Option<(Law, Markup)>,
    pub(super) waiting: Option<(Law, String)>,
}

pub(super) fn beside(visit: &Visit, plan: &SupperPlan<'_>) -> Beside {
    let first = plan.plan.narrow.first();
    let is_dial = first.is_some_and(|narrow| narrow.input == "low: temperature");
    Beside {
        narrow: narrow(plan),
        read: (is_dial && !plan.is_past()).then(|| plan.asked.low.clone()),
        late: late(visit, plan),
        pink: pink(visit, plan),
        waiting: long_wait(visit, plan),
    }
}

/// Minutes between pull and plate from which on the rule on leaving out is shown beside them.
const LONG_WAIT_MIN: f64 = 75.0;

/// The rule on leaving out, and how long a portion lies warm here: from the pull to the plate.
fn long_wait(visit: &Visit, plan: &SupperPlan<'_>) -> Option<(Law, String)> {
    let longest = plan.plan.longest_hold.high + plan.plan.first_sear();
    if longest <= LONG_WAIT_MIN || plan.is_past() {
        return None;
    }
    let here = if longest < RULE_MIN {
        format!(
            "From its pull to the plate the first one out lies {longest:.0}\u{202f}min at most, nine times in ten. What waits longer goes back into the fridge."
        )
    } else {
        format!(
            "From its pull to the plate the first one out may lie {longest:.0}\u{202f}min. Put it in a hot box, or let it in later and take the chance."
        )
    };
    Some((law_of(visit, "leaving-out")?, here))
}

/// Minutes of the rule.
const RULE_MIN: f64 = 120.0;

/// The act, then the share; where nothing could be read tonight, that.
fn narrow(plan: &SupperPlan<'_>) -> Option<Markup> {
    let first = plan.plan.narrow.first()?;
    let share = html! { span class="n" { (format!("{:.0}\u{202f}%", first.share * 100.0)) } };
    let low = &plan.asked.low;
    Some(match first.input.as_str() {
        "low: temperature" => html! {
            "Lay a probe on the empty rack of the " (low) " for ten minutes. Its true degree makes " (share) " of the width."
        },
        "start" => html! {
            "Read the fridge they lie in. Where they start makes " (share) " of the width."
        },
        input => match input.strip_prefix("thickness of ") {
            Some(portion) => {
                html! { "Lay a ruler on " (portion) ". Its thickness makes " (share) " of the width." }
            }
            None => html! {
                "How this " (low) " carries heat and water makes " (share) " of the width. Nothing you could read tonight says it; go by the core."
            },
        },
    })
}

fn late(visit: &Visit, plan: &SupperPlan<'_>) -> Vec<String> {
    if plan.is_past() {
        return Vec::new();
    }
    let mut said = Vec::new();
    said.push(if plan.has_begun() {
        let waiting = plan.plan.rows.iter().filter(|row| !row.is_in).count();
        let rest = if waiting > 0 { " What is not in yet moves with the hour." } else { "" };
        format!("What is in is pulled at its number all the same, and waits.{rest}")
    } else {
        format!(
            "Until {} nothing is in, and every start moves with the hour.",
            seen_from(visit, &plan.serve).time(&plan.first_in())
        )
    });
    let hold = plan.plan.longest_hold;
    if hold.high >= 10.0 {
        let minutes = Shown::stepped(Band { low: hold.low.max(0.0), ..hold }, 1.0, 0, "min");
        said.push(format!("As planned, the first one out waits {} before its sear.", minutes.between()));
    }
    said
}

/// The official minimum, and which plates stay below it.
fn pink(visit: &Visit, plan: &SupperPlan<'_>) -> Option<(Law, Markup)> {
    let rule = official_rule("consumer-minimum-whole", region(visit))?;
    let limit = rule.limit()?;
    let rows = &plan.plan.rows;
    let below: Vec<&season::DinnerRow> = rows.iter().filter(|row| row.peak.low < limit.c()).collect();
    if below.is_empty() {
        return None;
    }
    let above: Vec<&season::DinnerRow> = rows.iter().filter(|row| row.peak.low >= limit.c()).collect();
    let names = |rows: &[&season::DinnerRow]| {
        and_list(
            &rows
                .iter()
                .map(|row| format!("{} ({})", name(visit, plan, row), portions_words(&plan.portions_of(row))))
                .collect::<Vec<_>>(),
        )
    };
    let who = if above.is_empty() {
        "All of them stay below it.".to_owned()
    } else {
        format!("{} may stay below it.", sentence_case(&names(&below)))
    };
    let degree = visit.units.temperature(Temperature::from_c(limit.c()), Grain::Reading);
    let here = html! {
        b { (who) } " That is a cook’s choice for whole steaks, never pierced, never minced. For anyone pregnant, very young, old or ill: cook theirs to "
        span class="n" { (degree) } "."
    };
    Some((law_of(visit, "consumer-minimum-whole")?, here))
}
