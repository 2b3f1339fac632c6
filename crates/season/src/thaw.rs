//! Thaw and salt for a supper: out when, soft when, salted when and with how much.

use crate::supper::{last_read, supper_plan, thickness_m};
use crate::{Plans, SupperPlan};
use band::{Band, Value};
use cold::{Thawed, Way};
use heat::HeatError;
use jiff::{SignedDuration, ZonedDateTime};
use quantity::{Mass, Temperature};
use record::{At, Contents, Method, Out, Pack, PlaceKind, Portion, State, Supper};
use std::sync::Arc;

/// The thaw of a supper, pack by pack.
#[derive(Clone, Debug)]
pub struct ThawPlan<'s> {
    /// The supper.
    pub supper: &'s Supper,
    /// The hour all eat.
    pub serve: ZonedDateTime,
    /// The supper's own plan, where there is one.
    pub plan: Option<SupperPlan<'s>>,
    /// All shall be soft by then.
    pub soft_by: ZonedDateTime,
    /// Packs still in the store.
    pub frozen: Vec<&'s Pack>,
    /// What the slowest of those needs, in the fridge; nothing where none is frozen.
    pub waiting: Option<Waiting>,
    /// Packs on their way.
    pub thawing: Vec<Thawing<'s>>,
    /// Packs that were opened since they came out: what was salted was soft to whoever salted it.
    pub opened: Vec<Opened<'s>>,
    /// Portions in no pack: nobody knows how cold they are.
    pub loose: Vec<&'s Portion>,
    /// The fridge they thaw in, by name.
    pub fridge: String,
    /// What it was last read at, within a day.
    pub fridge_read: Option<Temperature>,
    /// Salt, given or planned.
    pub salt: Salt<'s>,
}

/// Packs that have to come out.
#[derive(Clone, Debug)]
pub struct Waiting {
    /// Hours from out to soft, of the slowest pack.
    pub thawed: Arc<Thawed>,
    /// The latest hour out that has the wished chance; nothing where no hour has it.
    pub out_by: Option<ZonedDateTime>,
    /// Seconds from now to soft, if all come out now.
    pub if_now: Band,
    /// The chance that all are then soft in time.
    pub chance_now: f64,
    /// What is left where the fridge is too slow: the same packs in cold water.
    pub rescue: Option<Rescue>,
}

/// Cold water instead of the fridge.
#[derive(Clone, Debug)]
pub struct Rescue {
    /// The latest hour into the water that has the wished chance: then straight to the heat.
    pub start_by: Option<ZonedDateTime>,
    /// Seconds from now to soft, if they go into the water now.
    pub if_now: Band,
    /// The chance that they are soft when the first goes on the heat, if they go into the water now.
    pub chance_now: f64,
}

/// A pack on its way.
#[derive(Clone, Debug)]
pub struct Thawing<'s> {
    /// The pack.
    pub pack: &'s Pack,
    /// Since when, and where.
    pub out: &'s Out,
    /// Seconds from now to soft; past ones are below 0.
    pub soft: Band,
    /// The chance that it is soft now.
    pub soft_now: f64,
    /// The chance that it is soft in time.
    pub chance: f64,
    /// Whether the degree of its place was read.
    pub is_read: bool,
    /// Its hours, from out to soft.
    pub thawed: Arc<Thawed>,
}

/// A pack whose portions were salted since it came out.
#[derive(Clone, Debug)]
pub struct Opened<'s> {
    /// The pack.
    pub pack: &'s Pack,
    /// Since when, and where.
    pub out: &'s Out,
    /// When its first portion was salted.
    pub at: At,
}

/// Salt of a supper.
#[derive(Clone, Debug)]
pub struct Salt<'s> {
    /// The kitchen's own dose, % of the meat, where it has one.
    pub dose_percent: Option<f64>,
    /// Portions not yet salted.
    pub waiting: Vec<&'s Portion>,
    /// Portions salted, with when and their own grams.
    pub given: Vec<(&'s Portion, At, Option<Mass>)>,
}

