//! The form of `simulate`.

use crate::field::{Amount, Field, Kind, Unit};
use crate::verb::meat::MEAT;

const SIZE: Amount = Amount::new(Unit::Millimetre, 0.5, 2000.0);
const WARMTH: Amount = Amount::new(Unit::Celsius, -100.0, 1500.0);
const MEAT_C: Amount = Amount::new(Unit::Celsius, -60.0, 150.0);
const MINUTES: Amount = Amount::new(Unit::Plain("min"), 0.0, 600_000.0);

pub(super) const KIND: Field =
    Field::new("kind", Kind::Word(kinds), "slab, steak, cylinder, sphere, finite-cylinder, brick or roast")
        .needed()
        .set("\"steak\"");
pub(super) const THICKNESS: Field =
    Field::new("thickness", Kind::Amount(SIZE), "from face to face: slab, steak, brick").set("29");
pub(super) const DIAMETER: Field =
    Field::new("diameter", Kind::Amount(SIZE), "across: cylinder, sphere, finite-cylinder").later("80");
pub(super) const MASS: Field =
    Field::new("mass", Kind::Amount(Amount::new(Unit::Gram, 1.0, 200_000.0)), "of a steak or a roast")
        .set("380");
pub(super) const WIDTH: Field =
    Field::new("width", Kind::Amount(SIZE), "with the length, of a steak; of a brick, a roast")
        .instead("95", &["mass"]);
pub(super) const LENGTH: Field = Field::new(
    "length",
    Kind::Amount(SIZE),
    "with the width, of a steak; of a brick, a roast, a finite cylinder",
)
.instead("150", &["mass"]);
pub(super) const HEIGHT: Field = Field::new("height", Kind::Amount(SIZE), "of a roast").later("90");
pub(super) const FAT: Field = Field::new(
    "fat",
    Kind::Amount(Amount::new(Unit::Millimetre, 0.0, 60.0)),
    "thickness of the fat cap over a roast, all but its cut ends",
)
.later("6");

pub(super) const WRAP_THICKNESS: Field = Field::new(
    "thickness",
    Kind::Amount(Amount::new(Unit::Millimetre, 0.001, 100.0).plain()),
    "of the layer",
)
.needed();
pub(super) const WRAP_CONDUCTIVITY: Field = Field::new(
    "conductivity_w_m_k",
    Kind::Amount(Amount::new(Unit::Plain("W/(m·K)"), 0.001, 100.0).plain()),
    "of the layer",
)
.needed();
pub(super) const WRAP: Field = Field::new(
    "wrap",
    Kind::Either(&[Kind::Word(wraps), Kind::Table(&[WRAP_THICKNESS, WRAP_CONDUCTIVITY])]),
    "what it is wrapped in, or { thickness_mm = , conductivity_w_m_k = }",
)
.instead("\"vacuum\"", &[]);
pub(super) const STACK: Field = Field::new(
    "stack",
    Kind::Amount(Amount::new(Unit::Plain("pieces"), 1.0, 20.0).plain()),
    "so many alike on each other, touching: all are solved as one",
)
.later("2");
pub(super) const SHAPE: Field = Field::new(
    "shape",
    Kind::Table(&[KIND, THICKNESS, DIAMETER, MASS, WIDTH, LENGTH, HEIGHT, FAT, STACK, WRAP]),
    "full sizes, never halves",
)
.needed();

pub(super) const START_C: Field = Field::new("temperature", Kind::Amount(MEAT_C), "the same throughout")
    .at_most_one_of("how warm the piece is")
    .set("4");
pub(super) const PROFILE: Field = Field::new(
    "profile",
    Kind::Pairs(Amount::new(Unit::Plain("mm"), 0.0, 2000.0), MEAT_C),
    "[depth in mm, temperature], from the top face",
)
.at_most_one_of("how warm the piece is")
.instead("[[0, 8], [14, 4]]", &["temperature"]);
pub(super) const START: Field = Field::new("start", Kind::Table(&[START_C, PROFILE]), "how it begins");

pub(super) const MEDIUM: Field =
    Field::new("medium", Kind::Word(media), "of the catalogue, or only the numbers below").set("\"oven\"");
pub(super) const MEDIUM_C: Field = Field::new("medium", Kind::Amount(WARMTH), "its temperature")
    .at_most_one_of("the medium's temperature")
    .set("110");
pub(super) const SERIES: Field =
    Field::new("series", Kind::Pairs(MINUTES, WARMTH), "[minute of the stage, temperature], linear between")
        .at_most_one_of("the medium's temperature")
        .instead("[[0, 120], [20, 105], [90, 110]]", &["medium_c"]);
