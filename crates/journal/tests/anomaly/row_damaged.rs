use crate::{Folder, reading};
use journal::{FILE_NAME, JournalError, Kitchen, Refused, examine};
use rusqlite::Connection;

fn damaged(name: &str, how: &str) -> (Folder, u64) {
    let folder = Folder::new(name);
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    let entries: Vec<_> = (1..=8).map(|degree| reading(-f64::from(degree))).collect();
    kitchen.offer(&entries, "test").expect("taken");
    drop(kitchen);
    let file = Connection::open(folder.0.join(FILE_NAME)).expect("opens");
    file.execute_batch("DROP TRIGGER entry_is_never_changed; DROP TRIGGER entry_is_never_deleted;")
        .expect("drops");
    file.execute_batch(how).expect("damages");
    (folder, 8)
}

/// A changed line is named, rows before it open, nothing more is taken.
#[test]
fn a_changed_line_is_named_and_what_stands_before_it_opens() {
    let (folder, _) = damaged(
        "changed",
        r#"UPDATE entry SET line = replace(line, '"at_c":-5', '"at_c":-15') WHERE number = 5"#,
    );
    let found = examine(&folder.0).expect("examines");
    assert_eq!(found.damage.iter().map(|damage| damage.number).collect::<Vec<_>>(), [5]);
    assert_eq!(found.state.number(), 4);
    let kitchen = crate::reopened(&folder);
    assert_eq!(kitchen.state().number(), 4);
    let refused = kitchen.offer(&[reading(-3.0)], "test");
    assert!(matches!(refused, Err(Refused::Journal(JournalError::ReadOnly { .. }))), "{refused:?}");
}

#[test]
fn a_missing_row_is_noticed() {
    let (folder, _) = damaged("missing", "DELETE FROM entry WHERE number = 3");
    let found = examine(&folder.0).expect("examines");
    assert_eq!(found.damage.iter().map(|damage| damage.number).collect::<Vec<_>>(), [4]);
    assert_eq!(found.state.number(), 2);
}

#[test]
fn rows_cannot_be_changed_or_deleted_by_accident() {
    let folder = Folder::new("kept");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    kitchen.offer(&[reading(-1.0)], "test").expect("taken");
    let file = Connection::open(folder.0.join(FILE_NAME)).expect("opens");
    for change in ["UPDATE entry SET line = ''", "DELETE FROM entry"] {
        assert!(file.execute_batch(change).is_err(), "{change}");
    }
}

/// The very bytes: a file whose middle was overwritten with noise is noticed, and what can be read is read.
#[test]
fn noise_in_the_file_is_noticed() {
    let folder = Folder::new("noise");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    let entries: Vec<_> = (1..=400).map(|degree| reading(-f64::from(degree) / 20.0)).collect();
    kitchen.offer(&entries, "test").expect("taken");
    drop(kitchen);
    drop(crate::reopened(&folder));
    let path = folder.0.join(FILE_NAME);
    let file = Connection::open(&path).expect("opens");
    file.execute_batch("PRAGMA wal_checkpoint(TRUNCATE)").expect("all in one file");
    drop(file);
    let mut bytes = std::fs::read(&path).expect("reads");
    let middle = bytes.len() / 2;
    for byte in &mut bytes[middle..middle + 600] {
        *byte ^= 0x5a;
    }
    std::fs::write(&path, bytes).expect("writes");
    match examine(&folder.0) {
        Ok(found) => {
            assert!(!found.damage.is_empty() || !found.file.is_empty(), "600 bytes of noise went unnoticed");
        }
        Err(problem) => assert!(matches!(problem, JournalError::Failed { .. }), "{problem}"),
    }
}
