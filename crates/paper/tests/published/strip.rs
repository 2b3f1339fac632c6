//! The marking strip read back from its PDF: every length on it against the plan it was drawn from.
//!
//! The plan is an invented one; the references are the plan's own millimetres and ISO 216 (A4 is 210 × 297 mm,
//! published). Aim: true to 0.1 mm.

use paper::{Portion, Strip};
use quantity::{Length, Units};

use crate::examples::roll;
use crate::reader::{Page, Read, read, render};

const TRUE_TO: f64 = 0.1;
/// The long marks are 50 mm high and 0.6 mm wide.
const MARK: (f64, f64) = (0.6, 50.0);

#[test]
fn paper_is_a4_across() {
    for page in &printed("strip").pages {
        assert!((page.size.0 - 297.0).abs() < 0.01 && (page.size.1 - 210.0).abs() < 0.01, "{:?}", page.size);
    }
}

/// The first sheet shows 0 and the marks up to the overlap behind 220, the second those from the overlap before it.
#[test]
fn marks_lie_where_the_plan_has_them() {
    let plan = roll();
    let mut marks: Vec<f64> =
        plan.portions.iter().map(|portion| (portion.from - plan.squared_off).mm()).collect();
    marks.push(420.0);
    let read = printed("strip");
    assert_eq!(read.pages.len(), 2);
    for (page, shown) in read.pages.iter().zip([(-10.0, 226.0), (214.0, 442.0)]) {
        let wanted: Vec<f64> =
            marks.iter().copied().filter(|mark| *mark >= shown.0 && *mark <= shown.1).collect();
        let found = middles(page, MARK);
        assert_eq!(found.len(), wanted.len());
        // Places count from the outline's left edge.
        let left = found[0] - wanted[0];
        for (found, wanted) in found.iter().zip(&wanted) {
            assert!((found - left - wanted).abs() < TRUE_TO, "{} for {wanted}", found - left);
        }
        let outline = page.rects.iter().map(|rect| (rect[0] + rect[2]) / 2.0).fold(f64::MAX, f64::min);
        assert!((left + shown.0 - outline).abs() < TRUE_TO, "the strip begins at {}", outline - left);
    }
}

#[test]
fn every_millimetre_has_its_tick_beside_the_marks() {
    let read = printed("strip");
    let page = &read.pages[0];
    let zero = middles(page, MARK)[0];
    let mut ticks: Vec<f64> =
        [2.5, 4.0, 6.0, 8.0].iter().flat_map(|high| middles(page, (0.2, *high))).collect();
    ticks.sort_by(f64::total_cmp);
    let ticks: Vec<f64> = ticks.iter().map(|x| x - zero).collect();
    assert_eq!(ticks.len(), 10 + 226 + 1);
    for (tick, wanted) in ticks.iter().zip(-10..) {
        assert!((tick - f64::from(wanted)).abs() < TRUE_TO, "tick {tick} for {wanted}");
    }
}

/// The line a ruler is held against is 100 mm between its strokes on each sheet, to a hundredth.
#[test]
fn the_check_line_is_a_hundred_millimetres() {
    for page in &printed("strip").pages {
        let strokes = middles(page, (0.25, 6.0));
        assert_eq!(strokes.len(), 2);
        assert!((strokes[1] - strokes[0] - 100.0).abs() < 0.01, "{strokes:?}");
        let line = page.rects.iter().find(|rect| (rect[2] - rect[0] - 100.0).abs() < 0.01);
        assert!(line.is_some(), "no bar of 100 mm");
    }
}

/// Laid with the dashed lines on each other, the two sheets agree on every mark both show.
#[test]
fn two_sheets_meet_at_the_shared_line() {
    let read = printed("strip");
    let dashed = |page: &Page| middles(page, (0.25, 2.0))[0];
    let (first, second) = (&read.pages[0], &read.pages[1]);
    let shift = dashed(first) - dashed(second);
    let zero = middles(first, MARK)[0];
    assert!((dashed(first) - zero - 220.0).abs() < TRUE_TO);
    let first_of_second = middles(second, MARK)[0] + shift - zero;
    assert!((first_of_second - 233.9).abs() < TRUE_TO, "{first_of_second}");
    second.text("220 on sheet 1");
    first.text("220 on sheet 2");
    assert!(read.copied_out[1].contains("overlap by 12 mm"), "{}", read.copied_out[1]);
}

