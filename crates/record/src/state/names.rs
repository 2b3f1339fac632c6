//! Words of pieces and names of packs. A name once given is never given again, even if its entry is taken back: the label
//! may be in the freezer.

use super::{Portion, State};
use crate::{Body, Contents, Entry, PartName, PieceReceived, Refusal, Word};
use std::sync::Arc;
use uuid::Uuid;

impl State {
    /// Whether a piece may be called so.
    pub(super) fn may_be_called(&self, wanted: &str) -> Result<(), Refusal> {
        // Nothing left of the list is no reason against a word of one's own.
        let next = || self.next_word().map_or("four letters of your own".to_owned(), |word| word.to_string());
        let Some(word) = Word::read(wanted) else {
            return Err(Refusal::NotAWord { found: wanted.to_owned(), next: next() });
        };
        if let Some(holder) = self.words.get(&word) {
            let since = self.log.of(*holder).map(|row| row.stored.entry.at);
            let Some(since) = since else { return Ok(()) };
            return Err(Refusal::WordTaken { word: word.to_string(), since, next: next() });
        }
        match self.words.keys().find(|other| other.is_like(&word)) {
            None => Ok(()),
            Some(like) => {
                Err(Refusal::WordTooLike { word: word.to_string(), like: like.to_string(), next: next() })
            }
        }
    }

    /// The word a piece gets, and keeps.
    pub(super) fn name_piece(&mut self, id: Uuid, body: &PieceReceived) -> Word {
        // The word it was first given stays its own, so that a correction renames no other piece.
        let first = match self.as_written(id) {
            Some(Body::PieceReceived(written)) => written.word.clone(),
            _ => body.word.clone(),
        };
        let first = first.as_deref().and_then(Word::read);
        // A record that outlived its list: the id's own letters, so that the fold never fails.
        let first = first.or_else(|| self.next_word()).unwrap_or_else(|| Word::of_id(id));
        let word = body.word.as_deref().and_then(Word::read).unwrap_or(first);
        let words = Arc::make_mut(&mut self.words);
        words.insert(first, id);
        words.insert(word, id);
        word
    }

    /// The name a pack gets.
    pub(super) fn name_pack(&mut self, id: Uuid, contents: &Contents) -> Option<Label> {
        let written = match self.as_written(id) {
            Some(Body::PackSealed(written)) if written.contents != *contents => {
                Some(written.contents.clone())
            }
            _ => None,
        };
        if let Some(label) = written.and_then(|contents| self.label(&contents)) {
            self.keep_slug(label.slug, id);
        }
        let label = self.label(contents)?;
        self.keep_slug(label.slug.clone(), id);
        Some(label)
    }

    /// Keeps the name an entry gave before it was taken back.
    pub(super) fn keep_name_of(&mut self, entry: &Entry) {
        match &entry.body {
            Body::PieceReceived(body) => {
                self.name_piece(entry.id, body);
            }
            Body::PackSealed(body) => {
                self.name_pack(entry.id, &body.contents);
            }
            _ => {}
        }
    }

    fn as_written(&self, id: Uuid) -> Option<&Body> {
        self.log.of(id).map(|row| &row.stored.entry.body)
    }

    fn keep_slug(&mut self, slug: String, id: Uuid) {
        Arc::make_mut(&mut self.slugs).insert(slug, id);
    }

    /// What the label of a pack says; nothing if what is in it is not known.
    pub(super) fn label(&self, contents: &Contents) -> Option<Label> {
        let (piece, stem, spoken, heap) = match contents {
            Contents::Portions(ids) => {
                let mut portions: Vec<&Portion> = ids.iter().filter_map(|id| self.portion(*id)).collect();
                portions.sort_by_key(|portion| portion.n);
                let places: Vec<String> = portions.iter().map(|portion| portion.n.to_string()).collect();
                (portions.first()?.piece, places.join("-"), places.join("+"), false)
            }
            Contents::Part(id) => {
                let part = self.part(*id)?;
                let heap = heap_name(part.weighed.part, part.weighed.name.as_deref());
                (part.piece, slug(&heap), heap, true)
            }
        };
        let word = self.piece(piece)?.word;
        let stem = format!("{}-{stem}", word.slug());
        let free = |slug: &String| !self.slugs.contains_key(slug);
        // A second heap is tarn-trim-2; portions bagged again are tarn-11-12-b, since -2 would read as portion 2.
        let again = |turn: usize| if heap { format!("-{turn}") } else { format!("-{}", letters(turn - 1)) };
        let slug = std::iter::once(stem.clone())
            .chain((2..).map(|turn| format!("{stem}{}", again(turn))))
            .find(free)?;
        let tail = slug.strip_prefix(&stem).unwrap_or_default().replace('-', " ");
        Some(Label { piece, name: format!("{word} {spoken}{tail}"), slug })
    }
}

/// What a pack is called.
pub(super) struct Label {
    pub(super) piece: Uuid,
    /// As spoken: `TARN 11+12`.
    pub(super) name: String,
    /// As addresses and codes have it: `tarn-11-12`.
    pub(super) slug: String,
}

impl Word {
    fn of_id(id: Uuid) -> Self {
        let bytes = id.as_bytes();
        let letter = |place: usize| char::from(b'A' + bytes[12 + place] % 26);
        let text: String = (0..4).map(letter).collect();
        Self::read(&text).unwrap_or_default()
    }
}

fn heap_name(part: PartName, name: Option<&str>) -> String {
    match (part, name) {
        (PartName::LeanTrim, _) => "trim".to_owned(),
        (PartName::CleanFat, _) => "fat".to_owned(),
        (PartName::EndsFirst | PartName::EndsLast, _) => "ends".to_owned(),
        (PartName::SilverSkin, _) => "skin".to_owned(),
        (PartName::Other, Some(name)) => name.to_lowercase(),
        (other, _) => other.word().to_owned(),
    }
}

/// Letters, digits and dashes alone; what is left of nothing is `other`.
fn slug(name: &str) -> String {
    let dashed: String = name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let joined = dashed.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-");
    if joined.is_empty() { "other".to_owned() } else { joined }
}

/// 1 is b, 2 is c, 25 is z, 26 is bb.
fn letters(mut turn: usize) -> String {
    let mut text = String::new();
    loop {
        let place = u8::try_from((turn - 1) % 25).unwrap_or(0);
        text.insert(0, char::from(b'b' + place));
        turn = (turn - 1) / 25;
        if turn == 0 {
            return text;
        }
    }
}
