//! The code of a pack: a QR symbol of its address.

use fast_qr::{ECL, Mode, QRBuilder, Version};

use crate::PaperError;
use crate::drawing::Rect;

/// White modules around a symbol that a reader may rely on (ISO/IEC 18004).
pub(crate) const QUIET_MODULES: f64 = 4.0;
/// Largest symbol on a label: 37 modules, of 0.38 mm at 14 mm. Finer ones a phone no longer reads through frost and
/// film.
const LARGEST: Version = Version::V05;
/// Characters the largest symbol holds at level M (ISO/IEC 18004, table of capacities).
const MOST_ALPHANUMERIC: usize = 122;
const MOST_BYTES: usize = 84;
const ALPHANUMERIC: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// A square of dark and light modules.
pub(crate) struct Code {
    pub(crate) side: usize,
    dark: Vec<bool>,
}

impl Code {
    /// Level M: 15 % of the symbol may be frosted over.
    ///
    /// Our addresses do not care for case (neither do scheme and host, RFC 3986), so they are written in capitals,
    /// which makes a symbol of 25 modules out of one of 29. What capitals cannot write is left as it is.
    pub(crate) fn of_address(address: &str) -> Result<Self, PaperError> {
        let capitals = address.to_ascii_uppercase();
        let plain = capitals.chars().all(|letter| ALPHANUMERIC.contains(letter));
        let (text, mode, allowed) = if plain {
            (capitals, Mode::Alphanumeric, MOST_ALPHANUMERIC)
        } else {
            (address.to_owned(), Mode::Byte, MOST_BYTES)
        };
        let too_long = || PaperError::CodeTooLong { found: text.len(), allowed };
        let symbol =
            QRBuilder::new(text.as_bytes()).mode(mode).ecl(ECL::M).build().map_err(|_| too_long())?;
        if symbol.version.is_none_or(|version| version as usize > LARGEST as usize) {
            return Err(too_long());
        }
        let side = symbol.size;
        let dark = (0..side * side).map(|place| symbol[place / side][place % side].value()).collect();
        Ok(Self { side, dark })
    }

    /// Dark modules as rectangles, a run in a row being one, the whole `size` mm wide with its corner at (x, y).
    pub(crate) fn rects(&self, x: f64, y: f64, size: f64) -> Vec<Rect> {
        let module = size / self.side as f64;
        let rows = self.dark.chunks(self.side).enumerate();
        rows.flat_map(|(row, modules)| {
            runs(modules).into_iter().map(move |(from, to)| {
                let across = (to - from) as f64 * module;
                Rect::new(x + from as f64 * module, y + row as f64 * module, across, module)
            })
        })
        .collect()
    }
}

/// Begin and end of each run of dark modules.
fn runs(modules: &[bool]) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (place, _) in modules.iter().enumerate().filter(|(_, dark)| **dark) {
        match found.last_mut() {
            Some(run) if run.1 == place => run.1 += 1,
            _ => found.push((place, place + 1)),
        }
    }
    found
}
