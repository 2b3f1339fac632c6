//! Printing quantities in either unit system, rounded to what the instrument shows.

use crate::{Length, Mass, Span, Temperature, TemperatureStep};

/// The unit a bare mass is typed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MassUnit {
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
    /// Avoirdupois ounce.
    Ounce,
    /// Avoirdupois pound.
    Pound,
}

/// The unit lengths are shown and typed in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetre.
    #[default]
    Millimetre,
    /// Inch.
    Inch,
}

/// The unit temperatures are shown and typed in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TemperatureUnit {
    /// Degree Celsius.
    #[default]
    Celsius,
    /// Degree Fahrenheit.
    Fahrenheit,
}

/// How times of day are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Clock {
    /// `19:13`
    #[default]
    Hours24,
    /// `7:13 pm`
    Hours12,
}

/// How finely a number is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// A forecast: 1 g up to a kilo, then 10 g; 1 °C; 1 mm.
    Forecast,
    /// A reading: the gram, 0.1 °C, 1 mm as the instrument shows it.
    Reading,
}

/// Which unit each kind of quantity is shown in; kinds may be mixed, as people mix them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Pounds and ounces instead of grams and kilos.
    pub pounds: bool,
    /// Millimetres or inches.
    pub length: LengthUnit,
    /// Celsius or Fahrenheit.
    pub temperature: TemperatureUnit,
    /// 24 h or am, pm.
    pub clock: Clock,
}

/// A narrow no-break space: keeps a number and its unit on one line.
const THIN: char = '\u{202f}';

impl Units {
    /// Grams, millimetres, °C, 24 h.
    pub const METRIC: Self = Self {
        pounds: false,
        length: LengthUnit::Millimetre,
        temperature: TemperatureUnit::Celsius,
        clock: Clock::Hours24,
    };
    /// Pounds, inches, °F, am and pm.
    pub const US: Self = Self {
        pounds: true,
        length: LengthUnit::Inch,
        temperature: TemperatureUnit::Fahrenheit,
        clock: Clock::Hours12,
    };

    /// The unit a bare small mass (a portion) is typed in.
    #[must_use]
    pub const fn small_mass(&self) -> MassUnit {
        if self.pounds { MassUnit::Ounce } else { MassUnit::Gram }
    }
    /// The unit a bare large mass (a whole piece) is typed in.
    #[must_use]
    pub const fn large_mass(&self) -> MassUnit {
        if self.pounds { MassUnit::Pound } else { MassUnit::Kilogram }
    }

    /// A mass as the board and the ledger show it: grams (ounces to a pound, then pounds).
    #[must_use]
    pub fn mass(&self, mass: Mass, grain: Grain) -> String {
        if self.pounds {
            return if mass.lb().abs() < 2.0 {
                format!("{}{THIN}oz", fixed(mass.oz(), 1))
            } else {
                format!("{}{THIN}lb", fixed(mass.lb(), 2))
            };
        }
        let grams = match grain {
            Grain::Forecast if mass.g().abs() >= 1000.0 => (mass.g() / 10.0).round() * 10.0,
            _ => mass.g(),
        };
        let decimals = usize::from(grain == Grain::Reading && !near_whole(grams));
        format!("{}{THIN}g", group(grams, decimals))
    }

    /// A mass as buying shows it: `6.40 kg`, `14.11 lb`.
    #[must_use]
    pub fn large(&self, mass: Mass) -> String {
        if self.pounds {
            format!("{}{THIN}lb", fixed(mass.lb(), 2))
        } else {
            let decimals = if near_whole(mass.g() / 10.0) { 2 } else { 3 };
            format!("{}{THIN}kg", fixed(mass.kg(), decimals))
        }
    }

    /// A length: whole millimetres, or sixteenths of an inch as a tape shows them.
    #[must_use]
    pub fn length(&self, length: Length) -> String {
        match self.length {
            LengthUnit::Millimetre => format!("{}{THIN}mm", group(length.mm(), 0)),
            LengthUnit::Inch => format!("{}{THIN}in", sixteenths(length.inch())),
        }
    }

    /// A temperature: whole degrees for a forecast, tenths for a reading in °C.
    #[must_use]
    pub fn temperature(&self, temperature: Temperature, grain: Grain) -> String {
        match self.temperature {
            TemperatureUnit::Celsius => {
                format!("{}{THIN}°C", fixed(temperature.c(), usize::from(grain == Grain::Reading)))
            }
            TemperatureUnit::Fahrenheit => format!("{}{THIN}°F", fixed(temperature.f(), 0)),
        }
    }

    /// A difference of temperatures, in the shown degree.
    #[must_use]
    pub fn step(&self, step: TemperatureStep) -> String {
        match self.temperature {
            TemperatureUnit::Celsius => format!("{}{THIN}°C", fixed(step.k(), 1)),
            TemperatureUnit::Fahrenheit => format!("{}{THIN}°F", fixed(step.f_step(), 0)),
        }
    }

