//! ISO 32000-1 (PDF 1.7): what the document says of itself, read by a strict general reader. `ViewerPreferences`
//! 12.2, text extraction by `ToUnicode` 9.10, `Lang` 14.9.2 (from memory).

use paper::{Label, Printing};

use crate::examples::{pair, roll};
use crate::reader::read;

#[test]
fn it_asks_not_to_be_scaled_and_says_what_it_is() {
    let labels = read("told-label", &paper::labels(&[pair()], Printing::Roll).unwrap());
    let strip = read("told-strip", &paper::strip(&roll()).unwrap());
    for (told, title) in [(&labels, "Label TARN 11+12"), (&strip, "TARN, marking strip")] {
        assert_eq!(
            (told.title.as_str(), told.language.as_str(), told.print_scaling.as_str()),
            (title, "en", "/None")
        );
    }
}

#[test]
fn its_text_can_be_copied_out() {
    let odd = Label {
        what: "½ ribeye, Łódź – Őrség, 山".into(), lines: vec!["−18 °C".into()], ..pair()
    };
    let told = read("told-text", &paper::labels(&[odd], Printing::Roll).unwrap());
    let text = &told.copied_out[0];
    for line in ["TARN", "11+12", "763\u{202f}g", "½ ribeye, Łódź – Őrség, \u{fffd}, 31\u{202f}mm", "−18 °C"]
    {
        assert!(text.contains(line), "no {line:?} in {text:?}");
    }
}

#[test]
fn both_typefaces_are_embedded_as_subsets() {
    let told = read("told-fonts", &paper::labels(&[pair()], Printing::Roll).unwrap());
    let page = &told.pages[0];
    for name in ["+DejaVuSansCondensed", "+DejaVuSansCondensed-Bold"] {
        assert!(page.letters.iter().any(|letter| letter.font.ends_with(name)), "no {name}");
    }
    let bytes = paper::labels(&[pair()], Printing::Roll).unwrap().pdf().unwrap();
    assert!(bytes.len() < 60_000, "{} bytes", bytes.len());
}

#[test]
fn same_label_same_bytes() {
    let print = || paper::labels(&[pair()], Printing::Sheet { from: 3 }).unwrap().pdf().unwrap();
    assert_eq!(print(), print());
    let strip = || paper::strip(&roll()).unwrap().pdf().unwrap();
    assert_eq!(strip(), strip());
}
