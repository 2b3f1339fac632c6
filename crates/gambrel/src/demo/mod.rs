//! `demo`: the house on an invented season, set around the present hour.

mod season;

use crate::out;
use crate::serve::{self, Place};
use clap::Args;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use journal::Kitchen;
use record::At;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use uuid::Uuid;

/// An invented season of a rowing club's summer suppers.
#[derive(Debug, Args)]
pub(crate) struct DemoAsk {
    #[command(flatten)]
    place: Place,
    /// What the clock of the house shall show when it opens, as 2026-07-18T15:10:00+02:00; left out, the present
    #[arg(long, value_name = "TIME", value_parser = moment)]
    now: Option<At>,
    /// A folder to keep the season in; left out, it is gone when the house closes
    #[arg(long = "record", value_name = "DIR")]
    folder: Option<PathBuf>,
}

/// Writes the season into a record of its own and serves it.
pub(crate) fn run(ask: &DemoAsk) -> Result<ExitCode, out::Fault> {
    let record = ask.folder.as_ref().map_or_else(Folder::for_a_while, |folder| Folder::kept(folder));
    let now = ask.now.unwrap_or_else(|| At::of(&ZonedDateTime::now()));
    let kitchen = match opened(record.path(), now) {
        Ok(kitchen) => kitchen,
        Err(refusal) => {
            out::complaint(&refusal)?;
            return Ok(out::refused());
        }
    };
    let about = format!(
        "An invented season of a rowing club's summer suppers, set around {} {}.\nCtrl-C closes it.\n",
        if ask.now.is_some() { "the hour you gave;" } else { "the present hour;" },
        record.stays(),
    );
    serve::house(kitchen, &ask.place, ask.now.map(|now| now.timestamp()), about)
}

/// Opens a record with the season in it, as it stands at `now`.
fn opened(folder: &Path, now: At) -> Result<Kitchen, String> {
    let kitchen = Kitchen::open(folder).map_err(|problem| problem.to_string())?;
    let there = kitchen.state().number();
    if there > 0 {
        return Err(format!(
            "{0} holds {there} entries, and the season goes only where there is none. Give another folder, or open what is there: \
             gambrel serve --record {0}",
            folder.display()
        ));
    }
    write(&kitchen, now)?;
    Ok(kitchen)
}

fn write(kitchen: &Kitchen, now: At) -> Result<(), String> {
    let fault = |why: String| format!("the season could not be written: {why}");
    let entries = season::around(now.timestamp(), &zone_of(now)).map_err(fault)?;
    kitchen.set_ahead(now.timestamp().duration_since(Timestamp::now()));
    kitchen.offer_written(entries, season::WRITER).map_err(|refused| fault(refused.to_string()))?;
    Ok(())
}

/// The zone of the kitchen: this system's, unless the hour was given in an offset that is not this system's. Then one
/// that has that offset.
fn zone_of(now: At) -> TimeZone {
    let hours = now.offset().seconds() / 3600;
    // Names of this family count west as positive.
    let plain = if hours == 0 { "Etc/UTC".to_owned() } else { format!("Etc/GMT{:+}", -hours) };
    let named = ["Europe/Berlin", plain.as_str()].into_iter().filter_map(|name| TimeZone::get(name).ok());
    let mut zones = std::iter::once(TimeZone::system()).chain(named);
    let fits =
        |zone: &TimeZone| zone.iana_name().is_some() && zone.to_offset(now.timestamp()) == now.offset();
    zones.find(fits).unwrap_or(TimeZone::UTC)
}

fn moment(typed: &str) -> Result<At, String> {
    At::read(typed).ok_or_else(|| {
        "allowed: a moment with its offset (RFC 3339), as 2026-07-18T15:10:00+02:00".to_owned()
    })
}

/// Where the record is: a folder that was named, or one that goes with the program.
struct Folder {
    path: PathBuf,
    is_kept: bool,
}

impl Folder {
    fn kept(path: &Path) -> Self {
        Self { path: path.to_owned(), is_kept: true }
    }

    fn for_a_while() -> Self {
        Self { path: std::env::temp_dir().join(format!("gambrel-demo-{}", Uuid::now_v7())), is_kept: false }
    }

    fn path(&self) -> &Path {
        &self.path
    }

