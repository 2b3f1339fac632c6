//! Every key of a form against its field: unknown, twice, missing, of another kind, out of bounds.

use super::number::{self, NotANumber};
use crate::field::{Amount, Field, Kind, Unit};
use crate::path::Path;
use crate::problem::{Problem, What};
use crate::tree::{Entry, Node, Tree, shortened};
use quantity::Currency;
use std::ops::Range;

/// Everything the fields hold against a form.
pub(crate) fn form(root: &Node, fields: &[Field], exact: bool) -> Vec<Problem> {
    let mut check = Check { exact, root: fields, problems: Vec::new() };
    check.table(root, fields, &Path::default(), &(0..0));
    check.problems
}

/// What a field takes, in words.
pub(crate) fn allowed(field: &Field) -> String {
    let unit = field.amount().map_or(Unit::Plain(""), |amount| amount.unit);
    words(&field.kind, unit)
}

/// No list of a kitchen's is longer; it bounds the work a form can ask for.
const LONGEST: usize = 10_000;

struct Check<'f> {
    exact: bool,
    root: &'f [Field],
    problems: Vec<Problem>,
}

impl Check<'_> {
    fn table(&mut self, node: &Node, fields: &[Field], path: &Path, heading: &Range<usize>) {
        for entry in node.entries() {
            if !fields.iter().any(|field| field.keys().iter().any(|(key, _)| *key == entry.key)) {
                self.unknown(entry, fields, path);
            }
        }
        for field in fields {
            let found: Vec<(&Entry, Unit)> = field
                .keys()
                .into_iter()
                .filter_map(|(key, unit)| node.entry(&key).map(|entry| (entry, unit)))
                .collect();
            if let [(first, _), (second, _), ..] = found[..] {
                self.twice(first, second, path, "give one quantity twice");
            }
            for &(entry, unit) in &found {
                self.kind(&entry.node, &field.kind, unit, &path.key(&entry.key), &entry.at);
            }
            if found.is_empty() && field.needed {
                self.missing(field, path, heading);
            }
        }
        self.groups(node, fields, path, heading);
    }

    /// Of fields that stand for one another, one and not two.
    fn groups(&mut self, node: &Node, fields: &[Field], path: &Path, heading: &Range<usize>) {
        let mut names: Vec<&str> = fields.iter().filter_map(|field| field.one_of.map(|of| of.name)).collect();
        names.dedup();
        for name in names {
            let members: Vec<&Field> =
                fields.iter().filter(|field| field.one_of.is_some_and(|of| of.name == name)).collect();
            let given: Vec<&Entry> = members
                .iter()
                .filter_map(|field| field.keys().iter().find_map(|(key, _)| node.entry(key)))
                .collect();
            if let [first, second, ..] = given[..] {
                self.twice(first, second, path, "say one thing in two ways");
            }
            let needed = members.iter().any(|field| field.one_of.is_some_and(|of| of.needed));
            if let (true, [], [first, ..]) = (needed, &given[..], &members[..]) {
                let choices: Vec<String> = members.iter().map(|field| field.key()).collect();
                let choices = choices.join(" or ");
                let message = format!("{} does not say {name}: give {choices}", table_name(path));
                let problem = Problem::at(What::Missing, heading.clone())
                    .found("nothing")
                    .allowed(&format!("{choices}: {}", allowed(first)))
                    .saying(&message);
                self.problems.push(path.key(&first.key()).on(problem));
            }
        }
    }

    fn kind(&mut self, node: &Node, kind: &Kind, unit: Unit, path: &Path, at: &Range<usize>) {
        match (kind, &node.value) {
            (_, Tree::List(nodes)) if nodes.len() > LONGEST => {
                self.refuse(What::OutOfRange, node, path, &format!("a list of at most {LONGEST}"));
            }
            (Kind::Amount(amount), _) => self.amount(node, amount, unit, path),
            (Kind::Count { low, high }, Tree::Number(_)) => {
                if !number::count(node).is_some_and(|count| (*low..=*high).contains(&count)) {
                    self.refuse(What::OutOfRange, node, path, &words(kind, unit));
                }
            }
            (Kind::Word(known), Tree::Text(text)) => {
                let known = known();
                if !known.contains(&text.as_str()) {
                    let nearest = nearest(text, known.iter().copied());
                    let allowed = words(kind, unit);
                    let problem = self.refusal(What::OutOfRange, node, path, &allowed);
                    let advice = nearest.map(|word| format!("the nearest known word is \"{word}\""));
                    self.problems.push(Problem { advice, ..problem });
                }
            }
            (Kind::Flag, Tree::Flag(_)) => {}
            (Kind::Currency, Tree::Text(text)) => {
                if Currency::new(text).is_err() {
                    self.refuse(What::OutOfRange, node, path, &words(kind, unit));
                }
            }
            (Kind::Text, Tree::Text(text)) => {
                if text.trim().is_empty() {
                    self.refuse(What::OutOfRange, node, path, &words(kind, unit));
                }
            }
            (Kind::Table(fields), Tree::Table(_)) => self.table(node, fields, path, at),
            (Kind::Tables(fields, _), Tree::List(nodes)) => {
                for (place, node) in nodes.iter().enumerate() {
                    let path = path.place(place);
                    if let Tree::Table(_) = node.value {
                        self.table(node, fields, &path, &node.span);
                    } else {
                        self.refuse(What::WrongType, node, &path, "a table");
                    }
                }
            }
            (Kind::Numbers(amount), Tree::List(nodes)) => {
                for (place, node) in nodes.iter().enumerate() {
                    self.amount(node, &amount.plain(), unit, &path.place(place));
                }
            }
            (Kind::Pairs(first, second), Tree::List(nodes)) => {
                for (place, node) in nodes.iter().enumerate() {
                    self.pair(node, first, second, unit, &path.place(place));
                }
            }
            (Kind::Named(amount), Tree::Table(entries)) => {
                for entry in entries {
                    self.amount(&entry.node, &amount.plain(), amount.unit, &path.key(&entry.key));
                }
            }
            (Kind::Either(kinds), _) => self.either(node, kinds, kind, unit, path, at),
            _ => self.refuse(What::WrongType, node, path, &words(kind, unit)),
        }
    }

    /// The alternative that is meant by what stands there; what is allowed is all of them.
    fn either(
        &mut self,
        node: &Node,
        kinds: &[Kind],
        all: &Kind,
        unit: Unit,
        path: &Path,
        at: &Range<usize>,
    ) {
        let Some(meant) = kinds.iter().find(|kind| takes(kind, node)) else {
            return self.refuse(What::WrongType, node, path, &words(all, unit));
        };
        let before = self.problems.len();
        self.kind(node, meant, unit, path, at);
        for problem in self.problems.iter_mut().skip(before).filter(|problem| problem.key == path.dotted()) {
            problem.allowed = words(all, unit);
        }
    }

    fn pair(&mut self, node: &Node, first: &Amount, second: &Amount, unit: Unit, path: &Path) {
        match &node.value {
            Tree::List(pair) if pair.len() == 2 => {
                self.amount(&pair[0], &first.plain(), first.unit, &path.place(0));
                self.amount(&pair[1], &second.plain(), unit, &path.place(1));
            }
            _ => self.refuse(What::WrongType, node, path, "a pair of numbers, [a, b]"),
        }
    }

    fn amount(&mut self, node: &Node, amount: &Amount, unit: Unit, path: &Path) {
        match &node.value {
            Tree::Table(_) if amount.range => self.range(node, amount, unit, path),
            _ => match number::single(node, unit) {
                Some(Ok(value)) if amount.holds(value, unit) => {}
                Some(Ok(_) | Err(NotANumber::TooLong)) => {
                    self.refuse(What::OutOfRange, node, path, &words(&Kind::Amount(*amount), unit));
                }
                Some(Err(NotANumber::NotFinite)) => {
                    self.refuse(What::OutOfRange, node, path, &words(&Kind::Amount(amount.plain()), unit));
                }
                None => self.refuse(What::WrongType, node, path, &words(&Kind::Amount(*amount), unit)),
            },
        }
    }

    fn range(&mut self, node: &Node, amount: &Amount, unit: Unit, path: &Path) {
        let before = self.problems.len();
        for entry in node.entries() {
            if !["low", "high"].contains(&entry.key.as_str()) {
                let problem = Problem::at(What::UnknownKey, entry.at.clone())
                    .found(&entry.key)
                    .allowed("low and high")
                    .saying(&format!(
                        "{} is no end of a range; allowed: low and high",
                        path.key(&entry.key).dotted()
                    ));
                self.problems.push(path.key(&entry.key).on(problem));
            }
        }
        let mut ends = Vec::new();
        for key in ["low", "high"] {
            match node.entry(key) {
                Some(entry) => {
                    self.amount(&entry.node, &amount.plain(), unit, &path.key(key));
                    ends.extend(number::single(&entry.node, unit).and_then(Result::ok));
                }
                None => {
                    let problem = Problem::at(What::Missing, node.span.clone())
                        .found("a range with one end")
                        .allowed("{ low = , high = }")
                        .saying(&format!("{} has no {key}; a range is {{ low = , high = }}", path.dotted()));
                    self.problems.push(path.key(key).on(problem));
                }
            }
        }
        if self.problems.len() > before {
            return;
        }
        if let [low, high] = ends[..] {
            if low > high {
                self.refuse(What::OutOfRange, node, path, "a range whose low end comes first");
            } else if self.exact && low < high {
                let problem = self.refusal(What::NotExact, node, path, "one number, because of --exact");
                self.problems.push(problem.advising("leave out --exact to reckon with the range"));
            }
        }
    }

    fn refuse(&mut self, what: What, node: &Node, path: &Path, allowed: &str) {
        let problem = self.refusal(what, node, path, allowed);
        self.problems.push(problem);
    }

    fn refusal(&self, what: What, node: &Node, path: &Path, allowed: &str) -> Problem {
        let found = node.found();
        let key = path.dotted();
        let message = match (what, &node.value) {
            (What::OutOfRange, Tree::Text(text)) if text.trim().is_empty() => {
                format!("{key} is an empty text")
            }
            (What::OutOfRange, Tree::Text(text)) => {
                format!("{key} = \"{}\" is not known here", shortened(text))
            }
            (What::OutOfRange, _) => format!("{key} = {found} is outside what is allowed"),
            (What::NotExact, _) => format!("{key} is a range, and --exact takes none"),
            (_, Tree::Text(text)) => {
                format!("{key} = \"{}\" is a text that says no such value", shortened(text))
            }
            _ => format!("{key} is {found}, which is another kind of value"),
        };
        path.on(Problem::at(what, node.span.clone()).found(&found).allowed(allowed).saying(&message))
    }

    fn missing(&mut self, field: &Field, path: &Path, heading: &Range<usize>) {
        let allowed = allowed(field);
        let path = path.key(&field.key());
        let message = format!("{} is missing: {}", path.dotted(), field.about);
        let problem =
            Problem::at(What::Missing, heading.clone()).found("nothing").allowed(&allowed).saying(&message);
        self.problems.push(path.on(problem));
    }

    fn twice(&mut self, first: &Entry, second: &Entry, path: &Path, how: &str) {
        let (first, second) =
            if first.at.start <= second.at.start { (first, second) } else { (second, first) };
        let here = path.key(&second.key);
        let message = format!("{} and {} {how}; keep one", path.key(&first.key).dotted(), here.dotted());
        let problem = Problem::at(What::GivenTwice, second.at.clone())
            .found(&format!("{} and {}", first.key, second.key))
            .allowed("one of the two")
            .saying(&message);
        self.problems.push(here.on(problem));
    }

    fn unknown(&mut self, entry: &Entry, fields: &[Field], path: &Path) {
        let keys: Vec<String> = fields.iter().flat_map(Field::keys).map(|(key, _)| key).collect();
        let shown: Vec<String> = fields.iter().map(Field::key).collect();
        let near = nearest(&entry.key, keys.iter().map(String::as_str)).map(str::to_owned);
        let here = path.key(&entry.key);
        let mut problem = Problem::at(What::UnknownKey, entry.at.clone())
            .found(&entry.key)
            .allowed(&shown.join(", "))
            .nearest(near)
            .saying(&format!("{} is not a key here", here.dotted()));
        if let Some(home) = home_of(&entry.key, self.root, "") {
            problem = problem.advising(&format!("{} stands in [{home}]", entry.key));
        }
        self.problems.push(here.on(problem));
    }
}

