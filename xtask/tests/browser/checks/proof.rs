//! The checks held against a page that has every fault they look for: a check that finds nothing there proves nothing
//! elsewhere.

use std::path::Path;

use super::{audit, keyboard, layout};
use crate::Stop;
use crate::driver::Driver;
use crate::pages::{Page, Record};
use crate::view::{LAPTOP, PHONE, VIEWS, View};

const PROOF: Page = Page { name: "proof", path: "", record: Record::Empty, places: true, button: false };

/// What the checks fail to see.
pub(super) async fn unseen(driver: &Driver, rules: &str) -> Result<Vec<String>, Stop> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/browser/proof.html");
    let url = format!("file://{}", file.display());
    let mut unseen = Vec::new();
    let mut see = |what: &str, seen: bool| {
        if !seen {
            unseen.push(what.to_owned());
        }
    };

    driver.open(&url, &VIEWS[0]).await?;
    see("the answer a script writes", layout::answers(driver).await?.is_empty());
    see("sideways scroll on a phone", !layout::sideways(driver).await?.is_empty());
    see("sideways scroll at 320 px", !layout::sideways_when_narrow(driver, &VIEWS[0]).await?.is_empty());
    see("a button 20 px high", !layout::small_targets(driver).await?.is_empty());
    let light = audit::violations(driver, rules).await?;
    see("a field without a name", light.iter().any(|line| line.starts_with("label:")));
    see("that the light page has contrast", !light.iter().any(|line| line.starts_with("color-contrast:")));
    see("a line in the log", driver.log().await?.iter().any(|line| line.contains("left in the log")));

    driver.open(&url, &View { size: PHONE, dark: true }).await?;
    let dark = audit::violations(driver, rules).await?;
    see("that the dark page lacks contrast", dark.iter().any(|line| line.starts_with("color-contrast:")));

    let laptop = View { size: LAPTOP, dark: false };
    let path = keyboard::path(driver, &PROOF, &url, &laptop).await?;
    see("a missing skip link", path.iter().any(|line| line.contains("not the skip link")));
    see("a focus without a mark", path.iter().any(|line| line.contains("cannot be seen")));
    see("missing places", path.iter().any(|line| line.contains("the places are")));

    driver.scripts(false).await?;
    driver.open(&url, &VIEWS[0]).await?;
    let answers = layout::answers(driver).await?;
    driver.scripts(true).await?;
    see("an answer that is missing without script", !answers.is_empty());
    Ok(unseen)
}
