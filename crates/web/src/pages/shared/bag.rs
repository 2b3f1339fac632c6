//! What can be read on a bag or seen of a piece, as the forms ask for it.

use crate::parts::Choice;

/// How it is or will be trimmed.
pub(crate) const TRIMS: &[(&str, &str)] = &[
    ("bare", "bare"),
    ("to-6-mm", "to 6 mm of fat"),
    ("as-packed", "as packed"),
    ("unknown", "not settled"),
];

/// Whether a ribeye's lip is on.
pub(crate) const LIPS: &[(&str, &str)] = &[("on", "on"), ("off", "off"), ("unknown", "cannot see")];

/// What the date on its bag says, under the form's own name for it.
pub(crate) fn date_on_bag(name: &'static str) -> Choice<'static> {
    Choice {
        name,
        label: "Date on the bag",
        options: &[
            ("unknown", "not on the bag"),
            ("pack", "packed on"),
            ("kill", "slaughtered on"),
            ("use-by", "use by"),
            ("sell-by", "sell by"),
        ],
        start: "unknown",
    }
}
