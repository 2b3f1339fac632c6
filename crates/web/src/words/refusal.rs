//! What the record has against an entry, as a page says it: what was found, what is allowed, what to do.

use quantity::{Grain, Mass, Units};
use record::{At, Refusal};

use super::moment::Moments;

/// A refusal in the reader's units and clock.
#[must_use]
pub fn refused(refusal: &Refusal, units: &Units, moments: &Moments) -> String {
    let grams = |mass: Mass| units.mass(mass, Grain::Reading);
    let time = |at: At| moments.time(&at.in_zone(moments.now().time_zone()));
    match refusal {
        Refusal::GramsFromNowhere { thing, came_in, accounted, offered, slack, .. } => format!(
            "{} more would make {} out of {thing}, where {} came in; the scales explain {} of it. Two pieces on the pan? \
             Weigh again, or correct what is wrong further up.",
            grams(*offered),
            grams(*accounted),
            grams(*came_in),
            grams(*slack)
        ),
        Refusal::WeighedTwice { portion, mass, weighed, .. } => format!(
            "{portion} was weighed at {}: {}. To change it, correct that entry; a new portion takes the next number.",
            time(*weighed),
            grams(*mass)
        ),
        Refusal::BeforeItExisted { thing, made, at } => format!(
            "{} is before {thing}, which was written at {}. Look at the clock of this device, or correct the earlier entry.",
            time(*at),
            time(*made)
        ),
        Refusal::WordTaken { word, since, next } => {
            format!(
                "{word} is the piece of {}. Take another word, or leave it empty for {next}.",
                time(*since)
            )
        }
        Refusal::WordTooLike { word, like, next } => format!(
            "{word} differs from {like} in one letter: a rubbed label could mean either. Leave it empty for {next}."
        ),
        Refusal::NotAWord { found, next } => {
            format!("“{found}” cannot be a word for a piece: four letters A to Z. Leave it empty for {next}.")
        }
        Refusal::PackedTwice { thing, pack, since } => format!(
            "{thing} is in {pack} since {}. Only what is in no pack can be packed, or what was taken out.",
            time(*since)
        ),
        Refusal::TakenOutTwice { pack, since, place } => format!(
            "{pack} was taken out at {} and lies in {place}. To take it out again, first write that it went back.",
            time(*since)
        ),
        Refusal::Gone { thing, how, since, .. } => format!(
            "{thing} was {how} at {}. Nothing more can happen to it; if that is wrong, take that entry back.",
            time(*since)
        ),
        Refusal::LaterStandsOnIt { at, because, .. } => format!(
            "A later entry, of {}, could not stand then: {} Correct that one first.",
            time(*at),
            refused(because, units, moments)
        ),
        other => super::sentence_case(&format!("{}.", other.to_string().trim_end_matches('.'))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grams_from_nowhere_are_said_in_the_readers_unit() {
        let refusal = Refusal::GramsFromNowhere {
            key: "body.mass_g",
            thing: "TARN".into(),
            came_in: Mass::from_g(6400.0),
            accounted: Mass::from_g(6930.0),
            offered: Mass::from_g(612.0),
            slack: Mass::from_g(80.0),
        };
        let now = "2026-07-18T15:10:00+02:00[Europe/Berlin]".parse().unwrap();
        let said = refused(&refusal, &Units::METRIC, &Moments::new(now, quantity::Clock::Hours24));
        assert!(
            said.replace('\u{202f}', " ").starts_with("612 g more would make 6 930 g out of TARN"),
            "{said}"
        );
        assert!(said.contains("Two pieces on the pan?"));
    }
}