pub(super) const FILM: Field = Field::new(
    "film_w_m2_k",
    Kind::Either(&[Kind::Amount(Amount::new(Unit::Plain("W/(m²·K)"), 0.0, 20_000.0)), Kind::Word(fixed)]),
    "or \"fixed\": the surface is held at the medium's temperature",
)
.set("8");
pub(super) const EMISSIVITY: Field = Field::new(
    "emissivity",
    Kind::Amount(Amount::new(Unit::Plain(""), 0.0, 1.0)),
    "0 switches radiation off",
)
.set("0.9");
pub(super) const HUMIDITY: Field =
    Field::new("humidity", Kind::Amount(Amount::new(Unit::Plain(""), 0.0, 1.0)), "relative")
        .at_most_one_of("the moisture of the air")
        .set("0.02");
pub(super) const WET_BULB: Field = Field::new(
    "wet_bulb",
    Kind::Amount(Amount::new(Unit::Celsius, -40.0, 100.0)),
    "what a wet thermometer shows",
)
.at_most_one_of("the moisture of the air")
.instead("45", &["humidity"]);
pub(super) const EVAPORATION: Field =
    Field::new("evaporation", Kind::Word(evaporations), "none, wet or drying").set("\"drying\"");

pub(super) const HELD: Field = Field::new(
    "held_kj_m2_k",
    Kind::Amount(Amount::new(Unit::Plain("kJ/(m²·K)"), 0.01, 10_000.0).plain()),
    "heat held under a square metre of meat: 12 of 5 mm of aluminium, 27 of 8 mm of iron",
)
.needed();
pub(super) const RECOVERY: Field = Field::new(
    "recovery_w_m2_k",
    Kind::Amount(Amount::new(Unit::Plain("W/(m²·K)"), 0.0, 100_000.0).plain()),
    "what the burner brings back for each kelvin it has lost",
)
.needed();
pub(super) const PLATE: Field = Field::new(
    "plate",
    Kind::Table(&[HELD, RECOVERY]),
    "a medium that cools when the meat goes on, if you know better",
)
.later("{ held_kj_m2_k = 27, recovery_w_m2_k = 100 }");

const FACE_FIELDS: &[Field] =
    &[MEDIUM, MEDIUM_C, SERIES, FILM, EMISSIVITY, HUMIDITY, WET_BULB, EVAPORATION, PLATE];
const FACE: Kind = Kind::Either(&[Kind::Table(FACE_FIELDS), Kind::Word(none)]);
pub(super) const TOP: Field =
    Field::new("top", FACE, "the upper face, or \"none\": insulated, as against a piece alike");
pub(super) const BOTTOM: Field = Field::new("bottom", FACE, "the lower face, or \"none\"");
pub(super) const SIDES: Field = Field::new("sides", FACE, "the rim, or \"none\": insulated");
pub(super) const ENDS: Field =
    Field::new("ends", FACE, "the two ends of a brick or a roast, or \"none\"; left out: as the sides");
pub(super) const FACES: Field = Field::new(
    "faces",
    Kind::Table(&[TOP, BOTTOM, SIDES, ENDS]),
    "where a face sees something else; each takes the keys above",
)
.later("{ bottom = { medium = \"pan\", medium_c = 220 }, sides = \"none\" }");

pub(super) const NAME: Field = Field::new("name", Kind::Text, "what you call it").set("\"oven\"");
pub(super) const FLIP: Field = Field::new(
    "flip_every",
    Kind::Amount(Amount::new(Unit::Second, 1.0, 1e6).plain()),
    "top and bottom change places",
)
.later("60");

pub(super) const DOOR_EVERY: Field = Field::new(
    "every",
    Kind::Amount(Amount::new(Unit::Minute, 0.5, 10_000.0).plain()),
    "from one opening to the next",
)
.needed();
pub(super) const DOOR_OPEN: Field = Field::new(
    "open",
    Kind::Amount(Amount::new(Unit::Second, 1.0, 3600.0).plain()),
    "how long it stands open",
)
.needed();
pub(super) const DOOR: Field = Field::new(
    "door",
    Kind::Table(&[DOOR_EVERY, DOOR_OPEN]),
    "a door or lid that is opened again and again; of the catalogue's air media",
)
.later("{ every_min = 20, open_s = 30 }");

pub(super) const CENTRE: Field =
    Field::new("centre", Kind::Amount(MEAT_C.plain()), "the middle").one_of("when the stage ends");
pub(super) const MEAN: Field =
    Field::new("mean", Kind::Amount(MEAT_C.plain()), "the mean").one_of("when the stage ends");
pub(super) const SURFACE: Field =
    Field::new("surface", Kind::Amount(Amount::new(Unit::Celsius, -60.0, 300.0).plain()), "the face")
        .one_of("when the stage ends");
pub(super) const TIME: Field =
    Field::new("minutes", Kind::Amount(MINUTES.plain()), "by the clock").one_of("when the stage ends");
