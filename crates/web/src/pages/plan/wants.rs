//! What is wanted of a piece: the form, and how it is read.

use maud::{Markup, html};
use quantity::{Grain, Length, LengthUnit, Mass, Units};
use record::{Aim, Count, End, Ends, Thickness, Want};
use season::{Asked, AskedFrom, Missed, RollError};

use super::view::View;
use crate::parts::{Choice, Field, Typed, entry_form};
use crate::reading::{Reading, Size};

/// The form's name.
pub(super) const WANT: &str = "want";
/// Wants a form takes.
const MOST: usize = 12;

/// Reads the form over what was asked before; nothing if something stands against it.
pub(super) fn read(reading: &mut Reading<'_>, before: Asked) -> Option<Asked> {
    let want: Vec<Want> = (0..MOST).filter_map(|place| line(reading, place)).collect();
    let [thinnest, thickest] =
        [reading.length("thinnest", 1.0..=500.0), reading.length("thickest", 1.0..=1000.0)];
    let [first, last] = [reading.length("ends_first", 0.0..=500.0), reading.length("ends_last", 0.0..=500.0)];
    if want.is_empty() && reading.is_good() {
        reading.refuse("size_0", "Nothing is wanted. Say how heavy or how thick a portion shall be.");
    }
    let limits = match (thinnest, thickest) {
        (Some(thinnest), Some(thickest)) if thinnest <= thickest => Some(Thickness { thinnest, thickest }),
        (Some(_), Some(_)) => {
            reading.refuse("thickest", "The thickest is thinner than the thinnest.");
            None
        }
        (None, None) => None,
        (None, Some(_)) => {
            reading.refuse("thinnest", "Both limits or neither.");
            None
        }
        (Some(_), None) => {
            reading.refuse("thickest", "Both limits or neither.");
            None
        }
    };
    let ends = match (first, last) {
        (Some(first), Some(last)) => Some(Ends { first, last }),
        (None, None) => None,
        (first, _) => {
            let missing = if first.is_none() { "ends_first" } else { "ends_last" };
            reading.refuse(missing, "Both ends or neither; 0 where nothing is cut off.");
            None
        }
    };
    reading.is_good().then_some(Asked { want, ends, limits, from: AskedFrom::Settled, ..before })
}

/// One line; a line without a size is no want.
fn line(reading: &mut Reading<'_>, place: usize) -> Option<Want> {
    let [count, by, size, within, from, twins, name] = names(place);
    let text = reading.text(&size)?;
    let aim = match reading.text(&by).as_deref() {
        Some("thickness") => reading.length(&size, 1.0..=500.0).map(Aim::Thickness),
        Some("roast") => reading.length(&size, 10.0..=3000.0).map(Aim::Roast),
        _ if is_length(&text) => reading.length(&size, 1.0..=500.0).map(Aim::Thickness),
        _ => reading.mass(&size, Size::Small, 10.0..=20_000.0).map(Aim::Portion),
    };
    let tolerance = match aim {
        Some(Aim::Portion(_)) => reading.mass(&within, Size::Small, 0.5..=5000.0).map(Mass::g),
        Some(_) => reading.length(&within, 0.5..=500.0).map(Length::mm),
        None => None,
    };
    let is_roast = matches!(aim, Some(Aim::Roast(_)));
    let count = reading.number(&count, 1.0..=400.0).map(|count| Count::Number(count.round() as u32));
    Some(Want {
        name: reading.text(&name),
        count: if is_roast { None } else { Some(count.unwrap_or(Count::Max)) },
        aim: aim?,
        tolerance,
        from: reading.choice(&from, End::of).filter(|from| *from != End::Any),
        twins: reading.text(&twins).map(|_| true).filter(|_| !is_roast),
    })
}

/// "1 1/2 in" in a field for a weight is a thickness all the same.
fn is_length(text: &str) -> bool {
    let text = text.trim().to_lowercase();
    ["mm", "cm", "in", "inch", "\""].iter().any(|unit| text.ends_with(unit))
}

fn names(place: usize) -> [String; 7] {
    ["count", "by", "size", "within", "from", "twins", "name"].map(|what| format!("{what}_{place}"))
}

/// What the form starts from.
pub(super) fn start(asked: &Asked, units: &Units) -> Vec<(String, String)> {
    let length = |length: Length| bare(&units.length(length));
    let mass = |mass: Mass| bare(&units.mass(mass, Grain::Reading));
    let mut values = Vec::new();
    for (place, want) in asked.want.iter().enumerate() {
        let [count, by, size, within, from, twins, name] = names(place);
        let (word, shown) = match want.aim {
            Aim::Portion(aim) => ("weight", mass(aim)),
            Aim::Thickness(aim) => ("thickness", length(aim)),
            Aim::Roast(aim) => ("roast", length(aim)),
        };
        values.push((by, word.to_owned()));
        values.push((size, shown));
        if let Some(Count::Number(number)) = want.count {
            values.push((count, number.to_string()));
        }
        if let Some(tolerance) = want.tolerance {
            let shown = match want.aim {
                Aim::Portion(_) => mass(Mass::from_g(tolerance)),
                _ => length(Length::from_mm(tolerance)),
            };
            values.push((within, shown));
        }
        values.push((from, want.from.unwrap_or(End::Any).word().to_owned()));
        values.extend(want.twins.filter(|twins| *twins).map(|_| (twins, "yes".to_owned())));
        values.extend(want.name.clone().map(|called| (name, called)));
    }
    if let Some(limits) = &asked.limits {
        values.push(("thinnest".to_owned(), length(limits.thinnest)));
        values.push(("thickest".to_owned(), length(limits.thickest)));
    }
    if let Some(ends) = &asked.ends {
        values.push(("ends_first".to_owned(), length(ends.first)));
        values.push(("ends_last".to_owned(), length(ends.last)));
    }
    values
}

