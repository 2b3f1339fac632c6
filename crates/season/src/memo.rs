//! Answers kept by their whole question: an answer depends on nothing else, so it is never stale.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// The last answers to questions of one kind; the longest unused makes room.
#[derive(Debug)]
pub(crate) struct Memo<Q, A> {
    kept: Mutex<VecDeque<Kept<Q, A>>>,
    most: usize,
}

type Kept<Q, A> = (Q, Arc<OnceLock<A>>);

impl<Q: Clone + PartialEq, A: Clone> Memo<Q, A> {
    /// Keeps the answers to so many questions.
    pub(crate) fn of(most: usize) -> Self {
        Self { kept: Mutex::new(VecDeque::new()), most }
    }

    /// The answer to a question, computed if it was not asked of late. Who asks while it is being computed waits for it.
    pub(crate) fn get(&self, question: &Q, answer: impl FnOnce(&Q) -> A) -> A {
        let cell = self.cell(question);
        cell.get_or_init(|| answer(question)).clone()
    }

    /// The lock is held only to find the place, never while an answer is computed.
    fn cell(&self, question: &Q) -> Arc<OnceLock<A>> {
        // A panic elsewhere cannot leave the list half written: it is only ever pushed to and popped from.
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let found = kept.iter().position(|(asked, _)| asked == question).and_then(|place| kept.remove(place));
        let (question, cell) = found.unwrap_or_else(|| (question.clone(), Arc::default()));
        kept.push_front((question, Arc::clone(&cell)));
        kept.truncate(self.most);
        cell
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn a_question_is_answered_once_until_it_is_forgotten() {
        let asked = Cell::new(0);
        let memo: Memo<u32, u32> = Memo::of(2);
        let ask = |question: u32| {
            memo.get(&question, |q| {
                asked.set(asked.get() + 1);
                q * 2
            })
        };
        assert_eq!((ask(1), ask(2), ask(1)), (2, 4, 2));
        assert_eq!(asked.get(), 2);
        ask(3);
        ask(1);
        assert_eq!(asked.get(), 3, "2 was the longest unused");
        ask(2);
        assert_eq!(asked.get(), 4);
    }
}
