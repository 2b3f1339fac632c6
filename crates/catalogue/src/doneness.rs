//! Doneness scales: which core temperature each word means, by source.

use crate::load::parse;
use quantity::Temperature;
use serde::Deserialize;
use std::sync::LazyLock;

/// One source's scale.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DonenessScale {
    /// Its key in settings.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Its source.
    pub source: String,
    /// Its words, from the coldest.
    #[serde(rename = "word")]
    pub words: Vec<DonenessWord>,
}

/// A word of a scale.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DonenessWord {
    /// `medium rare`
    pub word: String,
    /// One figure, or the two ends of a range, °C.
    core_c: Vec<f64>,
    /// What its source says beside it.
    pub note: Option<String>,
}

impl DonenessScale {
    /// The core a word aims at, if this scale has the word; case, hyphens and spaces around it do not matter.
    #[must_use]
    pub fn core(&self, word: &str) -> Option<Temperature> {
        let wanted = plain(word);
        self.words.iter().find(|entry| plain(&entry.word) == wanted).map(DonenessWord::core)
    }
}

impl DonenessScale {
    /// The same scale with the words a kitchen moved: `core` says where to, or nothing.
    #[must_use]
    pub fn moved(&self, core: impl Fn(&str) -> Option<Temperature>) -> Self {
        let mut scale = self.clone();
        for word in &mut scale.words {
            if let Some(core) = core(&word.word) {
                word.core_c = vec![core.c()];
            }
        }
        scale
    }
}

impl DonenessWord {
    /// What is aimed at: the figure, or the middle of its range.
    #[must_use]
    pub fn core(&self) -> Temperature {
        let (low, high) = self.range();
        Temperature::from_c((low.c() + high.c()) / 2.0)
    }

    /// Both ends of its range; the same twice where the source gives one figure.
    #[must_use]
    pub fn range(&self) -> (Temperature, Temperature) {
        let low = self.core_c.first().copied().unwrap_or(f64::NAN);
        let high = self.core_c.last().copied().unwrap_or(low);
        (Temperature::from_c(low), Temperature::from_c(high))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    scale: Vec<DonenessScale>,
}

static FILE: LazyLock<File> =
    LazyLock::new(|| parse("doneness.toml", include_str!("../../../catalogue/doneness.toml")));

/// The scales, the one of a new kitchen first.
#[must_use]
pub fn doneness_scales() -> &'static [DonenessScale] {
    &FILE.scale
}

/// The scale with this key.
#[must_use]
pub fn doneness_scale(id: &str) -> Option<&'static DonenessScale> {
    doneness_scales().iter().find(|scale| scale.id == id)
}

fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace('-', " ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Status, source};

    /// Figures of the published tables, in °C, with the °F the sources print: cooking, `doneness_scale`.
    #[test]
    fn words_mean_what_their_source_says() {
        let rows = [
            ("bath-guide", "rare", 50.0),
            ("bath-guide", "Medium-rare", 55.0),
            ("bath-guide", "medium", 60.0),
            ("meat-science", "medium rare", 62.8),
            ("meat-science", "well done", 76.7),
            ("cooks-book", "rare", 51.7),
            ("cooks-book", "medium well", 62.8),
        ];
        for (scale, word, core) in rows {
            let found = doneness_scale(scale).and_then(|scale| scale.core(word)).unwrap();
            assert!((found.c() - core).abs() < 1e-9, "{scale}, {word}: {}", found.c());
        }
        assert!(doneness_scale("meat-science").unwrap().core("rare").is_none());
    }

    #[test]
    fn every_scale_rises_and_names_a_source_that_was_read() {
        for scale in doneness_scales() {
            let cores: Vec<f64> = scale.words.iter().map(|word| word.core().c()).collect();
            assert!(cores.windows(2).all(|pair| pair[0] < pair[1]), "{}", scale.id);
            assert!(cores.iter().all(|core| (40.0..90.0).contains(core)), "{}", scale.id);
            let source = source(&scale.source).unwrap();
            assert_ne!(source.status, Status::FromMemory, "{} is not to be shown", scale.id);
        }
    }
}
