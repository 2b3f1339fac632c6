//! ISO/IEC 18004, QR Code: capacities at level M from the bit capacities of an open encoder and a public table
//! (secondary); side = 17 + 4 × version modules, quiet zone of 4 modules. Symbols are read back by a general
//! decoder, once from the rectangles of the drawing and once from the page as a renderer paints it.

use paper::{Drawing, Ink, Label, PaperError, Printing, Stock};
use rxing::BarcodeFormat;

use crate::examples::pair;
use crate::reader::{self, render};

/// Version, modules a side, characters in alphanumeric and in byte mode, level M.
const CAPACITY: [(usize, usize, usize, usize); 5] =
    [(1, 21, 20, 14), (2, 25, 38, 26), (3, 29, 61, 42), (4, 33, 90, 62), (5, 37, 122, 84)];
const SIDE: f64 = 14.0;

#[test]
fn the_smallest_symbol_that_holds_the_address_is_taken() {
    for (version, modules, alphanumeric, bytes) in CAPACITY {
        assert_eq!(modules, 17 + 4 * version);
        let capitals = format!("HTTP://{}", "A".repeat(alphanumeric - 7));
        assert_eq!(modules_of(&capitals), modules, "{alphanumeric} characters");
        // An underscore has no place in the alphanumeric set.
        let mixed = format!("http://_{}", "a".repeat(bytes - 8));
        assert_eq!(modules_of(&mixed), modules, "{bytes} bytes");
        if version < 5 {
            assert_eq!(modules_of(&format!("{capitals}A")), modules + 4);
            assert_eq!(modules_of(&format!("{mixed}a")), modules + 4);
        }
    }
}

#[test]
fn an_address_too_long_for_a_label_is_refused() {
    for (address, allowed) in [("A".repeat(123), 122), ("_".repeat(85), 84), ("é".repeat(5000), 84)] {
        let found = address.len();
        let refused = paper::label(&with(&address), Stock::Roll).unwrap_err();
        assert_eq!(refused, PaperError::CodeTooLong { found, allowed });
    }
}

/// Capitals: the address of a pack ignores case, and capitals make the smaller symbol.
#[test]
fn the_modules_read_back() {
    for address in [
        "http://kitchen.local:8080/pack/tarn-11-12",
        "HTTPS://192.168.1.20:8443/PACK/DUSK-TRIM-2",
        "http://h/p",
    ] {
        assert_eq!(decoded(&rasterised(&code(address), SIDE)), address.to_uppercase());
    }
    let mixed = "http://kitchen_two.local/pack/tarn-4";
    assert_eq!(decoded(&rasterised(&code(mixed), SIDE)), mixed);
    let umlaut = "http://küche.local/pack/tarn-4";
    assert_eq!(decoded(&rasterised(&code(umlaut), SIDE)), umlaut);
}

/// 300 dpi is what a label printer prints; the renderer is not ours.
#[test]
fn the_printed_code_reads_back() {
    let wanted = "HTTP://KITCHEN.LOCAL:8080/PACK/TARN-11-12";
    let roll = paper::labels(&[pair()], Printing::Roll).unwrap();
    let ink = render("code-roll", &roll, 0, 300.0);
    assert_eq!(decode(ink.luma, ink.width, ink.height), wanted);
    let sheet = paper::labels(&[pair()], Printing::Sheet { from: 21 }).unwrap();
    let ink = render("code-sheet", &sheet, 0, 300.0);
    assert_eq!(decode(ink.luma, ink.width, ink.height), wanted);
}

/// The code's rectangles as a reader finds them in the file, rasterised here, decoded there.
#[test]
fn the_code_in_the_file_reads_back() {
    let read = reader::read("code-file", &paper::labels(&[pair()], Printing::Roll).unwrap());
    let rects: Vec<paper::Rect> = read.pages[0]
        .rects
        .iter()
        .map(|r| paper::Rect { x: r[0], y: r[1], width: r[2] - r[0], height: r[3] - r[1] })
        .collect();
    assert_eq!(decoded(&rasterised(&rects, SIDE)), "HTTP://KITCHEN.LOCAL:8080/PACK/TARN-11-12");
}

