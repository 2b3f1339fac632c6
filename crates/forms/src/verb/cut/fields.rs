//! The form of `cut`.

use crate::field::{Amount, Field, Kind, Unit};

const LENGTH: Amount = Amount::new(Unit::Millimetre, 0.0, 2000.0);
const PLAIN_LENGTH: Amount = LENGTH.plain();

pub(super) const CUT: Field =
    Field::new("cut", Kind::Word(cuts), "which cut it is").needed().set("\"beef-ribeye-roll\"");
pub(super) const MASS: Field = Field::new(
    "mass",
    Kind::Amount(Amount::new(Unit::Gram, 50.0, 60_000.0)),
    "bag off; left out, the cut's usual",
)
.set("6800");
pub(super) const LENGTH_OF: Field = Field::new(
    "length",
    Kind::Amount(Amount::new(Unit::Millimetre, 30.0, 2000.0)),
    "from tip to tip; left out, what goes with the mass",
)
.set("400");
pub(super) const FIRST: Field = Field::new(
    "first",
    Kind::Amount(Amount::new(Unit::Millimetre, 0.0, 300.0)),
    "by how much the face slants",
)
.set("8");
pub(super) const LAST: Field =
    Field::new("last", Kind::Amount(Amount::new(Unit::Millimetre, 0.0, 300.0)), "and the other").set("25");
pub(super) const ENDS: Field =
    Field::new("ends", Kind::Table(&[FIRST, LAST]), "what squaring takes off each end")
        .set("{ first_mm = 8, last_mm = 25 }");
pub(super) const KNIFE: Field = Field::new(
    "knife",
    Kind::Amount(Amount::new(Unit::Millimetre, 0.0, 20.0).plain()),
    "what each cut takes; a saw takes some",
)
.set("0");

pub(super) const AT: Field =
    Field::new("at", Kind::Amount(PLAIN_LENGTH), "from the end the knife starts at").needed().set("100");
pub(super) const WIDTH: Field =
    Field::new("width", Kind::Amount(Amount::new(Unit::Millimetre, 5.0, 800.0).plain()), "across")
        .needed()
        .set("235");
pub(super) const HEIGHT: Field =
    Field::new("height", Kind::Amount(Amount::new(Unit::Millimetre, 5.0, 800.0).plain()), "up")
        .needed()
        .set("95");
pub(super) const STATION: Field = Field::new(
    "station",
    Kind::Tables(&[AT, WIDTH, HEIGHT], &[&[("at_mm", "300"), ("width_mm", "225"), ("height_mm", "90")]]),
    "a place where it was measured; any number, optional",
);
pub(super) const PIECE: Field =
    Field::new("piece", Kind::Table(&[CUT, MASS, LENGTH_OF, ENDS, KNIFE, STATION]), "the piece on the board")
        .needed();

pub(super) const NAME: Field = Field::new("name", Kind::Text, "for whom").set("\"guests\"");
pub(super) const COUNT: Field = Field::new(
    "count",
    Kind::Either(&[Kind::Count { low: 1, high: 200 }, Kind::Word(max)]),
    "how many, or \"max\": as many as sensible; 1 for a roast",
)
.set("4");
pub(super) const THICKNESS: Field =
    Field::new("thickness", Kind::Amount(Amount::new(Unit::Millimetre, 3.0, 500.0).plain()), "how thick")
        .one_of("what each shall be")
        .set("40");
pub(super) const PORTION: Field =
    Field::new("portion", Kind::Amount(Amount::new(Unit::Gram, 10.0, 20_000.0).plain()), "how heavy")
        .one_of("what each shall be")
        .instead("350", &["thickness"]);
pub(super) const ROAST: Field = Field::new(
    "roast",
    Kind::Amount(Amount::new(Unit::Millimetre, 20.0, 2000.0).plain()),
    "a piece this long, kept whole",
)
.one_of("what each shall be")
.instead("120", &["thickness", "count", "twins"]);
pub(super) const TOLERANCE: Field = Field::new(
    "tolerance",
    Kind::Amount(Amount::new(Unit::Plain("in the unit of the wish"), 0.001, 10_000.0).plain()),
    "either way; left out, the trade's",
)
.set("3");
pub(super) const FROM: Field =
    Field::new("from", Kind::Word(ends), "from which end: any, first or last").set("\"any\"");
pub(super) const TWINS: Field =
    Field::new("twins", Kind::Flag, "pairs of neighbours as alike as can be").set("false");
pub(super) const WANT: Field = Field::new(
    "want",
    Kind::Tables(
        &[NAME, COUNT, THICKNESS, PORTION, ROAST, TOLERANCE, FROM, TWINS],
        &[&[("name", "\"us\""), ("count", "\"max\""), ("portion_g", "350")]],
    ),
    "a line of wishes; one or more",
)
.needed();

pub(super) const THINNEST: Field = Field::new(
    "thinnest",
    Kind::Amount(Amount::new(Unit::Millimetre, 1.0, 500.0).plain()),
    "no portion thinner anywhere",
)
.set("20");
pub(super) const THICKEST: Field = Field::new(
    "thickest",
    Kind::Amount(Amount::new(Unit::Millimetre, 1.0, 2000.0).plain()),
    "none thicker, but a roast",
)
.set("65");
pub(super) const LIMITS: Field = Field::new("limits", Kind::Table(&[THINNEST, THICKEST]), "optional");

pub(super) const WEIGHED: Field = Field::new(
    "weighed",
    Kind::Numbers(Amount::new(Unit::Gram, 1.0, 20_000.0)),
    "portions already cut and weighed, in order",
)
.needed()
.set("[]");
pub(super) const BOARD: Field = Field::new("board", Kind::Table(&[WEIGHED]), "what is cut already; optional");

pub(crate) const FIELDS: &[Field] = &[PIECE, WANT, LIMITS, BOARD];

fn cuts() -> Vec<&'static str> {
    catalogue::cuts().iter().map(|cut| cut.id.as_str()).collect()
}

fn max() -> Vec<&'static str> {
    vec!["max"]
}

fn ends() -> Vec<&'static str> {
    vec!["any", "first", "last"]
}
