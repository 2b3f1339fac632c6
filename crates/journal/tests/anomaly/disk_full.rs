use crate::{Folder, reading, reopened};
use journal::{JournalError, Kitchen, Refused, Sqlite};

/// A full disk by SQLite's own page limit: the offer is refused, nothing before it is lost, and after room is made the
/// same entries are taken.
#[test]
fn nothing_is_acknowledged_and_nothing_lost() {
    let folder = Folder::new("full");
    let journal = Sqlite::open(&folder.0).expect("opens");
    journal.limit_pages(24).expect("a limit");
    let kitchen = Kitchen::over(journal, None).expect("reads");
    let mut taken = 0;
    let refused = loop {
        let offer: Vec<_> = (0..20).map(|degree| reading(-f64::from(degree))).collect();
        match kitchen.offer(&offer, "test") {
            Ok(_) => taken += 20,
            Err(refused) => break (offer, refused),
        }
        assert!(taken < 10_000, "the limit did not bite");
    };
    assert_eq!(refused.1, Refused::Journal(JournalError::DiskFull));
    assert_eq!(kitchen.state().number(), taken);
    drop(kitchen);
    let kitchen = reopened(&folder);
    assert_eq!(kitchen.state().number(), taken);
    assert_eq!(kitchen.damage(), []);
    assert!(kitchen.offer(&refused.0, "test").expect("room again").new);
}
