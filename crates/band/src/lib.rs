//! Uncertain inputs, ensembles, bands, and what would narrow an answer.
