//! Heat in one piece: properties, shapes, media, stages and the solver.
