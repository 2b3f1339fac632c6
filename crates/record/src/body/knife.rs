//! The knife: plan, portions, parts.

use crate::read::{Field, Marks, Note, Price, Reader, Scalar, Writer, choice, object};
use quantity::{Length, Mass};
use serde_json::{Value, json};
use uuid::Uuid;

choice! {
    /// From which end a wish is cut.
    End {
        /// Wherever it fits best.
        Any = "any",
        /// The named end.
        First = "first",
        /// The other end.
        Last = "last",
    }
}

object! {
    /// What is cut off to make flat faces.
    Ends {
        /// At the named end.
        first: "first" Length = (0.0, 500.0);
        /// At the other end.
        last: "last" Length = (0.0, 500.0);
    }
}

object! {
    /// Limits of thickness, on both faces of a portion.
    Thickness {
        /// The thinnest allowed.
        thinnest: "thinnest" Length = (1.0, 500.0);
        /// The thickest allowed.
        thickest: "thickest" Length = (1.0, 1000.0);
    }
}

/// How many portions are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Count {
    /// So many.
    Number(u32),
    /// As many as sensible.
    Max,
}

impl Scalar for Count {
    type Limits = ();
    fn parse(value: &Value, (): &()) -> Option<Self> {
        if value.as_str() == Some("max") {
            return Some(Self::Max);
        }
        u32::parse(value, &(1, 400)).map(Self::Number)
    }
    fn allowed((): &()) -> String {
        "a whole number from 1 to 400 | \"max\"".to_owned()
    }
    fn schema((): &()) -> Value {
        json!({ "anyOf": [u32::schema(&(1, 400)), { "const": "max" }] })
    }
    fn json(&self) -> Value {
        match self {
            Self::Number(count) => (*count).into(),
            Self::Max => "max".into(),
        }
    }
    fn words() -> &'static [&'static str] {
        &["max"]
    }
}

/// What a wished portion aims at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aim {
    /// A thickness.
    Thickness(Length),
    /// A mass.
    Portion(Mass),
    /// A piece of this length kept whole.
    Roast(Length),
}

impl Aim {
    const STEMS: [&'static str; 3] = ["thickness", "portion", "roast"];
    const THICKNESS_MM: (f64, f64) = (1.0, 500.0);
    const PORTION_G: (f64, f64) = (10.0, 20_000.0);
    const ROAST_MM: (f64, f64) = (10.0, 3000.0);
}

impl Field for Aim {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let [thickness, portion, roast] = Self::STEMS;
        let given = |reader: &Reader<'_>, keys: Vec<String>| reader.has_any(keys.iter().map(String::as_str));
        let there = [
            given(reader, Length::keys(thickness)),
            given(reader, Mass::keys(portion)),
            given(reader, Length::keys(roast)),
        ];
        // Each is read, so that none of the keys counts as unknown.
        let thickness = Option::<Length>::read(reader, thickness, &Self::THICKNESS_MM)?;
        let portion = Option::<Mass>::read(reader, portion, &Self::PORTION_G)?;
        let roast = Option::<Length>::read(reader, roast, &Self::ROAST_MM)?;
        let allowed = "one of thickness_mm, portion_g, roast_mm";
        match there.iter().filter(|there| **there).count() {
            1 => thickness.map(Self::Thickness).or(portion.map(Self::Portion)).or(roast.map(Self::Roast)),
            0 => {
                reader.problem("thickness_mm", "nothing", allowed);
                None
            }
            _ => {
                reader.problem("thickness_mm", "more than one aim", allowed);
                None
            }
        }
    }
    fn write(&self, writer: &mut Writer, _stem: &str) {
        let [thickness, portion, roast] = Self::STEMS;
        match self {
            Self::Thickness(length) => length.write(writer, thickness),
            Self::Portion(mass) => mass.write(writer, portion),
            Self::Roast(length) => length.write(writer, roast),
        }
    }
    fn note(notes: &mut Vec<Note>, _stem: &str, meaning: &'static str, (): &()) {
        let [thickness, portion, roast] = Self::STEMS;
        let mut ways = Vec::new();
        Length::note(&mut ways, thickness, meaning, &Self::THICKNESS_MM);
        Mass::note(&mut ways, portion, meaning, &Self::PORTION_G);
        Length::note(&mut ways, roast, meaning, &Self::ROAST_MM);
        notes.push(Note::either(ways, meaning, "one of the three".to_owned()));
    }
}

