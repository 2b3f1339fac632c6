//! Entries on disk: SQLite, a hash chain, nothing acknowledged before it is written.
