//! A checked form: typed access to what stands in it.

mod check;
mod number;

pub(crate) use number::{Given, Taken};

use crate::Flags;
use crate::field::{Field, Kind, Unit};
use crate::path::Path;
use crate::problem::{Problem, Problems, What};
use crate::tree::{Entry, Node, Tree, decode, parse};
use std::cell::RefCell;

/// Reads a form: syntax, then every key against its field, then what `read` finds; all problems at once.
pub(crate) fn form<T>(
    file: &str,
    bytes: &[u8],
    fields: &'static [Field],
    flags: &Flags,
    read: impl FnOnce(&Table<'_>) -> Option<T>,
) -> Result<T, Problems> {
    let text = decode(bytes)
        .map_err(|problem| Problems::new(file, &String::from_utf8_lossy(bytes), vec![*problem]))?;
    let (tree, problems) = parse(text);
    if !problems.is_empty() {
        // A damaged text would only breed problems that are not there.
        return Err(Problems::new(file, text, problems));
    }
    let Some(root) = tree else {
        return Err(Problems::new(file, text, vec![unsaid(0..text.len())]));
    };
    let problems = RefCell::new(check::form(&root, fields, flags.exact));
    let table = Table {
        node: &root,
        fields,
        path: Path::default(),
        heading: 0..0,
        exact: flags.exact,
        problems: &problems,
    };
    let answer = read(&table);
    match (answer, problems.into_inner()) {
        (Some(answer), problems) if problems.is_empty() => Ok(answer),
        (None, problems) if problems.is_empty() => {
            Err(Problems::new(file, text, vec![unsaid(root.span.clone())]))
        }
        (_, problems) => Err(Problems::new(file, text, problems)),
    }
}

/// A form that is refused without a reason is our fault; it is said rather than shown as nothing.
fn unsaid(form: std::ops::Range<usize>) -> Problem {
    Problem::at(What::Impossible, form)
        .found("a form the program cannot take")
        .allowed("what the printed form shows")
        .saying(UNSAID)
}

/// What is said then; the tests look for it.
pub(crate) const UNSAID: &str =
    "the program cannot take this form and cannot say why: a fault of ours, please report the form";

/// A table of the form. What does not fit its field has been named by the check already and reads as left out here.
pub(crate) struct Table<'a> {
    node: &'a Node,
    fields: &'static [Field],
    path: Path,
    heading: std::ops::Range<usize>,
    exact: bool,
    problems: &'a RefCell<Vec<Problem>>,
}

impl<'a> Table<'a> {
    /// Whether inputs are taken as true.
    pub(crate) const fn exact(&self) -> bool {
        self.exact
    }

    /// Whether the field stands here.
    pub(crate) fn has(&self, field: &Field) -> bool {
        self.entry(field).is_some()
    }

    /// The number of a field, in the unit it was written in.
    pub(crate) fn taken(&self, field: &Field) -> Option<Taken> {
        let (entry, unit) = self.entry(field)?;
        let amount = field.amount()?;
        let given = number::given(&entry.node, &amount, unit)?;
        Some(Taken { given, unit })
    }

    /// The number of a field in g, mm, °C or s; unknown where it was left out.
    pub(crate) fn given(&self, field: &Field) -> Given {
        self.taken(field).map_or(Given::Unknown, Taken::base)
    }

