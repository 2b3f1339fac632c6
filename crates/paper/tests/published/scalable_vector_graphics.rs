//! SVG 1.1 (W3C Recommendation): absolute units on the outer element, `viewBox` in millimetres; XML 1.0 for what a
//! name may hold (from memory). The image and the PDF are two renderings of one layout, so they must agree on paper.

use paper::{Label, Printing, Stock};

use crate::examples::pair;
use crate::reader::{read_image, render};

const TRUE_TO: f64 = 0.1;

#[test]
fn the_image_is_the_label_at_true_size() {
    for (name, stock, size) in [
        ("roll", Stock::Roll, ["62mm", "50mm", "0 0 62 50"]),
        ("sheet", Stock::Sheet, ["63.5mm", "38.1mm", "0 0 63.5 38.1"]),
    ] {
        let image = read_image(&format!("image-{name}"), &paper::label(&pair(), stock).unwrap());
        assert_eq!(image.size, size.map(str::to_owned));
        assert_eq!(image.role, "img");
        let spoken = image.spoken.replace('\u{202f}', " ");
        assert_eq!(spoken, "Label: TARN 11+12, 763 g, ribeye, pair, 31 mm, packed 5 Jul 2026, not salted.");
    }
}

/// The word's outline, point by point, against the printed page as a renderer paints it.
#[test]
fn the_word_is_as_high_and_wide_as_in_print() {
    let image = read_image("image-word", &paper::label(&pair(), Stock::Roll).unwrap());
    let points = points(&image.paths[0]);
    let reach = |of: fn(&(f64, f64)) -> f64| {
        points.iter().map(of).fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    let ((left, right), (top, bottom)) = (reach(|point| point.0), reach(|point| point.1));
    assert!((bottom - top - 12.0).abs() < TRUE_TO);
    let printed = render("image-word", &paper::labels(&[pair()], Printing::Roll).unwrap(), 0, 600.0);
    let word = printed.bounds([0.0, 0.0, 62.0, 16.0]);
    for (drawn, printed) in [left, top, right, bottom].iter().zip(word) {
        assert!((drawn - printed).abs() < TRUE_TO, "{drawn} in the image, {printed} in print");
    }
}

#[test]
fn odd_names_leave_the_image_readable() {
    let odd = "<b>&\"'\u{0}\u{1f}\u{fffe}\u{ffff}\u{202e}山🥩";
    let label =
        Label { word: odd.into(), places: odd.into(), what: odd.into(), lines: vec![odd.into()], ..pair() };
    let image = read_image("image-odd", &paper::label(&label, Stock::Sheet).unwrap());
    assert!(image.spoken.contains("<b>&\"'") && image.spoken.contains("山🥩"), "{}", image.spoken);
}

/// Absolute points of a path of letters, end points and controls.
fn points(path: &str) -> Vec<(f64, f64)> {
    let numbers = path
        .split(|letter: char| letter.is_ascii_alphabetic() || letter == ' ')
        .filter(|part| !part.is_empty());
    let numbers: Vec<f64> = numbers.map(|number| number.parse().expect("a number")).collect();
    numbers.chunks(2).map(|point| (point[0], point[1])).collect()
}
