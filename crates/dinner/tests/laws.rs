//! What must hold whatever the figures: later, thicker, hotter, surer, smaller.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

mod common;

use band::Value;
use common::{portion, table};
use dinner::{DinnerError, Holds, Plan, Table, assign, plan};
use quantity::Span;

const DRAWS: usize = 128;

fn planned(table: &Table) -> Plan {
    plan(table, DRAWS, 1).unwrap()
}

fn in_before(table: &Table) -> f64 {
    planned(table).first_in()
}

#[test]
fn the_same_table_and_seed_give_the_same_bits() {
    let asked = table(&[55.0, 60.0], &[(380.0, 30.0), (360.0, 28.0)]);
    assert_eq!(planned(&asked), planned(&asked));
    assert_ne!(planned(&asked), plan(&asked, DRAWS, 2).unwrap());
}

#[test]
fn a_thicker_portion_goes_in_earlier() {
    let starts: Vec<f64> =
        [24.0, 28.0, 33.0, 40.0, 50.0].iter().map(|mm| in_before(&table(&[55.0], &[(380.0, *mm)]))).collect();
    assert!(starts.windows(2).all(|pair| pair[0] < pair[1]), "{starts:?}");
}

#[test]
fn a_wish_more_done_goes_in_earlier_and_is_pulled_hotter() {
    let plans: Vec<Plan> = [48.0, 52.0, 56.0, 60.0, 65.0]
        .iter()
        .map(|wish| planned(&table(&[*wish], &[(380.0, 30.0)])))
        .collect();
    assert!(plans.windows(2).all(|pair| pair[0].first_in() < pair[1].first_in()));
    assert!(plans.windows(2).all(|pair| pair[0].rows[0].pull < pair[1].rows[0].pull));
}

#[test]
fn a_hotter_low_place_is_entered_later() {
    let at = |dial: f64| {
        let mut asked = table(&[55.0], &[(380.0, 30.0)]);
        asked.low.medium_c = Value::Known(dial);
        in_before(&asked)
    };
    let starts = [at(95.0), at(110.0), at(125.0), at(140.0)];
    assert!(starts.windows(2).all(|pair| pair[0] > pair[1]), "{starts:?}");
}

#[test]
fn a_surer_wish_costs_minutes_and_a_probe_on_the_rack_gives_some_back() {
    let mut asked = table(&[55.0], &[(380.0, 30.0)]);
    let usual = in_before(&asked);
    asked.chance = 0.97;
    assert!(in_before(&asked) > usual);
    asked.chance = 0.6;
    assert!(in_before(&asked) < usual);
    asked.chance = 0.9;
    asked.low.probed = true;
    assert!(in_before(&asked) < usual);
}

#[test]
fn the_joint_chance_is_the_wished_one_and_no_more_than_a_minute_is_given_away() {
    let asked =
        table(&[50.0, 55.0, 55.0, 60.0], &[(380.0, 30.0), (360.0, 28.0), (400.0, 31.0), (372.0, 29.0)]);
    let answer = planned(&asked);
    assert!(answer.chance >= 0.9 && answer.is_reached());
    let a_minute_late = answer.chance_if_late(&vec![1.0; answer.rows.len()]);
    assert!(a_minute_late < 0.95, "starts are the latest whole minutes: {a_minute_late}");
    assert_eq!(answer.chance_if_late(&vec![0.0; answer.rows.len()]), answer.chance);
    assert!(answer.chance_if_late(&vec![10.0; answer.rows.len()]) < answer.chance);
}

/// An oven whose error is common asks for less than the product of the chances says.
#[test]
fn evenings_are_shared() {
    let answer = planned(&table(&[50.0, 60.0], &[(380.0, 30.0), (360.0, 28.0)]));
    let own = |row: usize| band::chance(answer.rows[row].slack.iter().map(|slack| *slack >= 0.0));
    assert!(answer.chance > own(0) * own(1) + 0.02, "{} against {}", answer.chance, own(0) * own(1));
}

#[test]
fn a_small_grate_takes_passes_and_an_oven_too_small_takes_waves() {
    let mut asked = table(&[55.0; 4], &[(380.0, 30.0); 4]);
    let at_once = planned(&asked);
    asked.hot.holds = Holds::Places(2);
    let two = planned(&asked);
    assert_eq!((at_once.passes, two.passes), (1, 2));
    assert!(two.first_sear() > at_once.first_sear());
    assert!(two.plates.iter().all(|plate| plate.rest_before >= 6.0));
    asked.low.holds = Holds::Places(2);
    let waves = planned(&asked);
    assert_eq!(waves.waves, 2);
    assert!(waves.first_in() > two.first_in() + 30.0);
}