/// Numbers at the marks are whole millimetres from the squared face; each portion is named between its marks.
#[test]
fn marks_and_portions_carry_their_names() {
    let read = printed("strip");
    let page = &read.pages[0];
    for place in ["28", "57", "86", "115", "145", "174", "204"] {
        page.text(place);
    }
    let marks = middles(page, MARK);
    for (place, faces) in ["1", "2", "3", "4", "5", "6", "7"].iter().zip(marks.windows(2)) {
        let name = page.text(place);
        assert!(name.x0 > faces[0] && name.x1 < faces[1], "{name:?} in {faces:?}");
        assert!(((name.x0 + name.x1) / 2.0 - (faces[0] + faces[1]) / 2.0).abs() < TRUE_TO);
    }
}

/// A renderer that shares nothing with the writer paints the marks at the same places: pixels of 600 dpi are 0.04 mm.
#[test]
fn a_renderer_paints_the_same_millimetres() {
    let document = paper::strip(&roll()).unwrap();
    let ink = render("strip", &document, 0, 600.0);
    // A row through the strip where only marks, ends and dashes stand: between the names and the ticks.
    let row = (26.0 + 31.0, 26.0 + 31.2);
    let wanted = [28.4, 57.1, 86.0, 115.1, 144.6, 174.0, 203.9];
    let zero = 28.0;
    for mark in wanted {
        let [left, _, right, _] = ink.bounds([zero + mark - 2.0, row.0, zero + mark + 2.0, row.1]);
        assert!(((left + right) / 2.0 - zero - mark).abs() < TRUE_TO, "{mark}: {left} to {right}");
    }
}

/// In US units ticks are sixteenths of an inch; the check line stays 100 mm, as the words beside it say.
#[test]
fn sixteenths_of_an_inch_in_us_units() {
    let plan = Strip { units: Units::US, ..roll() };
    let read = read("strip-us", &paper::strip(&plan).unwrap());
    let page = &read.pages[0];
    let zero = middles(page, MARK)[0];
    let mut ticks: Vec<f64> =
        [2.5, 4.0, 6.0, 8.0].iter().flat_map(|high| middles(page, (0.2, *high))).collect();
    ticks.sort_by(f64::total_cmp);
    for (tick, wanted) in ticks.iter().zip(-6..) {
        assert!((tick - zero - f64::from(wanted) * 25.4 / 16.0).abs() < TRUE_TO, "{tick} for {wanted}/16");
    }
    page.text("1 1/8");
    page.text("8 1/2 on sheet 2");
    assert_eq!(middles(page, (0.25, 6.0)).len(), 2);
}

/// A whole piece of two metres, cut into a hundred: nine sheets, each mark on one of them.
#[test]
fn a_hundred_marks_over_nine_sheets() {
    let portion = |place: i32| Portion {
        name: place.to_string(),
        from: Length::from_mm(f64::from(place) * 20.0 - 20.0),
        to: Length::from_mm(f64::from(place) * 20.0),
    };
    let plan = Strip {
        length: Length::from_mm(2000.0),
        squared_off: Length::from_mm(0.0),
        portions: (1..=100).map(portion).collect(),
        ..roll()
    };
    let read = read("strip-long", &paper::strip(&plan).unwrap());
    assert_eq!(read.pages.len(), 9);
    let mut begin = 0.0;
    for page in &read.pages {
        let marks = middles(page, MARK);
        for pair in marks.windows(2) {
            assert!((pair[1] - pair[0] - 20.0).abs() < TRUE_TO);
        }
        begin += (marks.len() - 1) as f64 * 20.0;
    }
    assert!(begin >= 2000.0 - 9.0 * 20.0, "{begin}");
}

#[test]
fn a_portion_off_the_piece_is_refused() {
    let plan = Strip { length: Length::from_mm(400.0), ..roll() };
    let refused = paper::strip(&plan).unwrap_err().to_string();
    assert!(
        refused.contains("13 runs from 366.9 to 398.3") || refused.contains("14 runs from 398.3 to 430"),
        "{refused}"
    );
    let plan = Strip { length: Length::from_mm(f64::NAN), ..roll() };
    assert!(matches!(paper::strip(&plan), Err(paper::PaperError::PieceLength { .. })));
}

fn printed(name: &str) -> Read {
    read(name, &paper::strip(&roll()).unwrap())
}

/// Middles of all uprights of this width and height, from left to right.
fn middles(page: &Page, (width, height): (f64, f64)) -> Vec<f64> {
    let of_size = |rect: &&[f64; 4]| {
        (rect[2] - rect[0] - width).abs() < 0.01 && (rect[3] - rect[1] - height).abs() < 0.01
    };
    let mut middles: Vec<f64> =
        page.rects.iter().filter(of_size).map(|rect| (rect[0] + rect[2]) / 2.0).collect();
    middles.sort_by(f64::total_cmp);
    middles
}
