//! Entries and the state folded from them; what may follow what.
