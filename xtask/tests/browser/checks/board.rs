//! A piece is cut without touching the screen: a scale that types, a pedal, undo, and no network for two portions.

use std::time::{Duration, Instant};

use fantoccini::key::Key;

use super::Findings;
use crate::Stop;
use crate::driver::Driver;
use crate::pages::{Page, Record};
use crate::server::Servers;
use crate::view::VIEWS;

const BOARD: Page = Page {
    name: "board, by hand",
    path: "/piece/tarn/board",
    record: Record::Empty,
    places: false,
    button: true,
};

/// How long the page may take to say what came of a key.
const PATIENCE: Duration = Duration::from_secs(10);

/// Writes a piece by the record's own door: a ribeye roll, measured and planned.
const PIECE: &str = r#"
const done = arguments[arguments.length - 1];
const hex = (count) => [...crypto.getRandomValues(new Uint8Array(count))].map((b) => (b & 15).toString(16)).join("");
const time = Date.now().toString(16).padStart(12, "0");
const uuid = () => (time + "7" + hex(3) + "a" + hex(15)).replace(/(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
const at = new Date(Date.now() - 60000).toISOString().slice(0, 19) + "Z";
const piece = uuid();
const entry = (id, kind, body) => ({ id, at, kind, body: { v: 1, ...body } });
fetch("/api/entries", {
  method: "POST",
  headers: { "Content-Type": "application/json" },
  body: JSON.stringify([
    entry(piece, "piece-received", { cut: "beef-ribeye-roll", mass_g: 6400, total: "159.36", currency: "EUR", word: "TARN" }),
    entry(uuid(), "piece-measured", { piece, bag_off_g: 6354, length_mm: 452, slant_first_mm: 10, slant_last_mm: 22 }),
    entry(uuid(), "knife-planned", { piece, want: [{ count: "max", portion_g: 380 }] }),
  ]),
}).then(async (answer) => done(answer.status === 201 ? "" : answer.status + " " + (await answer.text())), (error) => done(String(error)));
"#;

/// Which portion is next; none where the page says something else.
const NEXT: &str =
    "return Number(document.querySelector('h1')?.textContent.match(/portion (\\d+) of/)?.[1] ?? 0)";

/// Cuts a few portions; notes what did not come out as it should.
pub(crate) async fn by_hand(driver: &Driver, servers: &Servers, findings: &mut Findings) -> Result<(), Stop> {
    let url = servers.url(&BOARD);
    driver.open(&servers.url(&Page { path: "/", ..BOARD }), &VIEWS[0]).await?;
    let refused = driver.client.execute_async(PIECE, Vec::new()).await?;
    let refused = refused.as_str().unwrap_or("no answer").to_owned();
    findings.note(BOARD.name, "record", "a piece is written", &one(&refused, refused.is_empty()));
    driver.open(&url, &VIEWS[0]).await?;

    let mut wrong = Vec::new();
    expect(driver, 1, "the page opens", &mut wrong).await?;
    type_weight(driver, "386").await?;
    expect(driver, 2, "a scale typed 386 and Enter", &mut wrong).await?;
    driver
        .ask(
            "document.dispatchEvent(new KeyboardEvent('keydown', { key: ' ', repeat: true, bubbles: true }))",
        )
        .await?;
    expect(driver, 2, "a key that is held is one press", &mut wrong).await?;
    driver.press(' ').await?;
    expect(driver, 3, "the pedal without a weight", &mut wrong).await?;
    says(
        driver,
        "return location.search.includes('made=')",
        "a cut without a weight stands in the address",
        &mut wrong,
    )
    .await?;
    driver.press(char::from(Key::Backspace)).await?;
    expect(driver, 2, "undo of a cut without a weight", &mut wrong).await?;

    driver.network(false).await?;
    type_weight(driver, "381").await?;
    expect(driver, 3, "a weight without network", &mut wrong).await?;
    type_weight(driver, "377").await?;
    expect(driver, 4, "a second weight without network", &mut wrong).await?;
    let waits = "return document.querySelector('[data-writing]').textContent.includes('2 entries waiting')";
    says(driver, waits, "the head counts what waits", &mut wrong).await?;
    says(
        driver,
        "return document.querySelector('[data-typed]').value === ''",
        "the next field is empty",
        &mut wrong,
    )
    .await?;
    driver.network(true).await?;
    let written = "return document.body.innerText.includes('taken as portion 3')";
    says(driver, written, "what waited is written down", &mut wrong).await?;
    expect(driver, 4, "nothing is lost or counted twice", &mut wrong).await?;
    driver.press(char::from(Key::Backspace)).await?;
    expect(driver, 3, "undo of the last weight", &mut wrong).await?;
    // What the browser notes of the network that was taken from it is not the page's.
    driver.log().await?;
    findings.note(BOARD.name, "phone, light", "cut by keys alone", &wrong);
    Ok(())
}

/// A scale that types: digits and Enter, wherever the focus is.
async fn type_weight(driver: &Driver, grams: &str) -> Result<(), Stop> {
    driver.ask("document.activeElement?.blur()").await?;
    for digit in grams.chars() {
        driver.press(digit).await?;
    }
    driver.press(char::from(Key::Enter)).await
}

async fn expect(driver: &Driver, next: u64, after: &str, wrong: &mut Vec<String>) -> Result<(), Stop> {
    let began = Instant::now();
    loop {
        let found = driver.ask(NEXT).await?.as_u64().unwrap_or_default();
        if found == next {
            return Ok(());
        }
        if began.elapsed() > PATIENCE {
            wrong.push(format!("{after}: portion {found} is next, wanted {next}"));
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

async fn says(driver: &Driver, script: &str, what: &str, wrong: &mut Vec<String>) -> Result<(), Stop> {
    let began = Instant::now();
    while driver.ask(script).await? != true {
        if began.elapsed() > PATIENCE {
            wrong.push(format!("{what}: not so"));
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    Ok(())
}

fn one(words: &str, is_good: bool) -> Vec<String> {
    if is_good { Vec::new() } else { vec![words.to_owned()] }
}
