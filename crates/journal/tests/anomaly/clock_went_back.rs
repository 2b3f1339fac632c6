use crate::{Folder, reading, reopened};
use jiff::{SignedDuration, Timestamp};
use journal::{Journal, Kitchen, Refused, Row, Sqlite};

/// The last row was written an hour after what the machine's clock says now.
#[test]
fn a_clock_that_stands_before_the_last_entry_is_refused() {
    let folder = Folder::new("clock");
    let mut journal = Sqlite::open(&folder.0).expect("opens");
    let ahead = Timestamp::now() + SignedDuration::from_hours(1);
    let row = Row::after(&[0; 32], 1, ahead, "test", &reading(-1.0).into());
    journal.append(&[row]).expect("kept");
    drop(journal);
    let kitchen = reopened(&folder);
    let refused = kitchen.offer(&[reading(-2.0)], "test");
    assert!(matches!(refused, Err(Refused::ClockWentBack { .. })), "{refused:?}");
    assert_eq!(Kitchen::state(&kitchen).number(), 1);
}
