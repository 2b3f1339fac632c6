//! The chain back from the dinner hour.
