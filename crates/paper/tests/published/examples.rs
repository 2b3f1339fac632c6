//! What the checks print.

use paper::{Label, Portion, Strip};
use quantity::{Length, Mass, Units};

/// A pair off an invented ribeye roll.
pub(crate) fn pair() -> Label {
    Label {
        word: "TARN".into(),
        places: "11+12".into(),
        mass: Some(Mass::from_g(763.0)),
        what: "ribeye, pair".into(),
        thickness: Some(Length::from_mm(31.0)),
        lines: vec!["packed 5 Jul 2026".into(), "not salted".into()],
        url: Some("http://kitchen.local:8080/pack/tarn-11-12".into()),
        units: Units::METRIC,
    }
}

/// Loose trim of more than a kilo.
pub(crate) fn trim() -> Label {
    Label {
        places: "trim".into(),
        mass: Some(Mass::from_g(1956.0)),
        what: "ribeye, lean trim to mince".into(),
        thickness: None,
        url: Some("http://kitchen.local:8080/pack/tarn-trim".into()),
        ..pair()
    }
}

/// An invented roll of 452 mm: 10 mm squared off, 14 portions on 420 mm, 22 mm left over.
pub(crate) fn roll() -> Strip {
    let marks =
        [0.0, 28.4, 57.1, 86.0, 115.1, 144.6, 174.0, 203.9, 233.9, 264.3, 294.9, 325.7, 356.9, 388.3, 420.0];
    let portions = marks.windows(2).zip(1..).map(|(faces, place)| Portion {
        name: place.to_string(),
        from: Length::from_mm(faces[0] + 10.0),
        to: Length::from_mm(faces[1] + 10.0),
    });
    Strip {
        word: "TARN".into(),
        from_end: "chuck end".into(),
        far_end: "loin end".into(),
        length: Length::from_mm(452.0),
        squared_off: Length::from_mm(10.0),
        portions: portions.collect(),
        note: "Planned Sun 5 July, 10:50. After the first weighing the board knows better.".into(),
        units: Units::METRIC,
    }
}
