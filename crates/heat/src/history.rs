//! What came of it.

/// The history of a piece through its stages: times in s, temperatures in °C, heat in J, mass in kg.
///
/// For a slab heat and mass are those of one square metre, for an endless cylinder of one metre.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    /// Sum of the stages, s.
    pub time_s: f64,
    /// The middle at the end, °C.
    pub centre_c: f64,
    /// The middle of the top face (or of the round surface) at the end, °C.
    pub surface_c: f64,
    /// The mean over the mass at the end, °C.
    pub mean_c: f64,
    /// The warmest the middle ever was, °C.
    pub peak_centre_c: f64,
    /// When that was, s from the start.
    pub peak_at_s: f64,
    /// Net heat taken in (negative: given off), J.
    pub heat_j: f64,
    /// Water evaporated, and drip pressed out, kg.
    pub mass_lost_kg: f64,
    /// Share of the thickness whose myoglobin is denatured beyond [`crate::colour::GREY`].
    pub grey_share: f64,
    /// kg ice per kg meat at the end; with frozen constants the share of the volume that is frozen.
    pub ice_share: f64,
    /// Kill of each organism of the settings at the place of least kill, powers of ten.
    pub kill_log10: Vec<(String, f64)>,
    /// |heat in − enthalpy gained| over the heat moved through the faces (or over 1e7 J/m³ where less has passed).
    pub energy_error: f64,
    /// One row a stage.
    pub stages: Vec<StageEnd>,
    /// Temperatures over time; first and last moment always, others as the settings ask.
    pub curve: Vec<Moment>,
    /// From the top face (or the round surface) through the middle, at the end.
    pub section: Vec<Layer>,
    /// What it cost.
    pub work: Work,
}

/// How one stage ended.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StageEnd {
    /// Its name.
    pub name: String,
    /// Its own length, s.
    pub time_s: f64,
    /// The middle at its end, °C.
    pub centre_c: f64,
    /// The middle of the top face at its end, °C.
    pub surface_c: f64,
    /// The mean at its end, °C.
    pub mean_c: f64,
    /// Lost from the start of the first stage to its end, kg.
    pub mass_lost_kg: f64,
    /// Whether its rule was met.
    pub reached: bool,
}

/// One row of the curve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Moment {
    /// s from the start.
    pub t_s: f64,
    /// The middle, °C.
    pub centre_c: f64,
    /// The middle of the top face, °C.
    pub surface_c: f64,
    /// The mean, °C.
    pub mean_c: f64,
    /// At each depth the settings ask for, °C.
    pub at_depth_c: Vec<f64>,
    /// The plate against the middle, °C, where one gives way.
    pub plate_c: Option<f64>,
}

/// One row of the section.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Layer {
    /// From the top face, m.
    pub depth_m: f64,
    /// °C.
    pub c: f64,
    /// Share of the myoglobin denatured, 0 to 1.
    pub colour_share: f64,
}

/// What an answer cost: pinned in the tests beside the answers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// Unknowns.
    pub nodes: usize,
    /// Steps taken.
    pub steps: usize,
    /// Steps tried again shorter.
    pub rejected: usize,
    /// Linear solves, one line of nodes each.
    pub solves: usize,
}
