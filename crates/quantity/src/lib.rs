//! Mass, length, temperature, span and money, read and printed in both unit systems.
//!
//! One type per physical quantity for public borders; inside, each is an `f64` in its SI unit and the kernels take that
//! plain number. A temperature and a step of temperature are two types: 5 °C is 41 °F, a step of 5 K is a step of 9 °F.
//!
//! | type | SI unit inside | read as | shown as |
//! |---|---|---|---|
//! | [`Mass`] | kg | g, kg, oz, lb | `384 g`, `3 800 g`, `6.40 kg`, `13.5 oz`, `14.11 lb` |
//! | [`Length`] | m | mm, cm, in | `29 mm`, `1 1/8 in` |
//! | [`Temperature`], [`TemperatureStep`] | °C, K | °C, °F | `55 °C`, `−19.4 °C`, `131 °F` |
//! | [`Span`] | s | s, min, h | `45 s`, `38 min`, `2 h 10 min` |
//! | [`Money`] | decimal | decimal string | `29.60 €`, `$13.43` |
//!
//! Conversion factors are the exact ones of the international yard and pound; a test holds them against a general
//! units library.

mod money;
mod read;
mod show;
mod si;

pub use money::{Currency, Money, MoneyError};
pub use read::{ReadError, read_length, read_mass, read_number, read_temperature};
pub use show::{Clock, Grain, LengthUnit, MassUnit, TemperatureUnit, Units, group};
pub use si::{Length, Mass, Span, Temperature, TemperatureStep};
