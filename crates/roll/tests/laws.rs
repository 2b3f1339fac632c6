//! What holds for every plan, tried on random pieces, wants, ends, saws and boards.

#![allow(clippy::expect_used, reason = "a law that cannot set up its case has failed")]

use band::Value;
use proptest::prelude::*;
use quantity::{Length, Mass};
use roll::{
    Count, End, FromEnd, KnifePlan, Limits, Marking, Missed, Piece, Posterior, RollError, Settings, Station,
    Target, Want, Weighed, plan, plan_with,
};

const ROLLS: [&str; 6] = [
    "beef-ribeye-roll",
    "beef-strip-loin",
    "beef-tenderloin",
    "beef-eye-of-round",
    "beef-rib-roast-bone-in",
    "beef-t-bone",
];

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn end() -> impl Strategy<Value = End> {
    (0.0..40.0f64, any::<bool>(), any::<bool>()).prop_map(|(slant, none, squared)| End {
        slant: Value::Known(if none { 0.0 } else { slant / 1000.0 }),
        squared,
    })
}

fn piece() -> impl Strategy<Value = Piece> {
    let kerf = prop_oneof![2 => Just(0.0), 1 => 0.5..3.5f64];
    (0usize..6, 0.85..1.15f64, 0.9..1.1f64, end(), end(), kerf, any::<bool>()).prop_map(
        |(cut, heavier, longer, first, last, kerf, drawn)| {
            let mut piece = Piece::of(ROLLS[cut]).expect("a roll");
            let catalogued = piece.prior.cut();
            let grams = catalogued.mass.typical_g * heavier;
            let length = catalogued.length.as_ref().expect("a length").typical(Mass::from_g(grams));
            piece.mass = Value::Known(grams / 1000.0);
            piece.length = Value::Known(length.m() * longer);
            (piece.ends.first, piece.ends.last) = (first, last);
            piece.knife.kerf = mm(kerf);
            piece.knife.marking = if drawn { Marking::DrawnBefore } else { Marking::FreshFace };
            piece
        },
    )
}

fn want(number: usize) -> impl Strategy<Value = Want> {
    let target = prop_oneof![
        (20.0..60.0f64).prop_map(|at| Target::Thickness { at: mm(at), within: None }),
        (120.0..700.0f64).prop_map(|at| Target::Mass { at: Mass::from_g(at), within: None }),
        (70.0..140.0f64).prop_map(|at| Target::Roast { length: mm(at), within: None }),
    ];
    let from = prop_oneof![3 => Just(FromEnd::Any), 1 => Just(FromEnd::First), 1 => Just(FromEnd::Last)];
    (target, 0u32..5, from, any::<bool>()).prop_map(move |(target, count, from, twins)| {
        let roast = matches!(target, Target::Roast { .. });
        let twins = twins && !roast;
        let count = match count {
            _ if roast => Count::Exactly(1),
            0 => Count::Max,
            count if twins => Count::Exactly(2 * count.div_ceil(2)),
            count => Count::Exactly(count),
        };
        Want { name: format!("want {number}"), count, target, from, twins }
    })
}

fn wants() -> impl Strategy<Value = Vec<Want>> {
    (1usize..4).prop_flat_map(|count| (0..count).map(want).collect::<Vec<_>>())
}

/// Everything that must hold of any plan.
fn holds(piece: &Piece, wants: &[Want], limits: &Limits, plan: &KnifePlan) -> Result<(), TestCaseError> {
    balances(piece, plan)?;
    keeps_limits(piece, wants, limits, plan)?;
    let length = plan.length.mm();
    prop_assert!(plan.marks.windows(2).all(|pair| pair[0].mm() < pair[1].mm()), "marks {:?}", plan.marks);
    prop_assert!(plan.marks.iter().all(|mark| mark.mm() > 0.0 && mark.mm() <= length));
    let kerf = piece.knife.kerf.mm();
    for pair in plan.portions.windows(2) {
        prop_assert!(pair[1].from.mm() >= pair[0].to.mm() + kerf - 1e-6, "portions overlap: {:?}", pair);
    }
    counts(wants, plan)?;
    ends_in_order(wants, plan)?;
    twins_are_neighbours(wants, plan, kerf)
}

