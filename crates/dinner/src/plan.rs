//! The plan: from seats and portions to hours.

use crate::answer::{Plan, Plate, Row};
use crate::evenings::{Evenings, Followed};
use crate::layout::Layout;
use crate::passes::sear;
use crate::seats::assign;
use crate::starts::{Road, Starts, latest};
use crate::{DinnerError, Table};
use band::Band;
use quantity::Temperature;

/// Plans one supper back from its hour: who eats which portion, when each goes in, at which core it is pulled, in which
/// pass it is seared, and how sure all of that is. Every hour of the answer is in minutes before the plate.
///
/// | input   | meaning                                                              |
/// |---------|----------------------------------------------------------------------|
/// | `table` | seats with their wishes, portions, the low and the hot place, habits |
/// | `draws` | evenings in the ensemble; 256 unless there is a reason               |
/// | `seed`  | the same seed and table give the same plan to the bit                |
///
/// An *evening* is one member of the ensemble: one true oven, one true film, one meat, the same for all portions; each
/// portion has its own true thickness and mass. The pull number of a row is the core at which its middle evening must come
/// out so that hold, sear and rest carry it to the wish as its *peak*. Starts are the latest whole minutes at which all
/// portions together are pulled in time in the wished share of evenings.
///
/// # Holds
/// A later hour moves every start by as much (hours are relative to it). A thicker portion goes in earlier; a wish more
/// done is not pulled later (`tests/laws.rs`). The steps fed to [`heat::simulate`] give the promised cores
/// (`tests/promise.rs`), and over 1,000 perturbed truths the 80 % bands hold (`tests/truth.rs`).
/// # Errors
/// [`DinnerError`] says which seat, portion or place stands against a plan, and what to do.
pub fn plan(table: &Table, draws: usize, seed: u64) -> Result<Plan, DinnerError> {
    check(table)?;
    let shared = assign(&table.seats, &table.portions)?;
    let layout = Layout::of(table, &shared);
    let evenings = Evenings::of(table, &layout, draws, seed)?;
    let (timed, peaks) = settled(table, &layout, &evenings)?;
    can_be(&layout, &evenings, &timed, &peaks)?;
    Ok(answer(table, &layout, &evenings, &timed, &peaks, shared.spare))
}

/// Pull numbers whose peaks have the wishes as their middle, with the starts that belong to them.
///
/// How long a row waits between pull and sear follows from the starts, the peak from how long it waited, and the starts
/// from the pull number: so the pull numbers are sought on the ensemble itself, all rows side by side, by the secant.
fn settled(
    table: &Table,
    layout: &Layout,
    evenings: &Evenings<'_>,
) -> Result<(Timed, Vec<Vec<f64>>), DinnerError> {
    let wish: Vec<f64> = layout.rows.iter().map(|row| row.wish.c()).collect();
    let rows = 0..wish.len();
    let mut timed =
        Timed::with(table, layout, evenings, wish.iter().map(|wish| first_guess(*wish)).collect());
    let mut peaks = timed.peaks(layout, evenings, rows.clone(), Followed::Sought)?;
    let mut slope = vec![USUAL_SLOPE; wish.len()];
    let mut followed = Followed::Sought;
    for round in 0..=MOST_ROUNDS {
        let missed: Vec<f64> = peaks.iter().zip(&wish).map(|(p, wish)| Band::of(p).median - wish).collect();
        let is_far = |row: &usize| missed[*row].abs() >= NEAR_K && !layout.rows[*row].is_out();
        let far: Vec<usize> = rows.clone().filter(is_far).collect();
        if (far.is_empty() && followed == Followed::Told) || round == MOST_ROUNDS {
            break;
        }
        if far.is_empty() {
            // Few evenings have led there; all of them may say otherwise by a few tenths, and they are what is told.
            followed = Followed::Told;
            peaks = timed.peaks(layout, evenings, rows.clone(), followed)?;
            continue;
        }
        let mut pull_c = timed.pull_c.clone();
        for &row in &far {
            pull_c[row] = (pull_c[row] - missed[row] / slope[row]).clamp(COLDEST_PULL_C, wish[row]);
        }
        let next = Timed::with(table, layout, evenings, pull_c);
        let sought = next.peaks(layout, evenings, far.iter().copied(), followed)?;
        for (row, now) in far.iter().copied().zip(sought) {
            let moved = next.pull_c[row] - timed.pull_c[row];
            let rose = Band::of(&now).median - wish[row] - missed[row];
            if moved.abs() > NEAR_K {
                slope[row] = (rose / moved).clamp(0.3, 1.2);
            }
            peaks[row] = now;
        }
        timed = next;
    }
    if followed == Followed::Sought {
        peaks = timed.peaks(layout, evenings, rows, Followed::Told)?;
    }
    Ok((timed, peaks))
}

