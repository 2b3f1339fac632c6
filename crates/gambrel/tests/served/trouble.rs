//! What the program says and keeps when something is wrong around it.

use crate::house::{Folder, House, Line};
use serde_json::{Value, json};
use std::path::Path;
use std::process::{Command, Output};
use std::time::{Duration, Instant};
use uuid::Uuid;

fn gambrel(arguments: &[&str], record: &Path) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_gambrel"));
    command.args(arguments).arg("--record").arg(record).output().expect("the program runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn reading(celsius: f64) -> Value {
    let at = jiff::Timestamp::now().to_string();
    let body = json!({ "v": 1, "place": "cellar chest", "at_c": celsius });
    json!({ "id": Uuid::now_v7(), "at": at, "kind": "temperature-read", "body": body })
}

#[test]
fn a_second_house_on_one_record_is_refused_and_the_first_goes_on() {
    let folder = Folder::new("second");
    let house = House::open(&folder.0);
    let mut line = Line::to(house.at).expect("the house answers");
    assert_eq!(line.post(&reading(-19.0).to_string()).expect("an answer").0, 201);
    for second in
        [gambrel(&["serve", "--at", "127.0.0.1:0"], &folder.0), gambrel(&["import", "/dev/null"], &folder.0)]
    {
        assert_eq!(second.status.code(), Some(2), "{}", said(&second));
    }
    let second = gambrel(&["serve", "--at", "127.0.0.1:0"], &folder.0);
    assert!(said(&second).contains("open in another program"), "{}", said(&second));
    // Reading it through is no writing.
    assert_eq!(gambrel(&["check"], &folder.0).status.code(), Some(0));
    let lines = gambrel(&["export"], &folder.0).stdout;
    assert_eq!(String::from_utf8_lossy(&lines).lines().count(), 1);
    assert_eq!(line.post(&reading(-19.1).to_string()).expect("an answer").0, 201);
}

#[test]
fn an_address_that_is_taken_is_named() {
    let (folder, other) = (Folder::new("taken"), Folder::new("taken"));
    let house = House::open(&folder.0);
    let at = house.at.to_string();
    let second = gambrel(&["serve", "--at", &at], &other.0);
    assert_eq!(second.status.code(), Some(2));
    assert!(said(&second).contains(&at), "{}", said(&second));
}

/// A limit on the size of files stands for a disk that takes no more (full by SQLite's own count is tested beside the
/// journal): writes fail, and what was acknowledged stays.
#[test]
fn a_disk_that_takes_no_more_loses_nothing() {
    let folder = Folder::new("full");
    let mut limited = Command::new("sh");
    // 1000 blocks of 512 bytes; without the trap the system would end the program instead of telling it.
    limited.args(["-c", "trap '' XFSZ; ulimit -f 1000; exec \"$0\" \"$@\"", env!("CARGO_BIN_EXE_gambrel")]);
    let mut house = House::of(limited, &folder.0);
    let mut line = Line::to(house.at).expect("the house answers");
    let mut taken = 0;
    let refused = loop {
        let offer = reading(-19.0).to_string();
        match line.post(&offer).expect("an answer") {
            (201, _) => taken += 1,
            (status, answer) => break (offer, status, answer),
        }
        assert!(taken < 5000, "the limit did not bite");
    };
    assert!(taken > 10, "{taken}");
    assert_eq!((refused.1, &refused.2["reason"]), (507, &json!("disk-erred")), "{}", refused.2);
    // It still answers, and says so again.
    assert_eq!(line.get("/api/entries").expect("an answer"), 200);
    house.kill();
    assert_eq!(gambrel(&["check"], &folder.0).status.code(), Some(0));
    let lines = gambrel(&["export"], &folder.0).stdout;
    assert_eq!(String::from_utf8_lossy(&lines).lines().count(), taken);
    // With room again, the same entry is taken.
    let house = House::open(&folder.0);
    let mut line = Line::to(house.at).expect("the house answers");
    assert_eq!(line.post(&refused.0).expect("an answer").0, 201);
}

