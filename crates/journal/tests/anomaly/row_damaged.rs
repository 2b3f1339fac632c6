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

/// The very bytes: noise over some lines, or over the head of the page they are on. Rows of that page are named, rows
/// before it open, rows after it are sound.
#[test]
fn noise_in_the_file_is_named_row_by_row() {
    const PAGE: usize = 4096;
    for over_the_head in [false, true] {
        let (folder, mut bytes) = four_hundred_in_one_file();
        let line =
            bytes.windows(14).position(|window| window == b"{\"number\":200,").expect("row 200 is in there");
        let from = if over_the_head { line - line % PAGE } else { line };
        let to = if over_the_head { from + 8 } else { (from + 600).min(line - line % PAGE + PAGE) };
        for byte in &mut bytes[from..to] {
            *byte ^= 0x5a;
        }
        std::fs::write(folder.0.join(FILE_NAME), bytes).expect("writes");
        let found = examine(&folder.0).expect("the first page is sound, so the rows can be looked for");
        let named: Vec<u64> = found.damage.iter().map(|damage| damage.number).collect();
        assert!(named.contains(&200), "{named:?}");
        assert_eq!(found.state.number(), named[0] - 1, "everything before the damage opens");
        assert!(named.len() < 40, "rows on other pages are not named: {named:?}");
    }
}

fn four_hundred_in_one_file() -> (Folder, Vec<u8>) {
    let folder = Folder::new("noise");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    let entries: Vec<_> = (1..=400).map(|degree| reading(-f64::from(degree) / 20.0)).collect();
    kitchen.offer(&entries, "test").expect("taken");
    drop(kitchen);
    drop(crate::reopened(&folder));
    let file = Connection::open(folder.0.join(FILE_NAME)).expect("opens");
    file.execute_batch("PRAGMA wal_checkpoint(TRUNCATE)").expect("all in one file");
    drop(file);
    let bytes = std::fs::read(folder.0.join(FILE_NAME)).expect("reads");
    (folder, bytes)
}
