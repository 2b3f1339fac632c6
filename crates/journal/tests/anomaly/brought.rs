use crate::{Folder, reading};
use jiff::{SignedDuration, Timestamp};
use journal::{FILE_NAME, JournalError, Kitchen, Refused, examine};
use record::{At, Written, example};
use rusqlite::Connection;

/// Exported lines brought into an empty record give the same record: numbers, hours, writers, hashes.
#[test]
fn an_exported_record_comes_back_to_the_byte() {
    let kitchen = Kitchen::in_memory();
    for entry in example::entries() {
        kitchen.offer(&[entry], "the \"old\" phone").expect("taken");
    }
    let rows = kitchen.rows_after(0, usize::MAX).expect("reads");
    let lines: Vec<Written> = rows.iter().map(|row| Written::read_line(&row.line).expect("a line")).collect();
    let folder = Folder::new("brought");
    let other = Kitchen::open(&folder.0).expect("opens");
    other.offer_written(lines.clone(), "import").expect("taken");
    assert_eq!(other.rows_after(0, usize::MAX).expect("reads"), rows);
    // Brought twice it is there once.
    assert!(!other.offer_written(lines, "import").expect("taken").new);
    assert_eq!(other.state().number(), rows.len() as u64);
}

/// Into a record that has entries of its own, what is brought is written down now and by whoever brings it.
#[test]
fn entries_brought_into_another_record_are_written_anew() {
    let kitchen = Kitchen::in_memory();
    kitchen.offer(&[reading(-1.0)], "phone").expect("taken");
    let line = kitchen.rows_after(0, 1).expect("reads").remove(0).line;
    let other = Kitchen::in_memory();
    other.offer(&[reading(-2.0)], "board").expect("taken");
    other.offer_written(vec![Written::read_line(&line).expect("a line")], "import").expect("taken");
    let brought = &other.state();
    let brought = &brought.entry(2).expect("there").stored;
    assert_eq!(&*brought.writer, "import");
}

#[test]
fn what_has_not_happened_yet_is_refused() {
    let kitchen = Kitchen::in_memory();
    let mut tomorrow = reading(-1.0);
    tomorrow.at = At::new(Timestamp::now() + SignedDuration::from_hours(24), jiff::tz::offset(2));
    let refused = kitchen.offer(&[reading(-2.0), tomorrow.clone()], "phone");
    assert!(matches!(refused, Err(Refused::NotYet { index: 1, .. })), "{refused:?}");
    assert_eq!(kitchen.state().number(), 0);
    // A house whose clock stands a day ahead takes it.
    kitchen.set_ahead(SignedDuration::from_hours(24));
    kitchen.offer(&[tomorrow], "phone").expect("taken");
}

#[test]
fn a_database_of_another_program_is_left_alone() {
    let folder = Folder::new("foreign");
    let path = folder.0.join(FILE_NAME);
    let foreign = Connection::open(&path).expect("opens");
    foreign.execute_batch("CREATE TABLE recipe (name TEXT)").expect("made");
    drop(foreign);
    let before = std::fs::read(&path).expect("reads");
    for refused in [Kitchen::open(&folder.0).map(drop), examine(&folder.0).map(drop)] {
        assert!(matches!(refused, Err(JournalError::CannotOpen { .. })), "{refused:?}");
    }
    std::fs::write(&path, "a letter").expect("writes");
    assert!(matches!(Kitchen::open(&folder.0).map(drop), Err(JournalError::CannotOpen { .. })));
    std::fs::write(&path, before).expect("writes");
}