    /// A time of day, `19:13` or `7:13 pm`, from hours and minutes.
    #[must_use]
    pub fn clock(&self, hour: u8, minute: u8) -> String {
        match self.clock {
            Clock::Hours24 => format!("{hour:02}:{minute:02}"),
            Clock::Hours12 => {
                let half = if hour < 12 { "am" } else { "pm" };
                format!("{}:{minute:02}{THIN}{half}", if hour.is_multiple_of(12) { 12 } else { hour % 12 })
            }
        }
    }

    /// A length of time: seconds under two minutes, minutes under two hours, then hours and minutes.
    #[must_use]
    pub fn span(&self, span: Span) -> String {
        let seconds = span.s();
        if seconds.abs() < 120.0 {
            format!("{}{THIN}s", fixed(seconds, 0))
        } else if seconds.abs() < 7200.0 {
            format!("{}{THIN}min", fixed(span.min(), 0))
        } else {
            let minutes = span.min().round();
            let rest = (minutes % 60.0).abs();
            if rest == 0.0 {
                format!("{}{THIN}h", fixed(minutes / 60.0, 0))
            } else {
                format!("{}{THIN}h {}{THIN}min", fixed((minutes / 60.0).trunc(), 0), fixed(rest, 0))
            }
        }
    }
}

/// A number with narrow no-break spaces between thousands and a true minus; `3 800`, `−19.4`.
#[must_use]
pub fn group(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    let (whole, fraction) = text.split_once('.').map_or((text.as_str(), None), |(w, f)| (w, Some(f)));
    let mut grouped = String::new();
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            grouped.push(THIN);
        }
        grouped.push(digit);
    }
    if let Some(fraction) = fraction {
        grouped.push('.');
        grouped.push_str(fraction);
    }
    let is_zero = grouped.chars().all(|c| !c.is_ascii_digit() || c == '0');
    if value < 0.0 && !is_zero { format!("−{grouped}") } else { grouped }
}

fn fixed(value: f64, decimals: usize) -> String {
    group(value, decimals)
}

fn near_whole(value: f64) -> bool {
    (value - value.round()).abs() < 1e-6
}

/// `1 1/8`, `5/16`, `2`: rounded to the nearest sixteenth and reduced.
fn sixteenths(inches: f64) -> String {
    let count = (inches.abs() * 16.0).round() as i64;
    let minus = if inches < 0.0 && count > 0 { "−" } else { "" };
    let (whole, mut part, mut of) = (count / 16, count % 16, 16);
    while part > 0 && part % 2 == 0 {
        part /= 2;
        of /= 2;
    }
    match (whole, part) {
        (_, 0) => format!("{minus}{whole}"),
        (0, _) => format!("{minus}{part}/{of}"),
        _ => format!("{minus}{whole} {part}/{of}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows of "Writing numbers": what the page shows for what is meant.
    #[test]
    fn rounds_to_what_is_meant() {
        let metric = Units::METRIC;
        let us = Units::US;
        let rows = [
            (metric.mass(Mass::from_g(3800.0), Grain::Reading), "3 800 g"),
            (metric.mass(Mass::from_g(3804.0), Grain::Forecast), "3 800 g"),
            (metric.mass(Mass::from_g(379.4), Grain::Forecast), "379 g"),
            (metric.mass(Mass::from_g(26.6), Grain::Reading), "26.6 g"),
            (metric.large(Mass::from_kg(6.4)), "6.40 kg"),
            (metric.large(Mass::from_kg(5.865)), "5.865 kg"),
            (us.large(Mass::from_kg(6.4)), "14.11 lb"),
            (us.mass(Mass::from_g(384.0), Grain::Reading), "13.5 oz"),
            (metric.length(Length::from_mm(203.6)), "204 mm"),
            (us.length(Length::from_mm(29.0)), "1 1/8 in"),
            (us.length(Length::from_mm(50.8)), "2 in"),
            (metric.temperature(Temperature::from_c(-19.4), Grain::Reading), "−19.4 °C"),
            (metric.temperature(Temperature::from_c(54.6), Grain::Forecast), "55 °C"),
            (us.temperature(Temperature::from_c(55.0), Grain::Forecast), "131 °F"),
            (us.clock(19, 13), "7:13 pm"),
            (us.clock(0, 5), "12:05 am"),
            (metric.clock(9, 4), "09:04"),
            (metric.span(Span::from_min(38.0)), "38 min"),
            (metric.span(Span::from_min(130.0)), "2 h 10 min"),
            (metric.span(Span::from_s(45.0)), "45 s"),
        ];
        for (shown, wanted) in rows {
            assert_eq!(shown.replace(THIN, " "), wanted);
        }
    }

    #[test]
    fn nothing_is_shown_as_minus_zero() {
        assert_eq!(group(-0.04, 1), "0.0");
        assert_eq!(group(-1234567.8, 1).replace(THIN, " "), "−1 234 567.8");
    }
}
