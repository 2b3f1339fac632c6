//! The knife plan as a person gets it.

use crate::board::Board;
use crate::given::check_positive;
use crate::piece::{Piece, Weighed};
use crate::posterior::Posterior;
use crate::want::{Count, Limits, Target, Tolerance, Want};
use crate::{RollError, Settings};
use band::{Band, Input, Narrow};
use quantity::{Length, Mass};

/// Plans the knife along a piece: which marks, for whom, and what was given up.
///
/// | input | unit | meaning |
/// |---|---|---|
/// | `piece` | kg, m | what is known of it; a missing mass or length widens the bands |
/// | `wants` | – | what should come of it, in any order; more than it holds is given up and said |
/// | `limits` | m | no portion is thinner or thicker than these anywhere on either face |
/// | `weighed` | kg | portions already cut, in order: each one sharpens the rest |
///
/// # Holds
/// Of all ways to place marks on a 1 mm grid, the one with the least cost: expected squared misses in units of their
/// tolerances, the difference between twins, grams left over where some want is "max". Portions + squared off + left
/// over + kerf = the piece, to rounding.
/// # Errors
/// [`RollError`] names what was found and what is allowed.
/// # Source
/// Dynamic programming (Bellman 1957). Trade tolerances: `catalogue/tolerances.toml`. What a gram left over costs is the
/// house's own: a whole portion left over costs as much as twenty portions missed by their tolerance.
/// # Checked by
/// `src/programme/tests.rs` against a general mixed-integer solver; `tests/laws.rs`; `tests/published/`.
/// # Example
/// ```
/// use quantity::{Length, Mass};
/// use roll::{Count, End, Limits, Piece, Want, plan};
///
/// let mut piece = Piece::of("beef-ribeye-roll")?;
/// piece.mass = band::Value::Known(6.8);
/// piece.length = band::Value::Known(0.400);
/// piece.ends.first = End::squared(Length::from_mm(8.0));
/// piece.ends.last = End::squared(Length::from_mm(25.0));
/// let wants = [
///     Want::thick("guests", Count::Exactly(4), Length::from_mm(40.0)),
///     Want::heavy("us", Count::Max, Mass::from_g(350.0)),
/// ];
/// let plan = plan(&piece, &wants, &Limits::default(), &[])?;
/// assert_eq!(plan.portions.iter().filter(|portion| portion.want == Some(0)).count(), 4);
/// assert!(plan.balance.g().abs() < 1e-6);
/// # Ok::<(), roll::RollError>(())
/// ```
pub fn plan(
    piece: &Piece,
    wants: &[Want],
    limits: &Limits,
    weighed: &[Weighed],
) -> Result<KnifePlan, RollError> {
    plan_with(piece, wants, limits, weighed, &Settings::default())
}

/// As [`plan`], with the ensemble's settings.
///
/// # Errors
/// As [`plan`].
pub fn plan_with(
    piece: &Piece,
    wants: &[Want],
    limits: &Limits,
    weighed: &[Weighed],
    settings: &Settings,
) -> Result<KnifePlan, RollError> {
    check(wants, limits)?;
    check_positive("the kerf".to_owned(), piece.knife.kerf.mm() + 1.0, "mm")?;
    let posterior = Posterior::with(piece, settings)?;
    let mut board = Board::new(piece, wants, limits, posterior)?;
    for each in weighed {
        board.cut_and_weigh(each)?;
    }
    board.plan()
}

/// A plan for the whole piece, what is already cut included.
#[derive(Clone, Debug)]
pub struct KnifePlan {
    /// Marks in order, from the end where the knife starts, squaring marks included.
    pub marks: Vec<Length>,
    /// Portions in order.
    pub portions: Vec<Portion>,
    /// What squaring the ends takes off, for mince.
    pub squared_off: Mass,
    /// What no portion was made of.
    pub left_over: Mass,
    /// Where it lies: from, to.
    pub left_over_at: Vec<(Length, Length)>,
    /// What the saw takes; 0 for a knife.
    pub kerf: Mass,
    /// Mass of the piece less portions, squared off, left over and kerf: 0 but for rounding, until everything is weighed;
    /// then what the scales leave unexplained.
    pub balance: Mass,
    /// Mass of the piece, kg.
    pub mass: Band,
    /// Length of the piece.
    pub length: Length,
    /// What was wished and is not met.
    pub given_up: Vec<GivenUp>,
    /// For each want with portions: what keeping the weight and what keeping the thickness would do.
    pub conflicts: Vec<Conflict>,
    /// What to cut next, if anything is left to cut.
    pub next: Option<Next>,
    /// Inputs nobody gave, with the prior that stands in for each.
    pub assumed: Vec<Input>,
    /// What would narrow the next portion's weight.
    pub narrow: Vec<Narrow>,
    /// The cut is no single run of muscle: bands are wide, planning by muscle is better.
    pub not_a_roll: bool,
    /// What was looked at to find it.
    pub work: Work,
}

