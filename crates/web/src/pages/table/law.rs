//! Official rules as these pages show them.

use catalogue::{Region, official_rule};

use crate::house::Visit;

/// A rule in our words, and who says so.
pub(crate) struct Law {
    pub(crate) rule: String,
    pub(crate) authority: String,
}

/// The rule of this id as the kitchen's region has it.
pub(crate) fn law_of(visit: &Visit, id: &str) -> Option<Law> {
    let rule = official_rule(id, region(visit))?;
    Some(Law { rule: rule.words(visit.units.temperature), authority: rule.cited() })
}

/// Whose rules the kitchen asks for first.
pub(crate) fn region(visit: &Visit) -> Region {
    match visit.settings().text("kitchen.rules") {
        Some("au") => Region::Au,
        _ => Region::Us,
    }
}
