//! A piece nobody has cut yet: its yield from the trade's or the household's own pieces.

use crate::{Grams, Part, PerMass, Use, Worth, WorthError};
use band::Band;
use rust_decimal::Decimal;

/// A piece nobody has cut yet: what becomes of it, by trim level, and what its trim replaces.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncut {
    /// One level where it is known how the piece will be trimmed; every level it could be where not.
    pub levels: Vec<TrimLevel>,
    /// What lean trim replaces.
    pub lean_value: Option<PerMass>,
    /// What clean fat replaces.
    pub fat_value: Option<PerMass>,
}

/// What becomes of a piece at one trim level, as shares of what was bought; the portions normal, the rest in proportion.
#[derive(Clone, Debug, PartialEq)]
pub struct TrimLevel {
    /// Its name.
    pub name: String,
    /// Mean share of portions.
    pub portions: f64,
    /// Between pieces and cutters.
    pub portions_sd: f64,
    /// Lean trim.
    pub lean_trim: f64,
    /// Fat.
    pub fat: f64,
    /// Bone.
    pub bone: f64,
    /// Purge.
    pub purge: f64,
    /// What it rests on: published, derived, assumed, or `your own pieces`.
    pub mark: String,
    /// The source's id, or what of the record it was learned from.
    pub source: String,
}

/// A prior that stood in.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// For which input.
    pub input: String,
    /// Its 80 % band.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// What it rests on.
    pub from: String,
}

impl Uncut {
    /// The levels of this cut in the catalogue: the one trim level, or, where that is not known, every one a piece of it
    /// usually gets. Empty where the catalogue knows none.
    #[must_use]
    pub fn of_cut(cut: &str, trim: Option<catalogue::Trim>) -> Self {
        let usual = |row: &&catalogue::YieldPrior| match trim {
            Some(trim) => row.trim == trim,
            None => row.trim != catalogue::Trim::BarrelOnly,
        };
        let rows = catalogue::yields().iter().filter(|row| row.cut == cut);
        Self { levels: rows.filter(usual).map(TrimLevel::from).collect(), lean_value: None, fat_value: None }
    }

    pub(crate) fn check(&self) -> Result<(), WorthError> {
        if self.levels.is_empty() {
            return Err(WorthError::BadPrior { mean: f64::NAN, sd: f64::NAN });
        }
        for level in &self.levels {
            let shares = [level.lean_trim, level.fat, level.bone, level.purge];
            let sound = level.portions > 0.0
                && level.portions < 1.0
                && level.portions_sd > 0.0
                && level.portions_sd.is_finite()
                && shares.iter().all(|share| (0.0..1.0).contains(share))
                && shares.iter().sum::<f64>() > 0.0;
            if !sound {
                return Err(WorthError::BadPrior { mean: level.portions, sd: level.portions_sd });
            }
        }
        Ok(())
    }

    /// Cuts the piece as this member would: portions by the yield, the rest in the level's own proportions. A purge that
    /// was weighed stays as weighed.
    pub(crate) fn cut(&self, worth: &mut Worth, member: &[f64]) {
        let (at, z) = match member {
            [trim, z, ..] => (*trim as usize, *z),
            [z] => (0, *z),
            [] => (0, 0.0),
        };
        let Some(level) = self.levels.get(at.min(self.levels.len().saturating_sub(1))) else { return };
        let bought = worth.piece.mass;
        // A normal tail may leave the possible; the ends are where a butcher would send the piece back.
        let portions = (level.portions + level.portions_sd * z).clamp(0.05, 0.99);
        let rest = level.lean_trim + level.fat + level.bone + level.purge;
        let purge = worth
            .piece
            .purge
            .unwrap_or_else(|| share(bought, (1.0 - portions) * level.purge / rest))
            .min(bought);
        let eaten = share(bought, portions).min(bought - purge);
        let trimmed = bought - purge - eaten;
        let solid = level.lean_trim + level.fat + level.bone;
        let of_trim = |heap: f64| if solid > 0.0 { share(trimmed, heap / solid) } else { Grams::ZERO };
        let (lean, bone) = (of_trim(level.lean_trim), of_trim(level.bone));
        let part = |name: &str, used, mass| Part { name: name.to_owned(), used, mass };
        let keep = |value: Option<PerMass>| if value.is_some() { Use::Keep { value } } else { Use::Waste };
        worth.parts = vec![
            part("portions", Use::Portion, eaten),
            part("lean trim", keep(self.lean_value), lean),
            part("clean fat", keep(self.fat_value), trimmed - lean - bone),
        ];
        if self.levels.iter().any(|level| level.bone > 0.0) {
            worth.parts.push(part("bone", Use::Waste, bone));
        }
        worth.piece.purge = Some(purge);
    }

    /// The priors that stand in, each with its own 80 % band.
    pub(crate) fn assumed(&self) -> Vec<Assumed> {
        let Some(first) = self.levels.first() else { return Vec::new() };
        let from = |level: &TrimLevel| {
            format!("{} yield of this cut, trim {} ({})", level.mark, level.name, level.source)
        };
        if self.levels.len() == 1 {
            let band = Band::normal(first.portions, first.portions_sd);
            let (low, high) = (band.low, band.high.min(0.99));
            return vec![Assumed { input: "yield".to_owned(), low, high, from: from(first) }];
        }
        let means = self.levels.iter().map(|level| level.portions);
        let trim = Assumed {
            input: "piece.trim".to_owned(),
            low: means.clone().fold(f64::INFINITY, f64::min),
            high: means.fold(f64::NEG_INFINITY, f64::max),
            from: "yields of every trim level this cut may be given, each as likely".to_owned(),
        };
        let each = self.levels.iter().map(|level| {
            let band = Band::normal(level.portions, level.portions_sd);
            Assumed {
                input: format!("yield, trim {}", level.name),
                low: band.low,
                high: band.high.min(0.99),
                from: from(level),
            }
        });
        std::iter::once(trim).chain(each).collect()
    }
}

/// So much of a mass, to the milligram.
fn share(of: Grams, share: f64) -> Grams {
    let share = Decimal::try_from(share).unwrap_or_default();
    Grams::new((of.g() * share).round_dp(3))
}

impl From<&catalogue::YieldPrior> for TrimLevel {
    fn from(row: &catalogue::YieldPrior) -> Self {
        Self {
            name: row.trim.name().to_owned(),
            portions: row.portions,
            portions_sd: row.portions_sd,
            lean_trim: row.lean_trim,
            fat: row.fat,
            bone: row.bone,
            purge: row.purge,
            mark: row.basis.mark.word().to_owned(),
            source: row.basis.source.clone(),
        }
    }
}
