//! Lists and maps that are cheap to copy: a copy shares its blocks, and a change copies only the block it touches.
//!
//! Every accepted entry gives a new state while pages still read the old one, so a plain copy of everything would cost the
//! whole record at each entry.

use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

/// Items in a block and blocks in a span: a change copies one block and one span, a copy of the list its spans alone.
const BLOCK: usize = 32;
const SPAN: usize = 32;

type Block<T> = Arc<Vec<T>>;

/// A list that grows at its end.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Chunks<T> {
    spans: Vec<Arc<Vec<Block<T>>>>,
    len: usize,
}

impl<T> Default for Chunks<T> {
    fn default() -> Self {
        Self { spans: Vec::new(), len: 0 }
    }
}

impl<T: Clone> Chunks<T> {
    pub(crate) fn push(&mut self, item: T) -> usize {
        let place = self.len;
        if place.is_multiple_of(BLOCK * SPAN) {
            self.spans.push(Arc::new(Vec::with_capacity(SPAN)));
        }
        if let Some(span) = self.spans.last_mut() {
            let span = Arc::make_mut(span);
            if place.is_multiple_of(BLOCK) {
                span.push(Arc::new(Vec::with_capacity(BLOCK)));
            }
            if let Some(block) = span.last_mut() {
                Arc::make_mut(block).push(item);
            }
        }
        self.len += 1;
        place
    }

    pub(crate) const fn len(&self) -> usize {
        self.len
    }

    pub(crate) fn get(&self, place: usize) -> Option<&T> {
        self.spans.get(place / (BLOCK * SPAN))?.get(place / BLOCK % SPAN)?.get(place % BLOCK)
    }

    pub(crate) fn get_mut(&mut self, place: usize) -> Option<&mut T> {
        let span = Arc::make_mut(self.spans.get_mut(place / (BLOCK * SPAN))?);
        Arc::make_mut(span.get_mut(place / BLOCK % SPAN)?).get_mut(place % BLOCK)
    }

    pub(crate) fn iter(&self) -> impl DoubleEndedIterator<Item = &T> + Clone {
        self.spans.iter().flat_map(|span| span.iter()).flat_map(|block| block.iter())
    }
}

/// Things of one kind, in the order they were made.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Table<T>(Chunks<Arc<T>>);

impl<T> Default for Table<T> {
    fn default() -> Self {
        Self(Chunks::default())
    }
}

impl<T: Clone> Table<T> {
    pub(crate) fn push(&mut self, thing: T) -> usize {
        self.0.push(Arc::new(thing))
    }

    pub(crate) fn get(&self, place: usize) -> Option<&T> {
        self.0.get(place).map(Arc::as_ref)
    }

    pub(crate) fn get_mut(&mut self, place: usize) -> Option<&mut T> {
        self.0.get_mut(place).map(Arc::make_mut)
    }

    pub(crate) fn iter(&self) -> impl DoubleEndedIterator<Item = &T> + Clone {
        self.0.iter().map(Arc::as_ref)
    }
}

/// What belongs to an id, in shards of shards: a change copies one of each.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ById<V>(Vec<Arc<Shards<V>>>);

type Shards<V> = Vec<Arc<HashMap<Uuid, V>>>;

const SHARDS: usize = 16;

impl<V: Clone> Default for ById<V> {
    fn default() -> Self {
        // All share one empty shard until they are written to.
        let empty = Arc::new(HashMap::new());
        let shards = Arc::new(vec![empty; SHARDS]);
        Self(vec![shards; SHARDS])
    }
}

impl<V: Copy> ById<V> {
    pub(crate) fn get(&self, id: Uuid) -> Option<V> {
        let (outer, inner) = Self::place(id);
        self.0.get(outer)?.get(inner)?.get(&id).copied()
    }

    pub(crate) fn insert(&mut self, id: Uuid, value: V) {
        let (outer, inner) = Self::place(id);
        if let Some(shards) = self.0.get_mut(outer)
            && let Some(shard) = Arc::make_mut(shards).get_mut(inner)
        {
            Arc::make_mut(shard).insert(id, value);
        }
    }

    /// The last byte of a UUIDv7 is random, so that every shard gets its share.
    fn place(id: Uuid) -> (usize, usize) {
        let byte = usize::from(id.as_bytes()[15]);
        (byte / SHARDS, byte % SHARDS)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_keeps_what_it_was() {
        let mut list = Chunks::default();
        for number in 0..5000 {
            assert_eq!(list.push(number), number);
        }
        let before = list.clone();
        *list.get_mut(500).unwrap() = -1_i64 as usize;
        list.push(5000);
        assert_eq!(before.get(500), Some(&500));
        assert_eq!((before.len(), list.len()), (5000, 5001));
        assert!(before.iter().copied().eq(0..5000));
        assert!(Arc::ptr_eq(&before.spans[1], &list.spans[1]));
    }

    #[test]
    fn an_id_finds_its_value_in_the_copy_it_was_put_into() {
        let mut map = ById::default();
        let id = Uuid::from_u128(7);
        let before = map.clone();
        map.insert(id, 1_u8);
        assert_eq!((before.get(id), map.get(id)), (None, Some(1)));
    }
}
