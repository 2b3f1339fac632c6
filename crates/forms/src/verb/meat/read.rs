//! `[meat]` from the form to the material of one member of the ensemble.

use super::fields as f;
use crate::field::Field;
use crate::problem::What;
use crate::read::Table;
use crate::unknown::{Number, Unknowns};
use band::Instrument;
use heat::{Composition, Constants, Frozen, HeatError, Measured, Meat, Overrides};

/// The meat of a form, its uncertain numbers still to be drawn.
pub(crate) enum MeatDraft {
    Composed { shares: [Number; 5], salt_percent: Number, overrides: [Option<Number>; 5] },
    Constant(ConstantsDraft),
    Frozen { thawed: ConstantsDraft, freezing_point_c: Number, latent_j_kg: Number, frozen: ConstantsDraft },
    Measured(Measured),
}

/// Conductivity, specific heat, density.
pub(crate) struct ConstantsDraft([Number; 3]);

impl MeatDraft {
    /// Reads the table; what contradicts itself is said there.
    pub(crate) fn read(table: &Table<'_>, unknowns: &mut Unknowns) -> Option<Self> {
        if table.has(&f::MEASURED) {
            return measured(table);
        }
        let composed = shares(table, unknowns)?;
        let number = |unknowns: &mut Unknowns, field| unknowns.read(table, field, Instrument::None, 1.0);
        let constants = [
            number(unknowns, &f::CONDUCTIVITY),
            number(unknowns, &f::SPECIFIC_HEAT),
            number(unknowns, &f::DENSITY),
        ];
        match composed {
            Some(shares) => {
                forbid(table, &[(&f::FROZEN, "beside the three constants, without cut or composition")]);
                let [conductivity, specific_heat, density] = constants;
                Some(Self::Composed {
                    shares,
                    salt_percent: number(unknowns, &f::SALT).unwrap_or(Number::Fixed(0.0)),
                    overrides: [
                        number(unknowns, &f::FREEZING_POINT),
                        number(unknowns, &f::BOUND_WATER),
                        density,
                        conductivity,
                        specific_heat,
                    ],
                })
            }
            None => Self::of_constants(table, constants, unknowns),
        }
    }

    fn of_constants(
        table: &Table<'_>,
        constants: [Option<Number>; 3],
        unknowns: &mut Unknowns,
    ) -> Option<Self> {
        let only_composed = "with cut or composition";
        forbid(
            table,
            &[
                (&f::SALT, only_composed),
                (&f::FREEZING_POINT, only_composed),
                (&f::BOUND_WATER, only_composed),
            ],
        );
        let [Some(conductivity), Some(specific_heat), Some(density)] = constants else {
            let needed = [&f::CONDUCTIVITY, &f::SPECIFIC_HEAT, &f::DENSITY];
            if needed.iter().any(|field| table.has(field)) {
                for field in needed.iter().filter(|field| !table.has(field)) {
                    let message = format!(
                        "{} is missing: constants are three, or a cut or a composition",
                        table.name(field)
                    );
                    table.missing(field, &message);
                }
            } else {
                let message = format!(
                    "{} is missing: the meat is a cut, a composition, three constants or a measured table",
                    table.name(&f::CUT)
                );
                table.missing(&f::CUT, &message);
            }
            return None;
        };
        let thawed = ConstantsDraft([conductivity, specific_heat, density]);
        let Some(frozen) = table.table(&f::FROZEN) else {
            return Some(Self::Constant(thawed));
        };
        let mut number = |field, si| unknowns.read(&frozen, field, Instrument::None, si);
        Some(Self::Frozen {
            thawed,
            freezing_point_c: number(&f::FROZEN_POINT, 1.0)?,
            latent_j_kg: number(&f::LATENT, 1000.0)?,
            frozen: ConstantsDraft([
                number(&f::FROZEN_CONDUCTIVITY, 1.0)?,
                number(&f::FROZEN_HEAT, 1.0)?,
                number(&f::FROZEN_DENSITY, 1.0)?,
            ]),
        })
    }

