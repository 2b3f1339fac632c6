//! The picture of the slice: a steak cut across, true to scale, its colour through the thickness.

use super::Px;
use maud::{Markup, html};

/// One place of the cut face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Share of the thickness, 0 at the upper face.
    pub depth: f64,
    /// Share of the red turned, 0 to 1.
    pub turned: f64,
}

/// px a millimetre, the same for all that stand beside each other: a roast is drawn smaller than a steak.
fn scale(thickness_mm: f64) -> f64 {
    if thickness_mm > 60.0 { 1.25 } else { 3.0 }
}

/// Steps of colour from the core's to grey.
const STEPS: f64 = 10.0;

/// A cut face `thickness_mm` high; `name` keeps its gradient apart from the others' of a page. Beyond `grey` it is hatched.
#[must_use]
pub fn slice(name: &str, thickness_mm: f64, layers: &[Layer], grey: f64, sentence: &str) -> Markup {
    let high = scale(thickness_mm) * thickness_mm;
    let (top, bottom, middle) = (4.0, 4.0 + high, 4.0 + high / 2.0);
    let outline =
        format!("H28C8 {top:.1} 2 {:.1} 2 {middle:.1}S8 {bottom:.1} 28 {bottom:.1}H168", top + high / 4.0);
    let zones = zones(layers, grey);
    html! {
        svg class="draw" viewBox={ "0 0 170 " (Px(high + 8.0)) } role="img" aria-label=(sentence) {
            defs {
                linearGradient id={ "g-" (name) } x1="0" y1="0" x2="0" y2="1" {
                    @for layer in layers {
                        stop offset=(format!("{:.3}", layer.depth))
                            class=(format!("turned{:.0}", (layer.turned.clamp(0.0, 1.0) * STEPS).round())) {}
                    }
                }
                pattern id={ "h-" (name) } width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                    line x1="0" y1="0" x2="0" y2="6" class="hat" {}
                }
                clipPath id={ "c-" (name) } { path d={ "M168 " (Px(top)) (outline) "Z" } {} }
            }
            g clip-path={ "url(#c-" (name) ")" } {
                rect x="2" y=(Px(top)) width="168" height=(Px(high)) fill={ "url(#g-" (name) ")" } {}
                @for (from, to) in &zones {
                    rect x="2" y=(Px(top + high * from)) width="168" height=(Px(high * (to - from))) fill={ "url(#h-" (name) ")" } {}
                }
            }
            path d={ "M168 " (Px(top)) (outline) } class="ln0" {}
        }
    }
}

/// Stretches of the thickness beyond a limit, straight between layers.
fn zones(layers: &[Layer], limit: f64) -> Vec<(f64, f64)> {
    let mut zones = Vec::new();
    let mut began = layers.first().filter(|layer| layer.turned >= limit).map(|layer| layer.depth);
    for pair in layers.windows(2) {
        let (here, next) = (pair[0], pair[1]);
        if (here.turned >= limit) == (next.turned >= limit) {
            continue;
        }
        let share = (limit - here.turned) / (next.turned - here.turned);
        let crossing = here.depth + share * (next.depth - here.depth);
        match began.take() {
            Some(from) => zones.push((from, crossing)),
            None => began = Some(crossing),
        }
    }
    if let Some(from) = began {
        zones.push((from, 1.0));
    }
    zones
}

/// How far the grey reaches from the upper and from the lower face, as shares of the thickness.
#[must_use]
pub fn rims(layers: &[Layer], limit: f64) -> (f64, f64) {
    let zones = zones(layers, limit);
    let upper = zones.first().filter(|(from, _)| *from < 1e-6).map_or(0.0, |(_, to)| *to);
    let lower = zones.last().filter(|(_, to)| *to > 1.0 - 1e-6).map_or(0.0, |(from, _)| 1.0 - from);
    (upper, lower)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layers(turned: &[f64]) -> Vec<Layer> {
        let last = (turned.len() - 1) as f64;
        turned
            .iter()
            .enumerate()
            .map(|(i, turned)| Layer { depth: i as f64 / last, turned: *turned })
            .collect()
    }

    #[test]
    fn grey_rims_end_between_the_layers_where_the_limit_is_crossed() {
        let cut = layers(&[1.0, 0.5, 0.0, 0.5, 1.0]);
        let (upper, lower) = rims(&cut, 0.75);
        assert!((upper - 0.125).abs() < 1e-9 && (lower - 0.125).abs() < 1e-9, "{upper} {lower}");
        assert_eq!(rims(&layers(&[0.0, 0.0]), 0.75), (0.0, 0.0));
        assert_eq!(zones(&layers(&[1.0, 1.0]), 0.75), [(0.0, 1.0)]);
    }

    #[test]
    fn colour_is_a_class_so_that_the_dark_and_the_printed_page_follow() {
        let drawn = slice("low", 29.0, &layers(&[1.0, 0.0, 1.0]), 0.93, "A slice.").into_string();
        assert!(drawn.contains("class=\"turned10\"") && drawn.contains("class=\"turned0\""), "{drawn}");
        assert!(!drawn.contains('#') || !drawn.contains("fill=\"#"), "{drawn}");
        assert_eq!(drawn.matches("url(#h-low)").count(), 2);
    }
}
