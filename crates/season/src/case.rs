//! At the case: whole or counter, and which one? Candidates side by side, each with its band.

use band::{Band, Narrow, chance};
use catalogue::Trim;
use quantity::Currency;
use rust_decimal::Decimal;
use thiserror::Error;
use worth::{
    Answered, Bought, Call, Costs, Grams, PerMass, Price, Question, Scales, TrimLevel, Uncut, Worth,
    WorthError,
};

/// A piece in the case, as it is seen. What cannot be seen is left out and widens that candidate only.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Catalogue name of the cut.
    pub cut: String,
    /// On its label.
    pub mass: Grams,
    /// What is asked for it.
    pub price: Price,
    /// What the counter asks for the same, cut.
    pub counter: Option<PerMass>,
    /// How it will be trimmed.
    pub trim: Option<Trim>,
    /// Whether the strip of lip is on, for a cut that is sold both ways.
    pub lip: Option<bool>,
}

/// What the kitchen knows that does not hang on the candidate.
#[derive(Clone, Debug, PartialEq)]
pub struct Around {
    /// The one currency.
    pub currency: Currency,
    /// What a kilo of lean trim replaces.
    pub lean_value: Option<PerMass>,
    /// What a kilo of clean fat replaces.
    pub fat_value: Option<PerMass>,
    /// Price of a bag.
    pub bag: Option<Decimal>,
    /// Raw weight of a plate.
    pub portion: Option<Grams>,
    /// Own pieces that were cut and weighed.
    pub own: Vec<OwnYield>,
}

/// What became of one of the household's own pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnYield {
    /// Catalogue name of its cut.
    pub cut: String,
    /// How it was trimmed, if that was said.
    pub trim: Option<Trim>,
    /// Portions over what was bought.
    pub portions: f64,
}

/// A candidate judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// What was asked.
    pub candidate: Candidate,
    /// Costs with their bands, from the yield of the cut.
    pub answered: Answered,
    /// Price of a trimmed kilo.
    pub per_kg: Band,
    /// Full plates.
    pub plates: Option<Band>,
    /// Saved against the counter.
    pub saving: Option<Band>,
    /// How often it is the cheapest of all candidates.
    pub cheapest: f64,
    /// What would narrow its band, largest first.
    pub narrow: Vec<Unseen>,
    /// How many own pieces its yield was learned from.
    pub own_pieces: usize,
}

/// Something that was not said or seen, and the share of the width it makes.
#[derive(Clone, Debug, PartialEq)]
pub struct Unseen {
    /// What.
    pub what: Look,
    /// Share of the variance.
    pub share: f64,
}

/// What there is to look at or to settle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Whether the lip is on.
    Lip,
    /// How it will be trimmed.
    Trim,
    /// The yield of the animal: only the knife tells.
    Yield,
}

/// Which to take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Take {
    /// This one; the counter is dearer over the whole band.
    Whole(usize),
    /// Nothing here; the counter is cheaper over the whole band of the best.
    Counter(usize),
    /// The gap to the counter is smaller than the band; how often the best candidate is the cheaper.
    CannotTell(usize, f64),
    /// No counter price was given: the cheapest candidate.
    Cheapest(usize),
}

/// All candidates.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// In the order they were put down; never empty.
    pub judged: Vec<Judged>,
    /// The call.
    pub take: Take,
}

