//! Wants in words.

use quantity::{Grain, Length, Mass, Units};
use record::{Aim, Count, End, Want};
use season::Plan;

use crate::words::{number_word, plural, sentence_case};

/// What a want asks for, as a line: `As many as sensible, 380 g`, `Four of 40 mm`, `A roast of 120 mm`.
pub(crate) fn want_line(want: &Want, units: &Units) -> String {
    let what = match (want.count, want.aim) {
        (_, Aim::Roast(length)) => format!("a roast of {} kept whole", units.length(length)),
        (Some(Count::Max), aim) => format!("as many as sensible, {}", aim_words(aim, units)),
        (Some(Count::Number(count)), aim) => {
            format!("{} of {}", number_word(count as usize), aim_words(aim, units))
        }
        (None, aim) => format!("one of {}", aim_words(aim, units)),
    };
    match &want.name {
        Some(name) => format!("{}, for {name}", sentence_case(&what)),
        None => sentence_case(&what),
    }
}

/// The rest of it: `give or take 15 g; from the chuck end; in twins`.
pub(crate) fn want_more(want: &Want, ends: &(String, String), units: &Units) -> String {
    let mut more = Vec::new();
    if let Some(tolerance) = want.tolerance {
        let shown = match want.aim {
            Aim::Portion(_) => units.mass(Mass::from_g(tolerance), Grain::Reading),
            Aim::Thickness(_) | Aim::Roast(_) => units.length(Length::from_mm(tolerance)),
        };
        more.push(format!("give or take {shown}"));
    }
    more.push(match want.from {
        Some(End::First) => format!("from the {}", ends.0),
        Some(End::Last) => format!("from the {}", ends.1),
        Some(End::Any) | None => "from either end".to_owned(),
    });
    if want.twins == Some(true) {
        more.push("in twins".to_owned());
    }
    more.join("; ")
}

/// `380 g`, `40 mm`
pub(crate) fn aim_words(aim: Aim, units: &Units) -> String {
    match aim {
        Aim::Portion(mass) => units.mass(mass, Grain::Reading),
        Aim::Thickness(length) | Aim::Roast(length) => units.length(length),
    }
}

/// What a plan gives a want: `14 portions of 380 g`, `11 portions 38 mm thick`, `a roast of 121 mm`.
pub(crate) fn given_words(plan: &Plan, place: usize, units: &Units) -> Option<(String, String)> {
    let want = plan.asked.want.get(place)?;
    let of_this = || plan.plan.portions.iter().filter(|portion| portion.want == Some(place));
    let count = of_this().count();
    let first = of_this().next()?;
    Some(match want.aim {
        Aim::Roast(_) => ("a roast".to_owned(), format!("of {}", units.length(first.thickness))),
        Aim::Portion(mass) => {
            let mean =
                Mass::from_kg(of_this().map(|portion| portion.mass.median).sum::<f64>() / count as f64);
            // What is expected is said; the wish itself only where both are one.
            let meets = (mean / mass - 1.0).abs() < 0.01;
            let each = if meets { mass } else { mean };
            let about = if meets { "" } else { "about " };
            (
                format!("{count} {}", plural(count, "portion", "portions")),
                format!(
                    "of {about}{}",
                    units.mass(each, if meets { Grain::Reading } else { Grain::Forecast })
                ),
            )
        }
        Aim::Thickness(length) => (
            format!("{count} {}", plural(count, "portion", "portions")),
            format!("{} thick", units.length(length)),
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_want_reads_as_people_say_it() {
        let want = Want {
            name: Some("the trial".into()),
            count: Some(Count::Number(4)),
            aim: Aim::Thickness(Length::from_mm(40.0)),
            tolerance: Some(3.0),
            from: Some(End::First),
            twins: Some(true),
        };
        let plain = |words: String| words.replace('\u{202f}', " ");
        let ends = ("chuck end".to_owned(), "loin end".to_owned());
        assert_eq!(plain(want_line(&want, &Units::METRIC)), "Four of 40 mm, for the trial");
        assert_eq!(
            plain(want_more(&want, &ends, &Units::METRIC)),
            "give or take 3 mm; from the chuck end; in twins"
        );
        let roast = Want { count: None, aim: Aim::Roast(Length::from_mm(120.0)), name: None, ..want };
        assert_eq!(plain(want_line(&roast, &Units::METRIC)), "A roast of 120 mm kept whole");
    }
}
