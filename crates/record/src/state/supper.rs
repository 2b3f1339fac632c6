//! Suppers: planned, planned anew, eaten.

use super::check::{each_once, fits, never_gone};
use super::{Made, State};
use crate::{At, Entry, Refusal, SupperPlanned};
use uuid::Uuid;

/// A supper.
#[derive(Clone, Debug, PartialEq)]
pub struct Supper {
    /// The entry that planned it first.
    pub id: Uuid,
    /// That entry's number.
    pub number: u64,
    /// Its address: `2026-07-18`, a second one of that day `2026-07-18-2`.
    pub slug: String,
    /// The plan that holds.
    pub planned: SupperPlanned,
    /// When that plan was made.
    pub at: At,
    /// Every entry that planned it, in order of number, with its hour.
    pub revisions: Vec<(Uuid, At)>,
    /// Portions served at it, in order of entry.
    pub served: Vec<Uuid>,
}

impl State {
    pub(super) fn may_plan_supper(&self, entry: &Entry, body: &SupperPlanned) -> Result<(), Refusal> {
        let replaced = body.supper.map(|id| self.named_supper("body.supper", id)).transpose()?;
        let served_at = body.serve.at.on_its_clock().date();
        let apart = (served_at
            .to_datetime(jiff::civil::Time::midnight())
            .duration_since(body.day.to_datetime(jiff::civil::Time::midnight())))
        .as_hours()
        .abs();
        // A day of the kitchen ends at an hour of the night, so the plate may stand on the next date.
        let found = || format!("{}, served at {}", body.day, body.serve.at);
        fits(
            apart == 0 || apart == 24,
            "body.day",
            found,
            "the day of the hour it is served at, or the one before",
        )?;
        each_once("body.portions", &body.portions)?;
        for id in &body.portions {
            let portion = self.named_portion(entry, "body.portions", *id)?;
            if !replaced.is_some_and(|supper| supper.served.contains(id)) {
                never_gone(portion.gone())?;
            }
        }
        let seated: Vec<Uuid> = body.seat.iter().filter_map(|seat| seat.portion).collect();
        each_once("body.seat.portion", &seated)?;
        for id in &seated {
            let found = || format!("{id}, which is not in portions");
            fits(body.portions.contains(id), "body.seat.portion", found, "one of portions")?;
        }
        let names: Vec<&str> = body.equipment.iter().map(|item| item.name.as_str()).collect();
        let twice = names.iter().enumerate().find(|(place, name)| names[..*place].contains(name));
        let found = || format!("{} twice", twice.map_or("", |(_, name)| name));
        fits(twice.is_none(), "body.equipment.name", found, "each name once")
    }

    pub(super) fn plan_supper(&mut self, number: u64, entry: &Entry, body: &SupperPlanned) {
        let replaced = body.supper.and_then(|id| match self.made.get(id) {
            Some(Made::Supper(place)) => Some(place),
            _ => None,
        });
        let Some(place) = replaced else {
            let place = self.suppers.push(Supper {
                id: entry.id,
                number,
                slug: self.supper_slug(body, None),
                planned: body.clone(),
                at: entry.at,
                revisions: vec![(entry.id, entry.at)],
                served: Vec::new(),
            });
            self.made.insert(entry.id, Made::Supper(place));
            return;
        };
        self.made.insert(entry.id, Made::Supper(place));
        let moved =
            self.suppers.get(place).filter(|supper| supper.planned.day != body.day).map(|supper| supper.id);
        let slug = moved.map(|id| self.supper_slug(body, Some(id)));
        let Some(supper) = self.suppers.get_mut(place) else { return };
        supper.revisions.push((entry.id, entry.at));
        if entry.at >= supper.at {
            supper.planned = body.clone();
            supper.at = entry.at;
            supper.slug = slug.unwrap_or_else(|| supper.slug.clone());
        }
    }

    fn supper_slug(&self, body: &SupperPlanned, own: Option<Uuid>) -> String {
        let day = body.day.to_string();
        let free =
            |slug: &String| !self.suppers.iter().any(|other| other.slug == *slug && Some(other.id) != own);
        std::iter::once(day.clone())
            .chain((2..).map(|turn| format!("{day}-{turn}")))
            .find(free)
            .unwrap_or(day)
    }
}
