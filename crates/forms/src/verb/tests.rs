//! Of every verb: the example and all its alternatives run, the schema knows their keys, nothing panics.

use super::*;
use crate::field::{Kind, Shown};
use crate::{example, schema};
use proptest::prelude::*;

fn problems(verb: Verb, form: &str, flags: &Flags) -> String {
    match crate::answer(verb, "form.toml", form.as_bytes(), flags) {
        Ok(_) => String::new(),
        Err(problems) => format!("{form}\n{}", problems.text(false)),
    }
}

#[test]
fn the_example_runs_as_printed() {
    for verb in Verb::ALL {
        for exact in [false, true] {
            let flags = Flags { exact, draws: 16, ..Flags::default() };
            assert_eq!(problems(verb, &example(verb), &flags), "");
        }
    }
}

/// Every line of the example that is commented out runs too, in place of what it says it stands for.
#[test]
fn every_alternative_runs() {
    let flags = Flags { draws: 16, ..Flags::default() };
    for verb in Verb::ALL {
        for chosen in alternatives("", verb.fields()) {
            let form = with(&example(verb), &chosen);
            assert_eq!(
                problems(verb, &form, &flags),
                "",
                "{} in [{}]",
                chosen.lines.join(", "),
                chosen.table
            );
        }
    }
}

struct Alternative {
    table: String,
    lines: Vec<String>,
    instead_of: Vec<&'static str>,
}

/// Alternatives of one table that stand in place of the same fields are chosen together, but of a group only one.
fn alternatives(table: &str, fields: &'static [Field]) -> Vec<Alternative> {
    let mut found: Vec<Alternative> = Vec::new();
    for field in fields {
        // A table shown in one line shows none of its fields apart.
        let apart = matches!(field.shown, Shown::Set(""));
        if let (true, Kind::Table(inner) | Kind::Tables(inner, _)) = (apart, field.kind) {
            let inner_table =
                if table.is_empty() { field.stem.to_owned() } else { format!("{table}.{}", field.stem) };
            found.extend(alternatives(&inner_table, inner));
        }
        let Shown::Instead(literal, of) = field.shown else { continue };
        let line = format!("# {} = {literal}", field.key());
        let together = found
            .iter_mut()
            .find(|other| other.table == table && other.instead_of == of && field.one_of.is_none());
        match together {
            Some(other) => other.lines.push(line),
            None => found.push(Alternative {
                table: table.to_owned(),
                lines: vec![line],
                instead_of: of.to_vec(),
            }),
        }
    }
    found
}

/// The example with an alternative's lines in force and without what they replace.
fn with(example: &str, chosen: &Alternative) -> String {
    let mut text = String::new();
    let mut table = String::new();
    let mut rows = 0;
    let mut done = vec![false; chosen.lines.len()];
    for line in example.lines() {
        if line.starts_with('[') {
            let end = line.find(']').unwrap_or(line.len());
            line[..end].trim_start_matches('[').clone_into(&mut table);
            rows += usize::from(table == chosen.table);
        }
        let stem = |of: &&str| {
            let key = line.split(" = ").next().unwrap_or_default();
            table == chosen.table
                && rows <= 1
                && (key == *of || key.strip_prefix(*of).is_some_and(|rest| rest.starts_with('_')))
        };
        let in_dropped_table = |of: &&str| {
            let dropped = if chosen.table.is_empty() || !chosen.instead_of.contains(&"part") {
                [chosen.table.as_str(), *of]
                    .iter()
                    .filter(|part| !part.is_empty())
                    .copied()
                    .collect::<Vec<_>>()
                    .join(".")
            } else {
                (*of).to_owned()
            };
            table == dropped || table.starts_with(&format!("{dropped}."))
        };
        let here = chosen.lines.iter().position(|wanted| line.starts_with(wanted.as_str()));
        match here {
            Some(at) if table == chosen.table && !done[at] => {
                done[at] = true;
                text.push_str(line.trim_start_matches("# "));
            }
            _ if chosen.instead_of.iter().any(|of| stem(of) || in_dropped_table(of)) => continue,
            _ => text.push_str(line),
        }
        text.push('\n');
    }
    assert!(done.iter().all(|&done| done), "{:?} is not in the example", chosen.lines);
    text
}

/// Whatever the example says, the schema knows, and the other way round.
#[test]
fn the_schema_knows_every_key_of_the_example() {
    for verb in Verb::ALL {
        let schema = schema(verb).to_string();
        for line in example(verb).lines() {
            let line = line.trim_start_matches("# ");
            if let Some((key, _)) = line.split_once(" = ")
                && key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
            {
                assert!(schema.contains(&format!("\"{key}\":")), "{}: {key}", verb.name());
            }
        }
    }
}

#[test]
fn same_form_same_seed_same_bytes() {
    for verb in Verb::ALL {
        let said = || {
            let flags = Flags { draws: 32, us: true, ..Flags::default() };
            crate::answer(verb, "-", example(verb).as_bytes(), &flags)
                .expect("the example runs")
                .json
                .to_string()
        };
        assert_eq!(said(), said());
    }
}

proptest! {
    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        for verb in Verb::ALL {
            if let Err(problems) = crate::answer(verb, "-", &bytes, &Flags { draws: 8, ..Flags::default() }) {
                let _ = (problems.text(true), problems.document());
            }
        }
    }

    /// An example with a few letters changed comes nearer to what people send than noise does.
    #[test]
    fn no_slip_panics(
        slips in prop::collection::vec((any::<prop::sample::Index>(), any::<char>(), 0usize..4), 1..6),
    ) {
        for verb in Verb::ALL {
            let mut letters: Vec<char> = example(verb).chars().collect();
            for (at, letter, cut) in &slips {
                let at = at.index(letters.len());
                let end = (at + cut).min(letters.len());
                letters.splice(at..end, [*letter]);
            }
            let form: String = letters.iter().collect();
            if let Err(problems) = crate::answer(verb, "-", form.as_bytes(), &Flags { draws: 4, ..Flags::default() }) {
                let unsaid = problems.list().iter().any(|problem| problem.message == crate::read::UNSAID);
                    prop_assert!(!unsaid && !problems.list().is_empty(), "refused without a word: {form}");
                let _ = (problems.text(false), problems.document());
            }
        }
    }
}
