//! The bags of a piece in words: pairs on their rule, the table.

use quantity::{Grain, Length, Mass, Units};
use season::Sealed;

use super::query::Found;
use super::view::Line;
use crate::plot::pairs::Pair;
use crate::words::{number_word, sentence_case};

/// How far apart: whole millimetres, since no knife holds less.
pub(super) fn apart_words(apart: Length, units: &Units) -> String {
    units.length(apart)
}

pub(super) fn pairs(found: &Found<'_>) -> Vec<Pair> {
    let now: Vec<u32> =
        found.packing.next.iter().flat_map(|bag| &bag.portions).map(|m| m.portion.n).collect();
    let mut all: Vec<(u32, Pair)> = Vec::new();
    let sealed = found.packing.sealed.iter().map(|sealed| &sealed.portions);
    let ahead = found.packing.ahead.iter().map(|bag| &bag.portions);
    for portions in sealed.chain(ahead) {
        let [one, other] = portions.as_slice() else { continue };
        let (Some(a), Some(b)) = (one.thickness, other.thickness) else { continue };
        let pair = Pair {
            name: format!("{}+{}", one.portion.n, other.portion.n),
            thickness: (a.length().mm(), b.length().mm()),
            now: now.contains(&one.portion.n),
        };
        all.push((one.portion.n, pair));
    }
    all.sort_by_key(|(n, _)| *n);
    all.into_iter().map(|(_, pair)| pair).collect()
}

pub(super) fn pairs_sentence(found: &Found<'_>, units: &Units) -> String {
    let pairs = pairs(found);
    let words: Vec<String> = pairs
        .iter()
        .map(|pair| {
            let apart = Length::from_mm((pair.thickness.0 - pair.thickness.1).abs());
            format!("{} {} apart", pair.name, apart_words(apart, units))
        })
        .collect();
    format!("Pairs on one rule of thickness, each as two dots: {}.", words.join(", "))
}

pub(super) fn widest(found: &Found<'_>, units: &Units) -> Option<String> {
    let pairs = pairs(found);
    let apart = |pair: &Pair| (pair.thickness.0 - pair.thickness.1).abs();
    let widest = pairs.iter().max_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    (apart(widest) >= 0.5).then(|| {
        format!("Widest apart: {}, by {}.", widest.name, apart_words(Length::from_mm(apart(widest)), units))
    })
}

pub(super) fn rows(found: &Found<'_>, units: &Units) -> Vec<Line> {
    let mut lines: Vec<(u32, Line)> =
        found.packing.sealed.iter().map(|sealed| sealed_line(sealed, units)).collect();
    for (place, bag) in found.packing.ahead.iter().enumerate() {
        let places: Vec<String> = bag.portions.iter().map(|member| member.portion.n.to_string()).collect();
        let state = match place {
            0 => "now",
            1 => "next",
            _ => "",
        };
        let line = Line {
            name: places.join("+"),
            link: None,
            mass: units.mass(bag.mass, Grain::Reading),
            apart: bag.apart.map_or_else(String::new, |apart| apart_words(apart, units)),
            state,
            now: place == 0,
        };
        lines.push((bag.portions.first().map_or(0, |member| member.portion.n), line));
    }
    lines.sort_by_key(|(n, _)| *n);
    lines.into_iter().map(|(_, line)| line).collect()
}

fn sealed_line(sealed: &Sealed<'_>, units: &Units) -> (u32, Line) {
    let word = sealed.pack.word.to_string();
    let line = Line {
        name: sealed.pack.name.trim_start_matches(&word).trim().to_owned(),
        link: Some(format!("/pack/{}", sealed.pack.slug)),
        mass: units.mass(sealed.pack.mass, Grain::Reading),
        apart: sealed.apart.map_or_else(String::new, |apart| apart_words(apart, units)),
        state: if sealed.pack.leaker.is_some() {
            "loose"
        } else if sealed.pack.out.is_some() {
            "out"
        } else {
            "sealed"
        },
        now: false,
    };
    (sealed.portions.first().map_or(u32::MAX, |member| member.portion.n), line)
}

pub(super) fn total(found: &Found<'_>, units: &Units) -> (String, String) {
    let sealed = found.packing.sealed.iter().map(|sealed| sealed.pack.mass);
    let ahead = found.packing.ahead.iter().map(|bag| bag.mass);
    let count = found.packing.sealed.len() + found.packing.ahead.len();
    let mass: Mass = sealed.chain(ahead).sum();
    (sentence_case(&number_word(count)), units.mass(mass, Grain::Reading))
}
