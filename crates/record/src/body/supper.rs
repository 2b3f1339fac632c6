//! Suppers.

use crate::At;
use crate::read::{Field, Note, Reader, Scalar, Writer, choice, object};
use jiff::civil::Date;
use quantity::Temperature;
use uuid::Uuid;

object! {
    /// When all shall be on the plate.
    Serve {
        /// The hour.
        at: "at" At = ();
        /// How far apart the plates may be, min.
        within_min: "within_min" f64 = (0.0, 240.0);
    }
}

/// How a seat wants it.
#[derive(Clone, Debug, PartialEq)]
pub enum Wish {
    /// By a word of the kitchen's scale.
    Doneness(String),
    /// By core.
    Core(Temperature),
    /// Not asked yet.
    Unknown,
}

impl Wish {
    const WORD: usize = 40;
    const CORE_C: (f64, f64) = (20.0, 100.0);
}

impl Field for Wish {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let doneness = Option::<String>::read(reader, "doneness", &Self::WORD);
        let core = Option::<Temperature>::read(reader, "core", &Self::CORE_C);
        match (doneness?, core?) {
            (Some(_), Some(_)) => {
                reader.problem("core_c", "it beside doneness", "one of doneness, core_c");
                None
            }
            (Some(word), None) => Some(Self::Doneness(word)),
            (None, Some(core)) => Some(Self::Core(core)),
            (None, None) => Some(Self::Unknown),
        }
    }
    fn write(&self, writer: &mut Writer, _stem: &str) {
        match self {
            Self::Doneness(word) => word.write(writer, "doneness"),
            Self::Core(core) => core.write(writer, "core"),
            Self::Unknown => {}
        }
    }
    fn note(notes: &mut Vec<Note>, _stem: &str, meaning: &'static str, (): &()) {
        let mut ways = Vec::new();
        String::note(&mut ways, "doneness", meaning, &Self::WORD);
        Temperature::note(&mut ways, "core", meaning, &Self::CORE_C);
        let allowed = format!("{} | 20 to 100 c", String::allowed(&Self::WORD));
        notes.push(Note { optional: true, ..Note::either(ways, meaning, allowed) });
    }
}

object! {
    /// One at the table.
    Seat {
        /// Which seat.
        name: "name" Option<String> = 40;
        /// How it is wanted: a word of the kitchen's scale, or a core.
        wish: "wish" Wish = ();
        /// The portion meant for it.
        portion: "portion" Option<Uuid> = ();
    }
}

choice! {
    /// What a piece of equipment is.
    EquipmentKind {
        /// An oven, smoker or covered grill used as one.
        Oven = "oven",
        /// A pan.
        Pan = "pan",
        /// A grill.
        Grill = "grill",
        /// A water bath.
        Bath = "bath",
        /// Where meat rests.
        Rest = "rest",
    }
}

object! {
    /// A place to cook or rest.
    Equipment {
        /// Its name in this kitchen.
        name: "name" String = 60;
        /// What it is.
        kind: "kind" EquipmentKind = ();
        /// Its medium, by its catalogue name.
        medium: "medium" Option<String> = 40;
        /// Temperature of that medium.
        temperature: "medium" Option<Temperature> = (-40.0, 600.0);
        /// Room on it, cm².
        area_cm2: "area_cm2" Option<f64> = (1.0, 100_000.0);
        /// Room on it, in portions.
        places: "places" Option<u32> = (1, 1000);
    }
}

choice! {
    /// Which way the portions go.
    Route {
        /// Low heat first, sear last.
        LowThenSear = "low-then-sear",
        /// Sear first, low heat last.
        SearThenLow = "sear-then-low",
        /// All in the pan.
        Pan = "pan",
        /// In the bath, then seared.
        Bath = "bath",
        /// All on the grill.
        Grill = "grill",
    }
}

object! {
    /// A supper was planned, or planned anew.
    SupperPlanned {
        /// The supper this replaces, by the id that planned it first.
        supper: "supper" Option<Uuid> = ();
        /// The day, by the kitchen's own reckoning.
        day: "day" Date = ();
        /// When all shall be on the plate.
        serve: "serve" Serve = ();
        /// Who sits there.
        seat: "seat" Vec<Seat> = (0, 1000, ());
        /// The portions set aside.
        portions: "portions" Vec<Uuid> = (0, 1000, ());
        /// What there is to cook on.
        equipment: "equipment" Vec<Equipment> = (0, 40, ());
        /// Which way.
        route: "route" Route = ();
        /// The wished chance of being ready.
        chance: "chance" Option<f64> = (0.5, 0.999);
    }
}
