//! What a form may hold, said once: reading, the printed example and the JSON Schema all come from these lists.

mod example;
mod schema;
mod unit;

pub(crate) use example::example;
pub(crate) use schema::schema;
pub(crate) use unit::Unit;

/// One key of a form, or one quantity that may be given in either unit system.
#[derive(Clone, Copy)]
pub(crate) struct Field {
    /// The key without its unit: `mass` stands for `mass_kg`, `mass_g`, `mass_lb` and `mass_oz`.
    pub(crate) stem: &'static str,
    /// What it is, for the comment beside it and for the schema.
    pub(crate) about: &'static str,
    pub(crate) kind: Kind,
    pub(crate) needed: bool,
    /// Of the fields with this name at most one is given; exactly one where it is needed.
    pub(crate) one_of: Option<OneOf>,
    pub(crate) shown: Shown,
}

/// A group of which one is chosen.
#[derive(Clone, Copy)]
pub(crate) struct OneOf {
    pub(crate) name: &'static str,
    pub(crate) needed: bool,
}

/// How a field stands in the printed example.
#[derive(Clone, Copy)]
pub(crate) enum Shown {
    /// With this value, as TOML writes it. Tables show themselves and take no value.
    Set(&'static str),
    /// Commented out, because it stands in place of the fields named.
    Instead(&'static str, &'static [&'static str]),
    /// Commented out in the first row of its list, because a later row shows it.
    Later(&'static str),
}

/// What kind of value a field takes.
#[derive(Clone, Copy)]
pub(crate) enum Kind {
    /// A number in a unit.
    Amount(Amount),
    /// A whole number.
    Count { low: u32, high: u32 },
    /// True or false.
    Flag,
    /// One of a list of words.
    Word(fn() -> Vec<&'static str>),
    /// Free text, not empty.
    Text,
    /// A currency by its three letters.
    Currency,
    /// A table of fields.
    Table(&'static [Field]),
    /// A list of tables; the rows after the first, as the example shows them: key and value as TOML.
    Tables(&'static [Field], Rows),
    /// A list of numbers.
    Numbers(Amount),
    /// A list of pairs of numbers.
    Pairs(Amount, Amount),
    /// A table whose keys are names of the asker's, each with a number.
    Named(Amount),
    /// Any of these.
    Either(&'static [Kind]),
}

/// Further rows of a list of tables in the example.
pub(crate) type Rows = &'static [&'static [(&'static str, &'static str)]];

/// A number with its unit and its bounds, both allowed, in the unit it is shown in.
#[derive(Clone, Copy)]
pub(crate) struct Amount {
    pub(crate) unit: Unit,
    pub(crate) low: f64,
    pub(crate) high: f64,
    /// Whether `{ low = , high = }` may stand for it.
    pub(crate) range: bool,
}

impl Amount {
    pub(crate) const fn new(unit: Unit, low: f64, high: f64) -> Self {
        Self { unit, low, high, range: true }
    }
    /// The same, taken only as one number.
    pub(crate) const fn plain(self) -> Self {
        Self { range: false, ..self }
    }
}

impl Field {
    pub(crate) const fn new(stem: &'static str, kind: Kind, about: &'static str) -> Self {
        Self { stem, about, kind, needed: false, one_of: None, shown: Shown::Set("") }
    }
    pub(crate) const fn needed(self) -> Self {
        Self { needed: true, ..self }
    }
    /// One of the group `name` must be given, and no more than one.
    pub(crate) const fn one_of(self, name: &'static str) -> Self {
        Self { one_of: Some(OneOf { name, needed: true }), ..self }
    }
    /// At most one of the group `name` may be given.
    pub(crate) const fn at_most_one_of(self, name: &'static str) -> Self {
        Self { one_of: Some(OneOf { name, needed: false }), ..self }
    }
    pub(crate) const fn set(self, literal: &'static str) -> Self {
        Self { shown: Shown::Set(literal), ..self }
    }
    pub(crate) const fn instead(self, literal: &'static str, of: &'static [&'static str]) -> Self {
        Self { shown: Shown::Instead(literal, of), ..self }
    }

    pub(crate) const fn later(self, literal: &'static str) -> Self {
        Self { shown: Shown::Later(literal), ..self }
    }

    /// Every key that gives this field, the shown one first, each with its unit.
    pub(crate) fn keys(&self) -> Vec<(String, Unit)> {
        match self.amount() {
            Some(amount) => {
                let others = amount.unit.family().iter().filter(|&&unit| unit != amount.unit);
                let units = std::iter::once(&amount.unit).chain(others);
                units.map(|&unit| (unit.key(self.stem), unit)).collect()
            }
            None => vec![(self.stem.to_owned(), Unit::Plain(""))],
        }
    }

    /// The key it is shown under.
    pub(crate) fn key(&self) -> String {
        self.amount().map_or_else(|| self.stem.to_owned(), |amount| amount.unit.key(self.stem))
    }

    /// The unit in the field's key, which for a list or a choice is that of its numbers.
    pub(crate) fn amount(&self) -> Option<Amount> {
        fn of(kind: &Kind) -> Option<Amount> {
            match kind {
                Kind::Amount(amount) | Kind::Numbers(amount) | Kind::Pairs(_, amount) => Some(*amount),
                Kind::Either(kinds) => kinds.iter().find_map(of),
                _ => None,
            }
        }
        of(&self.kind)
    }
}
