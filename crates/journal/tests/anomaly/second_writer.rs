use crate::{Folder, reading};
use journal::{JournalError, Kitchen};

#[test]
fn a_second_program_on_one_record_is_refused() {
    let folder = Folder::new("second");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    let second = Kitchen::open(&folder.0).map(drop);
    assert_eq!(second, Err(JournalError::InUse { path: folder.0.clone() }));
    kitchen.offer(&[reading(-1.0)], "test").expect("the first goes on");
}

/// A folder that even root cannot write: the system's own list of processes.
#[test]
fn a_folder_that_cannot_be_written_is_refused_plainly() {
    let refused = Kitchen::open(std::path::Path::new("/proc/gambrel")).map(drop);
    assert!(matches!(refused, Err(JournalError::CannotOpen { .. })), "{refused:?}");
}

/// Many threads at once: every one is answered, numbers are dense, the chain holds.
#[test]
fn many_writers_share_one_record() {
    let folder = Folder::new("many");
    let kitchen = Kitchen::open(&folder.0).expect("opens");
    std::thread::scope(|scope| {
        for _ in 0..8 {
            scope.spawn(|| {
                for degree in 0..25 {
                    kitchen.offer(&[reading(-f64::from(degree))], "test").expect("taken");
                }
            });
        }
    });
    assert_eq!(kitchen.state().number(), 200);
    drop(kitchen);
    let kitchen = crate::reopened(&folder);
    assert_eq!((kitchen.state().number(), kitchen.damage().len()), (200, 0));
}
