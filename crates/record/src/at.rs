//! When something happened: a moment with the offset it was written in.

use jiff::{Timestamp, ZonedDateTime, civil, fmt::temporal::Pieces, tz::Offset, tz::TimeZone};
use std::fmt;

/// A moment and the offset of the clock it was read from; RFC 3339, `2026-07-18T15:10:00+02:00`.
///
/// Two moments are ordered by time alone, whatever their offsets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct At {
    timestamp: Timestamp,
    offset: Offset,
}

impl At {
    /// A moment as read from a clock at this offset.
    #[must_use]
    pub const fn new(timestamp: Timestamp, offset: Offset) -> Self {
        Self { timestamp, offset }
    }

    /// A moment in its zone; the zone's offset at that moment is kept.
    #[must_use]
    pub fn of(zoned: &ZonedDateTime) -> Self {
        Self { timestamp: zoned.timestamp(), offset: zoned.offset() }
    }

    /// Reads RFC 3339 (section 5.6): date, `T`, time with seconds, and `Z` or an offset. Nothing if it is anything else.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        if !is_rfc_3339(text.as_bytes()) {
            return None;
        }
        let pieces = Pieces::parse(text).ok()?;
        let offset = pieces.to_numeric_offset()?;
        let moment = pieces.date().to_datetime(pieces.time()?);
        Some(Self { timestamp: offset.to_timestamp(moment).ok()?, offset })
    }

    /// The moment itself.
    #[must_use]
    pub const fn timestamp(&self) -> Timestamp {
        self.timestamp
    }

    /// The offset it was written in.
    #[must_use]
    pub const fn offset(&self) -> Offset {
        self.offset
    }

    /// Date and time on the clock it was read from.
    #[must_use]
    pub fn on_its_clock(&self) -> civil::DateTime {
        self.offset.to_datetime(self.timestamp)
    }

    /// The same moment in a zone, as pages of a kitchen show it.
    #[must_use]
    pub fn in_zone(&self, zone: &TimeZone) -> ZonedDateTime {
        self.timestamp.to_zoned_datetime(zone.clone())
    }
}

impl PartialOrd for At {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for At {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        // The offset decides only between equal moments, so that order and equality agree.
        self.timestamp.cmp(&other.timestamp).then(self.offset.cmp(&other.offset))
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.timestamp.display_with_offset(self.offset))
    }
}

/// Whether the shape is `YYYY-MM-DDThh:mm:ss[.f](Z|±hh:mm)`; the calendar library is more lenient than the standard.
fn is_rfc_3339(text: &[u8]) -> bool {
    let digits =
        |from: usize, to: usize| text.get(from..to).is_some_and(|s| s.iter().all(u8::is_ascii_digit));
    let mark = |at: usize, allowed: &[u8]| text.get(at).is_some_and(|c| allowed.contains(c));
    let date = digits(0, 4) && mark(4, b"-") && digits(5, 7) && mark(7, b"-") && digits(8, 10);
    let time = mark(10, b"Tt")
        && digits(11, 13)
        && mark(13, b":")
        && digits(14, 16)
        && mark(16, b":")
        && digits(17, 19);
    if !(date && time) {
        return false;
    }
    let mut zone = 19;
    if mark(19, b".") {
        zone = 20 + text[20..].iter().take_while(|c| c.is_ascii_digit()).count();
        if zone == 20 {
            return false;
        }
    }
    match text.get(zone) {
        Some(b'Z' | b'z') => text.len() == zone + 1,
        Some(b'+' | b'-') => {
            text.len() == zone + 6
                && digits(zone + 1, zone + 3)
                && mark(zone + 3, b":")
                && digits(zone + 4, zone + 6)
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 3339 section 5.8, the examples (published); the leap second is taken as the last second before it.
    #[test]
    fn reads_the_examples_of_the_standard() {
        for text in [
            "1985-04-12T23:20:50.52Z",
            "1996-12-19T16:39:57-08:00",
            "1990-12-31T23:59:60Z",
            "1990-12-31T15:59:60-08:00",
            "1937-01-01T12:00:27.87+00:20",
        ] {
            assert!(At::read(text).is_some(), "{text}");
        }
        assert_eq!(
            At::read("1996-12-19T16:39:57-08:00").unwrap().timestamp(),
            "1996-12-20T00:39:57Z".parse().unwrap()
        );
    }

    #[test]
    fn a_moment_without_an_offset_is_no_moment() {
        for text in [
            "2026-07-18T15:10:00",
            "2026-07-18 15:10:00+02:00",
            "2026-07-18T15:10+02:00",
            "2026-07-18T15:10:00+02",
            "2026-07-18T15:10:00+02:00[Europe/Vienna]",
            "2026-07-18T25:10:00+02:00",
            "2026-02-30T15:10:00+02:00",
            "2026-07-18T15:10:00.+02:00",
            "18 July",
            "",
        ] {
            assert_eq!(At::read(text), None, "{text}");
        }
    }

    #[test]
    fn is_written_in_its_own_offset() {
        let text = "2026-07-18T15:10:00+02:00";
        assert_eq!(At::read(text).unwrap().to_string(), text);
        assert!(At::read("2026-07-18T15:10:00+02:00") > At::read("2026-07-18T14:10:00+01:30"));
    }
}
