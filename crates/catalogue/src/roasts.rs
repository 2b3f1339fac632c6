//! Sections of roasts where nobody measured them, and what lies over their mantle: priors.

use crate::load::parse;
use crate::media::Prior;
use serde::Deserialize;
use std::sync::LazyLock;

/// The section of a family of roasts, across the muscle.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoastPrior {
    /// Cuts of this family; none: any other.
    pub cuts: Vec<String>,
    /// Height of the outline, mm.
    pub height_mm: Prior,
    /// Its width, mm.
    pub width_mm: Prior,
    /// Fat cap and bone over the mantle: thickness over conductivity, m²·K/W.
    pub cap_m2_k_w: Prior,
    /// Share of the mantle that is bare meat.
    pub bare_share: Prior,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    model_share: Prior,
    roast: Vec<RoastPrior>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("roasts.toml", include_str!("../../../catalogue/roasts.toml")));

/// The section of a cut's roasts; of any roast where the cut is not known.
#[must_use]
pub fn roast_prior(cut: Option<&str>) -> &'static RoastPrior {
    let roasts = &FILE.roast;
    let named = cut.and_then(|cut| roasts.iter().find(|roast| roast.cuts.iter().any(|name| name == cut)));
    named.or_else(|| roasts.last()).unwrap_or_else(|| unreachable!("the file ends with any other roast"))
}

/// Share by which a true section's time differs from the brick's.
#[must_use]
pub fn roast_model_share() -> &'static Prior {
    &FILE.model_share
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;

    #[test]
    fn every_section_rests_on_something_and_the_last_is_any_other() {
        for roast in &FILE.roast {
            for prior in [&roast.height_mm, &roast.width_mm, &roast.cap_m2_k_w, &roast.bare_share] {
                assert_rests_on_something(&roast.cuts.join(" "), &prior.basis);
            }
            assert!(roast.cuts.iter().all(|cut| crate::cut(cut).is_some()), "{:?}", roast.cuts);
        }
        assert_rests_on_something("brick", &roast_model_share().basis);
        assert!(FILE.roast.last().is_some_and(|roast| roast.cuts.is_empty()));
        assert_eq!(roast_prior(Some("beef-tenderloin")).cuts, ["beef-tenderloin"]);
        assert!(roast_prior(None).cuts.is_empty() && roast_prior(Some("beef-brisket")).cuts.is_empty());
    }
}
