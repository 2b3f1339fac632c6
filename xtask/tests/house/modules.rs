//! One idea a file: no module above 400 lines of code, and a map that names every crate.

use crate::tree::{crates, files, product_lines, root, told};

/// Lines of code; comments, blank lines and tests are free.
const MOST: usize = 400;

#[test]
fn no_module_is_long() {
    let mut long = Vec::new();
    for folder in ["crates", "xtask/src", "bench/src"] {
        for file in files(&root().join(folder), &[".rs"]) {
            let in_tests = file.components().any(|part| part.as_os_str() == "tests");
            let lines = product_lines(&file);
            let code = lines
                .iter()
                .map(|line| line.trim())
                .filter(|line| !line.is_empty() && !line.starts_with("//"));
            let count = code.count();
            if !in_tests && count > MOST {
                long.push(format!("{}: {count} lines", told(&file)));
            }
        }
    }
    assert!(long.is_empty(), "above {MOST} lines of code, split by subject: {long:#?}");
}

#[test]
fn the_map_names_every_crate() {
    let map = std::fs::read_to_string(root().join("ARCHITECTURE.md")).expect("ARCHITECTURE.md is the map");
    for name in crates().iter().map(String::as_str).chain(["xtask", "bench"]) {
        assert!(
            map.contains(&format!("`{name}`")) || map.contains(&format!("{name}/")),
            "the map does not name {name}"
        );
    }
}

#[test]
fn every_published_check_is_named_in_its_folder() {
    for folder in crates() {
        let published = root().join("crates").join(&folder).join("tests/published");
        let Ok(names) = std::fs::read_to_string(published.join("main.rs")) else { continue };
        for file in files(&published, &[".rs"]) {
            let name = file.file_stem().unwrap().to_string_lossy().into_owned();
            let above = file.parent() == Some(&published);
            assert!(
                !above || name == "main" || names.contains(&format!("mod {name};")),
                "{} runs with no test: main.rs does not name it",
                told(&file)
            );
        }
    }
}
