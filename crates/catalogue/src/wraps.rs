//! What lies between meat and medium.

use crate::basis::Basis;
use crate::load::parse;
use serde::Deserialize;
use std::sync::LazyLock;

/// A wrap.
#[derive(Clone, Debug, Deserialize)]
pub struct Wrap {
    /// Its name in forms.
    pub name: String,
    /// What people call it.
    pub words: String,
    /// Of all its layers, trapped air included, mm.
    pub thickness_mm: f64,
    /// W/(m·K).
    pub conductivity_w_m_k: f64,
    /// What that rests on.
    #[serde(flatten)]
    pub basis: Basis,
}

impl Wrap {
    /// Thickness over conductivity, m²·K/W.
    #[must_use]
    pub fn resistance_m2_k_w(&self) -> f64 {
        self.thickness_mm * 1e-3 / self.conductivity_w_m_k
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    wrap: Vec<Wrap>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("wraps.toml", include_str!("../../../catalogue/wraps.toml")));

/// The wrap of this name.
#[must_use]
pub fn wrap(name: &str) -> Option<&'static Wrap> {
    FILE.wrap.iter().find(|wrap| wrap.name == name)
}

/// Every wrap, in the order of the file.
#[must_use]
pub fn wraps() -> &'static [Wrap] {
    &FILE.wrap
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::basis::assert_rests_on_something;

    #[test]
    fn every_wrap_rests_on_something() {
        for wrap in wraps() {
            assert_rests_on_something(&wrap.name, &wrap.basis);
            assert!(wrap.resistance_m2_k_w() > 0.0);
        }
        assert!(wrap("vacuum").is_some());
    }
}
