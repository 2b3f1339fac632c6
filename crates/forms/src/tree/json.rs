//! JSON into the tree: strict, and a key given twice is refused, which the parser itself would let pass.

use super::{Entry, Node, Tree};
use crate::path::Path;
use crate::problem::{Problem, What};
use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged;
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};
use std::collections::HashSet;

const STRICT: ParseOptions = ParseOptions {
    allow_comments: false,
    allow_loose_object_property_names: false,
    allow_trailing_commas: false,
    allow_missing_commas: false,
    allow_single_quoted_strings: false,
    allow_hexadecimal_numbers: false,
    allow_unary_plus_numbers: false,
    allow_bare_decimal_point_numbers: false,
    allow_non_finite_numbers: false,
    allow_extended_string_escapes: false,
};

pub(super) fn parse(text: &str) -> (Option<Node>, Vec<Problem>) {
    match parse_to_ast(text, &CollectOptions::default(), &STRICT) {
        Ok(parsed) => {
            let mut problems = Vec::new();
            let tree = parsed.value.as_ref().map(|value| node(value, &Path::default(), &mut problems));
            (tree, problems)
        }
        Err(error) => {
            let range = error.range();
            let why = error.kind().to_string();
            let problem = Problem::at(What::Syntax, range.start..range.end)
                .found("text that is no JSON")
                .allowed("strict JSON (no comments, no trailing commas), or TOML")
                .saying(&format!("this is not JSON: {}{}", why[..1].to_lowercase(), &why[1..]));
            (None, vec![problem])
        }
    }
}

fn node(value: &Value<'_>, path: &Path, problems: &mut Vec<Problem>) -> Node {
    let range = value.range();
    let tree = match value {
        Value::NullKeyword(_) => Tree::Null,
        Value::BooleanLit(flag) => Tree::Flag(flag.value),
        Value::NumberLit(number) => Tree::Number(number.value.to_owned()),
        Value::StringLit(text) => Tree::Text(text.value.to_string()),
        Value::Array(array) => {
            let elements = array.elements.iter().enumerate();
            Tree::List(elements.map(|(at, element)| node(element, &path.place(at), problems)).collect())
        }
        Value::Object(object) => {
            let mut entries: Vec<Entry> = Vec::with_capacity(object.properties.len());
            let mut seen: HashSet<&str> = HashSet::with_capacity(object.properties.len());
            for property in &object.properties {
                let key = property.name.as_str();
                let name = property.name.range();
                let at = name.start..name.end;
                let here = path.key(key);
                let value = node(&property.value, &here, problems);
                if !seen.insert(key) {
                    let problem = Problem::at(What::DuplicateKey, at)
                        .found("the key a second time")
                        .allowed("each key once")
                        .saying(&format!("{} stands twice", here.dotted()));
                    problems.push(here.on(problem));
                } else {
                    entries.push(Entry { key: key.to_owned(), at, node: value });
                }
            }
            Tree::Table(entries)
        }
    };
    Node { span: range.start..range.end, value: tree }
}
