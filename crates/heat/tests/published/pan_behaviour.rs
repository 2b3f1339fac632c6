//! A skillet at three set temperatures with steaks turned once (results of a paper, title not shown in the excerpt; secondary):
//! the pan fell by about 50 °C by the time the steak was turned and by another 25 to 50 °C by the time it was lifted; the
//! steak's surface just after lifting never read above 100 °C. cooking.toml, pan_behaviour. Thickness, minutes and pan are not told:
//! 25 mm, 4 min a side, and pans at 177, 204 and 232 °C are assumed; what a pan holds and gets back is the catalogue's prior.

use super::rows::{Fit, Row, check};
use band::{Band, Value};
use heat::cook::{Form, Prepared, Question, StageQuestion};
use heat::{Settings, Until, simulate};
use quantity::Span;

/// Fall of the pan at the turn and from there to the end, K, and the steak's lower face at the end, °C.
fn falls(pan_c: f64) -> [Band; 3] {
    let mut question = Question::of_cut("beef-strip-loin", Form::Steak).unwrap();
    question.thickness_m = Value::Known(0.025);
    question.start_c = Value::Known(4.0);
    let mut pan = StageQuestion::new("pan", "pan", Until::Time(Span::from_min(8.0)));
    pan.medium_c = Value::Known(pan_c);
    pan.flip_every = Some(Span::from_min(4.0));
    question.stages.push(pan);
    let prepared = Prepared::new(&question).unwrap();
    let draws = band::draw(prepared.inputs(), 96, 1);
    let settings = Settings { sample_every: Some(Span::from_s(60.0)), ..question.settings() };
    let mut found = [Vec::new(), Vec::new(), Vec::new()];
    for row in draws.members() {
        let ready = prepared.member(row).unwrap();
        let history = simulate(&ready.meat, &ready.shape, &ready.start, &ready.stages, &settings).unwrap();
        let plate = |at: usize| history.curve[at].plate_c.unwrap();
        found[0].push(plate(0) - plate(4));
        found[1].push(plate(4) - plate(8));
        // Turned after four and again after eight minutes: the face that lay on the pan last is now the upper one.
        found[2].push(history.section.iter().map(|layer| layer.c).fold(f64::NEG_INFINITY, f64::max));
    }
    found.map(|values| Band::of(&values))
}

pub(crate) fn rows() -> Vec<Row> {
    static ROWS: std::sync::LazyLock<Vec<Row>> = std::sync::LazyLock::new(compute);
    ROWS.clone()
}

fn compute() -> Vec<Row> {
    let block = "pan_behaviour";
    let mut rows = Vec::new();
    for pan_c in [177.0, 204.0, 232.0] {
        let [turn, lifted, surface] = falls(pan_c);
        let row = |what: &str, unit, told: [f64; 2], ours: Band| {
            let what = format!("pan at {pan_c} °C, {what}");
            Row::new(block, what, unit, "secondary", 0.0, 0.0, Fit::Band).told(told[0], told[1]).band(ours)
        };
        rows.push(row("fall to the turn", "K", [50.0, 50.0], turn));
        let second = row("from there to the end", "K", [25.0, 50.0], lifted);
        let because = "how long the second side lay is not told, nor whether the burner was turned up";
        rows.push(if pan_c < 200.0 { second.misses(because) } else { second });
        // At the settings of a band's member the boiling face is met within a kelvin or two.
        rows.push(
            Row::new(
                block,
                format!("pan at {pan_c} °C, hottest layer of the steak, at most 100"),
                "°C",
                "secondary",
                100.0,
                surface.median,
                Fit::Within(1.5),
            )
            .told(f64::NEG_INFINITY, 100.0),
        );
    }
    rows
}

#[test]
fn the_pan_falls_and_the_steak_stays_at_the_boil() {
    check(&rows());
}