/// One portion of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// Counted from 1 along the piece.
    pub number: usize,
    /// Near face.
    pub from: Length,
    /// Far face.
    pub to: Length,
    /// Mean thickness.
    pub thickness: Length,
    /// Its thin side: less than the thickness where a slanted end face stays on it.
    pub thin_side: Length,
    /// Mass in kg; no width once it is weighed.
    pub mass: Band,
    /// Whether it is cut and weighed already.
    pub weighed: bool,
    /// For which want, by its place in the list.
    pub want: Option<usize>,
    /// Share of the cap in it, where the catalogue knows the cap of this cut.
    pub cap_share: Option<f64>,
}

/// A want that is not met, and by how much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GivenUp {
    /// Which want, by its place in the list.
    pub want: usize,
    /// By how much.
    pub missed: Missed,
}

/// How a want is missed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Missed {
    /// So many portions are not there.
    Portions(u32),
    /// The worst portion is expected to be so much thicker (or, below zero, thinner) than wished, beyond its tolerance.
    Thickness {
        /// Its number.
        portion: usize,
        /// Thickness less wish.
        by: Length,
    },
    /// The worst portion is expected to be so much heavier (or, below zero, lighter) than wished, beyond its tolerance.
    Mass {
        /// Its number.
        portion: usize,
        /// Mass less wish.
        by: Mass,
    },
}

/// Weight against thickness along a tapering piece: keep one, and the other runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conflict {
    /// Which want, by its place in the list.
    pub want: usize,
    /// The weight that would be kept: the wish, or the mean of the plan.
    pub weight: Mass,
    /// How thick its portions would run then: least, most.
    pub thickness_runs: (Length, Length),
    /// The thickness that would be kept: the wish, or the mean of the plan.
    pub thickness: Length,
    /// How heavy its portions would run then: least, most.
    pub weight_runs: (Mass, Mass),
}

/// What to cut next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Next {
    /// The mark, from the end where the knife starts.
    pub mark: Length,
    /// From the fresh face to the mark.
    pub from_fresh_face: Length,
    /// Which portion it makes; none: a piece left over.
    pub portion: Option<usize>,
}

/// What was looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Work {
    /// Layers of the programme.
    pub layers: usize,
    /// Places where a cut may go.
    pub marks: usize,
    /// Steps compared: states no path can reach and lengths dearer than a whole plan are left out.
    pub transitions: u64,
    /// The least cost found, in squared tolerances.
    pub cost: f64,
}

pub(crate) fn check(wants: &[Want], limits: &Limits) -> Result<(), RollError> {
    let Limits { thinnest, thickest } = *limits;
    check_positive("the thinnest allowed".to_owned(), thinnest.mm(), "mm")?;
    check_positive("the thickest allowed".to_owned(), thickest.mm(), "mm")?;
    if thickest < thinnest {
        return Err(RollError::LimitsCrossed { thinnest, thickest });
    }
    for want in wants {
        let (wish, unit) = match want.target {
            Target::Thickness { at, .. } | Target::Roast { length: at, .. } => (at.mm(), "mm"),
            Target::Mass { at, .. } => (at.g(), "g"),
        };
        check_positive(format!("the wish of {}", want.name), wish, unit)?;
        let within = match want.tolerance() {
            Tolerance::Mass(within) => within.g(),
            Tolerance::Thickness(within) => within.mm(),
        };
        check_positive(format!("the tolerance of {}", want.name), within, unit)?;
        if let Target::Thickness { at, .. } = want.target
            && !(thinnest..=thickest).contains(&at)
        {
            return Err(RollError::TargetOutsideLimits {
                want: want.name.clone(),
                target: at,
                thinnest,
                thickest,
            });
        }
        if let (true, Count::Exactly(count)) = (want.twins, want.count)
            && count % 2 == 1
        {
            return Err(RollError::TwinsOdd { want: want.name.clone(), count });
        }
    }
    Ok(())
}
