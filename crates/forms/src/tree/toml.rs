//! TOML into the tree.

use super::{Entry, Node, Place, Tree};
use crate::problem::{Problem, What};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

pub(super) fn parse(text: &str) -> (Option<Node>, Vec<Problem>) {
    let (table, errors) = DeTable::parse_recoverable(text);
    let mut problems: Vec<Problem> = errors
        .iter()
        .map(|error| {
            let end = text.len();
            let span = error.span().unwrap_or(end..end);
            Problem::at(What::Syntax, span)
                .found("text that is no TOML")
                .allowed("TOML, or JSON that begins with {")
                .saying(&format!("this is not TOML: {}", error.message()))
        })
        .collect();
    // One slip drags others behind it on its line; the first of a line is the one to mend.
    problems.sort_by_key(|problem| problem.span.start);
    problems.dedup_by_key(|problem| Place::of(text, problem.span.start).line);
    let span = table.span();
    (Some(Node { span, value: entries(table.get_ref()) }), problems)
}

fn entries(table: &DeTable<'_>) -> Tree {
    let mut entries: Vec<Entry> = table
        .iter()
        .map(|(key, value)| Entry { key: key.get_ref().to_string(), at: key.span(), node: node(value) })
        .collect();
    entries.sort_by_key(|entry| entry.at.start);
    Tree::Table(entries)
}

fn node(value: &Spanned<DeValue<'_>>) -> Node {
    let tree = match value.get_ref() {
        DeValue::String(text) => Tree::Text(text.to_string()),
        DeValue::Integer(integer) => Tree::Number(match integer.radix() {
            10 => integer.as_str().to_owned(),
            radix => i128::from_str_radix(integer.as_str(), radix)
                .map_or_else(|_| integer.as_str().to_owned(), |value| value.to_string()),
        }),
        DeValue::Float(float) => Tree::Number(float.as_str().to_owned()),
        DeValue::Boolean(flag) => Tree::Flag(*flag),
        DeValue::Datetime(moment) => Tree::Text(moment.to_string()),
        DeValue::Array(nodes) => Tree::List(nodes.iter().map(node).collect()),
        DeValue::Table(table) => entries(table),
    };
    Node { span: value.span(), value: tree }
}