/// Hours between soft and the heat: what is only just soft is colder in its middle than the fridge, and the plan starts from
/// the fridge's degree.
const SETTLES_H: f64 = 2.0;
/// Hours before the plate at which the first goes on the heat, where no plan says.
const USUAL_HEAT_H: f64 = 2.0;
/// Hours a reading of the fridge stands.
const DAY_H: f64 = 24.0;

/// The thaw and salt of a supper as the record stands at `now`.
///
/// # Errors
/// [`HeatError`] where the catalogue does not know the cut's composition.
pub fn thaw_plan<'s>(
    state: &'s State,
    plans: &Plans,
    supper: &'s Supper,
    now: &ZonedDateTime,
) -> Result<ThawPlan<'s>, HeatError> {
    let serve = supper.planned.serve.at.in_zone(now.time_zone());
    let plan = supper_plan(state, plans, supper, now).ok();
    let first_in = plan.as_ref().map_or_else(|| earlier(&serve, USUAL_HEAT_H), SupperPlan::first_in);
    let soft_by = on_five(earlier(&first_in, SETTLES_H));
    let fridge = fridge(state);
    let fridge_read = last_read(state, &fridge, now, DAY_H);
    let (packs, loose) = set_aside(state, supper);
    let wished = supper.planned.chance.or_else(|| state.settings().chance()).unwrap_or(0.9);
    let hours = Hours { state, plans, now, soft_by: &soft_by, first_in: &first_in, wished };
    let frozen: Vec<&Pack> = packs.iter().copied().filter(|pack| pack.out.is_none()).collect();
    let out = packs.iter().filter_map(|pack| Some((*pack, pack.out.as_ref()?)));
    let opened: Vec<Opened<'_>> = out
        .clone()
        .filter_map(|(pack, out)| Some(Opened { pack, out, at: opened_at(state, pack, out)? }))
        .collect();
    let thawing = out
        .filter(|(pack, _)| !opened.iter().any(|other| other.pack.id == pack.id))
        .map(|(pack, out)| hours.thawing(pack, out))
        .collect::<Result<_, _>>()?;
    Ok(ThawPlan {
        waiting: hours.waiting(&frozen, degree(fridge_read))?,
        salt: salt(state, supper),
        supper,
        serve,
        plan,
        frozen,
        thawing,
        opened,
        loose,
        fridge,
        fridge_read,
        soft_by,
    })
}

impl ThawPlan<'_> {
    /// Whether every pack is out.
    #[must_use]
    pub fn is_out(&self) -> bool {
        self.frozen.is_empty()
    }

    /// The chance that all that is out is soft in time: of the slowest, for they share a fridge.
    #[must_use]
    pub fn chance(&self) -> Option<f64> {
        self.thawing.iter().map(|pack| pack.chance).reduce(f64::min)
    }

    /// The slowest of those on their way.
    #[must_use]
    pub fn slowest(&self) -> Option<&Thawing<'_>> {
        self.thawing.iter().max_by(|a, b| a.soft.high.total_cmp(&b.soft.high))
    }
}

/// What every pack's hours are reckoned against.
struct Hours<'a> {
    state: &'a State,
    plans: &'a Plans,
    now: &'a ZonedDateTime,
    soft_by: &'a ZonedDateTime,
    first_in: &'a ZonedDateTime,
    wished: f64,
}