/// Portions + squared off + left over + kerf = the piece, to rounding.
fn balances(piece: &Piece, plan: &KnifePlan) -> Result<(), TestCaseError> {
    let portions: f64 = plan.portions.iter().map(|portion| portion.mass.median * 1000.0).sum();
    let parts = portions + plan.squared_off.g() + plan.left_over.g() + plan.kerf.g();
    let whole = piece.mass.known().map_or(plan.mass.median, |kg| kg) * 1000.0;
    prop_assert!((parts + plan.balance.g() - whole).abs() < 1e-6 * whole, "{parts} g of {whole}");
    // Once all is weighed, portions can only be as right as the scales.
    let all_weighed = plan.portions.iter().all(|portion| portion.weighed)
        && plan.squared_off.g() + plan.left_over.g() + plan.kerf.g() < 1.0;
    prop_assert!(
        all_weighed || plan.balance.g().abs() < 1e-6 * whole,
        "{} g of {whole} are nowhere",
        plan.balance.g()
    );
    for part in [plan.squared_off, plan.left_over, plan.kerf] {
        prop_assert!(part.g() > -1e-6, "a part weighs {} g", part.g());
    }
    Ok(())
}

/// No side of any planned portion is outside the limits; a roast is free of them.
fn keeps_limits(
    piece: &Piece,
    wants: &[Want],
    limits: &Limits,
    plan: &KnifePlan,
) -> Result<(), TestCaseError> {
    let slant = |end: End| if end.squared { 0.0 } else { end.slant.known().unwrap_or(0.0) * 1000.0 };
    let (first, last) = (slant(piece.ends.first), slant(piece.ends.last));
    for portion in plan.portions.iter().filter(|portion| !portion.weighed) {
        let roast = portion.want.is_some_and(|want| matches!(wants[want].target, Target::Roast { .. }));
        // Both sides by the faces themselves, not by what the plan says of them.
        let thick = portion.to.mm() - portion.from.mm();
        let mut thin = thick;
        if portion.from.mm() < 1e-9 {
            thin -= first;
        }
        if portion.to.mm() > plan.length.mm() - 1e-6 {
            thin -= last;
        }
        prop_assert!((portion.thin_side.mm() - thin).abs() < 1e-6, "thin side of {portion:?} is {thin}");
        prop_assert!((portion.thickness.mm() - (thick + thin) / 2.0).abs() < 1e-6);
        if !roast {
            prop_assert!(thin >= limits.thinnest.mm() - 1e-6, "{portion:?} is {thin} mm on its thin side");
            prop_assert!(thick <= limits.thickest.mm() + 1e-6, "{portion:?} is {thick} mm on its thick side");
        }
    }
    Ok(())
}

/// Never more than wanted; what is missing is said.
fn counts(wants: &[Want], plan: &KnifePlan) -> Result<(), TestCaseError> {
    for (number, want) in wants.iter().enumerate() {
        let found = plan.portions.iter().filter(|portion| portion.want == Some(number)).count() as u32;
        let missing = plan.given_up.iter().find_map(|given_up| match given_up.missed {
            Missed::Portions(count) if given_up.want == number => Some(count),
            _ => None,
        });
        if let Count::Exactly(count) = want.count {
            prop_assert_eq!(found + missing.unwrap_or(0), count, "{:?}: {} found", want, found);
        }
    }
    Ok(())
}

/// Wants from the first end come before all others, those from the last end after them and up to the end.
fn ends_in_order(wants: &[Want], plan: &KnifePlan) -> Result<(), TestCaseError> {
    let order = |want: Option<usize>| match want.map(|want| wants[want].from) {
        Some(FromEnd::First) => 0,
        Some(FromEnd::Last) => 2,
        _ => 1,
    };
    let orders: Vec<i32> = plan.portions.iter().map(|portion| order(portion.want)).collect();
    prop_assert!(orders.windows(2).all(|pair| pair[0] <= pair[1]), "ends out of order: {:?}", orders);
    Ok(())
}

