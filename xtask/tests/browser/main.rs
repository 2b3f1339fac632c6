//! The pages in a real browser: every row of [`pages::PAGES`] on a phone and on a laptop, light and dark.
//!
//! A page holds if it answers, scrolls only down, passes the accessibility audit with contrast on, can be walked by
//! keyboard, has targets as large as a wet thumb needs, says its answer without script, and leaves nothing in the
//! browser's log. `shots` takes pictures instead.
//!
//! ```text
//! browser check|shots [--at URL] [PAGE…]
//! ```
//! Without `--at` the product itself is started on the invented season. `GAMBREL` names its binary, `AXE` the file of the
//! accessibility rules, `SHOTS` the folder of the pictures; `cargo xtask check` and `cargo xtask shots` set them.

// This is a developers' command that speaks on standard output.
#![allow(clippy::print_stdout, clippy::expect_used)]

mod checks;
mod driver;
mod pages;
mod server;
mod shots;
mod view;

use std::process::ExitCode;

use checks::Findings;
use driver::Driver;
use pages::{PAGES, Page};
use server::Servers;
use view::VIEWS;

/// Anything that stops the run, in words.
type Stop = Box<dyn std::error::Error>;

struct Asked {
    shots: bool,
    at: Option<String>,
    pages: Vec<&'static Page>,
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let done = match asked(std::env::args().skip(1)) {
        Ok(asked) => run(&asked).await,
        Err(why) => Err(why.into()),
    };
    match done {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(why) => {
            println!("the browser run stopped: {why}\ntest result: FAILED. 0 passed; 1 failed");
            ExitCode::FAILURE
        }
    }
}

fn asked(mut words: impl Iterator<Item = String>) -> Result<Asked, String> {
    let usage = "browser check|shots [--at URL] [PAGE…]";
    let shots = match words.next().as_deref() {
        Some("check") => false,
        Some("shots") => true,
        _ => return Err(usage.into()),
    };
    let (mut at, mut pages) = (None, Vec::new());
    while let Some(word) = words.next() {
        if word == "--at" {
            at = Some(words.next().ok_or(usage)?.trim_end_matches('/').to_owned());
        } else {
            pages.push(Page::named(&word)?);
        }
    }
    if pages.is_empty() {
        pages = PAGES.iter().collect();
    }
    Ok(Asked { shots, at, pages })
}

async fn run(asked: &Asked) -> Result<bool, Stop> {
    let servers = match &asked.at {
        Some(url) => Servers::running(url),
        None => Servers::start()?,
    };
    let driver = Driver::start().await?;
    let held = if asked.shots {
        shots::take(&driver, &servers, &asked.pages).await.map(|()| true)
    } else {
        check(&driver, &servers, &asked.pages).await
    };
    driver.end().await;
    held
}

async fn check(driver: &Driver, servers: &Servers, pages: &[&Page]) -> Result<bool, Stop> {
    let rules = std::env::var("AXE").map_err(|_| "AXE names no file of accessibility rules")?;
    let rules = std::fs::read_to_string(&rules).map_err(|error| format!("{rules}: {error}"))?;
    let mut findings = Findings::default();
    checks::proven(driver, &rules, &mut findings).await?;
    for page in pages {
        let url = servers.url(page);
        for view in &VIEWS {
            checks::shown(driver, page, &url, view, &rules, &mut findings).await?;
        }
        checks::without_script(driver, page, &url, &mut findings).await?;
    }
    // Last: it writes to the record that was empty until then.
    if servers.are_ours() && pages.iter().any(|page| page.name == "board") {
        checks::by_hand(driver, servers, &mut findings).await?;
    }
    Ok(findings.close())
}
