//! Today's rule: the hours to come, an ink stroke for now, blue strokes for steps, a tall ink line for the plate.

use super::rule::{Graduation, Rule};
use super::{Percent, anchored, picture, text, upright};
use maud::{Markup, html};

/// What stands on today's rule; hours are counted from the midnight before, so that 25.5 is half past one tomorrow.
#[derive(Clone, Debug, PartialEq)]
pub struct Hours {
    /// Now.
    pub now: f64,
    /// The word over the stroke for now: `15:10`.
    pub now_word: String,
    /// Steps to come, in order.
    pub steps: Vec<f64>,
    /// The word over the first step.
    pub first_word: String,
    /// The plate and its word, `eat 19:30`.
    pub plate: Option<(f64, String)>,
}

/// The hours from the one before now to five hours on, or past the plate.
#[must_use]
pub fn hours(day: &Hours, sentence: &str, figure: impl Fn(u8) -> String) -> Markup {
    let (rule, graduation) = window(day);
    let y = 54.0;
    let body = html! {
        (rule.draw(y, graduation, |hour| Some(figure(hour.rem_euclid(24.0) as u8))))
        (upright(rule.x(day.now), 30.0, y, "at"))
        (word(rule.x(day.now), 22.0, "ti", &day.now_word))
        @for step in day.steps.iter().filter(|step| **step <= rule.high()) {
            (upright(rule.x(*step), 40.0, y, "gh"))
        }
        @if let Some(first) = day.steps.first().filter(|first| shows_first_word(day, &rule, **first)) {
            (word(rule.x(*first), 32.0, "ta", &day.first_word))
        }
        @if let Some((plate, words)) = &day.plate {
            @if *plate <= rule.high() {
                (upright(rule.x(*plate), 18.0, y, "at"))
                (word(rule.x(*plate), 12.0, "t", words))
            }
        }
    };
    picture(80.0, sentence, &body)
}

fn window(day: &Hours) -> (Rule, Graduation) {
    let start = (day.now - 0.1).floor();
    let wanted = day.plate.as_ref().map_or(start + 5.0, |(plate, _)| (plate + 0.25).ceil());
    let end = wanted.clamp(start + 5.0, start + 24.0);
    let length = end - start;
    let graduation = if length <= 7.0 {
        Graduation { unit: 0.25, main: 1.0 }
    } else if length <= 12.0 {
        Graduation { unit: 0.5, main: 2.0 }
    } else {
        Graduation { unit: 1.0, main: 3.0 }
    };
    (Rule::new(start, end), graduation)
}

/// The word of the first step is left away where it would run into the word of now or of the plate.
fn shows_first_word(day: &Hours, rule: &Rule, first: f64) -> bool {
    let far = |other: f64| (rule.x(first).0 - rule.x(other).0).abs() > 13.0;
    first <= rule.high() && far(day.now) && day.plate.as_ref().is_none_or(|(plate, _)| far(*plate))
}

fn word(x: Percent, y: f64, class: &str, words: &str) -> Markup {
    let (anchor, place) = anchored(x, words.chars().count());
    text(place, y, &format!("{anchor} {class}"), words)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn supper() -> Hours {
        Hours {
            now: 15.17,
            now_word: "15:10".into(),
            steps: vec![17.25, 17.63, 18.2],
            first_word: "17:15".into(),
            plate: Some((19.5, "eat 19:30".into())),
        }
    }

    #[test]
    fn holds_five_hours_or_to_the_plate() {
        let (rule, _) = window(&supper());
        assert_eq!((rule.low(), rule.high()), (15.0, 20.0));
        let late = Hours { plate: Some((26.0, "eat 02:00".into())), ..supper() };
        let (rule, graduation) = window(&late);
        assert_eq!((rule.low(), rule.high()), (15.0, 27.0));
        assert_eq!(graduation.main, 2.0);
    }

    #[test]
    fn an_empty_day_has_now_alone() {
        let empty = Hours { steps: vec![], plate: None, ..supper() };
        let drawn = hours(&empty, "Nothing to come.", |hour| format!("{hour}:00")).into_string();
        assert_eq!(drawn.matches("class=\"at\"").count(), 1);
        assert_eq!(drawn.matches("class=\"gh\"").count(), 0);
        assert!(drawn.contains(">20:00<"));
    }

    #[test]
    fn words_do_not_run_into_each_other() {
        let close = Hours { steps: vec![15.4], ..supper() };
        let drawn = hours(&close, "", |hour| format!("{hour}:00")).into_string();
        assert!(!drawn.contains(">17:15<"));
    }
}