    fn stays(&self) -> String {
        if self.is_kept {
            format!("its record is in {}", self.path.display())
        } else {
            "what you write here is gone when it closes".to_owned()
        }
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        if !self.is_kept {
            // What cannot be removed is left to whoever clears the folder for temporary files.
            let _ = std::fs::remove_dir_all(&self.path);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::SignedDuration;
    use record::State;
    use std::sync::Arc;

    fn seen_at(now: &str) -> Arc<State> {
        let now = At::read(now).expect("a moment");
        let kitchen = Kitchen::in_memory();
        write(&kitchen, now).unwrap_or_else(|refusal| panic!("{now}: {refusal}"));
        kitchen.state()
    }

    /// The hour the season is written for, one of each quarter of a day, and hours around the changes of the clock in
    /// central Europe and on the year's last night.
    const HOURS: &[&str] = &[
        "2026-07-18T15:10:00+02:00",
        "2026-11-25T02:59:59+01:00",
        "2026-11-25T03:59:00+01:00",
        "2026-11-25T12:00:00+01:00",
        "2026-11-25T23:44:00+01:00",
        "2026-10-25T00:20:00+02:00",
        "2026-10-25T02:40:00+02:00",
        "2026-10-25T02:40:00+01:00",
        "2027-03-28T01:50:00+01:00",
        "2027-03-28T03:10:00+02:00",
        "2026-12-31T22:30:00+01:00",
        "2028-02-29T08:05:00-05:00",
        "2026-11-25T12:00:00+05:30",
        "2026-11-25T12:00:00Z",
    ];

    #[test]
    fn supper_is_four_hours_and_twenty_minutes_away_whatever_the_clock_says() {
        for now in HOURS {
            let state = seen_at(now);
            let now = At::read(now).expect("a moment");
            let away = |at: At| at.timestamp().duration_since(now.timestamp());
            let next =
                state.suppers().map(|supper| away(supper.planned.serve.at)).find(|away| away.is_positive());
            let next = next.expect("a supper ahead");
            let (least, most) = (SignedDuration::from_mins(260 - 15), SignedDuration::from_mins(260));
            assert!(least < next && next <= most, "{now}: {next:#}");
        }
    }

    #[test]
    fn the_season_is_a_record_like_any_other() {
        for now in HOURS {
            let state = seen_at(now);
            let last = At::read(now).expect("a moment").timestamp();
            assert!(state.log().all(|row| row.stored.entry.at.timestamp() <= last), "{now}");
            assert_eq!(state.contradictions(), [], "{now}");
            assert_eq!(state.imbalances(), [], "{now}");
            let words: Vec<String> = state.pieces().map(|piece| piece.word.to_string()).collect();
            assert_eq!(words, ["MOOR", "KELP", "DUSK", "TARN"]);
            assert_eq!(state.suppers().count(), 7);
        }
    }

    /// A supper stands under the day of the kitchen its hour falls in; a day ends at four.
    #[test]
    fn a_supper_stands_under_its_own_day() {
        for now in HOURS {
            let state = seen_at(now);
            let zone = state.settings().zone().expect("a zone");
            let ends = state.settings().day_ends().expect("an hour");
            for supper in state.suppers() {
                let serve = supper.planned.serve.at.in_zone(&zone);
                let day =
                    if serve.time() < ends { serve.date().yesterday().expect("a day") } else { serve.date() };
                assert_eq!(supper.planned.day, day, "{now}: {serve}");
                assert_eq!(supper.slug, day.to_string());
            }
        }
    }

    #[test]
    fn an_hour_given_in_another_offset_shows_as_it_was_given() {
        for (now, shown) in [
            ("2026-07-18T15:10:00+02:00", "15:10"),
            ("2026-07-18T15:10:00-07:00", "15:10"),
            ("2026-07-18T15:10:00Z", "15:10"),
        ] {
            let state = seen_at(now);
            let now = At::read(now).expect("a moment");
            let zone = state.settings().zone().expect("a zone");
            assert_eq!(now.in_zone(&zone).strftime("%H:%M").to_string(), shown);
        }
    }

    #[test]
    fn the_season_as_it_is_written_is_the_season_as_it_is_shown_at_its_own_hour() {
        let state = seen_at("2026-07-18T15:10:00+02:00");
        let tonight = state.supper_of("2026-07-18").expect("tonight");
        assert_eq!(tonight.planned.serve.at.to_string(), "2026-07-18T19:30:00+02:00");
        let leaker = state.pack_of("moor-5").expect("a pack");
        assert!(leaker.leaker.is_some());
        assert!(state.pack_of("dusk-3-4").is_some_and(|twins| twins.is_in_store()));
    }
}