object! {
    /// One line of the wish list.
    Want {
        /// What it is for.
        name: "name" Option<String> = 40;
        /// How many; a roast is one.
        count: "count" Option<Count> = ();
        /// Thickness, mass, or the length of a piece kept whole.
        aim: "aim" Aim = ();
        /// How far it may miss, in the unit of the aim.
        tolerance: "tolerance" Option<f64> = (0.0, 5000.0);
        /// Which end it comes from.
        from: "from" Option<End> = ();
        /// Whether pairs shall be as alike as can be.
        twins: "twins" Option<bool> = ();
    }
}

object! {
    /// A knife plan was settled on; the latest one of a piece holds.
    KnifePlanned {
        /// The piece.
        piece: "piece" Uuid = ();
        /// What is wanted, in order.
        want: "want" Vec<Want> = (1, 40, ());
        /// What is squared off.
        ends: "ends" Option<Ends> = ();
        /// Limits of thickness.
        limits: "limits" Option<Thickness> = ();
        /// What the knife takes away; a saw has some.
        knife: "knife" Option<Length> = (0.0, 20.0);
        /// The marks as they were seen when it was settled.
        marks: "marks" Option<Marks> = 3000.0;
    }
}

object! {
    /// A portion was cut and weighed.
    PortionWeighed {
        /// The piece.
        piece: "piece" Uuid = ();
        /// Its place, counted from the named end.
        n: "n" u32 = (1, 400);
        /// What the scale showed.
        mass: "mass" Mass = (1.0, 20_000.0);
        /// Mark it begins at.
        from: "from" Option<Length> = (0.0, 3000.0);
        /// Mark it ends at.
        to: "to" Option<Length> = (0.0, 3000.0);
        /// Thickness, if measured.
        thickness: "thickness" Option<Length> = (1.0, 3000.0);
        /// Name of the wish it meets.
        want: "want" Option<String> = 40;
        /// Place of its twin.
        twin: "twin" Option<u32> = (1, 400);
    }
}

choice! {
    /// Which heap.
    PartName {
        /// Squared off at the named end.
        EndsFirst = "ends-first",
        /// Squared off at the other end.
        EndsLast = "ends-last",
        /// Lean trim.
        LeanTrim = "lean-trim",
        /// Clean fat.
        CleanFat = "clean-fat",
        /// Silver skin and kernel.
        SilverSkin = "silver-skin",
        /// Bone.
        Bone = "bone",
        /// Liquid of the bag.
        Purge = "purge",
        /// Cap taken off whole.
        Cap = "cap",
        /// Something else; say what in `name`.
        Other = "other",
    }
}

choice! {
    /// What a heap is for.
    Use {
        /// Kept.
        Keep = "keep",
        /// Thrown away.
        Waste = "waste",
    }
}

object! {
    /// A heap that is no portion was weighed; heaps of one name add up.
    PartWeighed {
        /// The piece.
        piece: "piece" Uuid = ();
        /// Which heap.
        part: "part" PartName = ();
        /// What the scale showed.
        mass: "mass" Mass = (0.1, 100_000.0);
        /// Whether it is kept.
        keep: "use" Use = ();
        /// What a kilo of it replaces.
        value: "value" Option<Price> = ();
        /// What it is, where the name of the heap does not say.
        name: "name" Option<String> = 40;
    }
}
