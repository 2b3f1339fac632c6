//! How it is solved, and why so.
//!
//! # The table
//!
//! Newton's method in temperature, or in θ, diverges where ice begins: the slope of one over the other jumps twentyfold. So T, θ,
//! H and ∫H dθ stand in one table over the arc length `u` of (θ/60 W/m, H/6e8 J/m³), in which no slope is steep, and `u` is
//! the unknown. A look-up is an index. Beyond both ends the last lines are carried on, so that no trial step falls off; what was
//! *reached* is checked against the fit. (With a table that ended at 128 °C, one heating case in a hundred was silently
//! 10 to 180 % off.)
//!
//! # Cells
//!
//! Nodes on the faces and in the middle; fluxes are differences of θ. What matters is the enthalpy of a node's cell:
//!
//! - **One axis, a freezing range**: a third of the node's own, two thirds the exact mean with θ straight between nodes. For
//!   constant properties that weighs neighbours 1/12, 10/12, 1/12, fourth order, and the freezing kink glides through a cell. A thaw
//!   needs 8 cells in half a thickness for 0.1 %, where cells that take their node's enthalpy need 24 or more.
//! - **A sharp front, and two or three axes**: the node's own.
//!
//! The mixed cells hold their reaches (how far θ runs to half way) while each looks for the `u` that carries its enthalpy. Then
//! every cell's equation rises with its own unknown and has one root. Solving all of them together by Newton circled for ever in
//! one run out of a few hundred. Within a step a cell looks six rounds at most, and thawed meat counts as straight over a reach; at
//! the end of a stage everything is settled to the last joule.
//!
//! # Steps
//!
//! Two stages, L-stable, of second order (γ = 1 − 1/√2), **one** Newton round each. The enthalpy is stepped with the
//! linearised flows and never read back from `u`: energy closes by construction, whatever the rounds left undone. Error of a step: half
//! the difference of the stages, and what the straight lines missed of the curve; the second sees a cell pass its freezing
//! point, which the first can sleep through. A stage starts with two seconds or less, grows threefold at most, and ends on its rule by
//! shortening the last step (secant, then a parabola through three tries, halved where it does not converge); reading the time off between two steps is wrong
//! where the middle jumps two kelvins in a hundredth of the time.
//!
//! With two or three axes the flow is taken whole and only the *solve* is a product of one tridiagonal matrix an axis. Sweeping
//! the axes in turn, each with its own flow, pushed a boiling rim and a hot pan against each other: five times the steps.
//!
//! # Grids
//!
//! | shape | for one answer | for a member of a band |
//! |---|---|---|
//! | slab, cylinder, sphere | 24 cells to the middle | 8 |
//! | steak, finite cylinder | 12 × 12 to the middle | 4 × 4 |
//! | brick | 12 × 12 × 12 to the middle | 4 × 4 × 4 |
//!
//! Even faces take half the thickness. A steak's nodes are drawn towards its faces by a sine. Work is counted in
//! [`crate::Work`] and pinned in the tests: a thaw is some 200 solves of nine nodes, a steak through oven, sear and rest 3 000
//! lines of five or nine.
//!
//! # Where the time goes
//!
//! A node costs 20 to 45 ns a stage on one core: the table, the mean of a cell, the elimination, the `u` that carries the enthalpy,
//! about equal parts; a drying face cell costs as much as two nodes. A step begins with what the table said where the last one
//! ended. Eliminations of one line start from both ends, those of many lines go abreast, because the machine waits for quotients
//! and not for arithmetic. Eight members side by side in lanes were tried on the bare loop (lumped cells, no faces): 13 ns alone,
//! 8 in lanes, 6 with the wider registers of newer machines. That factor of two is left for members; the cells of one face
//! side by side gained nothing.
