//! The books in an order, and the cutting test of the piece last cut.

use catalogue::Trim;
use season::{Books, BooksRow};

use crate::house::Visit;

/// How the pieces stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Order {
    /// As they came.
    #[default]
    Day,
    /// By what was bought, most first.
    Bought,
    /// By plates, most first.
    Plates,
    /// By what was saved, most first.
    Saved,
}

impl Order {
    pub(super) fn named(name: &str) -> Option<Self> {
        Some(match name {
            "day" => Self::Day,
            "bought" => Self::Bought,
            "plates" => Self::Plates,
            "saved" => Self::Saved,
            _ => return None,
        })
    }
}

/// What the page shows.
pub(super) struct Found<'v> {
    pub(super) books: Books<'v>,
    pub(super) order: Order,
    /// The piece last cut, beside what is usual.
    pub(super) test: Option<Test>,
}

/// A cutting test.
pub(super) struct Test {
    pub(super) word: String,
    pub(super) cut: String,
    pub(super) came_in: quantity::Mass,
    /// Portions, lean trim, fat, the rest.
    pub(super) parts: Vec<TestPart>,
    pub(super) trim: Option<String>,
    pub(super) source: Option<String>,
}

/// A line of a cutting test.
pub(super) struct TestPart {
    pub(super) name: &'static str,
    pub(super) mass: quantity::Mass,
    /// The share it usually has, four times in five, if the catalogue knows this trim.
    pub(super) usual: Option<(f64, f64)>,
}

pub(super) fn found(visit: &Visit, order: Order) -> Found<'_> {
    let mut books = season::books(&visit.state, visit.at());
    let test = books.rows.iter().rev().find(|row| row.ledger.plates.is_some()).map(|row| test(visit, row));
    let saved = |row: &BooksRow<'_>| {
        row.ledger.plates.as_ref().and_then(|plates| plates.saved).map(|saved| saved.amount)
    };
    match order {
        Order::Day => {}
        Order::Bought => books.rows.sort_by(|a, b| b.ledger.came_in.g().total_cmp(&a.ledger.came_in.g())),
        Order::Plates => {
            books.rows.sort_by_key(|row| std::cmp::Reverse(row.ledger.plates.as_ref().map_or(0, |p| p.count)))
        }
        Order::Saved => books.rows.sort_by_key(|row| std::cmp::Reverse(saved(row))),
    }
    Found { books, order, test }
}

fn test(visit: &Visit, row: &BooksRow<'_>) -> Test {
    use record::PartName::{Bone, Cap, CleanFat, EndsFirst, EndsLast, LeanTrim, Other, Purge, SilverSkin};
    let ledger = visit.state.ledger(row.piece);
    let of = |names: &[record::PartName]| {
        ledger.parts.iter().filter(|(name, _, _)| names.contains(name)).map(|(_, _, mass)| *mass).sum()
    };
    let lean: quantity::Mass = of(&[LeanTrim, EndsFirst, EndsLast, Cap]);
    let fat: quantity::Mass = of(&[CleanFat]);
    let waste: quantity::Mass = of(&[SilverSkin, Bone, Other, Purge]);
    let rest = waste + ledger.purge.map_or_else(Default::default, record::Purge::mass) + ledger.unexplained;
    let received = &row.piece.received;
    let trim = received.trim.and_then(|trim| Trim::named(trim.word()));
    let usual = trim.and_then(|trim| catalogue::yield_prior(&received.cut, trim));
    // Four pieces in five lie within 1.28 standard deviations; the heaps share what the portions leave, in proportion.
    let share = |mean: f64| {
        usual.map(|usual| {
            let rest = 1.0 - usual.portions;
            let spread = if rest > 0.0 { 1.281_55 * usual.portions_sd * mean / rest } else { 0.0 };
            ((mean - spread).max(0.0), mean + spread)
        })
    };
    let portions = usual.map(|usual| {
        (
            usual.portions - 1.281_55 * usual.portions_sd,
            (usual.portions + 1.281_55 * usual.portions_sd).min(1.0),
        )
    });
    let part = |name, mass, usual| TestPart { name, mass, usual };
    Test {
        word: row.piece.word.to_string(),
        cut: received.cut.clone(),
        came_in: ledger.came_in,
        parts: vec![
            part("portions", ledger.portions, portions),
            part("lean trim, ends", lean, usual.and_then(|usual| share(usual.lean_trim))),
            part("clean fat", fat, usual.and_then(|usual| share(usual.fat))),
            part(
                "bone, silver skin, purge, rest",
                rest,
                usual.and_then(|usual| share(usual.bone + usual.purge)),
            ),
        ],
        trim: usual.map(|usual| usual.words.clone()),
        source: usual
            .and_then(|usual| catalogue::source(&usual.basis.source))
            .map(|source| source.citation.clone()),
    }
}
