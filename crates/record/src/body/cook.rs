//! Salt, heat and the plate.

use crate::read::{Field, Note, Reader, Scalar, Writer, choice, object};
use quantity::{Mass, Temperature};
use uuid::Uuid;

/// Cores a kitchen can meet, °C.
const CORE_C: (f64, f64) = (-60.0, 120.0);

/// How much salt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    /// Salt in all.
    Salt(Mass),
    /// Of the mass of the meat, in percent.
    Percent(f64),
    /// Nobody weighed it.
    Unknown,
}

impl Dose {
    const SALT_G: (f64, f64) = (0.0, 2000.0);
    const PERCENT: (f64, f64) = (0.0, 10.0);
}

impl Field for Dose {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let salt = Option::<Mass>::read(reader, "salt", &Self::SALT_G);
        let percent = Option::<f64>::read(reader, "dose_percent", &Self::PERCENT);
        match (salt?, percent?) {
            (Some(_), Some(_)) => {
                reader.problem("dose_percent", "it beside salt_g", "one of salt_g, dose_percent");
                None
            }
            (Some(salt), None) => Some(Self::Salt(salt)),
            (None, Some(percent)) => Some(Self::Percent(percent)),
            (None, None) => Some(Self::Unknown),
        }
    }
    fn write(&self, writer: &mut Writer, _stem: &str) {
        match self {
            Self::Salt(mass) => mass.write(writer, "salt"),
            Self::Percent(percent) => percent.write(writer, "dose_percent"),
            Self::Unknown => {}
        }
    }
    fn note(notes: &mut Vec<Note>, _stem: &str, meaning: &'static str, (): &()) {
        let mut ways = Vec::new();
        Mass::note(&mut ways, "salt", meaning, &Self::SALT_G);
        f64::note(&mut ways, "dose_percent", meaning, &Self::PERCENT);
        let allowed =
            format!("{} to {} g | {}", Self::SALT_G.0, Self::SALT_G.1, f64::allowed(&Self::PERCENT));
        notes.push(Note { optional: true, ..Note::either(ways, meaning, allowed) });
    }
}

object! {
    /// Portions were salted.
    Salted {
        /// The portions.
        portions: "portions" Vec<Uuid> = (1, 400, ());
        /// How much: grams for all of them, or percent of their mass.
        dose: "dose" Dose = ();
        /// Which salt, as `flake`.
        crystal: "crystal" Option<String> = 40;
    }
}

object! {
    /// Portions went on the heat, or from one heat to another.
    PutOn {
        /// The portions.
        portions: "portions" Vec<Uuid> = (1, 400, ());
        /// The equipment, by its name.
        on: "on" String = 60;
        /// The medium, by its catalogue name.
        medium: "medium" Option<String> = 40;
        /// Its temperature.
        temperature: "medium" Option<Temperature> = (-40.0, 600.0);
    }
}

/// What a probe was in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Probed {
    /// A portion.
    Portion(Uuid),
    /// A whole piece.
    Piece(Uuid),
}

impl Field for Probed {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let portion = Option::<Uuid>::read(reader, "portion", &());
        let piece = Option::<Uuid>::read(reader, "piece", &());
        match (portion?, piece?) {
            (Some(portion), None) => Some(Self::Portion(portion)),
            (None, Some(piece)) => Some(Self::Piece(piece)),
            (None, None) => {
                reader.problem("portion", "nothing", "one of portion, piece");
                None
            }
            (Some(_), Some(_)) => {
                reader.problem("piece", "it beside portion", "one of portion, piece");
                None
            }
        }
    }
    fn write(&self, writer: &mut Writer, _stem: &str) {
        match self {
            Self::Portion(portion) => portion.write(writer, "portion"),
            Self::Piece(piece) => piece.write(writer, "piece"),
        }
    }
    fn note(notes: &mut Vec<Note>, _stem: &str, meaning: &'static str, (): &()) {
        let keys = vec!["portion".to_owned(), "piece".to_owned()];
        notes.push(Note::one_of(keys, Uuid::schema(&()), meaning, Uuid::allowed(&())));
    }
}

object! {
    /// A probe was read by hand.
    ProbeRead {
        /// What it was in.
        probed: "probed" Probed = ();
        /// Core.
        core: "core" Temperature = CORE_C;
        /// Surface, if read too.
        surface: "surface" Option<Temperature> = (-60.0, 400.0);
    }
}

object! {
    /// Portions came off the heat.
    Pulled {
        /// The portions.
        portions: "portions" Vec<Uuid> = (1, 400, ());
        /// Core at that moment, if seen.
        core: "core" Option<Temperature> = CORE_C;
    }
}

choice! {
    /// What became of a served portion.
    Outcome {
        /// Eaten.
        Eaten = "eaten",
        /// Left over and kept.
        Spare = "spare",
        /// Thrown away.
        Discarded = "discarded",
    }
}

object! {
    /// A portion was served, and what came of it.
    Served {
        /// The portion.
        portion: "portion" Uuid = ();
        /// The supper.
        supper: "supper" Option<Uuid> = ();
        /// What became of it.
        outcome: "outcome" Outcome = ();
        /// Core when it was cut.
        core: "core" Option<Temperature> = CORE_C;
        /// Highest core seen.
        peak: "peak" Option<Temperature> = CORE_C;
        /// Doneness as served, in the words of the kitchen's scale.
        doneness: "doneness" Option<String> = 40;
        /// A sentence.
        note: "note" Option<String> = 400;
    }
}
