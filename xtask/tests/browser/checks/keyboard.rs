//! The page walked by keyboard: the skip link first, the five places, then the first button, and the focus always seen.

use fantoccini::key::Key;
use serde_json::Value;

use crate::Stop;
use crate::driver::Driver;
use crate::pages::Page;
use crate::view::View;

/// More stops than any page has before its first button.
const MOST: usize = 80;

/// What has the focus, and whether anyone can see that.
const FOCUS: &str = r##"
const e = document.activeElement;
if (!e || e === document.body) return null;
const box = e.getBoundingClientRect();
const inside = box.width > 0 && box.height > 0 && box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth;
const marked = (x) => {
  const style = getComputedStyle(x);
  return (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1) || style.boxShadow !== "none";
};
// A chosen word or a field may carry its mark on the label or the frame around it.
let seen = false;
for (let up = e, steps = 0; up && steps < 3; up = up.parentElement, steps++) seen ||= marked(up);
const held = (at, most) => Math.min(Math.max(at, 0), most - 1);
const parts = [0.1, 0.5, 0.9];
const spots = parts.flatMap((across) => parts.map((down) => document.elementFromPoint(
  held(box.left + box.width * across, innerWidth), held(box.top + box.height * down, innerHeight))));
const mine = (top) => top && (top === e || e.contains(top) || top.contains(e) || e.closest("label, .take")?.contains(top));
return {
  name: `${e.tagName.toLowerCase()} "${(e.innerText || e.getAttribute("aria-label") || e.name || e.id || "").trim().slice(0, 40)}"`,
  skip: e.matches("a.skip"),
  place: e.closest(".places") ? e.innerText.trim() : null,
  button: e.closest("main") !== null && e.matches("button, .press"),
  inMain: e.closest("main") !== null,
  shown: inside && seen,
  covered: inside && !spots.some(mine),
};
"##;

pub(super) async fn path(driver: &Driver, page: &Page, url: &str, view: &View) -> Result<Vec<String>, Stop> {
    driver.open(url, view).await?;
    let mut wrong = Vec::new();
    let (mut places, mut button) = (Vec::new(), false);
    for stop in 0..MOST {
        driver.press(char::from(Key::Tab)).await?;
        let focus = driver.ask(FOCUS).await?;
        if focus.is_null() {
            break;
        }
        let name = focus["name"].as_str().unwrap_or_default();
        if stop == 0 && focus["skip"] != true {
            wrong.push(format!("the first stop is {name}, not the skip link"));
        }
        if focus["shown"] != true {
            wrong.push(format!("the focus on {name} cannot be seen"));
        }
        if focus["covered"] == true {
            wrong.push(format!("{name} has the focus behind something else"));
        }
        places.extend(focus["place"].as_str().map(str::to_owned));
        button |= focus["button"] == true;
        if button && (places.len() >= 5 || !page.places) {
            break;
        }
    }
    let wanted = ["Today", "Pieces", "Store", "Table", "Books"];
    if page.places && places != wanted {
        wrong.push(format!("the places are {}, wanted {}", places.join(", "), wanted.join(", ")));
    }
    if page.button && !button {
        wrong.push("no button in the page is reached".to_owned());
    }
    wrong.extend(skips(driver, url, view).await?);
    Ok(wrong)
}

/// The skip link leads past everything else into the page.
async fn skips(driver: &Driver, url: &str, view: &View) -> Result<Option<String>, Stop> {
    driver.open(url, view).await?;
    driver.press(char::from(Key::Tab)).await?;
    driver.press(char::from(Key::Enter)).await?;
    driver.press(char::from(Key::Tab)).await?;
    let focus: Value = driver.ask(FOCUS).await?;
    let inside = focus.is_null() || focus["inMain"] == true;
    Ok((!inside).then(|| format!("after the skip link the next stop is {}, outside the page", focus["name"])))
}
