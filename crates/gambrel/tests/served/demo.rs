//! The season as the program shows it: every place opens, and nothing of it stays unless it was asked to.

use crate::house::{Folder, House, Line};
use std::path::Path;
use std::process::{Command, Output};

fn demo(temporary: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_gambrel"));
    command.env("TMPDIR", temporary).args([
        "demo",
        "--at",
        "127.0.0.1:0",
        "--now",
        "2026-07-18T15:10:00+02:00",
    ]);
    command
}

fn is_empty(folder: &Path) -> bool {
    std::fs::read_dir(folder).expect("the folder is there").next().is_none()
}

#[cfg(unix)]
#[test]
fn every_place_opens_and_nothing_stays() {
    let temporary = Folder::new("demo");
    let mut house = House::started(demo(&temporary.0));
    assert!(!is_empty(&temporary.0), "its record is on disk, like any other");
    let mut line = Line::to(house.at).expect("the house answers");
    for path in ["/api/pieces/tarn", "/api/packs/dusk-3-4", "/api/tables/2026-07-18"] {
        assert_eq!(line.get_whole(path).expect("an answer").0, 200, "{path}");
    }
    drop(line);
    let asked = Command::new("kill").args(["-TERM", &house.child.id().to_string()]).status();
    assert!(asked.expect("kill runs").success());
    assert!(house.child.wait().expect("gone").success());
    assert!(is_empty(&temporary.0), "its record went with it");
}

#[test]
fn it_goes_into_an_empty_folder_alone() {
    let (temporary, folder) = (Folder::new("demo"), Folder::new("kept"));
    let kept = |command: &mut Command| -> Output {
        command.arg("--record").arg(&folder.0).output().expect("the program runs")
    };
    let mut command = demo(&temporary.0);
    command.arg("--record").arg(&folder.0);
    drop(House::started(command));
    let again = kept(&mut demo(&temporary.0));
    let said = String::from_utf8_lossy(&again.stderr).into_owned();
    assert_eq!(again.status.code(), Some(2), "{said}");
    assert!(said.contains("272 entries") && said.contains("gambrel serve --record"), "{said}");
    let check = kept(Command::new(env!("CARGO_BIN_EXE_gambrel")).arg("check"));
    assert_eq!(check.status.code(), Some(0), "{}", String::from_utf8_lossy(&check.stderr));
}
