//! Lists and maps that are cheap to copy: a copy shares its blocks, and a change copies only the block it touches.
//!
//! Every accepted entry gives a new state while pages still read the old one, so a plain copy of everything would cost the
//! whole record at each entry.

use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

/// Items in a block: large enough for few blocks, small enough to copy one at each change.
const BLOCK: usize = 128;

/// A list that grows at its end.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Chunks<T> {
    blocks: Vec<Arc<Vec<T>>>,
    len: usize,
}

impl<T> Default for Chunks<T> {
    fn default() -> Self {
        Self { blocks: Vec::new(), len: 0 }
    }
}

impl<T: Clone> Chunks<T> {
    pub(crate) fn push(&mut self, item: T) -> usize {
        match self.blocks.last_mut() {
            Some(last) if last.len() < BLOCK => Arc::make_mut(last).push(item),
            _ => {
                let mut block = Vec::with_capacity(BLOCK);
                block.push(item);
                self.blocks.push(Arc::new(block));
            }
        }
        self.len += 1;
        self.len - 1
    }

    pub(crate) const fn len(&self) -> usize {
        self.len
    }

    pub(crate) fn get(&self, place: usize) -> Option<&T> {
        self.blocks.get(place / BLOCK)?.get(place % BLOCK)
    }

    pub(crate) fn get_mut(&mut self, place: usize) -> Option<&mut T> {
        Arc::make_mut(self.blocks.get_mut(place / BLOCK)?).get_mut(place % BLOCK)
    }

    pub(crate) fn iter(&self) -> impl DoubleEndedIterator<Item = &T> + Clone {
        self.blocks.iter().flat_map(|block| block.iter())
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

/// What belongs to an id.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ById<V>(Vec<Arc<HashMap<Uuid, V>>>);

/// The last byte of a UUIDv7 is random, so that every shard gets its share.
const SHARDS: usize = 256;

impl<V> Default for ById<V> {
    fn default() -> Self {
        Self((0..SHARDS).map(|_| Arc::new(HashMap::new())).collect())
    }
}

impl<V: Copy> ById<V> {
    pub(crate) fn get(&self, id: Uuid) -> Option<V> {
        self.0.get(Self::shard(id))?.get(&id).copied()
    }

    pub(crate) fn insert(&mut self, id: Uuid, value: V) {
        if let Some(shard) = self.0.get_mut(Self::shard(id)) {
            Arc::make_mut(shard).insert(id, value);
        }
    }

    fn shard(id: Uuid) -> usize {
        usize::from(id.as_bytes()[15])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_keeps_what_it_was() {
        let mut list = Chunks::default();
        for number in 0..1000 {
            assert_eq!(list.push(number), number);
        }
        let before = list.clone();
        *list.get_mut(500).unwrap() = -1_i64 as usize;
        list.push(1000);
        assert_eq!(before.get(500), Some(&500));
        assert_eq!((before.len(), list.len()), (1000, 1001));
        assert!(before.iter().copied().eq(0..1000));
        assert!(Arc::ptr_eq(&before.blocks[0], &list.blocks[0]));
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