/// Why candidates cannot be compared.
#[derive(Debug, Error, PartialEq)]
pub enum CaseError {
    /// There is none.
    #[error("no candidate was written down; allowed: one or more, each with weight and price")]
    Empty,
    /// The catalogue has no yield for it.
    #[error("the catalogue knows no yield for the cut \"{cut}\"{}; allowed: {known}", trim_words(.trim))]
    NoYield {
        /// The cut.
        cut: String,
        /// The trim that was asked for.
        trim: Option<Trim>,
        /// What is known.
        known: String,
    },
    /// The sum cannot be done.
    #[error(transparent)]
    Worth(#[from] WorthError),
}

/// Compares candidates with one another and with the counter.
///
/// # Errors
/// [`CaseError`] without candidates, for a cut or trim the catalogue has no yield of, or for numbers no piece has.
pub fn case(candidates: &[Candidate], around: &Around, draws: usize, seed: u64) -> Result<Case, CaseError> {
    let mut judged = Vec::with_capacity(candidates.len());
    for (place, candidate) in candidates.iter().enumerate() {
        // Each animal yields for itself: a seed of its own keeps the ensembles independent.
        judged.push(judge(candidate, around, draws, seed.wrapping_add(place as u64))?);
    }
    share_out_cheapest(&mut judged);
    let best = (0..judged.len()).min_by(|a, b| judged[*a].per_kg.median.total_cmp(&judged[*b].per_kg.median));
    let best = best.ok_or(CaseError::Empty)?;
    let take = match judged[best].answered.answer.verdict {
        None => Take::Cheapest(best),
        Some(verdict) => match verdict.call {
            Call::Whole => Take::Whole(best),
            Call::Counter => Take::Counter(best),
            Call::CannotTell => Take::CannotTell(best, verdict.chance_whole),
        },
    };
    Ok(Case { judged, take })
}

fn judge(candidate: &Candidate, around: &Around, draws: usize, seed: u64) -> Result<Judged, CaseError> {
    let (levels, own_pieces) = levels(candidate, &around.own)?;
    let looks = if levels.len() > 1 { Some(look(candidate)) } else { None };
    let question = Question {
        worth: Worth {
            currency: around.currency,
            piece: Bought { mass: candidate.mass, price: candidate.price, purge: None },
            parts: Vec::new(),
            counter: candidate.counter,
            costs: Costs { bag: around.bag.unwrap_or_default(), ..Costs::default() },
            cooked: None,
            portion: around.portion,
            scales: Scales::default(),
        },
        ranges: Vec::new(),
        uncut: Some(Uncut { levels, lean_value: around.lean_value, fat_value: around.fat_value }),
    };
    let answered = worth::answer(&question, draws, seed)?;
    let answer = &answered.answer;
    Ok(Judged {
        candidate: candidate.clone(),
        per_kg: banded(answer.cost_per_kg),
        plates: answer.portion.map(|portion| banded(portion.full)),
        saving: answer.saving.map(banded),
        cheapest: 1.0,
        narrow: answered.narrow.iter().map(|narrow| unseen(narrow, looks)).collect(),
        own_pieces,
        answered,
    })
}

/// Every trim level this piece may get; own pieces of the same cut and trim pull the catalogue's mean towards theirs.
fn levels(candidate: &Candidate, own: &[OwnYield]) -> Result<(Vec<TrimLevel>, usize), CaseError> {
    let cuts = as_seen(candidate);
    let mut levels: Vec<TrimLevel> =
        cuts.iter().flat_map(|cut| Uncut::of_cut(cut, candidate.trim).levels).collect();
    if levels.is_empty() {
        // A cut sold both ways may be known at this trim one way only.
        levels = Uncut::of_cut(&candidate.cut, candidate.trim).levels;
    }
    if levels.is_empty() {
        let known: Vec<&str> = Trim::ALL
            .iter()
            .filter(|trim| !Uncut::of_cut(&candidate.cut, Some(**trim)).levels.is_empty())
            .map(|trim| trim.name())
            .collect();
        let known = if known.is_empty() { "a cut of the catalogue".to_owned() } else { known.join(", ") };
        return Err(CaseError::NoYield { cut: candidate.cut.clone(), trim: candidate.trim, known });
    }
    let mut own_pieces = 0;
    for level in &mut levels {
        let same: Vec<f64> = own
            .iter()
            .filter(|piece| {
                cuts.contains(&piece.cut) && piece.trim.is_some_and(|trim| trim.name() == level.name)
            })
            .map(|piece| piece.portions)
            .collect();
        own_pieces += same.len();
        learn(level, &same);
    }
    Ok((levels, own_pieces))
}

/// The cut's catalogue names that fit what is seen of its lip.
fn as_seen(candidate: &Candidate) -> Vec<String> {
    let plain = candidate.cut.trim_end_matches("-lip-off").to_owned();
    let off = format!("{plain}-lip-off");
    if catalogue::cut(&off).is_none() {
        return vec![candidate.cut.clone()];
    }
    match candidate.lip {
        Some(true) => vec![plain],
        Some(false) => vec![off],
        None => vec![plain, off],
    }
}

/// Whether the catalogue knows this cut with and without its lip.
#[must_use]
pub fn is_sold_both_ways(cut: &str) -> bool {
    catalogue::cut(&format!("{}-lip-off", cut.trim_end_matches("-lip-off"))).is_some()
}

/// Pulls the mean of a level towards own pieces; the catalogue's counts as one piece (assumed: a kitchen's own way with the
/// knife lies about as far from the catalogue's as one animal from the next). The width stays: pieces go on differing.
fn learn(level: &mut TrimLevel, own: &[f64]) {
    if own.is_empty() {
        return;
    }
    let count = own.len() as f64;
    let mean = (level.portions + own.iter().sum::<f64>()) / (1.0 + count);
    let rest = 1.0 - level.portions;
    let left = 1.0 - mean;
    if !(mean > 0.0 && left > 0.0 && rest > 0.0) {
        return;
    }
    // What the portions gain, the heaps lose in proportion.
    for share in [&mut level.lean_trim, &mut level.fat, &mut level.bone, &mut level.purge] {
        *share *= left / rest;
    }
    level.portions = mean;
    level.mark = "your own pieces and the catalogue’s".to_owned();
}

fn look(candidate: &Candidate) -> Look {
    if candidate.trim.is_none() { Look::Trim } else { Look::Lip }
}

fn unseen(narrow: &Narrow, look: Option<Look>) -> Unseen {
    let what = match look {
        Some(look) if narrow.input == "piece.trim" => look,
        _ => Look::Yield,
    };
    Unseen { what, share: narrow.share }
}

fn share_out_cheapest(judged: &mut [Judged]) {
    let members = judged.iter().map(|one| one.answered.cost_per_kg_members.len()).min().unwrap_or(0);
    let costs: Vec<Vec<f64>> = judged.iter().map(|one| one.answered.cost_per_kg_members.clone()).collect();
    for (place, one) in judged.iter_mut().enumerate() {
        let wins = (0..members).map(|member| {
            costs
                .iter()
                .enumerate()
                .all(|(other, cost)| other == place || costs[place][member] <= cost[member])
        });
        one.cheapest = chance(wins);
    }
}

/// A figure of the ledger as a band for drawing and rounding.
#[must_use]
pub fn banded(figure: worth::Figure) -> Band {
    let plain = |value: Decimal| f64::try_from(value).unwrap_or(f64::NAN);
    Band { median: plain(figure.middle()), low: plain(figure.low()), high: plain(figure.high()) }
}

fn trim_words(trim: &Option<Trim>) -> String {
    trim.map(|trim| format!(" at trim {trim}")).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decimal(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn roll(kg: &str, lip: Option<bool>, trim: Option<Trim>) -> Candidate {
        Candidate {
            cut: "beef-ribeye-roll".into(),
            mass: Grams::from_kg(decimal(kg)),
            price: Price::Per(PerMass::per_kg(decimal("24.90"))),
            counter: Some(PerMass::per_kg(decimal("38.50"))),
            trim,
            lip,
        }
    }

    fn around() -> Around {
        Around {
            currency: Currency::EUR,
            lean_value: Some(PerMass::per_kg(decimal("11.80"))),
            fat_value: Some(PerMass::per_kg(decimal("3.20"))),
            bag: None,
            portion: Some(Grams::new(decimal("380"))),
            own: Vec::new(),
        }
    }

    #[test]
    fn one_candidate_is_judged_against_the_counter() {
        let case = case(&[roll("6.4", Some(true), Some(Trim::To6Mm))], &around(), 256, 7).unwrap();
        assert_eq!(case.take, Take::Whole(0));
        let one = &case.judged[0];
        // By hand from the same prior's mean: 159.36 less trim and fat over 5.44 kg.
        assert!((27.0..30.0).contains(&one.per_kg.median), "{:?}", one.per_kg);
        assert!(one.per_kg.low < one.per_kg.median && one.per_kg.median < one.per_kg.high);
        assert_eq!(one.cheapest, 1.0);
        assert_eq!(one.plates.unwrap().median, 14.0);
    }

    #[test]
    fn what_cannot_be_seen_widens_that_candidate_only() {
        let seen = roll("6.4", Some(true), Some(Trim::AsPacked));
        let unseen = roll("6.4", None, Some(Trim::AsPacked));
        let case = case(&[seen, unseen], &around(), 256, 7).unwrap();
        assert!(case.judged[1].per_kg.width() > case.judged[0].per_kg.width());
        assert!(case.judged[1].narrow.iter().any(|narrow| narrow.what == Look::Lip));
        assert!(case.judged[0].narrow.iter().all(|narrow| narrow.what == Look::Yield));
        let total: f64 = case.judged.iter().map(|one| one.cheapest).sum();
        assert!((total - 1.0).abs() < 0.02, "{total}");
    }

    #[test]
    fn without_a_counter_price_the_cheapest_is_named() {
        let mut dear = roll("6.4", Some(true), Some(Trim::To6Mm));
        dear.counter = None;
        let mut cheap = dear.clone();
        cheap.price = Price::Per(PerMass::per_kg(decimal("19.90")));
        let case = case(&[dear, cheap], &around(), 256, 7).unwrap();
        assert_eq!(case.take, Take::Cheapest(1));
        assert!(case.judged[1].cheapest > 0.99);
    }

    #[test]
    fn own_pieces_pull_the_yield_and_the_shares_still_close() {
        let candidate = roll("6.4", Some(true), Some(Trim::To6Mm));
        let own = OwnYield { cut: "beef-ribeye-roll".into(), trim: Some(Trim::To6Mm), portions: 0.79 };
        let (learned, count) = levels(&candidate, &[own]).unwrap();
        let (plain, none) = levels(&candidate, &[]).unwrap();
        assert_eq!((count, none), (1, 0));
        assert!(learned[0].portions < plain[0].portions && learned[0].portions_sd == plain[0].portions_sd);
        let level = &learned[0];
        let sum = level.portions + level.lean_trim + level.fat + level.bone + level.purge;
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
    }

    #[test]
    fn an_unknown_cut_is_refused_with_what_is_known() {
        let mut strange = roll("6.4", None, None);
        strange.cut = "beef-unicorn".into();
        assert!(matches!(case(&[strange], &around(), 64, 7), Err(CaseError::NoYield { .. })));
        assert_eq!(case(&[], &around(), 64, 7).unwrap_err(), CaseError::Empty);
    }
}
