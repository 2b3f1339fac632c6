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
//! - **A slab, a freezing range**: beside the node's own it leans on its neighbours: it holds shares of the exact mean over the link
//!   to each, θ straight between nodes. The shares are such that what flows into a cell agrees with how its mean changes for cubes
//!   and fourth powers; for constant properties they weigh neighbours 1/12, 10/12, 1/12, and the half cell at a face 2/3, 1/3.
//!   That is of fourth order inside and of third at a face, and the freezing kink glides through a cell. A cook needs 4 cells in
//!   half a thickness for 0.02 %, a freeze 6 for 0.05 %, a thaw 7 for 0.1 %, where cells that take their node's enthalpy need 24 or
//!   more. (A half cell that leaned only half as far, as one inside does, left errors ten times as large.)
//! - **A sharp front, and everything else**: the node's own. Along two axes at once the flows would have to lean too; leaning along one
//!   of them gained nothing, leaning along both by turns is unstable.
//!
//! A cell in which ice begins holds its links at their lengths while it looks for the `u` that carries its enthalpy. Then its equation
//! rises with its own unknown and has one root. Solving all of them together by Newton circled for ever in one run out of a few
//! hundred. Within a step a cell looks six rounds at most, and meat that is thawed throughout counts as straight; at the end of a stage
//! everything is settled to the last joule.
//!
//! # Steps
//!
//! Two stages, L-stable, of second order (γ = 1 − 1/√2), **one** Newton round each, from where the node was heading: a first stage
//! starts where the last step's pace leads, a second where the first one's does. That alone is worth three quarters of the steps
//! of a freeze, whose curve bends. How fast a skin dries, a crust grows and the piece thins goes on within a step as in the last one, so
//! that these too are of second order. The enthalpy is stepped with the linearised flows and never read back from `u`: energy closes
//! by construction, whatever the rounds left undone. Error of a step: half the difference of the stages, and what the straight lines
//! missed of the curve; the second sees a cell pass its freezing point, which the first can sleep through. It is held against what
//! is still to move, coldest to hottest of piece and media: so the last kelvins before a bath's own temperature are followed as
//! closely as the first. A stage starts with two seconds or less, grows threefold at most, and ends on its rule by shortening the
//! last step (secant, then a parabola through three tries, halved where it does not converge); reading the time off between two
//! steps is wrong where the middle jumps two kelvins in a hundredth of the time.
//!
//! Three stages of third order were tried with the same guesses: a quarter fewer steps at 0.1 %, but half as many solves again in each.
//!
//! With two or three axes the flow is taken whole and only the *solve* is a product of one tridiagonal matrix an axis. Sweeping
//! the axes in turn, each with its own flow, pushed a boiling rim and a hot pan against each other: five times the steps.
//!
//! # Grids
//!
//! | shape | for one answer | for a member of a band |
//! |---|---|---|
//! | slab | 24 cells to the middle | 6 |
//! | cylinder, sphere | 24 | 8 |
//! | steak, finite cylinder | 12 × 12 to the middle | 4 × 4 |
//! | brick | 12 × 12 × 12 to the middle | 4 × 4 × 4 |
//!
//! Even faces take half the thickness. A steak's nodes are drawn towards its faces by a sine, a brick's by less. Work is counted in
//! [`crate::Work`] and pinned in the tests: a thaw is some 150 solves of seven nodes, a steak through oven, sear and rest 1 850
//! lines of five or nine.
//!
//! # Where the time goes
//!
//! A node of a steak costs some 20 ns an axis and stage on one core: look-up, rows, elimination, flows, about equal parts; a drying
//! face cell costs as much as two nodes, and the faces of a seared steak two fifths of its time. A slab's nodes are so few that the
//! step itself counts: 0.4 µs, and 3.5 µs to set up a run. Eliminations of one line start from both ends, those of many lines go
//! abreast, because the machine waits for quotients and not for arithmetic. Members side by side in lanes were tried on
//! the bare loop (lumped cells, no faces): 13 ns alone, 8 in lanes, 6 with the wider registers of newer machines. That factor of two is
//! left for members; the cells of one face side by side gained nothing.
