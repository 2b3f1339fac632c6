//! One supper in words.

use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::Supper;
use season::{NoSupperPlan, SupperPlan, supper_plan, supper_served, supper_steps, thaw_plan};

use super::beside::{Beside, beside};
use super::came::{Came, came};
use super::chain::{Chain, chain};
use super::who::{Who, who};
use crate::house::Visit;
use crate::pages::shared::portion_thread_of;
use crate::pages::table::hours::{day_of, past, seen_from};
use crate::parts::Thread;
use crate::words::{chance, counted, number_word, sentence_case};

/// A supper as it is shown.
pub(super) struct View {
    pub(super) title: String,
    pub(super) heading: String,
    /// Where its forms go.
    pub(super) to: String,
    pub(super) answer: Markup,
    pub(super) said: Vec<Markup>,
    pub(super) thread: Option<Thread>,
    pub(super) chain: Option<Chain>,
    pub(super) who: Option<Who>,
    pub(super) beside: Option<Beside>,
    /// What was done so far, by the hour.
    pub(super) steps: Option<Markup>,
    /// Where the ways of its first plate stand side by side, until anything is in.
    pub(super) ways: Option<String>,
    /// What it says where its thaw is not over.
    pub(super) thaw: bool,
    /// The form of what came of it, and whether it stands first.
    pub(super) came: Came,
    pub(super) is_over: bool,
    pub(super) has_seats: bool,
}

pub(super) fn view(visit: &Visit, supper: &Supper) -> View {
    let plan = supper_plan(&visit.state, &visit.plans, supper, visit.now());
    let serve = visit.zoned(supper.planned.serve.at);
    let served = supper_served(&visit.state, supper);
    let steps = supper_steps(&visit.state, &visit.plans, supper, visit.now());
    let is_over = serve <= *visit.now();
    let known = plan.as_ref().ok();
    let day = day_of(visit, &serve);
    View {
        heading: format!("{day} supper{}", eaters(supper)),
        title: format!("{day} supper"),
        to: format!("/table/{}", supper.slug),
        answer: match (&plan, served.eaten + served.spare + served.discarded) {
            (_, 1..) => super::came::answer(&served),
            (Ok(plan), _) => answer(visit, plan),
            (Err(why), _) => html! { (no_plan(why)) },
        },
        said: known.map(|plan| said(visit, plan)).unwrap_or_default(),
        thread: thread(visit, supper),
        chain: known.filter(|_| !is_over).map(|plan| chain(visit, plan)),
        who: known.map(|plan| who(visit, plan)),
        beside: known.map(|plan| beside(visit, plan)),
        steps: (!is_over && steps.iter().any(|step| step.done)).then(|| past(visit, &steps)),
        ways: known.filter(|plan| !plan.has_begun() && !is_over).and_then(|plan| ways(supper, plan)),
        thaw: known.is_none_or(|plan| !plan.has_begun()) && !is_over,
        came: came(visit, &served),
        is_over,
        has_seats: !supper.planned.seat.is_empty(),
    }
}

fn ways(supper: &Supper, plan: &SupperPlan<'_>) -> Option<String> {
    let portion = plan.portion(plan.plan.plates.first()?.portion);
    Some(format!("/table/{}/ways/{}-{}", supper.slug, portion.word.slug(), portion.n))
}

/// `, nine at table`
pub(crate) fn eaters(supper: &Supper) -> String {
    match supper.planned.seat.len() {
        0 => String::new(),
        seats => format!(", {} at table", number_word(seats)),
    }
}

fn answer(visit: &Visit, plan: &SupperPlan<'_>) -> Markup {
    let moments = seen_from(visit, &plan.serve);
    let hour = moments.time(&plan.serve);
    let left = plan.chance_now();
    if plan.is_past() {
        return html! { (sentence_case(&all(plan))) " were to be on the plate at " strong { (hour) } ". Write down what came of it." };
    }
    if let Some(earliest) = plan.earliest() {
        return html! {
            strong { (hour) } " still holds " span class="n" { (chance(left)) } "; with the rest in now, "
            strong { (moments.time(&earliest)) } " holds " span class="n" { (wished(plan)) } "."
        };
    }
    let lead = html! {
        (sentence_case(&all(plan))) " on the plate at " strong { (hour) } ", " span class="n" { (chance(left)) } "."
    };
    html! {
        (lead)
        @if plan.has_begun() {
            @if let Some(next) = next_in(plan) { " Next in at " strong { (moments.time(&next)) } "." }
        } @else {
            " " (sentence_case(&plan.asked.low)) " on at " strong { (moments.time(&plan.low_on())) }
            ", first in at " strong { (moments.time(&plan.first_in())) } "."
        }
    }
}

