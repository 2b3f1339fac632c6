//! Measuring a piece before the knife: length, ends, cross-sections.

use maud::{Markup, html};
use quantity::Length;
use record::{PieceMeasured, Station};
use uuid::Uuid;

use super::view::View;
use crate::parts::{Choice, Field, Typed, entry_form};
use crate::reading::{Reading, Size};

/// The form's name.
pub(super) const MEASURE: &str = "measure";
/// Cross-sections a form takes.
pub(super) const STATIONS: usize = 3;

pub(super) fn read(reading: &mut Reading<'_>, piece: Uuid) -> Option<PieceMeasured> {
    let body = PieceMeasured {
        piece,
        bag_off: reading.mass("bag_off", Size::Large, 50.0..=200_000.0),
        purge: None,
        on_board: reading.mass("on_board", Size::Large, 50.0..=200_000.0),
        length: reading.length("length", 20.0..=3000.0),
        slant_first: reading.length("slant_first", 0.0..=500.0),
        slant_last: reading.length("slant_last", 0.0..=500.0),
        core: None,
        station: (0..STATIONS).filter_map(|place| station(reading, place)).collect(),
        from_end: reading.text("from_end"),
    };
    let nothing = body.bag_off.is_none()
        && body.on_board.is_none()
        && body.length.is_none()
        && body.slant_first.is_none()
        && body.slant_last.is_none()
        && body.station.is_empty();
    if nothing && reading.is_good() {
        reading.refuse_whole("Nothing was measured. One of them is enough.");
    }
    reading.is_good().then_some(body)
}

/// Width and height at a place; a place alone is no measurement.
fn station(reading: &mut Reading<'_>, place: usize) -> Option<Station> {
    let [at, width, height] = names(place);
    let where_at = reading.length(&at, 0.0..=3000.0);
    let (across, up) = (reading.length(&width, 5.0..=1000.0), reading.length(&height, 5.0..=1000.0));
    match (where_at, across, up) {
        (_, None, None) => None,
        (Some(at), Some(width), Some(height)) => Some(Station { at, width, height }),
        (None, ..) => {
            reading.refuse(&at, "At which place? Count from the end you measure from.");
            None
        }
        (_, None, _) => {
            reading.refuse(&width, "Its width belongs to it.");
            None
        }
        (.., None) => {
            reading.refuse(&height, "Its height belongs to it.");
            None
        }
    }
}

fn names(place: usize) -> [String; 3] {
    ["at", "width", "height"].map(|what| format!("{what}_{place}"))
}

/// What a page starts from: what was measured, and the places to measure at.
pub(super) fn start(
    ends: &(String, String),
    stations: &[Station],
    places: &[Length],
    shown: impl Fn(Length) -> String,
) -> Vec<(String, String)> {
    let mut values = vec![("from_end".to_owned(), ends.0.clone())];
    for place in 0..STATIONS {
        let [at, width, height] = names(place);
        match stations.get(place) {
            Some(station) => {
                values.push((at, shown(station.at)));
                values.push((width, shown(station.width)));
                values.push((height, shown(station.height)));
            }
            None => values.extend(places.get(place).map(|length| (at, shown(*length)))),
        }
    }
    values
}

pub(super) fn draw(view: &View, typed: &Typed) -> Markup {
    let start = &view.measure;
    let unit = view.units.length;
    let from = Choice {
        name: "from_end",
        label: "Measured from",
        options: &[
            (start.ends.0.as_str(), start.ends.0.as_str()),
            (start.ends.1.as_str(), start.ends.1.as_str()),
        ],
        start: &start.ends.0,
    };
    let fields = html! {
        div class="fields" {
            (Field::number("length", "Length").unit(unit).unknown(&start.length).draw(typed))
            (Field::number(start.weigh.0, start.weigh.1).unit(view.units.large).unknown(&start.weigh.2).draw(typed))
        }
        (from.pick(typed))
        div class="fields" {
            (Field::number("slant_first", &start.slants.0).unit(unit).unknown(&start.slant_first).draw(typed))
            (Field::number("slant_last", &start.slants.1).unit(unit).unknown(&start.slant_last).draw(typed))
        }
        div class="stations" role="group" aria-label="Cross-sections" {
            @for place in 0..STATIONS {
                @let [at, width, height] = names(place);
                (Field::number(&at, "At").unit(unit).draw(typed))
                (Field::number(&width, "Width").unit(unit).unknown("–").draw(typed))
                (Field::number(&height, "Height").unit(unit).unknown("–").draw(typed))
            }
        }
    };
    entry_form(&view.to, typed, MEASURE, fields, html! { button class="press" { "Measured" } })
}