fn table_name(path: &Path) -> String {
    if path.dotted().is_empty() { "the form".to_owned() } else { format!("[{}]", path.dotted()) }
}

/// The table in which a key would be known.
fn home_of(key: &str, fields: &[Field], path: &str) -> Option<String> {
    fields.iter().find_map(|field| {
        let inner = match field.kind {
            Kind::Table(inner) | Kind::Tables(inner, _) => inner,
            _ => return None,
        };
        let path = if path.is_empty() { field.stem.to_owned() } else { format!("{path}.{}", field.stem) };
        let here = inner.iter().any(|field| field.keys().iter().any(|(known, _)| known == key));
        if here { Some(path) } else { home_of(key, inner, &path) }
    })
}

/// The known word nearest to what was written, if it is near at all.
fn nearest<'k>(written: &str, known: impl Iterator<Item = &'k str>) -> Option<&'k str> {
    known
        .map(|word| (strsim::jaro_winkler(written, word), word))
        .filter(|(likeness, _)| *likeness >= 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word)
}

/// Whether a kind is the one meant by what stands there.
fn takes(kind: &Kind, node: &Node) -> bool {
    match (kind, &node.value) {
        (Kind::Amount(amount), Tree::Table(_)) => amount.range && node.entry("low").is_some(),
        (Kind::Word(_) | Kind::Text | Kind::Currency, Tree::Text(_))
        | (Kind::Amount(_) | Kind::Count { .. }, Tree::Number(_))
        | (Kind::Flag, Tree::Flag(_))
        | (Kind::Table(_) | Kind::Named(_), Tree::Table(_))
        | (Kind::Tables(..) | Kind::Numbers(_) | Kind::Pairs(..), Tree::List(_)) => true,
        (Kind::Either(kinds), _) => kinds.iter().any(|kind| takes(kind, node)),
        _ => false,
    }
}