#[test]
fn what_is_in_already_keeps_its_start_and_what_is_out_its_minute() {
    let mut asked = table(&[55.0, 55.0], &[(380.0, 30.0), (380.0, 30.0)]);
    asked.portions[0].went_in = Some(Span::from_min(90.0));
    let answer = planned(&asked);
    let row = answer.rows.iter().find(|row| row.is_in).unwrap();
    assert_eq!(row.in_before, 90.0);
    asked.portions[0].pulled = Some(Span::from_min(31.0));
    let answer = planned(&asked);
    let row = answer.rows.iter().find(|row| row.is_in).unwrap();
    assert_eq!((row.pulled_before.low, row.pulled_before.high), (31.0, 31.0));
}

#[test]
fn what_cannot_be_is_refused_with_its_numbers() {
    let mut cold = table(&[70.0], &[(380.0, 30.0)]);
    cold.low.medium_c = Value::Known(55.0);
    assert!(matches!(plan(&cold, DRAWS, 1), Err(DinnerError::TooLow { .. })), "{:?}", plan(&cold, DRAWS, 1));
    let thin = table(&[42.0], &[(160.0, 12.0)]);
    let refused = plan(&thin, DRAWS, 1);
    assert!(matches!(refused, Err(DinnerError::SearAloneIsTooMuch { .. })), "{refused:?}");
    assert_eq!(plan(&table(&[], &[]), DRAWS, 1), Err(DinnerError::NobodyEats));
    assert!(matches!(
        plan(&table(&[55.0; 2], &[(380.0, 30.0)]), DRAWS, 1),
        Err(DinnerError::TooFewPortions { .. })
    ));
    assert!(matches!(plan(&table(&[30.0], &[(380.0, 30.0)]), DRAWS, 1), Err(DinnerError::Wish { .. })));
    let mut sure = table(&[55.0], &[(380.0, 30.0)]);
    sure.chance = 1.0;
    assert!(matches!(plan(&sure, DRAWS, 1), Err(DinnerError::Chance { .. })));
    let mut nowhere = table(&[55.0], &[(380.0, 30.0)]);
    nowhere.low.medium = "kettle".into();
    assert!(matches!(plan(&nowhere, DRAWS, 1), Err(DinnerError::Heat(_))));
}

/// Thinnest to the most done: no other way of sharing four portions out lets the last one go in later.
#[test]
fn no_other_sharing_out_is_shorter() {
    let seats = [50.0, 55.0, 60.0, 65.0];
    let portions = [(380.0, 27.0), (380.0, 30.0), (380.0, 33.0), (380.0, 37.0)];
    let ours = in_before(&table(&seats, &portions));
    for order in permutations(4) {
        let mut asked = table(&seats, &portions);
        for (seat, portion) in asked.seats.iter_mut().zip(order) {
            seat.portion = Some(portion);
        }
        // One minute: starts are whole minutes.
        assert!(in_before(&asked) >= ours - 1.0, "{:?}", assign(&asked.seats, &asked.portions));
    }
}

#[test]
fn an_unknown_thickness_widens_and_is_listed() {
    let known = planned(&table(&[55.0], &[(380.0, 31.0)]));
    let mut asked = table(&[55.0], &[(380.0, 31.0)]);
    asked.portions[0] = dinner::Portion { thickness_m: Value::Unknown, ..portion("DUSK 1", 380.0, 0.0) };
    let unknown = planned(&asked);
    assert!(unknown.rows[0].pulled_before.width() > known.rows[0].pulled_before.width());
    assert!(unknown.assumed.iter().any(|assumed| assumed.name == "thickness of DUSK 1"));
    assert!(known.assumed.iter().all(|assumed| !assumed.name.starts_with("thickness")));
}

fn permutations(count: usize) -> Vec<Vec<usize>> {
    if count == 0 {
        return vec![vec![]];
    }
    let shorter = permutations(count - 1);
    let with = |order: &Vec<usize>, at: usize| {
        let mut longer = order.clone();
        longer.insert(at, count - 1);
        longer
    };
    shorter.iter().flat_map(|order| (0..count).map(move |at| with(order, at))).collect()
}
