//! How long a page takes on the server: the demo from its start, the first page after an entry, pages once computed.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

const PAGES: &[&str] = &["/", "/piece/tarn", "/piece/tarn/plan", "/store", "/table", "/books"];
const TIMES: usize = 200;

pub(crate) fn run(root: &Path) -> Result<(), String> {
    crate::succeed(Command::new("cargo").args(["build", "--release", "--quiet"]).current_dir(root))?;
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), Into::into);
    let begun = Instant::now();
    let (mut demo, at) = demo(&target.join("release/gambrel"))?;
    let told = measure(&at, begun);
    let _ = demo.kill();
    let _ = demo.wait();
    told
}

fn measure(at: &str, begun: Instant) -> Result<(), String> {
    println!("demo, from its start to its address: {:?}", begun.elapsed());
    println!("first page of all: {:?}", get(at, "/")?.0);
    let mut first = Vec::new();
    for celsius in 0..5 {
        write(at, celsius)?;
        first.push(get(at, "/")?.0);
    }
    println!("today, the first time after an entry: median {:?}", median(first));
    for page in PAGES {
        let mut times = Vec::new();
        let mut size = 0;
        for _ in 0..TIMES {
            let (time, bytes) = get(at, page)?;
            times.push(time);
            size = bytes;
        }
        println!("{page}: median {:?} of {TIMES}, {size} bytes", median(times));
    }
    Ok(())
}

/// An entry that every forecast of tonight hangs on.
fn write(at: &str, celsius: i32) -> Result<(), String> {
    let entry = get_body(at, "/api/entries?after=0")?;
    let moment = entry
        .rsplit("\"at\":\"")
        .next()
        .and_then(|rest| rest.split('"').next())
        .filter(|moment| moment.contains('T'))
        .ok_or("the demo's entries have no hour")?;
    // A version 7 id of its own: the last digits count.
    let id = format!("019f7000-0000-7000-8000-{:012x}", celsius + 1);
    let body = format!(
        r#"{{"id":"{id}","at":"{moment}","kind":"temperature-read","body":{{"v":1,"place":"fridge","at_c":{}}}}}"#,
        2.0 + f64::from(celsius) / 4.0
    );
    let answer = exchange(
        at,
        &format!(
            "POST /api/entries HTTP/1.1\r\nHost: {at}\r\nContent-Type: application/json\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{body}",
            body.len()
        ),
    )?;
    if answer.starts_with(b"HTTP/1.1 201") {
        Ok(())
    } else {
        Err(String::from_utf8_lossy(&answer).into_owned())
    }
}

fn get(at: &str, path: &str) -> Result<(Duration, usize), String> {
    let request = format!("GET {path} HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\n\r\n");
    let begun = Instant::now();
    let answer = exchange(at, &request)?;
    let time = begun.elapsed();
    if answer.starts_with(b"HTTP/1.1 200") {
        Ok((time, answer.len()))
    } else {
        Err(format!("{path} is not there"))
    }
}

fn get_body(at: &str, path: &str) -> Result<String, String> {
    let request = format!("GET {path} HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\n\r\n");
    Ok(String::from_utf8_lossy(&exchange(at, &request)?).into_owned())
}

fn exchange(at: &str, request: &str) -> Result<Vec<u8>, String> {
    let mut stream = TcpStream::connect(at).map_err(|problem| problem.to_string())?;
    stream.write_all(request.as_bytes()).map_err(|problem| problem.to_string())?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).map_err(|problem| problem.to_string())?;
    Ok(answer)
}

fn demo(program: &Path) -> Result<(Child, String), String> {
    let mut demo = Command::new(program)
        .args(["demo", "--at", "127.0.0.1:0", "--now", "2026-07-18T15:10:00+02:00"])
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|problem| format!("{} does not run: {problem}", program.display()))?;
    let said = demo.stdout.take().ok_or("nothing to read from")?;
    let mut line = String::new();
    BufReader::new(said).read_line(&mut line).map_err(|problem| problem.to_string())?;
    match line.trim().rsplit_once("http://") {
        Some((_, at)) => Ok((demo, at.to_owned())),
        None => Err(format!("no address in {line:?}")),
    }
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}