/// Refuses what no pull number gives: a wish the low place does not bring it near, or one that sear and rest alone pass.
fn can_be(
    layout: &Layout,
    evenings: &Evenings<'_>,
    timed: &Timed,
    peaks: &[Vec<f64>],
) -> Result<(), DinnerError> {
    for (row, together) in layout.rows.iter().enumerate() {
        let wish_c = together.wish.c();
        if together.is_out() {
            continue;
        }
        let low = &timed.low_min[together.middle()];
        let reached = low.iter().filter(|minutes| minutes.is_finite()).count();
        if reached * 2 < low.len() {
            let (portions, medium_c) = (evenings.names(together), evenings.low_c());
            return Err(DinnerError::TooLow { portions, wish_c, medium_c });
        }
        if peaks[row].len() * 2 < evenings.count() {
            return Err(DinnerError::SkinTooHot { portions: evenings.names(together) });
        }
        let least_c = Band::of(&peaks[row]).median;
        if timed.pull_c[row] <= COLDEST_PULL_C && least_c > wish_c + 1.0 {
            return Err(DinnerError::SearAloneIsTooMuch {
                portions: evenings.names(together),
                wish_c,
                least_c,
            });
        }
    }
    Ok(())
}

/// Barely warmer than a fridge: a pull number below this is no low heat at all, °C.
const COLDEST_PULL_C: f64 = 10.0;

/// A pull number to begin with, °C: the more done, the less sear and rest add, because the low place did it slower.
fn first_guess(wish_c: f64) -> f64 {
    wish_c - (0.5 * (75.0 - wish_c)).clamp(2.0, 12.0)
}

/// The peak's middle is found to this, K: a core is told to the degree.
const NEAR_K: f64 = 0.25;
/// A peak rises with the pull number by this much of it, before it is computed.
const USUAL_SLOPE: f64 = 0.75;
const MOST_ROUNDS: usize = 7;
/// Pull numbers, roads and starts that belong together.
struct Timed {
    pull_c: Vec<f64>,
    low_min: Vec<Vec<f64>>,
    starts: Starts,
}

fn roads<'a>(layout: &Layout, low_min: &'a [Vec<f64>]) -> Vec<Road<'a>> {
    let road = |(plate, low_min): (usize, &'a Vec<f64>)| {
        let row = layout.plates[plate].row;
        let (sear_min, went_in_min) = (layout.sear_min[plate], layout.rows[row].went_in_min);
        Road { low_min, sear_min, row, went_in_min }
    };
    low_min.iter().enumerate().map(road).collect()
}

impl Timed {
    fn with(table: &Table, layout: &Layout, evenings: &Evenings<'_>, pull_c: Vec<f64>) -> Self {
        let minutes = |(plate, seated): (usize, &crate::layout::Seated)| {
            evenings.low_minutes(plate, pull_c[seated.row])
        };
        let low_min: Vec<Vec<f64>> = layout.plates.iter().enumerate().map(minutes).collect();
        let starts = latest(&roads(layout, &low_min), &layout.waves, table.chance);
        Self { pull_c, low_min, starts }
    }

    /// The warmest core of each row's middle plate in the evenings that can be followed, °C.
    fn peaks(
        &self,
        layout: &Layout,
        evenings: &Evenings<'_>,
        rows: impl Iterator<Item = usize>,
        followed: Followed,
    ) -> Result<Vec<Vec<f64>>, DinnerError> {
        let of = |row: usize| {
            let plate = layout.rows[row].middle();
            let holds: Vec<f64> = self.held(layout, plate).collect();
            evenings.peaks(layout, plate, self.pull_c[row], &holds, followed)
        };
        rows.map(of).collect()
    }

    /// Minutes before the hour at which a plate's core stands at the pull number, evening by evening.
    fn pulled(&self, plate: usize) -> impl Iterator<Item = f64> + '_ {
        self.low_min[plate].iter().map(move |low| self.starts.in_min[plate] - low)
    }

    /// Minutes from pull to sear, evening by evening; none where it is pulled after its sear was due.
    fn held(&self, layout: &Layout, plate: usize) -> impl Iterator<Item = f64> + '_ {
        let sear = layout.sear_min[plate];
        self.pulled(plate).map(move |pulled| (pulled - sear).max(0.0))
    }

    /// Minutes by which the last of some plates is pulled before it is due, evening by evening.
    fn slack(&self, plates: &[usize]) -> Vec<f64> {
        let members = plates.iter().map(|&plate| self.low_min[plate].len()).min().unwrap_or(0);
        let of = |plate: usize, member: usize| {
            self.starts.in_min[plate] - self.low_min[plate][member] - self.starts.due_min[plate]
        };
        let least = |member| plates.iter().map(|&plate| of(plate, member)).fold(f64::INFINITY, f64::min);
        (0..members).map(least).collect()
    }
}

