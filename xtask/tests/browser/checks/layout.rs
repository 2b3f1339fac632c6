//! What a ruler finds on the page.

use serde_json::Value;

use crate::Stop;
use crate::driver::Driver;
use crate::view::{NARROW, View};

/// A page answers: status 200, one heading, an answer in words.
const ANSWERS: &str = r#"
const wrong = [];
const status = performance.getEntriesByType("navigation")[0]?.responseStatus;
if (status && status !== 200) wrong.push(`status ${status}`);
const headings = document.querySelectorAll("h1").length;
if (headings !== 1) wrong.push(`${headings} headings of the first level`);
const answer = document.querySelector("main .answer, main .big, main .verdict");
if (!answer) wrong.push("no answer");
else if (answer.innerText.trim().length < 3) wrong.push("an empty answer");
if (!document.title.trim()) wrong.push("no title");
return wrong;
"#;

/// What reaches past the right edge, unless something it stands in scrolls by itself.
const SIDEWAYS: &str = r##"
const root = document.documentElement;
const reach = Math.max(root.scrollWidth, document.body.scrollWidth);
if (reach <= root.clientWidth) return [];
const name = (e) => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "") + [...e.classList].map((c) => "." + c).join("");
const held = (e) => {
  for (let up = e.parentElement; up && up !== document.body; up = up.parentElement) {
    if (getComputedStyle(up).overflowX !== "visible") return true;
  }
  return false;
};
const past = [...document.body.querySelectorAll("*")]
  .filter((e) => e.getBoundingClientRect().right > root.clientWidth + 0.5 && !held(e))
  .map((e) => `${name(e)} reaches ${Math.ceil(e.getBoundingClientRect().right)} of ${root.clientWidth} px`);
return [`the page is ${reach} px wide`, ...past.slice(-4)];
"##;

/// Buttons, fields and chosen words lower than 48 px; links inside sentences are spared.
const SMALL: &str = r##"
const asked = "button, summary, select, textarea, .press, .pick label, .places a, input:not([type=hidden]):not([type=radio]):not([type=checkbox])";
const shown = (e) => e.checkVisibility({ visibilityProperty: true }) && e.getBoundingClientRect().width > 1;
return [...document.querySelectorAll(asked)].filter(shown).filter((e) => {
  const field = e.closest(".take") ?? e;
  return field.getBoundingClientRect().height < 47.5;
}).map((e) => `${e.tagName.toLowerCase()} "${(e.innerText || e.name || e.id || "").trim().slice(0, 40)}" is ${e.getBoundingClientRect().height.toFixed(1)} px high, allowed: 48 or more`);
"##;

pub(super) async fn answers(driver: &Driver) -> Result<Vec<String>, Stop> {
    list(driver, ANSWERS).await
}

pub(super) async fn sideways(driver: &Driver) -> Result<Vec<String>, Stop> {
    list(driver, SIDEWAYS).await
}

/// The same at the narrowest; the view is set back.
pub(super) async fn sideways_when_narrow(driver: &Driver, view: &View) -> Result<Vec<String>, Stop> {
    driver.resize(&NARROW).await?;
    let found = list(driver, SIDEWAYS).await?;
    driver.resize(&view.size).await?;
    Ok(found)
}

pub(super) async fn small_targets(driver: &Driver) -> Result<Vec<String>, Stop> {
    list(driver, SMALL).await
}

async fn list(driver: &Driver, script: &str) -> Result<Vec<String>, Stop> {
    let found = driver.ask(script).await?;
    let found = found.as_array().ok_or("the page returned no list")?;
    Ok(found.iter().filter_map(Value::as_str).map(str::to_owned).collect())
}
