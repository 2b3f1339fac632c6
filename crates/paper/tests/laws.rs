//! What holds for whatever people write on labels and however they cut: nothing leaves its paper, nothing overlaps,
//! and the file is whole.

use paper::{Document, Drawing, Ink, Label, Line, PaperError, Portion, Printing, Stock, Strip};
use proptest::prelude::*;
use quantity::{Length, Mass, Units};

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_label_keeps_all_its_ink(label in any_label()) {
        for stock in [Stock::Roll, Stock::Sheet] {
            let drawn = paper::label(&label, stock)?;
            inside(&drawn, 2.0)?;
            apart(&drawn)?;
            let svg = drawn.svg()?;
            prop_assert!(svg.starts_with("<svg") && svg.ends_with("</svg>"));
            prop_assert_eq!(svg.matches("<path").count(), drawn.ink.len());
        }
    }

    #[test]
    fn a_sheet_of_labels_is_a_whole_file(labels in prop::collection::vec(any_label(), 1..45), from in 1_usize..=21) {
        let document = paper::labels(&labels, Printing::Sheet { from })?;
        prop_assert_eq!(document.pages.len(), (from - 1 + labels.len()).div_ceil(21));
        whole(&document)?;
    }

    #[test]
    fn a_strip_keeps_all_its_ink(strip in any_strip()) {
        let document = paper::strip(&strip)?;
        for page in &document.pages {
            inside(page, 10.0)?;
            apart(page)?;
        }
        whole(&document)?;
    }

    /// Places that are no numbers, or out of all proportion, are refused, not drawn.
    #[test]
    fn any_numbers_are_drawn_or_refused(length in any::<f64>(), squared in any::<f64>(), from in any::<f64>(), to in any::<f64>()) {
        let portion = Portion { name: "1".into(), from: Length::from_mm(from), to: Length::from_mm(to) };
        let strip = Strip {
            word: "TARN".into(),
            from_end: "chuck end".into(),
            far_end: "loin end".into(),
            length: Length::from_mm(length),
            squared_off: Length::from_mm(squared),
            portions: vec![portion],
            note: String::new(),
            units: Units::METRIC,
        };
        match paper::strip(&strip) {
            Ok(document) => whole(&document)?,
            Err(refused) => prop_assert!(
                matches!(refused, PaperError::PieceLength { .. } | PaperError::OffThePiece { .. }), "{}", refused
            ),
        }
    }
}

/// Short and long, plain and odd: letters of any script, breaks, directions, joiners, nothing at all.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[A-Z]{4}",
        "[0-9]{1,2}\\+[0-9]{1,2}",
        "\\PC{0,40}",
        any::<String>(),
        "[\u{200b}-\u{202e}\u{0}-\u{20}]{0,9}",
        "W{80}"
    ]
}

fn any_label() -> impl Strategy<Value = Label> {
    let mass = prop::option::of((0.0_f64..30_000.0).prop_map(Mass::from_g));
    let thickness = prop::option::of((1.0_f64..200.0).prop_map(Length::from_mm));
    let url = prop::option::of("https?://[a-z0-9.]{1,30}(:[0-9]{4})?/pack/[a-z]{4}-[0-9]{1,2}");
    let units = prop_oneof![Just(Units::METRIC), Just(Units::US)];
    let texts = (any_text(), any_text(), any_text(), prop::collection::vec(any_text(), 0..9));
    (texts, mass, thickness, url, units).prop_map(
        |((word, places, what, lines), mass, thickness, url, units)| Label {
            word,
            places,
            mass,
            what,
            thickness,
            lines,
            url,
            units,
        },
    )
}

fn any_strip() -> impl Strategy<Value = Strip> {
    let cuts = prop::collection::vec(0.2_f64..120.0, 0..60);
    let units = prop_oneof![Just(Units::METRIC), Just(Units::US)];
    let texts = (any_text(), any_text(), any_text(), any_text());
    (texts, cuts, 0.0_f64..60.0, 10.0_f64..80.0, units).prop_map(
        |((word, from_end, far_end, note), cuts, off, left, units)| {
            let mut at = off;
            let mut portions = Vec::new();
            for (cut, place) in cuts.iter().zip(1..) {
                if at + cut > 1900.0 {
                    break;
                }
                let name = if place % 7 == 0 { word.clone() } else { place.to_string() };
                portions.push(Portion { name, from: Length::from_mm(at), to: Length::from_mm(at + cut) });
                at += cut;
            }
            Strip {
                word,
                from_end,
                far_end,
                length: Length::from_mm(at + left),
                squared_off: Length::from_mm(off),
                portions,
                note,
                units,
            }
        },
    )
}

/// Everything stays this far from the paper's edges, mm.
fn inside(drawn: &Drawing, margin: f64) -> Result<(), TestCaseError> {
    for ink in &drawn.ink {
        let boxes = match ink {
            Ink::Fill(rects) => rects.iter().map(|r| [r.x, r.y, r.x + r.width, r.y + r.height]).collect(),
            Ink::Text(line) => vec![letters(line)],
        };
        for [left, top, right, bottom] in boxes {
            let held = left >= margin
                && right <= drawn.width - margin
                && top >= margin
                && bottom <= drawn.height - margin + 0.7;
            prop_assert!(held, "{ink:?} leaves {} × {}", drawn.width, drawn.height);
        }
    }
    Ok(())
}

/// No line of text lies on another, nor on the code.
fn apart(drawn: &Drawing) -> Result<(), TestCaseError> {
    let lines: Vec<&Line> = drawn
        .ink
        .iter()
        .filter_map(|ink| match ink {
            Ink::Text(line) => Some(line),
            Ink::Fill(_) => None,
        })
        .collect();
    for (place, one) in lines.iter().enumerate() {
        for other in &lines[place + 1..] {
            let (a, b) = (capitals(one), capitals(other));
            let apart = a[2] <= b[0] + 1e-6 || b[2] <= a[0] + 1e-6 || a[3] <= b[1] || b[3] <= a[1];
            prop_assert!(apart, "{:?} on {:?}", one, other);
        }
    }
    Ok(())
}

/// From the capitals' height to what hangs below the line; capitals are 0.73 em high.
fn letters(line: &Line) -> [f64; 4] {
    [line.x, line.baseline - 0.73 * line.em, line.x + line.width, line.baseline + 0.24 * line.em]
}

fn capitals(line: &Line) -> [f64; 4] {
    [line.x, line.baseline - 0.73 * line.em, line.x + line.width, line.baseline]
}

fn whole(document: &Document) -> Result<(), TestCaseError> {
    let bytes = document.pdf()?;
    prop_assert!(bytes.starts_with(b"%PDF-1.7") && bytes.ends_with(b"%%EOF"));
    prop_assert!(bytes == document.pdf()?, "two prints differ");
    Ok(())
}
