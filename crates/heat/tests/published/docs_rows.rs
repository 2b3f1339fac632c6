//! `docs/heat-rows.md`: every row of the references for heat, from these tests' own results.

use super::cook_case::{Coverage, coverage};
use super::rows::{Row, table};
use std::fmt::Write;

const HEAD: &str = "# Heat: every published row\n
Each row of the references the heat room is checked against: published, computed, difference, and whether that lies inside what the
row itself allows. A row that misses stays, with its distance and the reason. One set of constants for all of them. *Status* is how far the
figure can be trusted: published, secondary (quoted elsewhere), from memory, computed (arithmetic of ours, which tests code and not the
world); for cooks *measured* (someone logged it), recipe, timetable, estimate. Where a row leaves film, oven, size or start unsaid, the
catalogue's priors stand in and our figure is a middle with its 80 % band.\n
This page is written by the tests (`GAMBREL_WRITE=1 cargo test -p heat --test published docs`) and they fail when it is stale.\n\n";

const STATED: &str = "\n## Which rows state enough\n
Film, medium, size and start are all told in `conduction_*`, `semi_infinite`, `analytic_case`, `stefan_one_phase`, `neumann_two_phase`,
`reference_slab`, `reference_brick` and `freezing_example`: these are exact or numerical solutions and worked examples. **No measured thaw,
freeze or roast in reach states its film, its thickness and its end point together**, so the aims that need them (freezing and thawing
times within 2 % in the mean and 5 % sd; roasting times within 4 %, loss within 8 %; core within 2.5 K) cannot be tested here on measurements. On the
numerical ones they are met:\n\n";

const SILENT: &str = "\n## Rows that state nothing heat could answer\n
| block | what it gives |\n|---|---|\n| multi_stage_reference | shear force of roasts cooked in one and three stages, no time or temperature course |\n| patty_grill | plates, gaps and 130 s, but no temperature or loss reached |\n| carryover_measured, ham | a cured leg on its bone: no section, no composition |\n| steak_method_times, oven broiler | no thickness, end point or distance to the element |\n| freezing_observation, meat_block_survey | thickness and mass of cartons, no time |\n| freezing_observation, forequarter | no thickness |\n| freezing_point, pham1996 and dark beef | a formula for solutes that no row gives; a shift between two meats |\n| ordering, statements on drip against evaporation, shear and fits | no number ours could be held against |\n| lin_geometry, lacroix_castaigne, time_method (cooling) | methods for cooling by hand that no row applies to a case |\n";

/// Every file's rows, in the order of the page.
const FILES: [fn() -> Vec<Row>; 17] = [
    super::conduction_series::rows,
    super::conduction_example::rows,
    super::reference_brick::rows,
    super::semi_infinite::rows,
    super::stefan_neumann::rows,
    super::reference_slab::rows,
    super::hand_methods::rows,
    super::thawing_observation::rows,
    super::sous_vide::rows,
    super::pasteurisation::rows,
    super::property_computed::rows,
    super::property_rows::rows,
    super::cook_case::rows,
    super::loss::rows,
    super::pan_behaviour::rows,
    super::ordering::rows,
    super::myoglobin::rows,
];

fn all() -> Vec<Row> {
    // One after the other: an ensemble inside would steal a thread that waits for its own rows.
    FILES.iter().flat_map(|rows| rows()).collect()
}

fn page(mut rows: Vec<Row>) -> String {
    let mut text = HEAD.to_owned();
    let inside = rows.iter().filter(|row| row.inside()).count();
    let told = coverage(&rows);
    let _ = writeln!(text, "**{} rows, {inside} inside, {} known misses.**", rows.len(), rows.len() - inside);
    text += STATED;
    stated(&mut text, &rows);
    cooks(&mut text, &told);
    // Blocks in the order they first come, each whole.
    let mut order: Vec<&str> = Vec::new();
    for row in &rows {
        if !order.contains(&row.block) {
            order.push(row.block);
        }
    }
    rows.sort_by_key(|row| order.iter().position(|block| *block == row.block));
    text += "\n## Row by row\n";
    text += &table(&rows);
    text + SILENT
}

/// Mean and standard deviation of the errors where everything is told.
fn stated(text: &mut String, rows: &[Row]) {
    text.push_str("| rows | number | mean error | sd |\n|---|---|---|---|\n");
    for (name, blocks) in [
        ("freezing and thawing, slabs and bricks", &["reference_slab", "reference_brick"][..]),
        ("chilling and heating", &["conduction_example", "analytic_case"]),
    ] {
        let of = rows.iter().filter(|row| blocks.contains(&row.block) && row.miss.is_none());
        let errors: Vec<f64> = of.map(|row| 100.0 * (row.ours.median / row.told[0] - 1.0)).collect();
        let count = errors.len() as f64;
        let mean = errors.iter().sum::<f64>() / count;
        let sd = (errors.iter().map(|e| (e - mean).powi(2)).sum::<f64>() / count).sqrt();
        let _ = writeln!(text, "| {name} | {} | {mean:+.2} % | {sd:.2} % |", errors.len());
    }
}

fn cooks(text: &mut String, told: &Coverage) {
    let [times, others] = told.counts;
    let _ = writeln!(
        text,
        "\n## Cooks as told\n\nOf {times} times as cooks, recipes and timetables tell them the 80 % bands hold {:.0} % (aim 70 to 90 %), with a mean error of \
         the logarithm of {:.2} (aim 0.19 or less) and a bias of {:+.2}. Of {others} losses, rises and shrinkages they hold {:.0} %: **the aim of \
         70 % is missed there**, by \
         roasts in hot ovens, whose loss and rise come out too large, and by thin steaks in a pan, which lose too little: one juice \
         law, without a clock, stands for both.",
        100.0 * told.times,
        told.size,
        told.bias,
        100.0 * told.others,
    );
}

#[test]
fn docs_are_fresh() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/heat-rows.md");
    let page = page(all());
    if std::env::var("GAMBREL_WRITE").is_ok_and(|write| write == "1") {
        std::fs::write(&path, page).unwrap();
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    for (line, (kept, said)) in kept.lines().zip(page.lines()).enumerate() {
        assert!(
            alike(kept, said),
            "docs/heat-rows.md is stale in line {}: run with GAMBREL_WRITE=1\n{kept}\n{said}",
            line + 1
        );
    }
    assert_eq!(
        kept.lines().count(),
        page.lines().count(),
        "docs/heat-rows.md is stale: run with GAMBREL_WRITE=1"
    );
}

/// The same words, and numbers that differ by no more than a step's own error: the page is not stale because a solver got faster.
fn alike(kept: &str, said: &str) -> bool {
    let number = |word: &str| {
        let bare = word.trim_matches(|c: char| !(c.is_ascii_digit() || "+−-".contains(c)));
        bare.replace('−', "-").parse::<f64>().ok()
    };
    let (kept, said): (Vec<&str>, Vec<&str>) = (kept.split(' ').collect(), said.split(' ').collect());
    kept.len() == said.len()
        && kept.iter().zip(said).all(|(kept, said)| match (number(kept), number(said)) {
            (Some(a), Some(b)) => (a - b).abs() <= 0.02 * a.abs().max(b.abs()) + 0.02,
            _ => *kept == said,
        })
}
