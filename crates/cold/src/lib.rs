//! The cold store: freezing and thawing times with their bands.
