//! Bands in words: rounded outward to what is meant, with one unit behind both ends.

use band::Band;
use quantity::{Currency, Grain, Length, Mass, Temperature, Units, group};
use rust_decimal::Decimal;

/// A narrow no-break space.
const THIN: char = '\u{202f}';

/// A band as it is shown: the middle with its unit, the two ends bare, and the unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The middle, with its unit.
    pub middle: String,
    /// The lower end, without a unit.
    pub low: String,
    /// The upper end, without a unit.
    pub high: String,
    /// The unit, or nothing where the ends carry it themselves (times of day, money with its sign before it).
    pub unit: String,
}

impl Shown {
    /// `between 28.60 and 30.70 €`
    #[must_use]
    pub fn between(&self) -> String {
        format!("between {} and {}{}", self.low, self.high, self.tail())
    }

    /// `28.60 to 30.70 €`
    #[must_use]
    pub fn to(&self) -> String {
        format!("{} to {}{}", self.low, self.high, self.tail())
    }

    /// `28.60–30.70`: for the second line of a table's cell.
    #[must_use]
    pub fn dash(&self) -> String {
        format!("{}–{}", self.low, self.high)
    }

    /// Whether both ends and the middle read the same, so that naming the ends says nothing.
    #[must_use]
    pub fn is_sharp(&self) -> bool {
        self.low == self.high
    }

    fn tail(&self) -> String {
        if self.unit.is_empty() { String::new() } else { format!("{THIN}{}", self.unit) }
    }

    /// Rounds a band of plain numbers to multiples of `step`, written with `decimals`.
    #[must_use]
    pub fn stepped(band: Band, step: f64, decimals: usize, unit: &str) -> Self {
        let (low, high) = outward(band, step);
        let middle = (band.median / step).round() * step;
        let space = if unit.is_empty() { String::new() } else { format!("{THIN}{unit}") };
        Self {
            middle: format!("{}{space}", group(middle, decimals)),
            low: group(low, decimals),
            high: group(high, decimals),
            unit: unit.to_owned(),
        }
    }

    /// A forecast mass, band in kg: 1 g to a kilo, then 10 g; ounces to a tenth, pounds to a hundredth.
    #[must_use]
    pub fn mass(units: &Units, kg: Band) -> Self {
        let middle = Mass::from_kg(kg.median);
        if units.pounds {
            return if middle.lb().abs() < 2.0 {
                Self::stepped(kg.times(1.0 / Mass::from_oz(1.0).kg()), 0.1, 1, "oz")
            } else {
                Self::stepped(kg.times(1.0 / Mass::from_lb(1.0).kg()), 0.01, 2, "lb")
            };
        }
        let step = if middle.g().abs() < 1000.0 { 1.0 } else { 10.0 };
        Self::stepped(kg.times(1000.0), step, 0, "g")
    }

    /// A forecast core temperature, band in °C: whole degrees.
    #[must_use]
    pub fn temperature(units: &Units, celsius: Band) -> Self {
        let shown = |value: f64| units.temperature(Temperature::from_c(value), Grain::Forecast);
        let (_, unit) = number_and_unit(&shown(celsius.median));
        let degrees = |value: f64| match units.temperature {
            quantity::TemperatureUnit::Celsius => value,
            quantity::TemperatureUnit::Fahrenheit => Temperature::from_c(value).f(),
        };
        let band =
            Band { median: degrees(celsius.median), low: degrees(celsius.low), high: degrees(celsius.high) };
        Self::stepped(band, 1.0, 0, &unit)
    }

    /// A forecast length, band in m: whole millimetres, or tenths of an inch.
    #[must_use]
    pub fn length(units: &Units, metres: Band) -> Self {
        match units.length {
            quantity::LengthUnit::Millimetre => Self::stepped(metres.times(1000.0), 1.0, 0, "mm"),
            quantity::LengthUnit::Inch => {
                Self::stepped(metres.times(1.0 / Length::from_inch(1.0).m()), 0.1, 1, "in")
            }
        }
    }

