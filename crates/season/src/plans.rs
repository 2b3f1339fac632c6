//! Plans that were computed before.

use crate::memo::Memo;
use band::Value;
use cold::{Hours, Pack, Thawed, Way};
use dinner::{DinnerError, Plan, Table, Ways, WaysAsked};
use heat::HeatError;
use std::sync::Arc;

/// The planners behind a memory of what they were asked: a plan depends on its question alone, so what is kept is never
/// stale, and a page that asks again has its answer at once.
#[derive(Debug)]
pub struct Plans {
    suppers: Memo<Table, Result<Arc<Plan>, DinnerError>>,
    thaws: Memo<(Pack, Way, Value), Result<Arc<Thawed>, HeatError>>,
    freezes: Memo<(Pack, Value), Result<Arc<Hours>, HeatError>>,
    ways: Memo<WaysAsked, Result<Arc<Ways>, DinnerError>>,
}

/// Members of every ensemble.
const DRAWS: usize = 256;
/// Members of a roast's: each is solved in three dimensions, and minutes are told to five.
const ROAST_DRAWS: usize = 64;
/// Their seed: the same question has the same answer on every day.
const SEED: u64 = 1;

impl Default for Plans {
    fn default() -> Self {
        // More than any kitchen has suppers and packs in hand at once.
        Self { suppers: Memo::of(32), thaws: Memo::of(128), freezes: Memo::of(128), ways: Memo::of(32) }
    }
}

impl Plans {
    /// A supper's plan.
    ///
    /// # Errors
    /// As [`dinner::plan`].
    pub fn supper(&self, table: &Table) -> Result<Arc<Plan>, DinnerError> {
        self.suppers.get(table, |table| dinner::plan(table, DRAWS, SEED).map(Arc::new))
    }

    /// Ways of one piece, side by side.
    ///
    /// # Errors
    /// As [`dinner::ways`].
    pub fn ways(&self, asked: &WaysAsked) -> Result<Arc<Ways>, DinnerError> {
        self.ways.get(asked, |asked| {
            dinner::ways(asked, if asked.whole { ROAST_DRAWS } else { DRAWS }, SEED).map(Arc::new)
        })
    }

    /// Hours to soft.
    ///
    /// # Errors
    /// As [`cold::thaw`].
    pub fn thaw(&self, pack: &Pack, way: Way, place_c: Value) -> Result<Arc<Thawed>, HeatError> {
        let question = (pack.clone(), way, place_c);
        self.thaws.get(&question, |(pack, way, c)| cold::thaw(pack, *way, *c, DRAWS, SEED).map(Arc::new))
    }

    /// Hours to hard through, alone in one layer.
    ///
    /// # Errors
    /// As [`cold::freeze`].
    pub fn freeze(&self, pack: &Pack, freezer_c: Value) -> Result<Arc<Hours>, HeatError> {
        let question = (pack.clone(), freezer_c);
        self.freezes.get(&question, |(pack, c)| cold::freeze(pack, *c, DRAWS, SEED).map(Arc::new))
    }
}
