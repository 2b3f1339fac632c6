//! What must hold on each page.

mod audit;
mod board;
mod keyboard;
mod layout;
mod proof;

pub(crate) use board::by_hand;

use std::time::Instant;

use crate::Stop;
use crate::driver::Driver;
use crate::pages::Page;
use crate::view::{PHONE, VIEWS, View};

/// What was found so far; one check of one page through one view counts once.
#[derive(Default)]
pub(crate) struct Findings {
    passed: usize,
    failed: usize,
}

impl Findings {
    /// Notes the outcome of one check; prints what is wrong where something is.
    fn note(&mut self, page: &str, view: &str, check: &str, wrong: &[String]) {
        if wrong.is_empty() {
            self.passed += 1;
            return;
        }
        self.failed += 1;
        println!("{page} ({view}): {check}");
        for line in wrong {
            println!("    {line}");
        }
    }

    /// The closing line, in the words of the test runner; true where everything held.
    pub(crate) fn close(&self) -> bool {
        let held = self.failed == 0 && self.passed > 0;
        let word = if held { "ok" } else { "FAILED" };
        println!("test result: {word}. {} passed; {} failed", self.passed, self.failed);
        held
    }
}

/// The checks themselves, held against a page of faults.
pub(crate) async fn proven(driver: &Driver, rules: &str, findings: &mut Findings) -> Result<(), Stop> {
    let unseen = proof::unseen(driver, rules).await?;
    findings.note("proof", "every view", "the checks do not see", &unseen);
    Ok(())
}

/// Everything that is checked on a page through one view.
pub(crate) async fn shown(
    driver: &Driver,
    page: &Page,
    url: &str,
    view: &View,
    rules: &str,
    findings: &mut Findings,
) -> Result<(), Stop> {
    let (began, name) = (Instant::now(), view.name());
    driver.open(url, view).await?;
    let answers = layout::answers(driver).await?;
    let answered = answers.is_empty();
    findings.note(page.name, &name, "the page does not answer", &answers);
    if !answered {
        return Ok(());
    }
    findings.note(page.name, &name, "scrolls sideways", &layout::sideways(driver).await?);
    findings.note(page.name, &name, "accessibility", &audit::violations(driver, rules).await?);
    if view.size == PHONE {
        findings.note(
            page.name,
            &name,
            "targets too small for a thumb",
            &layout::small_targets(driver).await?,
        );
        findings.note(
            page.name,
            &name,
            "scrolls sideways at 320 px",
            &layout::sideways_when_narrow(driver, view).await?,
        );
    }
    findings.note(page.name, &name, "left in the browser's log", &driver.log().await?);
    if !view.dark {
        findings.note(page.name, &name, "keyboard", &keyboard::path(driver, page, url, view).await?);
    }
    println!("{} ({name}) looked at in {:.1} s", page.name, began.elapsed().as_secs_f64());
    Ok(())
}

/// The page with scripts switched off still says its answer.
pub(crate) async fn without_script(
    driver: &Driver,
    page: &Page,
    url: &str,
    findings: &mut Findings,
) -> Result<(), Stop> {
    driver.scripts(false).await?;
    driver.open(url, &VIEWS[0]).await?;
    let wrong = layout::answers(driver).await?;
    driver.scripts(true).await?;
    findings.note(page.name, "without script", "the page does not answer", &wrong);
    Ok(())
}