impl Hours<'_> {
    fn waiting(&self, frozen: &[&Pack], fridge_c: Value) -> Result<Option<Waiting>, HeatError> {
        let Some(slowest) = self.slowest(frozen) else { return Ok(None) };
        let thawed = self.plans.thaw(&slowest, Way::Fridge, fridge_c)?;
        let left_h = hours_between(self.now, self.soft_by);
        let chance_now = thawed.chance_within(left_h);
        let rescue = if chance_now < self.wished { Some(self.rescue(&slowest)?) } else { None };
        Ok(Some(Waiting {
            out_by: latest(self.soft_by, thawed.needed(self.wished)),
            if_now: thawed.band().times(3600.0),
            chance_now,
            rescue,
            thawed,
        }))
    }

    fn rescue(&self, pack: &cold::Pack) -> Result<Rescue, HeatError> {
        let thawed = self.plans.thaw(pack, Way::ColdWater, Value::Unknown)?;
        Ok(Rescue {
            start_by: latest(self.first_in, thawed.needed(self.wished)),
            if_now: thawed.band().times(3600.0),
            chance_now: thawed.chance_within(hours_between(self.now, self.first_in)),
        })
    }

    fn thawing<'s>(&self, pack: &'s Pack, out: &'s Out) -> Result<Thawing<'s>, HeatError> {
        let read = out.temperature.or_else(|| last_read(self.state, &out.place, self.now, DAY_H));
        let thawed = self.plans.thaw(&self.asked(pack), way(out), degree(read))?;
        let since = out.at.in_zone(self.now.time_zone());
        let passed_s = hours_between(&since, self.now) * 3600.0;
        let band = thawed.band().times(3600.0);
        let from_now = |seconds: f64| seconds - passed_s;
        Ok(Thawing {
            pack,
            out,
            soft: Band { median: from_now(band.median), low: from_now(band.low), high: from_now(band.high) },
            soft_now: thawed.chance_within(hours_between(&since, self.now)),
            chance: thawed.chance_within(hours_between(&since, self.soft_by)),
            is_read: read.is_some(),
            thawed,
        })
    }

    /// The thickest of the packs, with the most in it: all of them are in time if it is.
    fn slowest(&self, packs: &[&Pack]) -> Option<cold::Pack> {
        let middle = |pack: &cold::Pack| match pack.thickness_m {
            Value::Known(m) => m,
            Value::Range { low, high } => f64::midpoint(low, high),
            Value::Unknown => f64::INFINITY,
        };
        let all = packs.iter().map(|pack| self.asked(pack));
        all.max_by(|a, b| middle(a).total_cmp(&middle(b)).then(a.side_by_side.cmp(&b.side_by_side)))
    }

    fn asked(&self, pack: &Pack) -> cold::Pack {
        cold_pack(self.state, pack)
    }
}

/// A pack of the record as the cold store asks about it: its thickest portion stands for all in it. Rounded to what the
/// hours can tell apart, so that packs that are alike are one question.
#[must_use]
pub fn cold_pack(state: &State, pack: &Pack) -> cold::Pack {
    let portions: Vec<&Portion> = state.portions_in(pack).collect();
    let upper = |value: Value| match value {
        Value::Known(m) => m,
        Value::Range { high, .. } => high,
        Value::Unknown => f64::INFINITY,
    };
    let thickest = portions
        .iter()
        .map(|portion| thickness_m(state, portion))
        .max_by(|a, b| upper(*a).total_cmp(&upper(*b)));
    let count = match &pack.sealed.contents {
        Contents::Portions(_) => portions.len().max(1),
        Contents::Part(_) => 1,
    };
    let cut = state.piece(pack.piece).map(|piece| piece.received.cut.clone()).unwrap_or_default();
    cold::Pack {
        cut,
        portion_kg: rounded(Value::Known(pack.mass.kg() / count as f64), 0.025),
        thickness_m: rounded(thickest.unwrap_or(Value::Unknown), 0.001),
        side_by_side: u32::try_from(count).unwrap_or(1),
        wrap: pack.sealed.wrap.word().to_owned(),
        start_c: Value::Unknown,
    }
}

/// To the nearest step, never to nothing: half a millimetre is 3 % of the hours, 12 g are 1 %.
fn rounded(value: Value, step: f64) -> Value {
    let round = |number: f64| (number / step).round().max(1.0) * step;
    match value {
        Value::Known(number) => Value::Known(round(number)),
        // A range is wide already: twice the step.
        Value::Range { low, high } => {
            Value::Range { low: 2.0 * round(low / 2.0), high: 2.0 * round(high / 2.0) }
        }
        Value::Unknown => Value::Unknown,
    }
}