/// What a kind takes, in words.
fn words(kind: &Kind, unit: Unit) -> String {
    match kind {
        Kind::Amount(amount) => {
            let (low, high) = amount.bounds_in(unit);
            let text = if unit.is_money() { ", written like 38.50 or \"38.50\"" } else { "" };
            let range = if amount.range { ", or { low = , high = }" } else { "" };
            format!("{}{text}{range}", spell(low, high, unit.words()))
        }
        Kind::Count { low, high } => format!("a whole number from {low} to {high}"),
        Kind::Word(known) => {
            let quoted: Vec<String> = known().iter().map(|word| format!("\"{word}\"")).collect();
            quoted.join(", ")
        }
        Kind::Text => "a text that is not empty".to_owned(),
        Kind::Flag => "true or false".to_owned(),
        Kind::Currency => "a three-letter code, such as \"EUR\" or \"USD\"".to_owned(),
        Kind::Table(fields) => {
            let keys: Vec<String> = fields.iter().map(Field::key).collect();
            format!("a table with {}", keys.join(", "))
        }
        Kind::Tables(..) => "a list of tables".to_owned(),
        Kind::Numbers(amount) => format!("a list, each {}", words(&Kind::Amount(amount.plain()), unit)),
        Kind::Pairs(first, second) => format!(
            "a list of pairs, [{}, {}]",
            words(&Kind::Amount(first.plain()), first.unit),
            words(&Kind::Amount(second.plain()), unit)
        ),
        Kind::Named(amount) => {
            format!("a table of names, each with {}", words(&Kind::Amount(amount.plain()), amount.unit))
        }
        Kind::Either(kinds) => {
            let each: Vec<String> = kinds.iter().map(|kind| words(kind, unit)).collect();
            each.join("; or ")
        }
    }
}

fn spell(low: f64, high: f64, unit: &str) -> String {
    let space = if unit.is_empty() { "" } else { " " };
    format!("{low} to {high}{space}{unit}")
}
