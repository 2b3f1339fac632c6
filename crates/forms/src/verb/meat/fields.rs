//! `[meat]`: a cut or a composition, constants, or properties as measured.

use crate::field::{Amount, Field, Kind, Unit};

const SHARE: Amount = Amount::new(Unit::Plain("of the mass"), 0.0, 1.0);
const CONDUCTIVITY_RANGE: Amount = Amount::new(Unit::Plain("W/(m·K)"), 0.001, 1000.0);
const HEAT_RANGE: Amount = Amount::new(Unit::Plain("J/(kg·K)"), 10.0, 100_000.0);
const DENSITY_RANGE: Amount = Amount::new(Unit::Plain("kg/m³"), 1.0, 30_000.0);
const POINT: Amount = Amount::new(Unit::Celsius, -60.0, 60.0);

pub(crate) const CUT: Field = Field::new("cut", Kind::Word(cuts), "its composition comes from the catalogue")
    .set("\"beef-strip-loin\"");

pub(super) const WATER: Field = Field::new("water", Kind::Amount(SHARE), "mass share").needed().set("0.72");
pub(super) const PROTEIN: Field =
    Field::new("protein", Kind::Amount(SHARE), "mass share").needed().set("0.21");
pub(super) const FAT: Field = Field::new("fat", Kind::Amount(SHARE), "mass share").needed().set("0.06");
pub(super) const CARBOHYDRATE: Field = Field::new("carbohydrate", Kind::Amount(SHARE), "mass share").set("0");
pub(super) const ASH: Field = Field::new("ash", Kind::Amount(SHARE), "mass share").needed().set("0.01");
pub(super) const COMPOSITION: Field = Field::new(
    "composition",
    Kind::Table(&[WATER, PROTEIN, FAT, CARBOHYDRATE, ASH]),
    "mass shares that add to 1",
)
.instead("{ water = 0.74, protein = 0.20, fat = 0.05, ash = 0.01 }", &["cut"]);

pub(super) const SALT: Field = Field::new(
    "salt_percent",
    Kind::Amount(Amount::new(Unit::Plain("% of the mass"), 0.0, 10.0)),
    "salt rubbed in, lowers the freezing point",
)
.set("0.0");
pub(super) const FREEZING_POINT: Field =
    Field::new("freezing_point", Kind::Amount(POINT), "where freezing starts, if you know better")
        .instead("-1.1", &[]);
pub(super) const BOUND_WATER: Field =
    Field::new("bound_water", Kind::Amount(SHARE), "water that never freezes, if you know better")
        .instead("0.06", &[]);
pub(super) const DENSITY: Field =
    Field::new("density_kg_m3", Kind::Amount(DENSITY_RANGE), "if you know better").instead("1060", &[]);
pub(super) const CONDUCTIVITY: Field =
    Field::new("conductivity_w_m_k", Kind::Amount(CONDUCTIVITY_RANGE), "if you know better")
        .instead("0.48", &[]);
pub(super) const SPECIFIC_HEAT: Field = Field::new(
    "specific_heat_j_kg_k",
    Kind::Amount(HEAT_RANGE),
    "these three without cut or composition: constants",
)
.instead("3500", &[]);

pub(super) const FROZEN_POINT: Field =
    Field::new("freezing_point", Kind::Amount(POINT), "the sharp front").needed().set("-1.0");
pub(super) const LATENT: Field = Field::new(
    "latent_kj_kg",
    Kind::Amount(Amount::new(Unit::Plain("kJ/kg"), 0.1, 10_000.0)),
    "heat of freezing",
)
.needed()
.set("250");
pub(super) const FROZEN_CONDUCTIVITY: Field =
    Field::new("conductivity_w_m_k", Kind::Amount(CONDUCTIVITY_RANGE), "frozen").needed().set("1.6");
pub(super) const FROZEN_HEAT: Field =
    Field::new("specific_heat_j_kg_k", Kind::Amount(HEAT_RANGE), "frozen").needed().set("1800");
pub(super) const FROZEN_DENSITY: Field =
    Field::new("density_kg_m3", Kind::Amount(DENSITY_RANGE), "frozen").needed().set("1050");
pub(super) const FROZEN: Field = Field::new(
    "frozen",
    Kind::Table(&[FROZEN_POINT, LATENT, FROZEN_CONDUCTIVITY, FROZEN_HEAT, FROZEN_DENSITY]),
    "beside the three constants: a sharp freezing front",
)
.later(
    "{ freezing_point_c = -1.0, latent_kj_kg = 250, conductivity_w_m_k = 1.6, specific_heat_j_kg_k = 1800, density_kg_m3 = 1050 }",
);

pub(super) const MEASURED_C: Field =
    Field::new("", Kind::Numbers(Amount::new(Unit::Celsius, -150.0, 300.0)), "rising temperatures").needed();
pub(super) const MEASURED_ENTHALPY: Field = Field::new(
    "enthalpy_j_kg",
    Kind::Numbers(Amount::new(Unit::Plain("J/kg"), -1e7, 1e7)),
    "rising with the temperature",
)
.needed();
pub(super) const MEASURED_CONDUCTIVITY: Field =
    Field::new("conductivity_w_m_k", Kind::Numbers(CONDUCTIVITY_RANGE), "one for each temperature").needed();
pub(super) const MEASURED_DENSITY: Field =
    Field::new("density_kg_m3", Kind::Amount(DENSITY_RANGE), "one for all").needed();
pub(super) const MEASURED: Field = Field::new(
    "measured",
    Kind::Table(&[MEASURED_C, MEASURED_ENTHALPY, MEASURED_CONDUCTIVITY, MEASURED_DENSITY]),
    "properties as measured, linear between rows, alone in [meat]",
)
.instead(
    "{ c = [-40, -2, 0, 240], enthalpy_j_kg = [0, 120000, 300000, 1150000], conductivity_w_m_k = [1.5, 1.2, 0.5, 0.5], density_kg_m3 = 1050 }",
    &["cut", "salt"],
);

pub(super) const FIELDS: &[Field] = &[
    CUT,
    COMPOSITION,
    SALT,
    FREEZING_POINT,
    BOUND_WATER,
    DENSITY,
    CONDUCTIVITY,
    SPECIFIC_HEAT,
    FROZEN,
    MEASURED,
];

/// The table as the verbs declare it.
pub(crate) const MEAT: Field = Field::new("meat", Kind::Table(FIELDS), "what the piece is made of").needed();

fn cuts() -> Vec<&'static str> {
    catalogue::compositions().iter().map(|row| row.cut.as_str()).collect()
}