    /// The meat of one member.
    pub(crate) fn meat(&self, member: &[f64]) -> Result<Meat, HeatError> {
        match self {
            Self::Composed { shares, salt_percent, overrides } => {
                let [water, protein, fat, carbohydrate, ash] = shares.map(|share| share.of(member));
                let [freezing_point_c, bound_water, density_kg_m3, conductivity_w_m_k, specific_heat_j_kg_k] =
                    overrides.map(|number| number.map(|number| number.of(member)));
                let overrides = Overrides {
                    salt_percent: salt_percent.of(member),
                    freezing_point_c,
                    bound_water,
                    density_kg_m3,
                    conductivity_w_m_k,
                    specific_heat_j_kg_k,
                };
                Meat::composed(Composition { water, protein, fat, carbohydrate, ash }, overrides)
            }
            Self::Constant(constants) => Meat::constant(constants.of(member)),
            Self::Frozen { thawed, freezing_point_c, latent_j_kg, frozen } => Meat::frozen_constants(
                thawed.of(member),
                Frozen {
                    freezing_point_c: freezing_point_c.of(member),
                    latent_j_kg: latent_j_kg.of(member),
                    constants: frozen.of(member),
                },
            ),
            Self::Measured(table) => Meat::measured(table.clone()),
        }
    }
}

impl ConstantsDraft {
    fn of(&self, member: &[f64]) -> Constants {
        let [conductivity_w_m_k, specific_heat_j_kg_k, density_kg_m3] =
            self.0.map(|number| number.of(member));
        Constants { conductivity_w_m_k, specific_heat_j_kg_k, density_kg_m3 }
    }
}

/// The mass shares, from composition or cut; `Some(None)` where neither stands there.
fn shares(table: &Table<'_>, unknowns: &mut Unknowns) -> Option<Option<[Number; 5]>> {
    if let Some(composition) = table.table(&f::COMPOSITION) {
        let mut share = |field| unknowns.read(&composition, field, Instrument::None, 1.0);
        let carbohydrate = share(&f::CARBOHYDRATE).unwrap_or(Number::Fixed(0.0));
        return Some(Some([
            share(&f::WATER)?,
            share(&f::PROTEIN)?,
            share(&f::FAT)?,
            carbohydrate,
            share(&f::ASH)?,
        ]));
    }
    if !table.has(&f::CUT) {
        return Some(None);
    }
    let row = catalogue::composition(table.word(&f::CUT)?)?;
    Some(Some([row.water, row.protein, row.fat, 0.0, row.ash].map(Number::Fixed)))
}

fn measured(table: &Table<'_>) -> Option<MeatDraft> {
    let alone = "alone in [meat], or no measured table";
    let others = [&f::CUT, &f::COMPOSITION, &f::SALT, &f::FREEZING_POINT, &f::BOUND_WATER, &f::DENSITY];
    for field in others.into_iter().chain([&f::CONDUCTIVITY, &f::SPECIFIC_HEAT, &f::FROZEN]) {
        forbid(table, &[(field, alone)]);
    }
    let measured = table.table(&f::MEASURED)?;
    let density = measured.given(&f::MEASURED_DENSITY).middle()?;
    Some(MeatDraft::Measured(Measured {
        c: measured.numbers(&f::MEASURED_C)?,
        enthalpy_j_kg: measured.numbers(&f::MEASURED_ENTHALPY)?,
        conductivity_w_m_k: measured.numbers(&f::MEASURED_CONDUCTIVITY)?,
        density_kg_m3: f64::try_from(density).ok()?,
    }))
}

/// Says of each field that stands there that it has nothing to say here.
fn forbid(table: &Table<'_>, fields: &[(&Field, &str)]) {
    for (field, allowed) in fields {
        if table.has(field) {
            table.impossible(field, allowed, "it says nothing here");
        }
    }
}

/// Puts what heat has against the numbers on the table it is about.
pub(crate) fn refuse(root: &Table<'_>, field: &Field, error: &HeatError) {
    let allowed = match error {
        HeatError::OutOfRange { low, high, unit, hint, .. } => format!("{low} to {high} {unit}; {hint}"),
        HeatError::Shares { .. } => "shares that add to 0.95 to 1.05".to_owned(),
        HeatError::NotRising { .. } => "rows that rise".to_owned(),
        HeatError::Rows { needed, .. } => (*needed).to_owned(),
        HeatError::OutsideFit { low_c, high_c, .. } => format!("{low_c:.0} to {high_c:.0} °C"),
        HeatError::Unknown { known, .. } => known.clone(),
        HeatError::NoStage => "one [[stage]] or more".to_owned(),
        HeatError::Stuck { .. } => "a form the solver can carry".to_owned(),
    };
    let message = if let HeatError::OutsideFit { .. } | HeatError::Stuck { .. } = error {
        error.to_string()
    } else {
        format!("{}: {error}", root.name(field))
    };
    root.object(What::Impossible, field, &allowed, &message);
}