pub(super) const KILL: Field = Field::new(
    "kill_log10",
    Kind::Named(Amount::new(Unit::Plain("powers of ten"), 0.0, 100.0)),
    "of one organism: salmonella, stec, listeria or one of the form",
)
.one_of("when the stage ends");
pub(super) const UNTIL: Field = Field::new(
    "until",
    Kind::Table(&[CENTRE, MEAN, SURFACE, TIME, KILL]),
    "centre_c, mean_c, surface_c, minutes or kill_log10 = { name = }",
)
.needed()
.set("{ centre_c = 48 }");
pub(super) const AT_MOST: Field = Field::new(
    "at_most",
    Kind::Amount(Amount::new(Unit::Minute, 0.0, 527_000.0).plain()),
    "it ends here at the latest",
)
.set("600");

const STAGE_FIELDS: &[Field] = &[
    NAME,
    MEDIUM,
    MEDIUM_C,
    SERIES,
    FILM,
    EMISSIVITY,
    HUMIDITY,
    WET_BULB,
    EVAPORATION,
    PLATE,
    FACES,
    FLIP,
    DOOR,
    UNTIL,
    AT_MOST,
];
pub(super) const STAGE: Field = Field::new(
    "stage",
    Kind::Tables(
        STAGE_FIELDS,
        &[
            &[
                ("name", "\"sear\""),
                ("medium", "\"pan\""),
                ("medium_c", "220"),
                ("film_w_m2_k", "300"),
                ("faces.top", "{ medium = \"still-air\", medium_c = 25, film_w_m2_k = 6, humidity = 0.4 }"),
                ("faces.sides", "{ medium = \"still-air\", medium_c = 60, film_w_m2_k = 6, humidity = 0.1 }"),
                ("flip_every_s", "45"),
                ("until", "{ minutes = 1.5 }"),
            ],
            &[
                ("name", "\"rest\""),
                ("medium", "\"rest\""),
                ("medium_c", "22"),
                ("film_w_m2_k", "4.5"),
                ("emissivity", "0.9"),
                ("humidity", "0.5"),
                ("until", "{ minutes = 8 }"),
            ],
        ],
    ),
    "one after the other",
)
.needed();

pub(super) const ORGANISM_NAME: Field =
    Field::new("name", Kind::Text, "what you call it").needed().set("\"my-process\"");
pub(super) const D: Field = Field::new(
    "d",
    Kind::Amount(Amount::new(Unit::Minute, 1e-6, 1e9).plain()),
    "one power of ten takes this long",
)
.needed()
.set("12.7");
pub(super) const D_AT: Field =
    Field::new("at", Kind::Amount(Amount::new(Unit::Celsius, -50.0, 200.0).plain()), "at this temperature")
        .needed()
        .set("55");
pub(super) const Z: Field = Field::new(
    "z",
    Kind::Amount(Amount::new(Unit::CelsiusStep, 0.1, 200.0).plain()),
    "and a tenth of it this much warmer",
)
.needed()
.set("9.2");
pub(super) const ORGANISM: Field = Field::new(
    "organism",
    Kind::Tables(&[ORGANISM_NAME, D, D_AT, Z], &[]),
    "a log-linear death law of your own; salmonella, stec and listeria are counted anyway; optional",
);

pub(super) const EVERY: Field = Field::new(
    "every",
    Kind::Amount(Amount::new(Unit::Second, 0.1, 1e9).plain()),
    "spacing of the curve; first and last moment are always in it",
)
.set("300");
pub(super) const DEPTHS: Field = Field::new(
    "depths",
    Kind::Numbers(Amount::new(Unit::Millimetre, 0.0, 2000.0)),
    "temperatures at these depths too, from the top face or the round surface",
)
.set("[5]");
pub(super) const SAMPLE: Field =
    Field::new("sample", Kind::Table(&[EVERY, DEPTHS]), "what is kept of the way; optional");

pub(crate) const FIELDS: &[Field] = &[MEAT, SHAPE, START, STAGE, ORGANISM, SAMPLE];

fn kinds() -> Vec<&'static str> {
    vec!["slab", "steak", "cylinder", "sphere", "finite-cylinder", "brick", "roast"]
}

fn media() -> Vec<&'static str> {
    catalogue::media().iter().map(|medium| medium.name.as_str()).collect()
}

fn wraps() -> Vec<&'static str> {
    catalogue::wraps().iter().map(|wrap| wrap.name.as_str()).collect()
}

fn evaporations() -> Vec<&'static str> {
    vec!["none", "wet", "drying"]
}

fn fixed() -> Vec<&'static str> {
    vec!["fixed"]
}

fn none() -> Vec<&'static str> {
    vec!["none"]
}