/// The number alone, as a field with a unit beside it starts.
fn bare(shown: &str) -> String {
    shown.rsplit_once('\u{202f}').map_or(shown, |(number, _)| number).replace('\u{202f}', "")
}

pub(super) fn draw(view: &View, typed: &Typed) -> Markup {
    let lines = (0..MOST).filter(|place| typed.get(&format!("size_{place}")).is_some()).count();
    let fields = html! {
        @for place in 0..lines.max(1) { (draw_line(view, typed, place)) }
        @if lines > 0 && lines < MOST {
            details class="unfold" id="another" open[(lines..MOST).any(|place| wrong_in(typed, place))] {
                summary { "Another want" }
                (draw_line(view, typed, lines))
            }
        }
        details class="unfold" id="limits" open[["thinnest", "thickest", "ends_first", "ends_last"].iter().any(|name| typed.wrong(name).is_some())] {
            summary { "Limits and ends" }
            div class="fields" {
                (Field::number("thinnest", "Thinnest").unit(view.units.length).unknown(&view.limits.0).draw(typed))
                (Field::number("thickest", "Thickest").unit(view.units.length).unknown(&view.limits.1).draw(typed))
                (Field::number("ends_first", &view.off.0).unit(view.units.length).unknown("its slant").draw(typed))
                (Field::number("ends_last", &view.off.1).unit(view.units.length).unknown("its slant").draw(typed))
            }
        }
    };
    entry_form(&view.to, typed, WANT, fields, html! { button class="press first" { "Plan it so" } })
}

fn draw_line(view: &View, typed: &Typed, place: usize) -> Markup {
    let [count, by, size, within, from, twins, name] = names(place);
    let is_given = typed.get(&size).is_some();
    let aim = Choice {
        name: &by,
        label: "Each by",
        options: &[("weight", "weight"), ("thickness", "thickness"), ("roast", "kept whole, so long")],
        start: "weight",
    };
    let end = Choice {
        name: &from,
        label: "From",
        options: &[("any", "either end"), ("first", view.ends.0.as_str()), ("last", view.ends.1.as_str())],
        start: "any",
    };
    let unit = match typed.get(&by) {
        Some("thickness" | "roast") => view.units.length,
        Some(_) => view.units.small,
        None => view.units.either,
    };
    html! {
        fieldset class="want" {
            legend class=[(!is_given).then_some("unseen")] { @if is_given { "Want " (place + 1) } @else { "Another want" } }
            (aim.pick(typed))
            div class="fields" {
                (Field::number(&size, "Each").unit(unit).unknown(if is_given { "nothing" } else { "none" }).draw(typed))
                (Field::number(&count, "How many").unknown("as many as fit").draw(typed))
                (Field::number(&within, "Give or take").unknown("as usual").draw(typed))
                (end.list(typed))
                (Field::text(&name, "For").unknown("anyone").draw(typed))
                div class="field" {
                    label class="one" {
                        input type="checkbox" name=(twins) value="yes" checked[typed.get(&twins).is_some()];
                        "In twins, as alike as can be"
                    }
                }
            }
        }
    }
}

fn wrong_in(typed: &Typed, place: usize) -> bool {
    names(place).iter().any(|name| typed.wrong(name).is_some())
}

/// Puts a refusal of the planner under the field it lies in.
pub(super) fn refuse(reading: &mut Reading<'_>, error: &RollError) {
    let words = sentence(error);
    match error {
        RollError::LimitsCrossed { .. } => reading.refuse("thickest", words),
        RollError::TargetOutsideLimits { .. } => reading.refuse("thinnest", words),
        RollError::EndsMeet { .. } => reading.refuse("ends_first", words),
        _ => reading.refuse_whole(words),
    }
}

/// A refusal of the planner as a sentence.
pub(super) fn sentence(error: &RollError) -> String {
    format!("{}.", crate::words::sentence_case(&error.to_string()))
}

/// What is missed, as a sentence: `Two of them are not there.`
pub(super) fn missed_words(want: &Want, missed: Missed, units: &Units) -> String {
    let side = |by: f64, more: &str, less: &str| if by > 0.0 { more.to_owned() } else { less.to_owned() };
    let inches = units.length == LengthUnit::Inch;
    match missed {
        Missed::Portions(count) => {
            let total = match want.count {
                Some(Count::Number(total)) => format!("Of {total}, "),
                _ => String::new(),
            };
            let words = crate::words::counted(count as usize, "portion is", "portions are");
            format!("{total}{words} not there.")
        }
        Missed::Thickness { portion, by } => {
            let amount = units.length(Length::from_mm(by.mm().abs().max(if inches { 1.6 } else { 1.0 })));
            format!("Portion {portion} is {amount} too {}.", side(by.mm(), "thick", "thin"))
        }
        Missed::Mass { portion, by } => {
            let amount = units.mass(Mass::from_g(by.g().abs()), Grain::Forecast);
            format!("Portion {portion} is {amount} too {}.", side(by.g(), "heavy", "light"))
        }
    }
}
