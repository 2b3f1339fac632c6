//! The piece from the side, as plan and board draw it.

use quantity::{Length, LengthUnit, Units};
use season::Plan;

use crate::plot::piece::{Height, Side, Slice};
use crate::plot::rule::Graduation;

/// The drawing of a plan: `slices` and `next` in mm from the squared face.
pub(crate) fn side(plan: &Plan, units: &Units, slices: Vec<Slice>, next: Option<(f64, String)>) -> Side {
    Side {
        length_mm: plan.plan.length.mm(),
        squared_first_mm: plan.zero.mm(),
        heights: heights(plan),
        slices,
        next,
        ends: plan.ends.clone(),
        graduation: graduation(units),
    }
}

/// A place on the rule of a piece: millimetres, or inches.
pub(crate) fn figure(units: &Units) -> impl Fn(f64) -> String + use<> {
    let inches = units.length == LengthUnit::Inch;
    move |mm| {
        if inches { format!("{:.0}", Length::from_mm(mm).inch()) } else { format!("{mm:.0}") }
    }
}

fn graduation(units: &Units) -> Graduation {
    match units.length {
        LengthUnit::Millimetre => Graduation { unit: 10.0, main: 100.0 },
        LengthUnit::Inch => {
            Graduation { unit: Length::from_inch(1.0).mm(), main: Length::from_inch(4.0).mm() }
        }
    }
}

/// How much of its height an end keeps at its tip (drawn, not measured).
const TIP: f64 = 0.7;

/// Sections of the outline, with the two faces drawn as far off square as they are squared off.
fn heights(plan: &Plan) -> Vec<Height> {
    let length = plan.plan.length.mm();
    let first = plan.zero.mm();
    let last = plan.plan.marks.last().map_or(0.0, |mark| length - mark.mm()).max(0.0);
    let whole = |section: &season::Section| Height {
        at_mm: section.at.mm(),
        height_mm: section.height.mm(),
        cap_mm: section.height.mm() * section.cap_share,
    };
    let inside = |height: &Height| height.at_mm > first && height.at_mm < length - last;
    let middle: Vec<Height> = plan.outline.iter().map(whole).filter(inside).collect();
    let (Some(start), Some(end)) = (middle.first().copied(), middle.last().copied()) else { return middle };
    let tip = |at_mm, height: Height, share: f64| Height {
        at_mm,
        height_mm: height.height_mm * share,
        cap_mm: height.cap_mm * share,
    };
    let mut heights = vec![tip(0.0, start, if first > 1.0 { TIP } else { 1.0 })];
    heights.extend((first > 1.0).then(|| tip(first, start, 1.0)));
    heights.extend(middle);
    heights.extend((last > 1.0).then(|| tip(length - last, end, 1.0)));
    heights.push(tip(length, end, if last > 1.0 { TIP } else { 1.0 }));
    heights
}
