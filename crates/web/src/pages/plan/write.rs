//! What the forms of the plan write.

use quantity::Length;
use record::{Ends, Entry, KnifePlanned, Marks, Thickness};
use season::{Asked, Other, Plan, asked, plan};
use uuid::Uuid;

use super::{measure, wants};
use crate::house::Visit;
use crate::reading::Reading;
use crate::sent::Sent;

/// Takes the plan as it stands.
pub(super) const TAKE: &str = "take";
/// Weight for thickness, or thickness for weight.
pub(super) const OTHER: &str = "other";
/// One of the nearest plans, where the wants do not fit.
pub(super) const NEAREST: &str = "nearest";

/// Where a form leads once it is written down.
pub(super) fn after(slug: &str, form: &str) -> String {
    let page = if form == TAKE { "board" } else { "plan" };
    format!("/piece/{slug}/{page}")
}

/// Reads a form into the entries it makes.
pub(super) fn read(reading: &mut Reading<'_>, visit: &Visit, id: Uuid, sent: &Sent) -> Option<Vec<Entry>> {
    let piece = visit.state.piece(id)?;
    match sent.form() {
        measure::MEASURE => measure::read(reading, id).map(|body| vec![reading.entry(body)]),
        wants::WANT => {
            let before = asked(&visit.state, piece);
            let asked = wants::read(reading, before)?;
            settle(reading, visit, id, asked)
        }
        TAKE | OTHER | NEAREST => {
            let now = plan(&visit.state, piece, asked(&visit.state, piece));
            let now = now.map_err(|error| reading.refuse_whole(wants::sentence(&error))).ok()?;
            let which = chosen(&now, sent);
            let asked = match (sent.form(), which) {
                (TAKE, _) => now.asked,
                (_, Some(other)) => Asked { want: other.want.clone(), ..now.asked.clone() },
                (_, None) => {
                    reading
                        .refuse_whole("The plan has changed since this page was made. Look at it once more.");
                    return None;
                }
            };
            settle(reading, visit, id, asked)
        }
        _ => {
            reading.refuse_whole(
                "This form is not one of the plan’s. Open the page anew and send it once more.",
            );
            None
        }
    }
}

fn chosen<'p>(plan: &'p Plan, sent: &Sent) -> Option<&'p Other> {
    match sent.form() {
        OTHER => plan.other.as_ref(),
        _ => plan.nearest.get(sent.get("which")?.parse::<usize>().ok()?),
    }
}

/// Settles on what is asked, if it can be cut at all.
fn settle(reading: &mut Reading<'_>, visit: &Visit, id: Uuid, asked: Asked) -> Option<Vec<Entry>> {
    let piece = visit.state.piece(id)?;
    let body = KnifePlanned {
        piece: id,
        want: asked.want.clone(),
        ends: asked.ends.clone().map(|ends| Ends { ..ends }),
        limits: asked.limits.clone().map(|limits| Thickness { ..limits }),
        knife: asked.knife,
        marks: None,
    };
    let planned = plan(&visit.state, piece, asked).map_err(|error| wants::refuse(reading, &error)).ok()?;
    let marks: Vec<Length> = planned.plan.marks.clone();
    // Rising, as marks are: a squared end of no depth makes none.
    let rising = marks.len() >= 2 && marks.windows(2).all(|pair| pair[0] < pair[1]);
    let body = KnifePlanned { marks: rising.then_some(Marks(marks)), ..body };
    Some(vec![reading.entry(body)])
}
