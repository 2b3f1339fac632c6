//! The form of `worth`.

use crate::field::{Amount, Field, Kind, Unit};

pub(super) const CURRENCY: Field =
    Field::new("currency", Kind::Currency, "three letters; one currency for every amount")
        .needed()
        .set("\"EUR\"");

const PIECE_KG: Amount = Amount::new(Unit::Kilogram, 0.05, 1000.0);
const GRAMS: Amount = Amount::new(Unit::Gram, 0.0, 1_000_000.0);
const PRICE: Amount = Amount::new(Unit::MoneyPerKg, 0.0, 1_000_000.0);
const AMOUNT: Amount = Amount::new(Unit::Money, 0.0, 1_000_000.0);

pub(super) const PIECE_MASS: Field =
    Field::new("mass", Kind::Amount(PIECE_KG), "as purchased, bag and all").needed().set("6.4");
pub(super) const PRICE_PER: Field =
    Field::new("price", Kind::Amount(PRICE), "what it costs").one_of("the price").set("\"24.90\"");
pub(super) const TOTAL: Field = Field::new("total", Kind::Amount(AMOUNT), "the amount on the label")
    .one_of("the price")
    .instead("\"159.36\"", &["price"]);
pub(super) const PURGE: Field =
    Field::new("purge", Kind::Amount(GRAMS), "bag and liquid, where weighed").set("46");
pub(super) const CUT: Field =
    Field::new("cut", Kind::Word(cuts), "which cut it is, where nothing is cut yet")
        .instead("\"beef-ribeye-roll\"", &["part"]);
pub(super) const TRIM: Field =
    Field::new("trim", Kind::Word(trims), "how it will be trimmed").instead("\"to-6-mm\"", &["part"]);
pub(super) const LEAN_VALUE: Field =
    Field::new("lean_trim_value", Kind::Amount(PRICE), "what its lean trim replaces")
        .instead("\"11.80\"", &["part"]);
pub(super) const FAT_VALUE: Field =
    Field::new("fat_value", Kind::Amount(PRICE), "what its clean fat replaces")
        .instead("\"3.20\"", &["part"]);

const PIECE_FIELDS: &[Field] = &[PIECE_MASS, PRICE_PER, TOTAL, PURGE, CUT, TRIM, LEAN_VALUE, FAT_VALUE];
pub(super) const PIECE: Field =
    Field::new("piece", Kind::Table(PIECE_FIELDS), "the piece as purchased").needed();

pub(super) const NAME: Field =
    Field::new("name", Kind::Text, "what you call it").needed().set("\"portions\"");
pub(super) const USE: Field =
    Field::new("use", Kind::Word(uses), "portion (eaten as such), keep (credited), waste")
        .needed()
        .set("\"portion\"");
pub(super) const PART_MASS: Field =
    Field::new("mass", Kind::Amount(GRAMS), "as weighed").needed().set("5318");
pub(super) const VALUE: Field =
    Field::new("value", Kind::Amount(PRICE), "of a kept part: what it replaces; none counts as zero")
        .later("\"11.80\"");

const PART_FIELDS: &[Field] = &[NAME, USE, PART_MASS, VALUE];
pub(super) const PART: Field = Field::new(
    "part",
    Kind::Tables(
        PART_FIELDS,
        &[
            &[
                ("name", "\"lean trim, ends\""),
                ("use", "\"keep\""),
                ("mass_g", "438"),
                ("value_per_kg", "\"11.80\""),
            ],
            &[
                ("name", "\"clean fat\""),
                ("use", "\"keep\""),
                ("mass_g", "489"),
                ("value_per_kg", "\"3.20\""),
            ],
            &[("name", "\"silver skin and kernel\""), ("use", "\"waste\""), ("mass_g", "102")],
        ],
    ),
    "one heap on the board; leave all out for a piece not cut yet",
);

pub(super) const COUNTER_PRICE: Field =
    Field::new("price", Kind::Amount(PRICE), "what the counter asks for the same meat, cut")
        .needed()
        .set("\"38.50\"");
pub(super) const COUNTER: Field =
    Field::new("counter", Kind::Table(&[COUNTER_PRICE]), "what it is held against; optional");

pub(super) const BAG: Field =
    Field::new("bags_each", Kind::Amount(AMOUNT), "price of one bag").set("\"0.32\"");
pub(super) const BAGS: Field =
    Field::new("bags", Kind::Count { low: 0, high: 10_000 }, "how many; left out, one for each full portion")
        .set("8");
pub(super) const ENERGY: Field = Field::new(
    "energy",
    Kind::Amount(Amount::new(Unit::MoneyPerKgMonth, 0.0, 1_000_000.0)),
    "keeping a kilo frozen for a month",
)
.set("\"0.25\"");
pub(super) const MONTHS: Field = Field::new(
    "months",
    Kind::Amount(Amount::new(Unit::Plain("months"), 0.0, 240.0)),
    "how long, on average",
)
.set("1.5");
pub(super) const LABOUR: Field =
    Field::new("labour", Kind::Amount(AMOUNT), "the work, as one amount").set("\"0\"");
pub(super) const COSTS: Field =
    Field::new("costs", Kind::Table(&[BAG, BAGS, ENERGY, MONTHS, LABOUR]), "beyond the meat; optional");

pub(super) const LOSS: Field = Field::new(
    "loss",
    Kind::Amount(Amount::new(Unit::Plain("of the raw weight"), 0.0, 0.99)),
    "share lost in cooking",
)
.one_of("the cooked weight")
.set("0.22");
pub(super) const COOKED_MASS: Field = Field::new(
    "mass",
    Kind::Amount(Amount::new(Unit::Kilogram, 0.0, 1000.0)),
    "what the portions weigh cooked",
)
.one_of("the cooked weight")
.instead("4.15", &["loss"]);
pub(super) const COOKED_WASTE: Field =
    Field::new("waste", Kind::Amount(Amount::new(Unit::Kilogram, 0.0, 1000.0)), "carved off and thrown away")
        .set("0");
pub(super) const COOKED: Field =
    Field::new("cooked", Kind::Table(&[LOSS, COOKED_MASS, COOKED_WASTE]), "after cooking; optional");

pub(super) const PORTION: Field =
    Field::new("portion", Kind::Amount(Amount::new(Unit::Gram, 1.0, 100_000.0)), "of one plate")
        .needed()
        .set("375");
pub(super) const SERVE: Field = Field::new("serve", Kind::Table(&[PORTION]), "optional");

pub(super) const DIVISION: Field = Field::new(
    "division",
    Kind::Amount(Amount::new(Unit::Gram, 0.01, 1000.0).plain()),
    "smallest step of the scale at the board",
)
.set("1");
pub(super) const LABEL_DIVISION: Field = Field::new(
    "label_division",
    Kind::Amount(Amount::new(Unit::Gram, 0.01, 1000.0).plain()),
    "and of the shop's scale behind the label",
)
.set("5");
pub(super) const SCALE: Field = Field::new(
    "scale",
    Kind::Table(&[DIVISION, LABEL_DIVISION]),
    "decides which gap is asked about; optional",
);

pub(crate) const FIELDS: &[Field] = &[CURRENCY, PIECE, PART, COUNTER, COSTS, COOKED, SERVE, SCALE];

fn cuts() -> Vec<&'static str> {
    catalogue::cuts().iter().map(|cut| cut.id.as_str()).collect()
}

fn trims() -> Vec<&'static str> {
    catalogue::Trim::ALL.iter().map(|trim| trim.name()).collect()
}

fn uses() -> Vec<&'static str> {
    vec!["portion", "keep", "waste"]
}
