//! Everything the product is built from may be given on under terms as free as its own.

use crate::tree::metadata;

/// Permissive licences, by their SPDX names.
const ALLOWED: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];
/// Used by tests and benches alone, never given on: a file-wise copyleft is fine there.
const ALLOWED_BESIDE: &[&str] = &["MPL-2.0"];

#[test]
fn every_licence_is_allowed() {
    let told = metadata(&[]);
    for package in told["packages"].as_array().unwrap() {
        let name = package["name"].as_str().unwrap();
        let licence = package["license"].as_str();
        let file = package["license_file"].as_str();
        let Some(licence) = licence else { panic!("{name} states no licence (file: {file:?})") };
        assert!(
            allowed(licence),
            "{name} is under {licence:?}, allowed: {ALLOWED:?}, in tests {ALLOWED_BESIDE:?}"
        );
    }
}

/// An SPDX expression; `/` is an old way to write OR.
fn allowed(expression: &str) -> bool {
    let plain = expression.replace('/', " OR ");
    let parts = split(&plain, " AND ");
    if parts.len() > 1 {
        return parts.iter().all(|part| allowed(part));
    }
    let parts = split(&plain, " OR ");
    if parts.len() > 1 {
        return parts.iter().any(|part| allowed(part));
    }
    let licence = plain.trim();
    match licence.strip_prefix('(').and_then(|inner| inner.strip_suffix(')')) {
        Some(inner) => allowed(inner),
        None => ALLOWED.contains(&licence) || ALLOWED_BESIDE.contains(&licence),
    }
}

/// Parts between a word that stands outside brackets.
fn split<'a>(expression: &'a str, word: &str) -> Vec<&'a str> {
    let (mut parts, mut begin, mut depth) = (Vec::new(), 0, 0_i32);
    for (place, letter) in expression.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ if depth == 0 && expression[place..].starts_with(word) => {
                parts.push(&expression[begin..place]);
                begin = place + word.len();
            }
            _ => {}
        }
    }
    parts.push(&expression[begin..]);
    parts
}

#[test]
fn expressions_are_read_as_spdx_has_them() {
    for good in [
        "MIT OR Apache-2.0",
        "MIT/Apache-2.0",
        "(MIT OR GPL-3.0) AND Unicode-3.0",
        "GPL-3.0 OR (ISC AND Zlib)",
    ] {
        assert!(allowed(good), "{good}");
    }
    for bad in ["GPL-3.0", "MIT AND GPL-3.0", "(MIT OR ISC) AND (GPL-3.0 OR AGPL-3.0)", ""] {
        assert!(!allowed(bad), "{bad}");
    }
}