fn twins_are_neighbours(wants: &[Want], plan: &KnifePlan, kerf: f64) -> Result<(), TestCaseError> {
    for (number, _) in wants.iter().enumerate().filter(|(_, want)| want.twins) {
        let twins: Vec<_> = plan.portions.iter().filter(|portion| portion.want == Some(number)).collect();
        prop_assert!(twins.len().is_multiple_of(2), "{} portions in pairs", twins.len());
        for pair in twins.chunks_exact(2) {
            prop_assert_eq!(pair[0].number + 1, pair[1].number);
            prop_assert!((pair[1].from.mm() - pair[0].to.mm() - kerf).abs() < 1e-6);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn any_plan(piece in piece(), wants in wants()) {
        let limits = Limits { thinnest: mm(18.0), thickest: mm(62.0) };
        let plan = plan(&piece, &wants, &limits, &[]).expect("a plan");
        holds(&piece, &wants, &limits, &plan)?;
    }

    /// Cut portion by portion as the plan shows, each weighing a little other than foretold.
    #[test]
    fn any_board(piece in piece(), wants in wants(), off in prop::collection::vec(-1.5..1.5f64, 3)) {
        let limits = Limits { thinnest: mm(18.0), thickest: mm(62.0) };
        let mut weighed = Vec::new();
        for off in off {
            let before = plan(&piece, &wants, &limits, &weighed).expect("a plan");
            let Some(next) = before.portions.iter().find(|portion| !portion.weighed) else { break };
            let sd = next.mass.width() / 2.563;
            weighed.push(Weighed::at_the_plan(Mass::from_kg(next.mass.median + off * sd)));
            let after = plan(&piece, &wants, &limits, &weighed).expect("a plan");
            holds(&piece, &wants, &limits, &after)?;
            let cut = &after.portions[weighed.len() - 1];
            prop_assert!(cut.weighed && cut.from == next.from && cut.to == next.to && cut.want == next.want);
        }
    }

    /// The covariance stays symmetric and positive definite through anything measured.
    #[test]
    fn any_posterior(piece in piece(), stations in prop::collection::vec((0.1..0.9f64, 0.9..1.1f64), 0..5),
                     portions in prop::collection::vec((15.0..40.0f64, 0.85..1.15f64), 0..8)) {
        let mut piece = piece;
        let (grams, length) = (piece.mass.known().expect("known") * 1e3, piece.length.known().expect("known") * 1e3);
        let section = piece.prior.cut().section.as_ref().expect("a section");
        for (place, off) in stations {
            let profile = piece.prior.profile()[(place * 23.0) as usize];
            let area = grams / length * profile / (section.density_kg_m3 * 1e-6 * section.factor) * off;
            piece.stations.push(Station { at: mm(place * length), width: mm(area / 80.0), height: mm(80.0) });
        }
        let mut posterior = Posterior::new(&piece).expect("a likely piece");
        positive_definite(&posterior)?;
        let mut face = 40.0;
        for (thickness, off) in portions {
            if face + thickness > length - 40.0 {
                break;
            }
            let foretold = posterior.between(mm(face), mm(face + thickness), true);
            let weighed = Weighed::at_the_plan(Mass::from_kg(foretold.median * off));
            posterior.weigh(mm(face), mm(face + thickness), true, &weighed).expect("a likely portion");
            positive_definite(&posterior)?;
            face += thickness;
        }
        // The whole still weighs what the scale said.
        let whole = posterior.between(mm(0.0), mm(length), false);
        prop_assert!((whole.median * 1000.0 / grams - 1.0).abs() < 0.005, "{} of {grams} g", whole.median * 1000.0);
    }
}

fn positive_definite(posterior: &Posterior) -> Result<(), TestCaseError> {
    let size = posterior.mean().len();
    let matrix = nalgebra::DMatrix::from_row_slice(size, size, posterior.covariance());
    prop_assert_eq!(&matrix, &matrix.transpose());
    // A face of the piece's own end has no doubt at all: its row is zero and says nothing.
    let doubtful: Vec<usize> = (0..size).filter(|index| matrix[(*index, *index)] != 0.0).collect();
    let inner =
        nalgebra::DMatrix::from_fn(doubtful.len(), doubtful.len(), |i, j| matrix[(doubtful[i], doubtful[j])]);
    prop_assert!(inner.cholesky().is_some(), "not positive definite");
    Ok(())
}

fn ribeye() -> Piece {
    let mut piece = Piece::of("beef-ribeye-roll").expect("a roll");
    piece.mass = Value::Known(6.8);
    piece.length = Value::Known(0.4);
    piece.ends.first = End::squared(mm(8.0));
    piece.ends.last = End::squared(mm(25.0));
    piece
}

#[test]
fn the_same_question_has_the_same_answer() {
    let mut piece = ribeye();
    piece.length = Value::Unknown;
    let wants = [Want::heavy("all", Count::Max, Mass::from_g(350.0))];
    let one = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan");
    let other = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan");
    assert_eq!(one.portions, other.portions);
    assert_eq!(one.marks, other.marks);
}

#[test]
fn what_is_not_given_widens_the_band_and_is_named() {
    let wants = [Want::thick("all", Count::Max, mm(38.0))];
    let width = |piece: &Piece| {
        let plan = plan(piece, &wants, &Limits::default(), &[]).expect("a plan");
        let portion = &plan.portions[2];
        (portion.mass.width() / portion.mass.median, plan)
    };
    let (known, plan_known) = width(&ribeye());
    let mut piece = ribeye();
    piece.length = Value::Unknown;
    let (no_ruler, plan_no_ruler) = width(&piece);
    piece.mass = Value::Unknown;
    let (nothing, plan_nothing) = width(&piece);
    assert!(known < no_ruler && no_ruler < nothing, "{known} {no_ruler} {nothing}");
    let names = |plan: &KnifePlan| plan.assumed.iter().map(|input| input.name.clone()).collect::<Vec<_>>();
    assert!(!names(&plan_known).contains(&"length".to_owned()));
    assert!(names(&plan_no_ruler).contains(&"length".to_owned()));
    assert!(names(&plan_nothing).contains(&"mass".to_owned()));
    assert!(plan_nothing.narrow.iter().any(|line| line.input == "mass" && line.share > 0.2));
    assert!(plan_known.narrow.iter().all(|line| line.input != "mass" && line.input != "length"));
    let sum: f64 = plan_nothing.narrow.iter().map(|line| line.share).sum();
    assert!(sum <= 1.0 + 1e-9);
}

/// A station can stand in for the scale: its box says how heavy the piece is.
#[test]
fn a_station_stands_in_for_the_scale() {
    let mut piece = ribeye();
    piece.mass = Value::Unknown;
    let wants = [Want::thick("all", Count::Max, mm(38.0))];
    let blind = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan").mass;
    // 18 % more section than 6.8 kg on 400 mm would have.
    let area = 6800.0 / 400.0 * 1.02 / (1030.0e-6 * 0.75) * 1.18;
    piece.stations = vec![Station { at: mm(200.0), width: mm(area / 95.0), height: mm(95.0) }];
    let seen = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan").mass;
    assert!(seen.width() < 0.75 * blind.width(), "{} against {}", seen.width(), blind.width());
    assert!(seen.median > 7.3 && seen.median < 8.1, "{}", seen.median);
}

#[test]
fn weighing_sharpens_the_rest() {
    let wants = [Want::thick("all", Count::Max, mm(38.0))];
    let before = plan(&ribeye(), &wants, &Limits::default(), &[]).expect("a plan");
    let first = before.portions[0].mass.median;
    let weighed = [Weighed::at_the_plan(Mass::from_kg(first * 1.1))];
    let after = plan(&ribeye(), &wants, &Limits::default(), &weighed).expect("a plan");
    let share = |plan: &KnifePlan| plan.portions[1].mass.width() / plan.portions[1].mass.median;
    assert!(share(&after) < 0.75 * share(&before));
    assert!(
        after.portions[1].mass.median > before.portions[1].mass.median,
        "a heavy first says a heavy second"
    );
    let next = after.next.expect("something to cut");
    assert_eq!(next.portion, Some(2));
    assert!((next.from_fresh_face.mm() - after.portions[1].thickness.mm()).abs() < 1e-9);
}

/// One piece is left over, not two: where the hand left one before the first portion, the others take up a slice of 10 mm.
#[test]
fn a_second_piece_is_not_left_over() {
    let wants = [Want::thick("four", Count::Exactly(4), mm(40.0))];
    let weighed =
        Weighed { marks: Some((mm(205.0), mm(245.0))), ..Weighed::at_the_plan(Mass::from_g(690.0)) };
    let plan = plan(&ribeye(), &wants, &Limits::default(), &[weighed]).expect("a plan");
    assert_eq!(plan.left_over_at, [(mm(8.0), mm(205.0))]);
    assert_eq!(plan.portions.len(), 4);
    assert!(plan.portions[1..].iter().all(|portion| portion.thickness.mm() > 42.0));
}

/// A face that slants by 12 mm and stays: the first portion is 12 mm thinner on one side, and 25 mm thin is refused it.
#[test]
fn a_wedge_is_tested_on_both_faces() {
    let mut piece = ribeye();
    piece.ends.first = End::kept(mm(12.0));
    let limits = Limits { thinnest: mm(25.0), thickest: mm(40.0) };
    let wants = [Want::thick("all", Count::Max, mm(28.0))];
    let plan = plan(&piece, &wants, &limits, &[]).expect("a plan");
    let first = &plan.portions[0];
    assert_eq!(first.from.mm(), 0.0);
    assert!(first.thin_side.mm() >= 25.0 && first.to.mm() >= 37.0 && first.to.mm() <= 40.0, "{first:?}");
    assert!(plan.portions[1].thickness.mm() < 30.0);
}

#[test]
fn the_knife_may_start_at_the_other_end() {
    let mut piece = ribeye();
    piece.prior = piece.prior.turned();
    let wants = [Want::thick("all", Count::Max, mm(38.0))];
    let from_loin = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan");
    let from_chuck = plan(&ribeye(), &wants, &Limits::default(), &[]).expect("a plan");
    let cap = |plan: &KnifePlan| plan.portions[0].cap_share.expect("a ribeye has a cap");
    assert!(cap(&from_chuck) > 0.2 && cap(&from_loin) < 0.06);
}

#[test]
fn refusals_name_what_is_allowed() {
    let wants = [Want::thick("all", Count::Max, mm(38.0))];
    let refused = |piece: &Piece, wants: &[Want], limits: Limits| {
        plan(piece, wants, &limits, &[]).expect_err("refused")
    };
    let crossed = Limits { thinnest: mm(20.0), thickest: mm(6.5) };
    assert!(matches!(refused(&ribeye(), &wants, crossed), RollError::LimitsCrossed { .. }));
    let thin = Limits { thinnest: mm(40.0), thickest: mm(60.0) };
    assert!(matches!(refused(&ribeye(), &wants, thin), RollError::TargetOutsideLimits { .. }));
    let odd = [Want::thick("twins", Count::Exactly(3), mm(38.0)).in_twins()];
    assert!(matches!(refused(&ribeye(), &odd, Limits::default()), RollError::TwinsOdd { count: 3, .. }));
    let mut piece = ribeye();
    piece.mass = Value::Known(f64::NAN);
    assert!(matches!(refused(&piece, &wants, Limits::default()), RollError::Impossible { .. }));
    piece = ribeye();
    piece.ends.last = End::squared(mm(290.0));
    piece.ends.first = End::squared(mm(105.0));
    assert!(matches!(refused(&piece, &wants, Limits::default()), RollError::EndsMeet { .. }));
    piece = ribeye();
    piece.stations = vec![Station { at: mm(200.0), width: mm(120.0), height: mm(60.0) }];
    let error = refused(&piece, &wants, Limits::default());
    assert!(matches!(error, RollError::StationTooSmall { number: 1, .. }), "{error}");
    piece.stations = vec![Station { at: mm(200.0), width: mm(600.0), height: mm(95.0) }];
    assert!(matches!(refused(&piece, &wants, Limits::default()), RollError::StationTooLarge { .. }));
    piece.stations = vec![Station { at: mm(450.0), width: mm(235.0), height: mm(95.0) }];
    assert!(matches!(refused(&piece, &wants, Limits::default()), RollError::StationOff { .. }));
    let mut tri_tip = Piece::of("beef-tri-tip").expect("it has a profile");
    tri_tip.mass = Value::Known(1.0);
    assert!(matches!(refused(&tri_tip, &wants, Limits::default()), RollError::LengthNeeded { .. }));
    let many: Vec<Want> = (0..6).map(|_| Want::thick("many", Count::Exactly(20), mm(38.0))).collect();
    assert!(matches!(refused(&ribeye(), &many, Limits::default()), RollError::TooManyWays { .. }));
    let weighed = [Weighed::at_the_plan(Mass::from_g(7120.0))];
    let error = plan(&ribeye(), &wants, &Limits::default(), &weighed).expect_err("refused");
    assert!(matches!(error, RollError::WeighedUnlikely { number: 1, .. }), "{error}");
    let exact = Settings { exact: true, ..Settings::default() };
    piece = ribeye();
    piece.length = Value::Range { low: 0.39, high: 0.41 };
    let error = plan_with(&piece, &wants, &Limits::default(), &[], &exact).expect_err("refused");
    assert_eq!(error, RollError::NotExact { what: "the length" });
}

/// Not a roll, but planned where its length is told: it says so.
#[test]
fn what_is_no_roll_says_so() {
    let mut piece = Piece::of("beef-brisket").expect("it has a profile");
    piece.mass = Value::Known(6.9);
    piece.length = Value::Known(0.45);
    let wants = [Want::roast("half", mm(200.0))];
    let plan = plan(&piece, &wants, &Limits::default(), &[]).expect("a plan");
    assert!(plan.not_a_roll);
    let roast = &plan.portions[0];
    assert!(roast.mass.width() / roast.mass.median > 0.15, "a wide band");
}