    /// Forecast money, rounded to a tenth of the currency; a saving is rounded to a whole one.
    #[must_use]
    pub fn money(amount: Band, currency: Currency, whole: bool) -> Self {
        let step = if whole || currency.decimals() == 0 { 1.0 } else { 0.1 };
        let decimals = if step < 1.0 { 2 } else { 0 };
        if currency.sign_first() {
            let bare = Self::stepped(amount, step, decimals, "");
            let signed = |text: String| match text.strip_prefix('−') {
                Some(rest) => format!("−{}{rest}", currency.sign()),
                None => format!("{}{text}", currency.sign()),
            };
            return Self {
                middle: signed(bare.middle),
                low: signed(bare.low),
                high: signed(bare.high),
                unit: String::new(),
            };
        }
        Self::stepped(amount, step, decimals, currency.sign())
    }

    /// A count, as plates: whole, without a unit.
    #[must_use]
    pub fn count(band: Band) -> Self {
        Self::stepped(band, 1.0, 0, "")
    }
}

/// `93 times in 100`; never 0 or 100, which no ensemble can promise.
#[must_use]
pub fn chance(share: f64) -> String {
    let times = (share * 100.0).round().clamp(1.0, 99.0);
    if times < 1.5 { "once in 100".to_owned() } else { format!("{times:.0} times in 100") }
}

/// Exact money as a plain number for a rule or a band; decimals beyond f64's are of no use to a drawing.
#[must_use]
pub fn plain(amount: Decimal) -> f64 {
    amount.try_into().unwrap_or(f64::NAN)
}

/// The ends rounded outward. A value that lies on a step but for the noise of its arithmetic stays there.
fn outward(band: Band, step: f64) -> (f64, f64) {
    let noise = 1e-6;
    ((band.low / step + noise).floor() * step, (band.high / step - noise).ceil() * step)
}

fn number_and_unit(shown: &str) -> (String, String) {
    shown.rsplit_once(THIN).map_or((shown.to_owned(), String::new()), |(n, u)| (n.to_owned(), u.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn band(low: f64, median: f64, high: f64) -> Band {
        Band { median, low, high }
    }

    #[test]
    fn ends_round_outward_and_the_middle_to_nearest() {
        let shown = Shown::mass(&Units::METRIC, band(0.3664, 0.3797, 0.3931));
        assert_eq!(shown.between().replace(THIN, " "), "between 366 and 394 g");
        assert_eq!(shown.middle.replace(THIN, " "), "380 g");
        let large = Shown::mass(&Units::METRIC, band(5.291, 5.318, 5.342));
        assert_eq!(large.to().replace(THIN, " "), "5 290 to 5 350 g");
    }

    #[test]
    fn a_value_on_a_step_is_not_pushed_off_it() {
        assert_eq!(Shown::stepped(band(28.6, 29.6, 30.7), 0.1, 2, "").dash(), "28.60–30.70");
        assert_eq!(Shown::stepped(band(0.3, 0.3, 0.3), 0.1, 1, "").dash(), "0.3–0.3");
    }

    #[test]
    fn money_has_its_sign_where_people_write_it() {
        let euro = Shown::money(band(28.61, 29.58, 30.69), Currency::EUR, false);
        assert_eq!(euro.between().replace(THIN, " "), "between 28.60 and 30.70 €");
        let dollar = Currency::new("USD").unwrap();
        assert_eq!(Shown::money(band(-3.2, 40.0, 54.9), dollar, true).to(), "−$4 to $55");
    }

    #[test]
    fn us_units_switch_the_number_and_the_unit() {
        let shown = Shown::temperature(&Units::US, band(53.2, 54.4, 55.1));
        assert_eq!(shown.to().replace(THIN, " "), "127 to 132 °F");
        assert_eq!(Shown::mass(&Units::US, band(0.366, 0.380, 0.393)).unit, "oz");
    }

    #[test]
    fn no_chance_is_certain() {
        assert_eq!(chance(0.934), "93 times in 100");
        assert_eq!(chance(1.0), "99 times in 100");
        assert_eq!(chance(0.0), "once in 100");
    }
}
