//! Opens a house on entries read from a file of JSON Lines, in memory: for looking at pages while they are made.

use jiff::Timestamp;
use record::Entry;
use std::error::Error;

#[tokio::main]
async fn main() -> Result<(), Box<dyn Error>> {
    let mut given = std::env::args().skip(1);
    let file = given.next().ok_or("which file of entries?")?;
    let at = given.next().unwrap_or_else(|| "127.0.0.1:4180".to_owned()).parse()?;
    let now: Option<Timestamp> = given.next().map(|now| now.parse()).transpose()?;
    let kitchen = web::Kitchen::in_memory();
    // Entries are written down by the clock the pages will show.
    if let Some(now) = now {
        kitchen.set_ahead(now.duration_since(Timestamp::now()));
    }
    for line in std::fs::read_to_string(file)?.lines().filter(|line| !line.trim().is_empty()) {
        let entry =
            Entry::read(&serde_json::from_str(line)?).map_err(|problems| format!("{line}: {problems:?}"))?;
        kitchen.offer(&[entry], "example")?;
    }
    let options = web::Options { at, now, hosts: Vec::new(), links: None };
    web::serve(kitchen, options, |_| (), std::future::pending()).await?;
    Ok(())
}
