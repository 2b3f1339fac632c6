//! Heights of what is read, measured on the rendered page.
//!
//! Council Directive 76/211/EEC, Annex I 3.1 (from memory): mass figures at least 4 mm high up to 1000 g, 6 mm above.
//! Regulation (EU) 1169/2011, Article 13 (from memory): an x at least 1.2 mm high. The 12 mm and 10 mm of word and
//! places are our own promise.

use paper::{Label, Printing, Stock};
use quantity::{Mass, Units};

use crate::examples::{pair, trim};
use crate::reader::{Ink, render};

/// Pixels of 600 dpi are 0.042 mm.
const TRUE_TO: f64 = 0.1;

fn on_roll(name: &str, label: &Label) -> Ink {
    render(name, &paper::labels(std::slice::from_ref(label), Printing::Roll).unwrap(), 0, 600.0)
}

/// The first label of a sheet, its corner at 7.2 and 15.15 mm.
fn on_sheet(name: &str, label: &Label) -> Ink {
    render(name, &paper::labels(std::slice::from_ref(label), Printing::Sheet { from: 1 }).unwrap(), 0, 600.0)
}

fn high(bounds: [f64; 4]) -> f64 {
    bounds[3] - bounds[1]
}

/// TARN has flat letters only, and 1 in 11+12 is as high as a capital.
#[test]
fn word_and_places_are_12_mm_on_the_roll_and_10_on_the_sheet() {
    let roll = on_roll("height-roll", &pair());
    assert!((high(roll.bounds([0.0, 0.0, 62.0, 16.0])) - 12.0).abs() < TRUE_TO);
    assert!((high(roll.bounds([0.0, 16.0, 11.0, 31.0])) - 12.0).abs() < TRUE_TO);
    let sheet = on_sheet("height-sheet", &pair());
    let (x, y) = (7.2, 15.15);
    assert!((high(sheet.bounds([x, y, x + 42.0, y + 14.0])) - 10.0).abs() < TRUE_TO);
    assert!((high(sheet.bounds([x, y + 14.5, x + 9.0, y + 26.5])) - 10.0).abs() < TRUE_TO);
}

/// The widest word of four letters keeps its height on both: it is squeezed instead.
#[test]
fn any_four_letters_and_any_two_places_keep_their_height() {
    for word in ["WWWW", "WORM", "MOOR", "IIII"] {
        for places in ["88+88", "99", "trim"] {
            let label = Label { word: word.into(), places: places.into(), ..pair() };
            for (stock, capitals) in [(Stock::Roll, 12.0), (Stock::Sheet, 10.0)] {
                let drawn = paper::label(&label, stock).unwrap();
                for text in [word, places] {
                    let line = line_of(&drawn, text);
                    // Capitals of this typeface are 1493 of 2048 units high.
                    assert!((line.em * 1493.0 / 2048.0 - capitals).abs() < 0.01, "{text} on {stock:?}");
                }
            }
        }
    }
}

#[test]
fn mass_figures_are_4_mm_high_and_6_above_a_kilo() {
    let light = on_roll("mass-light", &pair());
    assert!(high(light.bounds([2.0, 31.0, 10.0, 36.2])) >= 4.0 - TRUE_TO / 2.0);
    let heavy = on_roll("mass-heavy", &trim());
    assert!(high(heavy.bounds([2.0, 31.0, 6.0, 38.2])) >= 6.0 - TRUE_TO / 2.0);
    for (grams, wanted) in [(49.0, 4.0), (1000.0, 4.0), (1000.5, 6.0), (3800.0, 6.0)] {
        for stock in [Stock::Roll, Stock::Sheet] {
            for places in ["7", "11+12", "trim"] {
                let label = Label { places: places.into(), mass: Some(Mass::from_g(grams)), ..pair() };
                let shown = Units::METRIC.mass(Mass::from_g(grams), quantity::Grain::Reading);
                let line = line_of(&paper::label(&label, stock).unwrap(), &shown);
                assert!(line.em * 1493.0 / 2048.0 > wanted - 0.01, "{shown} on {stock:?}: {}", line.em);
            }
        }
    }
}

/// The smallest letters, on a label with more lines than it has room for.
#[test]
fn the_smallest_x_is_above_1_2_mm() {
    let many = [
        "packed on 5 Jul 2026",
        "frozen on 5 Jul 2026",
        "salted 1.5 %, 5 Jul",
        "bag lot C, sealed twice",
        "for the trial",
    ];
    let label = Label { lines: many.map(Into::into).to_vec(), ..trim() };
    for stock in [Stock::Roll, Stock::Sheet] {
        let drawn = paper::label(&label, stock).unwrap();
        let smallest = lines(&drawn).map(|line| line.em).fold(f64::MAX, f64::min);
        // An x of this typeface is 1120 of 2048 units high.
        assert!(smallest * 1120.0 / 2048.0 >= 1.2, "{stock:?}: em {smallest}");
    }
}

fn lines(drawn: &paper::Drawing) -> impl Iterator<Item = &paper::Line> {
    drawn.ink.iter().filter_map(|ink| match ink {
        paper::Ink::Text(line) => Some(line),
        paper::Ink::Fill(_) => None,
    })
}

fn line_of(drawn: &paper::Drawing, text: &str) -> paper::Line {
    lines(drawn).find(|line| line.text == text).unwrap_or_else(|| panic!("no {text:?} in {drawn:?}")).clone()
}
