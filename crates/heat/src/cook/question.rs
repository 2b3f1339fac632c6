//! What is asked.

use crate::{Composition, HeatError, Meat, Organism, Overrides, Settings, Stage, Until};
use band::Value;
use catalogue::Drying;
use quantity::Span;

/// The kind of shape a question is about; sizes are the question's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Thickness alone.
    Slab,
    /// Thickness, and mass or width and length.
    Steak,
    /// Thickness, width, length.
    Brick,
    /// Diameter (as thickness).
    Cylinder,
    /// Diameter (as thickness).
    Sphere,
    /// Diameter (as width) and length (as thickness, stood on end).
    FiniteCylinder,
    /// Mass, and any of height (as thickness), width and length; the cut's section stands in for what is left out.
    Roast,
}

/// A piece, where it starts and the stages it goes through. SI units and °C.
#[derive(Clone, Debug)]
pub struct Question {
    /// The material.
    pub meat: Meat,
    /// Name of the cut in the catalogue, whose section a roast has.
    pub cut: Option<String>,
    /// The kind of shape.
    pub form: Form,
    /// From face to face, m.
    pub thickness_m: Value,
    /// kg.
    pub mass_kg: Value,
    /// m.
    pub width_m: Value,
    /// m.
    pub length_m: Value,
    /// Thickness of the fat cap over a roast's mantle, m; left out, the cut's prior.
    pub cap_m: Value,
    /// °C.
    pub start_c: Value,
    /// One after the other.
    pub stages: Vec<StageQuestion>,
    /// Organisms whose kill is counted.
    pub organisms: Vec<Organism>,
}

/// One stage: a medium of the catalogue, and what is known better.
#[derive(Clone, Debug, PartialEq)]
pub struct StageQuestion {
    /// What the person calls it.
    pub name: String,
    /// Name in the catalogue.
    pub medium: String,
    /// Read or set, °C.
    pub medium_c: Value,
    /// Convective film or contact conductance, W/(m²·K).
    pub film_w_m2_k: Value,
    /// 0 to 1.
    pub emissivity: Value,
    /// Relative, 0 to 1, at the medium's temperature.
    pub humidity: Value,
    /// Instead of what the medium usually does.
    pub evaporation: Option<Drying>,
    /// A bag or other layer around the piece, thickness over conductivity, m²·K/W; no water passes.
    pub cover_m2_k_w: f64,
    /// The piece is turned each time this has passed.
    pub flip_every: Option<Span>,
    /// A door or lid that is opened; of air media alone.
    pub door: Option<Opened>,
    /// The rule that ends it.
    pub until: Until,
    /// It ends here at the latest.
    pub at_most: Span,
}

/// A door or a lid that is opened again and again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opened {
    /// From one opening to the next, the first after as long.
    pub every: Span,
    /// How long it stands open.
    pub stands: Span,
}

impl Question {
    /// A question about a material, everything else left out.
    #[must_use]
    pub fn new(meat: Meat, form: Form) -> Self {
        Self {
            meat,
            cut: None,
            form,
            thickness_m: Value::Unknown,
            mass_kg: Value::Unknown,
            width_m: Value::Unknown,
            length_m: Value::Unknown,
            cap_m: Value::Unknown,
            start_c: Value::Unknown,
            stages: Vec::new(),
            organisms: Vec::new(),
        }
    }

    /// How fine a member is: a slab's cells spread to their neighbours, so that six do; a steak's grid and outline leave half a
    /// per cent anyway, so its steps may be longer.
    #[must_use]
    pub fn settings(&self) -> Settings {
        let usual = Settings::ensemble();
        let (cells, tolerance) = match self.form {
            Form::Slab => (6, usual.tolerance),
            Form::Cylinder | Form::Sphere => (usual.cells, usual.tolerance),
            Form::Steak | Form::Brick | Form::FiniteCylinder | Form::Roast => (usual.cells, 1e-2),
        };
        Settings { cells, tolerance, organisms: self.organisms.clone(), ..usual }
    }

    /// A question about a cut of the catalogue, everything else left out.
    ///
    /// # Errors
    /// [`HeatError::Unknown`] lists the cuts it knows.
    pub fn of_cut(cut: &str, form: Form) -> Result<Self, HeatError> {
        let meat = meat_of_cut(cut, Overrides::default())?;
        Ok(Self { cut: Some(cut.to_owned()), ..Self::new(meat, form) })
    }
}

/// The material of a cut of the catalogue.
///
/// # Errors
/// [`HeatError::Unknown`] lists the cuts it knows; whatever [`Meat::composed`] refuses.
pub fn meat_of_cut(cut: &str, overrides: Overrides) -> Result<Meat, HeatError> {
    let Some(row) = catalogue::composition(cut) else {
        let known: Vec<&str> = catalogue::compositions().iter().map(|row| row.cut.as_str()).collect();
        return Err(HeatError::Unknown { kind: "cut", name: cut.to_owned(), known: known.join(" ") });
    };
    let shares =
        Composition { water: row.water, protein: row.protein, fat: row.fat, carbohydrate: 0.0, ash: row.ash };
    Meat::composed(shares, overrides)
}

impl StageQuestion {
    /// A stage in a medium until a rule is met, everything else left to the catalogue.
    #[must_use]
    pub fn new(name: impl Into<String>, medium: impl Into<String>, until: Until) -> Self {
        Self {
            name: name.into(),
            medium: medium.into(),
            medium_c: Value::Unknown,
            film_w_m2_k: Value::Unknown,
            emissivity: Value::Unknown,
            humidity: Value::Unknown,
            evaporation: None,
            cover_m2_k_w: 0.0,
            flip_every: None,
            door: None,
            until,
            at_most: Stage::LONGEST,
        }
    }
}
