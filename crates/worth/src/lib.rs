//! Grams and money: the ledger, the yield test, the counter.
