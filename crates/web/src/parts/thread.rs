//! The thread: the seven steps of one piece's life, each a link to its page for this piece.

use maud::{Markup, html};

/// How a step stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Filled dot.
    Done,
    /// Ring.
    Now,
    /// Hollow, on a dotted line.
    Ahead,
}

/// A step of the thread.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Knot {
    /// Buy, Cut, Store, Thaw, Salt, Cook, Plate.
    pub name: &'static str,
    /// Day or hour, as seen from now; empty where it is not known.
    pub when: String,
    /// How it stands.
    pub mark: Mark,
    /// The page of this step for this piece.
    pub link: String,
}

/// The life of one piece or portion.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thread {
    /// Whose life: `TARN`, `TARN 4`.
    pub of: String,
    /// Its seven steps.
    pub knots: Vec<Knot>,
}

/// The thread as a row of seven.
#[must_use]
pub fn thread(thread: &Thread) -> Markup {
    html! {
        nav class="thread" aria-label={ "The life of " (thread.of) } {
            ol {
                @for knot in &thread.knots {
                    li class=[(knot.mark == Mark::Ahead).then_some("ahead")]
                        aria-current=[(knot.mark == Mark::Now).then_some("step")] {
                        a href=(knot.link) {
                            b { (knot.name) }
                            (knot.when)
                            span class="unseen" { (state_word(knot.mark)) }
                        }
                    }
                }
            }
        }
    }
}

fn state_word(mark: Mark) -> &'static str {
    match mark {
        Mark::Done => ", done",
        Mark::Now => ", now",
        Mark::Ahead => ", ahead",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn done_now_and_ahead_differ_in_shape_and_in_words() {
        let knot = |name, mark| Knot { name, when: "4 Jul".into(), mark, link: "/piece/tarn".into() };
        let drawn = thread(&Thread {
            of: "TARN".into(),
            knots: vec![knot("Buy", Mark::Done), knot("Cut", Mark::Now), knot("Store", Mark::Ahead)],
        })
        .into_string();
        assert_eq!(drawn.matches("aria-current=\"step\"").count(), 1);
        assert_eq!(drawn.matches("class=\"ahead\"").count(), 1);
        assert!(drawn.contains(", done") && drawn.contains("The life of TARN"));
    }
}
