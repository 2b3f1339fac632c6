//! Every verb's form and answer: read, checked, explained, printed; shared by the command line and the JSON API.
//!
//! A form is TOML or JSON, told apart by content. Its fields are declared once, in one list a verb; reading, the printed
//! example ([`example`]) and the JSON Schema ([`schema`]) all come from that list, so they cannot drift apart. What stands
//! against a form comes back whole: every problem with line, column, key, what was found, what is allowed and the
//! nearest known key ([`Problems`]).
//!
//! ```
//! use forms::{Flags, Verb, answer};
//!
//! let form = r#"
//! currency = "EUR"
//! piece = { mass_kg = 5.2, price_per_kg = "11.95" }
//! part = [{ name = "usable", use = "portion", mass_g = 4600 }, { name = "trim", use = "waste", mass_g = 600 }]
//! "#;
//! let exact = Flags { exact: true, ..Flags::default() };
//! let answer = answer(Verb::Worth, "striploin.toml", form.as_bytes(), &exact).expect("a sound form");
//! assert_eq!(answer.json["cost_per_kg"], "13.5087");
//! ```

mod answer;
mod field;
mod path;
mod problem;
mod read;
mod tree;
mod unknown;
mod verb;

pub use answer::Answer;
pub use problem::{Problem, Problems, What};
pub use verb::{UnknownVerb, Verb};

use serde_json::Value;

/// How a question is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flags {
    /// Inputs are taken as true: no ensemble, no range, no blank.
    pub exact: bool,
    /// Members of the ensemble.
    pub draws: usize,
    /// Its seed.
    pub seed: u64,
    /// US units: printed, and beside each metric result in JSON.
    pub us: bool,
}

impl Flags {
    /// The most members of an ensemble.
    pub const MOST_DRAWS: usize = 100_000;
}

impl Default for Flags {
    fn default() -> Self {
        Self { exact: false, draws: band::DRAWS, seed: band::SEED, us: false }
    }
}

/// Answers a form. `file` names it in problems; `-` is standard input.
///
/// # Errors
/// [`Problems`]: everything that stands against the form, at once.
pub fn answer(verb: Verb, file: &str, bytes: &[u8], flags: &Flags) -> Result<Answer, Problems> {
    let mut answer = verb.answer(file, bytes, flags)?;
    if flags.us {
        answer.json = answer::with_us_twins(answer.json);
    }
    Ok(answer)
}

/// A complete form of a verb with a comment beside each key; it runs as it stands.
#[must_use]
pub fn example(verb: Verb) -> String {
    let name = verb.name();
    let head = format!(
        "{}\nRun: gambrel {name} FILE.  A number may be a value or {{ low = , high = }}; units stand in the key:\n_kg _g _lb _oz, \
         _mm _cm _in, _c _f, _s _min _h.  Lines behind # are other ways to say the same.\n",
        verb.about()
    );
    field::example(&head, verb.fields())
}

/// The form of a verb as JSON Schema (draft 2020-12).
#[must_use]
pub fn schema(verb: Verb) -> Value {
    field::schema(&format!("gambrel {}", verb.name()), verb.about(), verb.fields())
}
