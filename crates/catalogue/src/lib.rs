//! What the trade agrees on: cuts, constituents, media, rules, each figure with its source.