    /// One of the field's words.
    pub(crate) fn word(&self, field: &Field) -> Option<&'static str> {
        let text = self.text(field)?;
        words(&field.kind).into_iter().find(|&word| word == text)
    }

    /// The text of a field.
    pub(crate) fn text(&self, field: &Field) -> Option<&'a str> {
        match &self.entry(field)?.0.node.value {
            Tree::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Whether a flag is set.
    pub(crate) fn flag(&self, field: &Field) -> Option<bool> {
        match self.entry(field)?.0.node.value {
            Tree::Flag(flag) => Some(flag),
            _ => None,
        }
    }

    /// The whole number of a field.
    pub(crate) fn count(&self, field: &Field) -> Option<u32> {
        number::count(&self.entry(field)?.0.node)
    }

    /// The table of a field.
    pub(crate) fn table(&self, field: &Field) -> Option<Table<'a>> {
        let fields = table_fields(&field.kind)?;
        let (entry, _) = self.entry(field)?;
        matches!(entry.node.value, Tree::Table(_))
            .then(|| self.inner(&entry.node, fields, self.path.key(&entry.key), entry.at.clone()))
    }

    /// The tables of a list.
    pub(crate) fn tables(&self, field: &Field) -> Vec<Table<'a>> {
        let (Some(fields), Some((entry, _))) = (table_fields(&field.kind), self.entry(field)) else {
            return Vec::new();
        };
        let Tree::List(nodes) = &entry.node.value else { return Vec::new() };
        let path = self.path.key(&entry.key);
        nodes
            .iter()
            .enumerate()
            .map(|(at, node)| self.inner(node, fields, path.place(at), node.span.clone()))
            .collect()
    }

    /// The numbers of a list, in base units.
    pub(crate) fn numbers(&self, field: &Field) -> Option<Vec<f64>> {
        let (entry, unit) = self.entry(field)?;
        let amount = field.amount()?;
        let Tree::List(nodes) = &entry.node.value else { return None };
        nodes.iter().map(|node| number::plain(node, &amount, unit)).collect()
    }

    /// The pairs of a list, each number in its base unit.
    pub(crate) fn pairs(&self, field: &Field) -> Option<Vec<(f64, f64)>> {
        let (entry, unit) = self.entry(field)?;
        let (first, second) = number::pair_kinds(&field.kind)?;
        let Tree::List(nodes) = &entry.node.value else { return None };
        nodes
            .iter()
            .map(|node| match &node.value {
                Tree::List(pair) if pair.len() == 2 => Some((
                    number::plain(&pair[0], &first, first.unit)?,
                    number::plain(&pair[1], &second, unit)?,
                )),
                _ => None,
            })
            .collect()
    }

    /// The names of a table, each with its number.
    pub(crate) fn named(&self, field: &Field) -> Vec<(&'a str, f64)> {
        let (Kind::Named(amount), Some((entry, _))) = (&field.kind, self.entry(field)) else {
            return Vec::new();
        };
        entry
            .node
            .entries()
            .iter()
            .filter_map(|entry| Some((entry.key.as_str(), number::plain(&entry.node, amount, amount.unit)?)))
            .collect()
    }

    fn inner(
        &self,
        node: &'a Node,
        fields: &'static [Field],
        path: Path,
        heading: std::ops::Range<usize>,
    ) -> Table<'a> {
        Table { node, fields, path, heading, exact: self.exact, problems: self.problems }
    }

    /// Says that the numbers contradict one another, with the mark under this field, or on the table if it is not there.
    pub(crate) fn impossible(&self, field: &Field, allowed: &str, message: &str) {
        let name = self.name(field);
        let message = if message.contains(&name) { message.to_owned() } else { format!("{name}: {message}") };
        self.object(What::Impossible, field, allowed, &message);
    }

    /// Says that a field is missing that is not always needed.
    pub(crate) fn missing(&self, field: &Field, message: &str) {
        self.object(What::Missing, field, &check::allowed(field), message);
    }

    pub(crate) fn object(&self, what: What, field: &Field, allowed: &str, message: &str) {
        let (span, path, found) = match self.entry(field) {
            Some((entry, _)) => (entry.node.span.clone(), self.path.key(&entry.key), entry.node.found()),
            None => (self.heading.clone(), self.path.key(&field.key()), "nothing".to_owned()),
        };
        let problem = Problem::at(what, span).found(&found).allowed(allowed).saying(message);
        self.problems.borrow_mut().push(path.on(problem));
    }

    /// The dotted key of a field as it stands here, for messages.
    pub(crate) fn name(&self, field: &Field) -> String {
        let key = self.entry(field).map_or_else(|| field.key(), |(entry, _)| entry.key.clone());
        self.path.key(&key).dotted().to_owned()
    }

    fn entry(&self, field: &Field) -> Option<(&'a Entry, Unit)> {
        debug_assert!(
            self.fields.iter().any(|known| known.stem == field.stem),
            "{} is read but not declared",
            field.stem
        );
        field.keys().into_iter().find_map(|(key, unit)| self.node.entry(&key).map(|entry| (entry, unit)))
    }
}

fn table_fields(kind: &Kind) -> Option<&'static [Field]> {
    match kind {
        Kind::Table(fields) | Kind::Tables(fields, _) => Some(fields),
        Kind::Either(kinds) => kinds.iter().find_map(table_fields),
        _ => None,
    }
}

fn words(kind: &Kind) -> Vec<&'static str> {
    match kind {
        Kind::Word(words) => words(),
        Kind::Either(kinds) => kinds.iter().flat_map(words_of).collect(),
        _ => Vec::new(),
    }
}

fn words_of(kind: &Kind) -> Vec<&'static str> {
    words(kind)
}
