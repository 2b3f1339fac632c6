//! Questions put to the record: joins the state with the planners.

mod board;
mod books;
mod case;
mod ledger;
mod memo;
mod packing;
mod plan;
mod plans;
mod shelf;
mod steps;
mod supper;
#[cfg(test)]
mod testing;
mod thaw;
mod thread;
mod today;
mod ways;

pub use board::{
    BOARD, Board, Cut, Doubt, Made, NextCut, Off, OnTheBoard, board, doubt, last_weighed, on_the_board,
};
pub use books::{Books, BooksRow, Sum, books};
pub use case::{
    Around, Candidate, Case, CaseError, Judged, Look, OwnYield, Take, Unseen, banded, case, is_sold_both_ways,
};
/// The dinner hour's own words, as answers here carry them.
pub use dinner::{
    Chill, DinnerError, HOT_OVEN, Plate as DinnerPlate, Point as WayPoint, RAW_FACE, Road, Row as DinnerRow,
    Slice, Way, Ways,
};
/// From which share of the red gone a layer counts as grey.
pub use heat::colour::GREY;
pub use ledger::{
    Heap, LedgerRow, PieceLedger, Plates, Standing, Whereabouts, counter_price, grams, own_yield,
    piece_ledger, whereabouts,
};
pub use packing::{
    Bag, Expected, Instead, Lot, Member, Packing, Sealed, Thickness, Together, Waiting, bag_mass, board_mass,
    packing, pairs, thickness_of,
};
pub use plan::{Asked, AskedFrom, Measure, Narrowing, Other, Plan, Section, asked, end_name, plan};
pub use plans::Plans;
/// The knife plan's own words, as answers here carry them.
pub use roll::{GivenUp, KnifePlan, Missed, Portion as PlannedPortion, RollError};
pub use shelf::{ByWeight, Chart, Lain, LastCount, Match, Shelf, ShelfPlace, by_weight, last_count, shelf};
pub use steps::{Step, next_steps, portions_words, supper_steps};
pub use supper::{
    Kitchen, LATE_MIN, Missing, NoSupperPlan, PlateServed, SupperAsked, SupperPlan, SupperServed, USUAL_WISH,
    WishWord, moved_key, scale, supper_asked, supper_plan, supper_served,
};
pub use thaw::{Opened, Rescue, Salt, ThawPlan, Thawing, Waiting as ThawWaiting, cold_pack, thaw_plan};
pub use thread::{Knot, Life, life_of_piece, life_of_portion};
pub use today::{Look as TodayLook, Today, known_places, next_supper, today};
pub use ways::{NoWays, PortionWays, WaysWish, is_frozen, portion_ways};
/// Exact grams and prices, as candidates at the case carry them.
pub use worth::{Grams, PerMass, Price as PiecePrice};
