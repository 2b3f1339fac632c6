//! PDFs read back by general readers: two of positions and text, one renderer.

use std::path::{Path, PathBuf};
use std::process::Command;

use paper::{Document, Drawing};
use serde_json::Value;

/// What a general reader finds in a document, mm from the upper left corner.
pub(crate) struct Read {
    pub(crate) title: String,
    pub(crate) language: String,
    pub(crate) print_scaling: String,
    pub(crate) copied_out: Vec<String>,
    pub(crate) pages: Vec<Page>,
}

pub(crate) struct Page {
    pub(crate) size: (f64, f64),
    pub(crate) rects: Vec<[f64; 4]>,
    pub(crate) letters: Vec<Letter>,
}

#[derive(Debug)]
pub(crate) struct Letter {
    pub(crate) text: String,
    pub(crate) x0: f64,
    pub(crate) x1: f64,
    pub(crate) baseline: f64,
    pub(crate) font: String,
}

/// Letters that follow each other on one line, as one.
#[derive(Clone, Debug)]
pub(crate) struct Text {
    pub(crate) text: String,
    pub(crate) x0: f64,
    pub(crate) x1: f64,
    pub(crate) baseline: f64,
}

/// A page as a renderer paints it: 0 is black.
pub(crate) struct Ink {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) luma: Vec<u8>,
    mm: f64,
}

/// Writes the document where it can be looked at after the test, and reads it back.
pub(crate) fn read(name: &str, document: &Document) -> Read {
    let told = python(&["facts", &written(name, document).display().to_string()]);
    let told: Value = serde_json::from_slice(&told).expect("the reader prints JSON");
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    let pages = told["pages"].as_array().expect("pages");
    Read {
        title: text(&told["title"]),
        language: text(&told["language"]),
        print_scaling: text(&told["print_scaling"]),
        copied_out: told["copied_out"].as_array().expect("texts").iter().map(text).collect(),
        pages: pages.iter().map(page).collect(),
    }
}

/// An image as a general XML reader finds it.
pub(crate) struct Image {
    pub(crate) size: [String; 3],
    pub(crate) role: String,
    pub(crate) spoken: String,
    pub(crate) paths: Vec<String>,
}

/// Writes the image and reads it back.
pub(crate) fn read_image(name: &str, drawing: &Drawing) -> Image {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.svg"));
    std::fs::write(&path, drawing.svg().unwrap()).unwrap();
    let told: Value = serde_json::from_slice(&python(&["image", &path.display().to_string()])).unwrap();
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    Image {
        size: [0, 1, 2].map(|side| text(&told["size"][side])),
        role: text(&told["role"]),
        spoken: text(&told["spoken"]),
        paths: told["paths"].as_array().expect("paths").iter().map(text).collect(),
    }
}

/// Renders one page, counted from 0.
pub(crate) fn render(name: &str, document: &Document, page: usize, dpi: f64) -> Ink {
    let path = written(name, document).display().to_string();
    let pgm = python(&["ink", &path, &page.to_string(), &dpi.to_string()]);
    let head = pgm.iter().position(|byte| *byte == b'\n').expect("a head line");
    let words: Vec<usize> = String::from_utf8_lossy(&pgm[3..head])
        .split_whitespace()
        .map(|word| word.parse().expect("a number"))
        .collect();
    let luma = pgm[head + 1..].to_vec();
    assert_eq!(luma.len(), words[0] * words[1]);
    Ink { width: words[0], height: words[1], luma, mm: dpi / 25.4 }
}

impl Page {
    /// Lines of text: letters that share a baseline and follow each other.
    pub(crate) fn texts(&self) -> Vec<Text> {
        let mut texts: Vec<Text> = Vec::new();
        for letter in &self.letters {
            match texts.last_mut() {
                Some(last)
                    if (last.baseline - letter.baseline).abs() < 1e-3
                        && (last.x1 - letter.x0).abs() < 0.05 =>
                {
                    last.text.push_str(&letter.text);
                    last.x1 = letter.x1;
                }
                _ => texts.push(Text {
                    text: letter.text.clone(),
                    x0: letter.x0,
                    x1: letter.x1,
                    baseline: letter.baseline,
                }),
            }
        }
        texts
    }

    pub(crate) fn text(&self, text: &str) -> Text {
        let texts = self.texts();
        let found = texts.iter().find(|line| line.text == text);
        found.unwrap_or_else(|| panic!("no line {text:?} among {texts:?}")).clone()
    }
}

impl Ink {
    /// Left, top, right and bottom of what is dark inside an area, mm; half grey counts as dark.
    pub(crate) fn bounds(&self, [left, top, right, bottom]: [f64; 4]) -> [f64; 4] {
        let pixel = |mm: f64, most: usize| ((mm * self.mm).round().max(0.0) as usize).min(most);
        let columns = pixel(left, self.width)..pixel(right, self.width);
        let rows = pixel(top, self.height)..pixel(bottom, self.height);
        let dark: Vec<(usize, usize)> = rows
            .flat_map(|row| columns.clone().map(move |column| (column, row)))
            .filter(|(column, row)| self.luma[row * self.width + column] < 128)
            .collect();
        assert!(!dark.is_empty(), "nothing is printed there");
        let least =
            |of: fn(&(usize, usize)) -> usize| dark.iter().map(of).min().unwrap_or(0) as f64 / self.mm;
        let most =
            |of: fn(&(usize, usize)) -> usize| (dark.iter().map(of).max().unwrap_or(0) + 1) as f64 / self.mm;
        [least(|dot| dot.0), least(|dot| dot.1), most(|dot| dot.0), most(|dot| dot.1)]
    }
}

fn page(value: &Value) -> Page {
    let number = |value: &Value| value.as_f64().expect("a number");
    let list = |value: &Value| value.as_array().expect("a list").clone();
    let rect = |value: &Value| {
        let sides = list(value);
        [0, 1, 2, 3].map(|side| number(&sides[side]))
    };
    let letter = |value: &Value| Letter {
        text: value["text"].as_str().expect("a letter").to_owned(),
        x0: number(&value["x0"]),
        x1: number(&value["x1"]),
        baseline: number(&value["baseline"]),
        font: value["font"].as_str().expect("a font").to_owned(),
    };
    Page {
        size: (number(&value["width"]), number(&value["height"])),
        rects: list(&value["rects"]).iter().map(rect).collect(),
        letters: list(&value["letters"]).iter().map(letter).collect(),
    }
}

fn written(name: &str, document: &Document) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.pdf"));
    std::fs::write(&path, document.pdf().expect("a PDF")).expect("the target folder can be written");
    path
}

fn python(arguments: &[&str]) -> Vec<u8> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let interpreter = here.join("../../.venv/bin/python");
    let output = Command::new(&interpreter)
        .arg(here.join("tests/published/read_back.py"))
        .args(arguments)
        .output()
        .unwrap_or_else(|error| {
            panic!("{} ({error}): `cargo xtask check` sets it up", interpreter.display())
        });
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}
