//! Mass along a piece, the knife plan and the board.