/// At least 3 mm of white on every side, and never less than four modules, on both labels, whatever else stands
/// there.
#[test]
fn the_quiet_zone_is_quiet() {
    for (version, _, alphanumeric, _) in CAPACITY {
        let address = format!("HTTP://{}", "A".repeat(alphanumeric - 7));
        let label = Label {
            word: "WWWW".into(),
            places: "88+88".into(),
            lines: vec!["W".repeat(60); 3],
            ..with(&address)
        };
        for stock in [Stock::Roll, Stock::Sheet] {
            let drawn = paper::label(&label, stock).unwrap();
            let bounds = bounds(&rects(&drawn));
            assert!(
                (bounds[2] - bounds[0] - SIDE).abs() < 0.01,
                "the code is {} mm wide",
                bounds[2] - bounds[0]
            );
            let module = SIDE / (17 + 4 * version) as f64;
            let white = f64::max(3.0, 4.0 * module) - 0.01;
            let zone = [bounds[0] - white, bounds[1] - white, bounds[2] + white, bounds[3] + white];
            let (width, height) = stock.size();
            assert!(
                zone[0] >= 0.0 && zone[1] >= 0.0 && zone[2] <= width && zone[3] <= height,
                "{stock:?} {zone:?}"
            );
            for ink in &drawn.ink {
                if let Ink::Text(line) = ink {
                    let text = [
                        line.x,
                        line.baseline - line.em * 0.76,
                        line.x + line.width,
                        line.baseline + line.em * 0.24,
                    ];
                    let apart =
                        text[2] <= zone[0] || text[0] >= zone[2] || text[3] <= zone[1] || text[1] >= zone[3];
                    // Word and places have no letter that hangs below the line.
                    let hangs = line.em > 8.0 && line.baseline <= zone[1] + 0.4;
                    assert!(apart || hangs, "{stock:?}: {:?} reaches into {zone:?}", line.text);
                }
            }
        }
    }
}

fn with(address: &str) -> Label {
    Label { url: Some(address.into()), ..pair() }
}

fn code(address: &str) -> Vec<paper::Rect> {
    rects(&paper::label(&with(address), Stock::Roll).unwrap())
}

fn rects(drawn: &Drawing) -> Vec<paper::Rect> {
    let fills = drawn.ink.iter().filter_map(|ink| match ink {
        Ink::Fill(rects) => Some(rects.as_slice()),
        Ink::Text(_) => None,
    });
    fills.flatten().copied().collect()
}

fn bounds(rects: &[paper::Rect]) -> [f64; 4] {
    rects.iter().fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |b, r| {
        [b[0].min(r.x), b[1].min(r.y), b[2].max(r.x + r.width), b[3].max(r.y + r.height)]
    })
}

/// Modules a side, from the rows of the drawing.
fn modules_of(address: &str) -> usize {
    let rects = code(address);
    let module = rects[0].height;
    (SIDE / module).round() as usize
}

/// The code at 10 pixels a millimetre's tenth module, four modules of white around it.
fn rasterised(rects: &[paper::Rect], side: f64) -> (Vec<u8>, usize) {
    const DOTS_PER_MM: f64 = 20.0;
    let [left, top, ..] = bounds(rects);
    let white = 4.0;
    let dots = ((side + 2.0 * white) * DOTS_PER_MM) as usize;
    let mut luma = vec![255; dots * dots];
    for rect in rects {
        let dot = |mm: f64, from: f64| ((mm - from + white) * DOTS_PER_MM).round() as usize;
        for row in dot(rect.y, top)..dot(rect.y + rect.height, top) {
            for column in dot(rect.x, left)..dot(rect.x + rect.width, left) {
                luma[row * dots + column] = 0;
            }
        }
    }
    (luma, dots)
}

fn decoded((luma, dots): &(Vec<u8>, usize)) -> String {
    decode(luma.clone(), *dots, *dots)
}

fn decode(luma: Vec<u8>, width: usize, height: usize) -> String {
    let found =
        rxing::helpers::detect_in_luma(luma, width as u32, height as u32, Some(BarcodeFormat::QR_CODE));
    found.expect("a code that reads").getText().to_owned()
}
