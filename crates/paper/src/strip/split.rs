//! Where a long strip is parted onto sheets.

/// Longest stretch between two shared lines, mm. With its overlaps it stays on A4 and on Letter, both across.
const LONGEST: f64 = 230.0;
/// How far a sheet goes past a shared line, mm: room to lay and to tape.
pub(super) const PAST: f64 = 6.0;

/// One sheet's stretch, mm from the squared face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Part {
    /// What is drawn, from here …
    pub(super) begin: f64,
    /// … to here.
    pub(super) end: f64,
    /// The line shared with the sheet before.
    pub(super) shared_before: Option<f64>,
    /// The line shared with the sheet after.
    pub(super) shared_after: Option<f64>,
}

/// As few sheets as will do, about alike, parted at whole steps of `step` mm (at most 12.7) from the squared face,
/// so that a shared line lies on a long tick.
pub(super) fn split(begin: f64, end: f64, step: f64) -> Vec<Part> {
    let sheets = ((end - begin) / LONGEST).ceil().max(1.0);
    let shared = |line: f64| ((begin + (end - begin) * line / sheets) / step).round() * step;
    let sheets = sheets as usize;
    (0..sheets)
        .map(|sheet| {
            let shared_before = (sheet > 0).then(|| shared(sheet as f64));
            let shared_after = (sheet + 1 < sheets).then(|| shared(sheet as f64 + 1.0));
            Part {
                begin: shared_before.map_or(begin, |line| line - PAST),
                end: shared_after.map_or(end, |line| line + PAST),
                shared_before,
                shared_after,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_roll_of_452_mm_shares_a_line_at_220() {
        let parts = split(-10.0, 442.0, 10.0);
        assert_eq!(parts.len(), 2);
        assert_eq!((parts[0].shared_after, parts[1].shared_before), (Some(220.0), Some(220.0)));
        assert_eq!(
            (parts[0].begin, parts[0].end, parts[1].begin, parts[1].end),
            (-10.0, 226.0, 214.0, 442.0)
        );
    }

    #[test]
    fn no_sheet_is_longer_than_the_paper_and_none_is_missing() {
        for tenths in 100..20_000 {
            let (begin, end) = (-f64::from(tenths % 300) / 10.0, f64::from(tenths) / 10.0);
            let parts = split(begin, end, if tenths % 2 == 0 { 10.0 } else { 12.7 });
            assert_eq!((parts[0].begin, parts[parts.len() - 1].end), (begin, end));
            for pair in parts.windows(2) {
                assert_eq!(pair[0].shared_after, pair[1].shared_before);
            }
            for part in parts {
                let shown = part.end - part.begin;
                assert!(shown > 0.0 && shown <= LONGEST + 12.7 + 2.0 * PAST, "{begin} to {end}: {part:?}");
            }
        }
    }
}