fn answer(
    table: &Table,
    layout: &Layout,
    evenings: &Evenings<'_>,
    timed: &Timed,
    peaks: &[Vec<f64>],
    spare: Vec<usize>,
) -> Plan {
    let pass_min = sear(&table.habits).min();
    let plates = layout.plates.iter().enumerate().map(|(seat, seated)| Plate {
        seat,
        portion: seated.portion,
        row: seated.row,
        pass: layout.passes.of[seat],
        sear_before: layout.sear_min[seat],
        rest_before: layout.sear_min[seat] - pass_min,
    });
    let mut plan = Plan {
        rows: (0..layout.rows.len()).map(|row| row_of(layout, timed, &peaks[row], row)).collect(),
        plates: plates.collect(),
        spare,
        chance: timed.starts.chance,
        wished: table.chance,
        passes: layout.passes.count,
        waves: layout.waves.count,
        finish_spread: finish_spread(layout, timed),
        longest_hold: longest_hold(layout, timed),
        narrow: evenings.narrow(&timed.slack(&(0..layout.plates.len()).collect::<Vec<_>>())),
        assumed: evenings.assumed(),
    };
    first_in_first(&mut plan);
    plan
}

fn row_of(layout: &Layout, timed: &Timed, peaks: &[f64], row: usize) -> Row {
    let together = &layout.rows[row];
    let pulled: Vec<f64> = together.plates.iter().flat_map(|&plate| timed.pulled(plate)).collect();
    Row {
        wish: together.wish,
        plates: together.plates.clone(),
        in_before: timed.starts.in_min[together.middle()],
        is_in: together.went_in_min.is_some(),
        is_out: together.is_out(),
        pull: Temperature::from_c(timed.pull_c[row]),
        pulled_before: Band::of(&pulled),
        peak: Band::of(peaks),
        wave: together.wave,
        slack: timed.slack(&together.plates),
    }
}

/// Minutes between the first plate that could stand there and the last: a portion pulled in time stands there at the hour,
/// a late one as much later as it was pulled after its sear was due.
fn finish_spread(layout: &Layout, timed: &Timed) -> Band {
    let members = timed.low_min.iter().map(Vec::len).min().unwrap_or(0);
    let late = |plate: usize, member: usize| {
        (layout.sear_min[plate] - (timed.starts.in_min[plate] - timed.low_min[plate][member])).max(0.0)
    };
    let spread = |member: usize| {
        let all = (0..layout.plates.len()).map(|plate| late(plate, member));
        let (least, most) = all.fold((f64::INFINITY, 0.0_f64), |(a, b), x| (a.min(x), b.max(x)));
        most - least
    };
    Band::of(&(0..members).map(spread).collect::<Vec<f64>>())
}

fn longest_hold(layout: &Layout, timed: &Timed) -> Band {
    let members = timed.low_min.iter().map(Vec::len).min().unwrap_or(0);
    let held: Vec<Vec<f64>> =
        (0..layout.plates.len()).map(|plate| timed.held(layout, plate).collect()).collect();
    let longest = |member: usize| held.iter().map(|plate| plate[member]).fold(0.0, f64::max);
    Band::of(&(0..members).map(longest).collect::<Vec<f64>>())
}

/// Rows in the order they go in.
fn first_in_first(plan: &mut Plan) {
    let mut order: Vec<usize> = (0..plan.rows.len()).collect();
    order.sort_by(|&a, &b| plan.rows[b].in_before.total_cmp(&plan.rows[a].in_before).then(a.cmp(&b)));
    let rows = order.iter().map(|&row| plan.rows[row].clone()).collect();
    let mut place = vec![0; order.len()];
    for (new, &old) in order.iter().enumerate() {
        place[old] = new;
    }
    for plate in &mut plan.plates {
        plate.row = place[plate.row];
    }
    plan.rows = rows;
}

fn check(table: &Table) -> Result<(), DinnerError> {
    if table.seats.is_empty() {
        return Err(DinnerError::NobodyEats);
    }
    if !(0.5..=0.999).contains(&table.chance) {
        return Err(DinnerError::Chance { found: table.chance });
    }
    for (place, seat) in table.seats.iter().enumerate() {
        if !(40.0..=85.0).contains(&seat.wish.c()) {
            let name = seat.name.clone().unwrap_or_else(|| format!("seat {}", place + 1));
            return Err(DinnerError::Wish { seat: name, found_c: seat.wish.c() });
        }
    }
    Ok(())
}