#[test]
fn a_damaged_row_is_named_and_what_stands_before_it_opens() {
    let folder = Folder::new("damaged");
    let mut house = House::open(&folder.0);
    let mut line = Line::to(house.at).expect("the house answers");
    let entries: Vec<Value> = (1..=9).map(|degree| reading(-f64::from(degree))).collect();
    assert_eq!(line.post(&Value::Array(entries).to_string()).expect("an answer").0, 201);
    house.kill();
    // The log is folded into the file by opening it once more; then one digit of the fifth reading is another.
    drop(House::open(&folder.0));
    fold_the_log(&folder.0);
    let path = folder.0.join(journal::FILE_NAME);
    let mut bytes = std::fs::read(&path).expect("reads");
    let digit =
        bytes.windows(11).position(|window| window == b"\"at_c\":-5.0").expect("the fifth reading") + 8;
    bytes[digit] = b'6';
    std::fs::write(&path, bytes).expect("writes");
    let check = gambrel(&["check"], &folder.0);
    assert_eq!(check.status.code(), Some(2));
    assert!(said(&check).contains("row 5") && !said(&check).contains("row 6"), "{}", said(&check));
    let export = gambrel(&["export"], &folder.0);
    assert_eq!((export.status.code(), String::from_utf8_lossy(&export.stdout).lines().count()), (Some(2), 4));
    let house = House::open(&folder.0);
    let mut line = Line::to(house.at).expect("the house answers");
    let (status, answer) = line.post(&reading(-3.0).to_string()).expect("an answer");
    assert_eq!((status, &answer["reason"]), (503, &json!("read-only")), "{answer}");
}

fn fold_the_log(folder: &Path) {
    // A kitchen that closes in order leaves no log behind.
    drop(journal::Kitchen::open(folder).expect("opens"));
    assert!(!folder.join(format!("{}-wal", journal::FILE_NAME)).exists());
}

/// Asked to end while somebody listens: the listener hears the end, and the program is gone within seconds.
#[cfg(unix)]
#[test]
fn the_house_closes_though_somebody_listens() {
    let folder = Folder::new("closes");
    let mut house = House::open(&folder.0);
    let mut listener = Line::to(house.at).expect("the house answers");
    assert_eq!(listener.get("/api/changes").expect("an answer"), 200);
    let begun = Instant::now();
    let ended =
        Command::new("kill").args(["-TERM", &house.child.id().to_string()]).status().expect("kill runs");
    assert!(ended.success());
    listener.rest().expect("the stream ends");
    let status = house.child.wait().expect("gone");
    assert!(status.success(), "{status}");
    assert!(begun.elapsed() < Duration::from_secs(5), "{:?}", begun.elapsed());
}

#[test]
fn beyond_this_machine_nobody_comes_in_without_the_link() {
    let folder = Folder::new("beyond");
    let mut command = Command::new(env!("CARGO_BIN_EXE_gambrel"));
    command.args(["serve", "--at", "0.0.0.0:0", "--record"]).arg(&folder.0);
    command.stdin(std::process::Stdio::null()).stdout(std::process::Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    let mut said = std::io::BufReader::new(child.stdout.take().expect("its output"));
    let mut link = String::new();
    while !link.contains("/come-in/") {
        link.clear();
        assert!(
            std::io::BufRead::read_line(&mut said, &mut link).expect("a line") > 0,
            "no link was printed"
        );
    }
    let rest = link.trim().strip_prefix("http://").expect("an address").to_owned();
    let (at, path) = rest.split_once('/').expect("a path");
    let port: u16 = at.rsplit_once(':').expect("a port").1.parse().expect("a port");
    let house = House { child, at: ([127, 0, 0, 1], port).into() };
    let mut line = Line::to(house.at).expect("the house answers");
    let (status, _) = line.post(&reading(-3.0).to_string()).expect("an answer");
    assert_eq!(status, 403);
    assert_eq!(
        Line::to(house.at).expect("the house answers").get(&format!("/{path}")).expect("an answer"),
        200
    );
}
