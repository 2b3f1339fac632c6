//! A plate that gives way, against exact solutions: two bodies that share their heat, and a plate fed by its burner.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a check that cannot set up its case has failed"
)]

use heat::{
    Constants, Course, Face, Faces, History, Meat, Reserve, Settings, Shape, Stage, Start, Surroundings,
    Until, simulate,
};
use quantity::{Length, Span, Temperature};

const FILM: f64 = 300.0;
/// A slab that conducts so well that it is one body: 10 mm of 1000 kg/m³ and 3000 J/(kg K) hold 30 kJ/(m² K).
const MEAT_HOLDS: f64 = 30_000.0;

fn against(reserve: Option<Reserve>, set_c: f64, seconds: f64) -> History {
    let constants =
        Constants { conductivity_w_m_k: 900.0, specific_heat_j_kg_k: 3000.0, density_kg_m3: 1000.0 };
    let medium = Course::Steady(Temperature::from_c(set_c));
    let plate = Face::Open(Surroundings { reserve, ..Surroundings::plain(medium, FILM) });
    let faces = Faces { top: Face::Insulated, bottom: plate, sides: Face::Insulated, ends: None };
    let stage = Stage::new("plate", faces, Until::Time(Span::from_s(seconds)));
    let shape = Shape::Slab { thickness: Length::from_mm(10.0) };
    let start = Start::Even(Temperature::from_c(5.0));
    let meat = Meat::constant(constants).unwrap();
    simulate(&meat, &shape, &start, &[stage], &Settings::exact()).unwrap()
}

/// Two bodies: their difference falls as exp(−h (1/C₁ + 1/C₂) t), their sum of heat stays (exact).
#[test]
fn two_bodies_share_their_heat() {
    let held = 20_000.0;
    let reserve = Reserve { capacity_j_m2_k: held, recovery_w_m2_k: 0.0 };
    let common = (held * 95.0 + MEAT_HOLDS * 5.0) / (held + MEAT_HOLDS);
    for seconds in [5.0, 20.0, 60.0, 200.0, 2000.0] {
        let found = against(Some(reserve), 95.0, seconds);
        let plate = found.curve.last().unwrap().plate_c.unwrap();
        let apart = 90.0 * (-FILM * (1.0 / held + 1.0 / MEAT_HOLDS) * seconds).exp();
        let meat = common - apart * held / (held + MEAT_HOLDS);
        println!("{seconds} s: meat {:.3}, exact {meat:.3}; plate {plate:.3}", found.mean_c);
        assert!((found.mean_c - meat).abs() < 0.03, "{} {meat}", found.mean_c);
        assert!((plate - found.mean_c - apart).abs() < 0.05, "{plate}");
        let balance = held * (plate - 95.0) + MEAT_HOLDS * (found.mean_c - 5.0);
        assert!(balance.abs() < 1e-6 * held * 90.0, "heat from nowhere: {balance} J/m²");
    }
}

/// A plate with a burner ends at what it was set to, and so does the meat; on the way the meat is behind one on a plate that
/// does not give way. A plate that holds a thousand times more is such a plate.
#[test]
fn a_burner_brings_it_back() {
    let given = Reserve { capacity_j_m2_k: 20_000.0, recovery_w_m2_k: 100.0 };
    let last = against(Some(given), 95.0, 20_000.0);
    assert!((last.mean_c - 95.0).abs() < 0.01 && last.curve.last().unwrap().plate_c.unwrap() > 94.9);
    let (firm, gives) = (against(None, 95.0, 60.0), against(Some(given), 95.0, 60.0));
    let huge = Reserve { capacity_j_m2_k: 1e7, recovery_w_m2_k: 100.0 };
    assert!(gives.mean_c < firm.mean_c - 3.0);
    assert!((against(Some(huge), 95.0, 60.0).mean_c - firm.mean_c).abs() < 0.1);
    assert_eq!(firm.curve[0].plate_c, None);
}