fn next_in(plan: &SupperPlan<'_>) -> Option<ZonedDateTime> {
    plan.plan.rows.iter().find(|row| !row.is_in).map(|row| plan.at(row.in_before))
}

/// `all nine`, `the one portion`
fn all(plan: &SupperPlan<'_>) -> String {
    match plan.plan.plates.len() {
        1 => "one plate".to_owned(),
        2 => "both".to_owned(),
        plates => format!("all {}", number_word(plates)),
    }
}

fn wished(plan: &SupperPlan<'_>) -> String {
    chance(plan.plan.wished)
}

fn said(visit: &Visit, plan: &SupperPlan<'_>) -> Vec<Markup> {
    if plan.is_past() {
        return Vec::new();
    }
    let mut said: Vec<Markup> = still_hard(visit, plan).into_iter().collect();
    if plan.plan.never() > 1.0 - plan.plan.wished {
        said.push(html! {
            "The wish is " span class="n" { (wished(plan)) } ": some evenings this low place never brings them there. Set it higher."
        });
    }
    if plan.asked.wishes.iter().any(|wish| wish.is_assumed) {
        let count = plan.asked.wishes.iter().filter(|wish| wish.is_assumed).count();
        let were = if count == 1 { "is" } else { "are" };
        said.push(html! {
            (sentence_case(&counted(count, "wish", "wishes"))) " not asked yet " (were) " reckoned as " (season::USUAL_WISH) "."
        });
    }
    let worst = (0..plan.plan.rows.len())
        .filter(|row| !plan.plan.rows[*row].is_in)
        .map(|row| plan.chance_if_late(row))
        .fold(f64::INFINITY, f64::min);
    if worst.is_finite() && plan.earliest().is_none() {
        let others = if plan.plan.rows.len() > 1 { "Any one of them" } else { "It" };
        said.push(html! {
            (others) " in ten minutes late still leaves " span class="n" { (chance(worst)) } "."
        });
    }
    said
}

/// The chance counts on meat that is soft: said where the thaw does not promise that.
fn still_hard(visit: &Visit, plan: &SupperPlan<'_>) -> Option<Markup> {
    let thaw = thaw_plan(&visit.state, &visit.plans, plan.supper, visit.now()).ok()?;
    let hour = seen_from(visit, &plan.serve).time(&thaw.soft_by);
    let soft = match (&thaw.waiting, thaw.chance()) {
        (Some(waiting), _) if waiting.out_by.as_ref().is_some_and(|by| by > visit.now()) => {
            let by = seen_from(visit, &plan.serve).time(waiting.out_by.as_ref()?);
            return Some(html! { "That counts on packs out of the freezer by " (by) "." });
        }
        (Some(waiting), _) => waiting.chance_now,
        (None, Some(soft)) if soft < plan.plan.wished => soft,
        (None, _) => return None,
    };
    Some(html! {
        "That counts on meat soft by " (hour) ", which is sure only " span class="n" { (chance(soft)) } "."
    })
}

fn no_plan(why: &NoSupperPlan) -> String {
    let sentence = format!("{}.", sentence_case(&why.to_string()));
    match why {
        NoSupperPlan::Missing(season::Missing::Eaten) => sentence,
        NoSupperPlan::Missing(_) => format!("{sentence} Change the plan below, and the hours follow."),
        NoSupperPlan::Cannot(_) => sentence,
    }
}

/// The thread of the portion that leads: the first that is set aside.
fn thread(visit: &Visit, supper: &Supper) -> Option<Thread> {
    let portion = supper.planned.portions.first().and_then(|id| visit.state.portion(*id))?;
    let piece = visit.state.piece(portion.piece)?;
    Some(portion_thread_of(visit, piece, portion))
}