fn way(out: &Out) -> Way {
    match out.method {
        Some(Method::ColdWater) => Way::ColdWater,
        Some(Method::WarmWater) => Way::WarmWater,
        Some(Method::Counter) => Way::Counter,
        Some(Method::Fridge | Method::FromFrozen) | None => Way::Fridge,
    }
}

/// The packs that hold a supper's portions, each once, and its portions in no pack; neither eaten nor on the heat yet.
fn set_aside<'s>(state: &'s State, supper: &Supper) -> (Vec<&'s Pack>, Vec<&'s Portion>) {
    let mut packs: Vec<&Pack> = Vec::new();
    let mut loose = Vec::new();
    for portion in supper.planned.portions.iter().filter_map(|id| state.portion(*id)) {
        if portion.gone().is_some() || !portion.on_heat.is_empty() || !portion.served.is_empty() {
            continue;
        }
        match portion.pack.and_then(|id| state.pack(id)) {
            Some(pack) if !packs.iter().any(|other| other.id == pack.id) => packs.push(pack),
            Some(_) => {}
            None => loose.push(portion),
        }
    }
    packs.sort_by_key(|pack| pack.number);
    (packs, loose)
}

/// When the first of its portions was salted after it came out.
fn opened_at(state: &State, pack: &Pack, out: &Out) -> Option<At> {
    let salted = state.portions_in(pack).flat_map(|portion| portion.salted.iter().map(|salt| salt.at));
    salted.filter(|at| *at >= out.at).min()
}

fn salt<'s>(state: &'s State, supper: &Supper) -> Salt<'s> {
    let portions: Vec<&Portion> = supper
        .planned
        .portions
        .iter()
        .filter_map(|id| state.portion(*id))
        .filter(|portion| portion.gone().is_none() && portion.served.is_empty())
        .collect();
    let given = portions.iter().filter_map(|portion| {
        let salting = portion.salted.last()?;
        Some((*portion, salting.at, salting.salt))
    });
    Salt {
        dose_percent: state.settings().number("salt.dose_percent"),
        given: given.collect(),
        waiting: portions.into_iter().filter(|portion| portion.salted.is_empty()).collect(),
    }
}

/// The fridge packs thaw in: the one the latest came out to, else the first the settings name.
fn fridge(state: &State) -> String {
    let is_fridge = |place: &str| state.settings().place_kind(place) == Some(PlaceKind::Fridge);
    let last = state.packs().rev().filter_map(|pack| pack.out.as_ref()).find(|out| is_fridge(&out.place));
    let settings = state.settings();
    let set = settings
        .names("place")
        .into_iter()
        .find(|key| is_fridge(key))
        .map(|key| settings.text(&format!("place.{key}.name")).unwrap_or(key).to_owned());
    last.map(|out| out.place.clone()).or(set).unwrap_or_else(|| "fridge".to_owned())
}

fn degree(read: Option<Temperature>) -> Value {
    read.map_or(Value::Unknown, |read| Value::Known(read.c()))
}

fn latest(by: &ZonedDateTime, hours: f64) -> Option<ZonedDateTime> {
    hours.is_finite().then(|| on_five(earlier(by, hours)))
}

/// The last whole five minutes: hours of a thaw are told no finer.
fn on_five(at: ZonedDateTime) -> ZonedDateTime {
    let beyond = i64::from(at.minute()) % 5 * 60 + i64::from(at.second());
    at.checked_sub(SignedDuration::from_secs(beyond)).unwrap_or(at)
}

fn earlier(at: &ZonedDateTime, hours: f64) -> ZonedDateTime {
    let seconds = SignedDuration::from_secs((hours * 3600.0).ceil() as i64);
    at.checked_sub(seconds).unwrap_or_else(|_| at.clone())
}

fn hours_between(from: &ZonedDateTime, to: &ZonedDateTime) -> f64 {
    to.timestamp().duration_since(from.timestamp()).as_secs_f64() / 3600.0
}
