//! A piece before the knife.

use crate::read::{Field, Note, Price, Reader, Scalar, Writer, amount, choice, object, one_of};
use jiff::civil::Date;
use quantity::{Currency, Length, Mass, Temperature};
use rust_decimal::Decimal;
use uuid::Uuid;

choice! {
    /// How far the piece was trimmed when it was bought.
    Trim {
        /// Down to the lean.
        Bare = "bare",
        /// To about 6 mm of fat.
        ToSix = "to-6-mm",
        /// As the packer bagged it.
        AsPacked = "as-packed",
    }
}

choice! {
    /// Whether the strip of lip beyond the eye was left on.
    Lip {
        /// Left on.
        On = "on",
        /// Taken off.
        Off = "off",
    }
}

choice! {
    /// Which of the four dates stood on the bag.
    DateKind {
        /// The day it was packed.
        Pack = "pack",
        /// The day of slaughter.
        Kill = "kill",
        /// The last day it may be used.
        UseBy = "use-by",
        /// The last day it may be sold.
        SellBy = "sell-by",
    }
}

object! {
    /// A date on the bag, of its kind.
    PackerDate {
        /// Which date it is.
        kind: "kind" DateKind = ();
        /// The day.
        day: "day" Date = ();
    }
}

object! {
    /// A piece came in: what it is, what it weighed, what was paid.
    PieceReceived {
        /// The cut, by its catalogue name.
        cut: "cut" String = 60;
        /// Mass on the label.
        mass: "mass" Mass = (50.0, 200_000.0);
        /// What was paid: a price by mass, or for all of it.
        paid: "price" Paid = ();
        /// Currency of the prices.
        currency: "currency" Currency = ();
        /// What the counter asks for the same, cut.
        counter_price: "counter_price" Option<Price> = ();
        /// The four-letter word it shall be called by; left out, the next free one.
        word: "word" Option<String> = 20;
        /// How far it was trimmed.
        trim: "trim" Option<Trim> = ();
        /// Whether the lip is on.
        lip: "lip" Option<Lip> = ();
        /// A date on the bag.
        date: "date" Option<PackerDate> = ();
        /// Core on receipt.
        core: "core" Option<Temperature> = (-60.0, 60.0);
        /// Where it was put.
        place: "place" Option<String> = 60;
        /// With whom it is shared.
        shared_with: "shared_with" Option<String> = 120;
        /// A sentence.
        note: "note" Option<String> = 400;
    }
}

/// What was paid for a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paid {
    /// So much by mass.
    ByMass(Price),
    /// So much for all of it.
    Total(Decimal),
}

impl Paid {
    /// The amount paid for this mass, not rounded.
    #[must_use]
    pub fn total(self, mass: Mass) -> Decimal {
        match self {
            Self::Total(amount) => amount,
            // Labels show grams: a mass is taken to the milligram, so that money stays decimal.
            Self::ByMass(price) => {
                let milligrams = Decimal::try_from((mass.g() * 1000.0).round()).unwrap_or_default();
                price.per_kg() * milligrams / Decimal::from(1_000_000)
            }
        }
    }
}

impl Field for Paid {
    type Limits = ();
    fn read(reader: &mut Reader<'_>, _stem: &str, (): &()) -> Option<Self> {
        let (place, value) = one_of(reader, ["price_per_kg", "price_per_lb", "total"])?;
        Some(match place {
            0 => Self::ByMass(Price::from_per_kg(amount(reader, "price_per_kg", value)?)),
            1 => Self::ByMass(Price::from_per_lb(amount(reader, "price_per_lb", value)?)),
            _ => Self::Total(amount(reader, "total", value)?),
        })
    }
    fn write(&self, writer: &mut Writer, stem: &str) {
        match self {
            Self::ByMass(price) => price.write(writer, stem),
            Self::Total(amount) => amount.write(writer, "total"),
        }
    }
    fn note(notes: &mut Vec<Note>, stem: &str, meaning: &'static str, (): &()) {
        Price::note(notes, stem, meaning, &());
        if let Some(note) = notes.last_mut() {
            note.keys.push("total".to_owned());
            note.values.push(Decimal::schema(&()));
        }
    }
}

object! {
    /// A cross-section measured on the piece.
    Station {
        /// How far from the named end.
        at: "at" Length = (0.0, 3000.0);
        /// Widest across.
        width: "width" Length = (5.0, 1000.0);
        /// Highest.
        height: "height" Length = (5.0, 1000.0);
    }
}

object! {
    /// A piece was weighed or measured before the knife; what is left out keeps what was measured earlier.
    PieceMeasured {
        /// The piece.
        piece: "piece" Uuid = ();
        /// Mass with the bag off, drained.
        bag_off: "bag_off" Option<Mass> = (50.0, 200_000.0);
        /// Liquid in the bag.
        purge: "purge" Option<Mass> = (0.0, 20_000.0);
        /// Mass as it lies on the board, trimmed before slicing: what the knife plan divides.
        on_board: "on_board" Option<Mass> = (50.0, 200_000.0);
        /// Length along the piece.
        length: "length" Option<Length> = (20.0, 3000.0);
        /// How far the first end stands off square.
        slant_first: "slant_first" Option<Length> = (0.0, 500.0);
        /// How far the last end stands off square.
        slant_last: "slant_last" Option<Length> = (0.0, 500.0);
        /// Core.
        core: "core" Option<Temperature> = (-60.0, 60.0);
        /// Cross-sections.
        station: "station" Vec<Station> = (0, 40, ());
        /// The end all lengths are measured from, as `chuck end`.
        from_end: "from_end" Option<String> = 40;
    }
}
