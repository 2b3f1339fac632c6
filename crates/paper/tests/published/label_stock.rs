//! The Document Foundation, LibreOffice label-stock definitions (labels.xml), lengths in 1/100 mm: A4, 63.5 × 38.1
//! mm, 21 up (published). Continuous 62 mm roll, 732 dots of which 696 print at 300 dpi: geometry table of an open
//! driver library (common practice).

use paper::{Label, Printing};

use crate::examples::{pair, trim};
use crate::reader::{Page, read, render};

const SHEET: (f64, f64) = (210.0, 297.0);
const COLUMNS: usize = 3;
const LABEL: (f64, f64) = (63.5, 38.1);
const PITCH: (f64, f64) = (66.04, 38.1);
const MARGIN: (f64, f64) = (7.2, 15.15);
/// 696 of 732 dots, in the middle of 62 mm.
const ROLL_PRINTS: (f64, f64) = (62.0, 58.9);

/// Each code lies 46.3 mm right of and 3 mm below its label's corner, wherever the stock has that label.
#[test]
fn labels_lie_where_the_stock_has_them() {
    let labels: Vec<Label> = (1..=30).map(|place| Label { places: place.to_string(), ..pair() }).collect();
    let read = read("sheet", &paper::labels(&labels, Printing::Sheet { from: 5 }).unwrap());
    assert_eq!(read.pages.len(), 2);
    let taken: Vec<usize> = (4..21).chain(0..13).collect();
    for (place, label) in taken.iter().zip(&labels) {
        let page = &read.pages[usize::from(label.places.parse::<usize>().unwrap() > 17)];
        assert!((page.size.0 - SHEET.0).abs() < 0.01 && (page.size.1 - SHEET.1).abs() < 0.01);
        let corner =
            (MARGIN.0 + PITCH.0 * (place % COLUMNS) as f64, MARGIN.1 + PITCH.1 * (place / COLUMNS) as f64);
        let inside = |rect: &[f64; 4]| {
            rect[0] > corner.0
                && rect[2] < corner.0 + LABEL.0
                && rect[1] > corner.1
                && rect[3] < corner.1 + LABEL.1
        };
        let code: Vec<&[f64; 4]> = page.rects.iter().filter(|rect| inside(rect)).collect();
        let left = code.iter().map(|rect| rect[0]).fold(f64::MAX, f64::min);
        let top = code.iter().map(|rect| rect[1]).fold(f64::MAX, f64::min);
        assert!((left - corner.0 - 46.3).abs() < 0.1 && (top - corner.1 - 3.0).abs() < 0.1, "label {place}");
        letters_inside(page, corner, &label.places);
    }
}

/// The label's own number stands on it, 26 mm below its upper edge.
fn letters_inside(page: &Page, corner: (f64, f64), places: &str) {
    let found = page.texts().into_iter().any(|text| {
        text.text == places
            && (text.baseline - corner.1 - 26.0).abs() < 0.1
            && text.x0 > corner.0
            && text.x1 < corner.0 + LABEL.0
    });
    assert!(found, "no {places} at {corner:?}");
}

#[test]
fn the_page_of_a_roll_is_the_label() {
    let read = read("roll", &paper::labels(&[pair(), trim()], Printing::Roll).unwrap());
    assert_eq!(read.pages.len(), 2);
    for page in &read.pages {
        assert!((page.size.0 - ROLL_PRINTS.0).abs() < 0.01 && (page.size.1 - 50.0).abs() < 0.01);
    }
}

/// What a renderer paints stays where the printer prints: 1.55 mm from the roll's edges; 2.5 mm from a sheet label's.
#[test]
fn all_ink_stays_on_what_prints() {
    for (label, name) in [(pair(), "pair"), (trim(), "trim")] {
        let roll = paper::labels(std::slice::from_ref(&label), Printing::Roll).unwrap();
        let ink = render(&format!("roll-{name}"), &roll, 0, 600.0);
        let [left, top, right, bottom] = ink.bounds([0.0, 0.0, 62.0, 50.0]);
        let unprinted = (ROLL_PRINTS.0 - ROLL_PRINTS.1) / 2.0;
        assert!(left > unprinted && right < 62.0 - unprinted, "{left} to {right}");
        assert!(top > 2.5 && bottom < 50.0 - 1.5, "{top} to {bottom}");

        let sheet = paper::labels(&[label], Printing::Sheet { from: 1 }).unwrap();
        let ink = render(&format!("sheet-{name}"), &sheet, 0, 600.0);
        let [left, top, right, bottom] = ink.bounds([0.0, 0.0, 210.0, 297.0]);
        assert!(left > MARGIN.0 + 2.5 && right < MARGIN.0 + LABEL.0 - 2.5, "{left} to {right}");
        assert!(top > MARGIN.1 + 2.5 && bottom < MARGIN.1 + LABEL.1 - 2.0, "{top} to {bottom}");
    }
}

#[test]
fn a_sheet_has_labels_1_to_21() {
    for from in [0, 22, usize::MAX] {
        let refused = paper::labels(&[pair()], Printing::Sheet { from }).unwrap_err().to_string();
        assert!(refused.contains("no label") && refused.contains("21"), "{refused}");
    }
    assert_eq!(paper::labels(&[], Printing::Roll).unwrap_err(), paper::PaperError::NothingToPrint);
}
