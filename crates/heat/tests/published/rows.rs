//! One row of a reference: what was published, what we compute, and whether that lies inside the row's own tolerance. Each
//! file gives its rows; each is checked where it stands, and all are written into the table of the docs.

use band::Band;
use std::fmt::Write;

/// What a row asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Fit {
    /// Within this share of the figure.
    Share(f64),
    /// Within this much of the figure, in its unit.
    Within(f64),
    /// Our 80 % band and what was told meet.
    Band,
    /// Inside what was told.
    Told,
}

#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) block: &'static str,
    pub(crate) what: String,
    pub(crate) unit: &'static str,
    pub(crate) status: &'static str,
    /// From, to; one figure twice.
    pub(crate) told: [f64; 2],
    pub(crate) ours: Band,
    pub(crate) fit: Fit,
    /// Why it is known to miss.
    pub(crate) miss: Option<&'static str>,
}

impl Row {
    pub(crate) fn new(
        block: &'static str,
        what: impl Into<String>,
        unit: &'static str,
        status: &'static str,
        told: f64,
        ours: f64,
        fit: Fit,
    ) -> Self {
        let ours = Band { median: ours, low: ours, high: ours };
        Self { block, what: what.into(), unit, status, told: [told, told], ours, fit, miss: None }
    }

    pub(crate) fn told(self, from: f64, to: f64) -> Self {
        Self { told: [from, to], ..self }
    }

    pub(crate) fn band(self, ours: Band) -> Self {
        Self { ours, ..self }
    }

    pub(crate) fn misses(self, because: &'static str) -> Self {
        Self { miss: Some(because), ..self }
    }

    pub(crate) fn inside(&self) -> bool {
        let [from, to] = self.told;
        match self.fit {
            Fit::Share(share) => self.off().abs() <= share * self.nearest().abs(),
            Fit::Within(most) => self.off().abs() <= most,
            Fit::Band => from <= self.ours.high && to >= self.ours.low,
            Fit::Told => self.ours.median >= from && self.ours.median <= to,
        }
    }

    /// The told figure nearest to ours.
    fn nearest(&self) -> f64 {
        let [from, to] = self.told;
        if self.ours.median < from { from } else { self.ours.median.min(to) }
    }

    pub(crate) fn off(&self) -> f64 {
        self.ours.median - self.nearest()
    }
}

/// A miss that comes inside is as much news as a row that falls out.
pub(crate) fn check(rows: &[Row]) {
    let mut wrong = Vec::new();
    for row in rows {
        let line = format!(
            "{:24} {:52} told {:>16} ours {:>26} {:>9} {}",
            row.block,
            row.what,
            range(row.told[0], row.told[1]),
            ours(row),
            difference(row),
            if row.inside() { "in" } else { "OUT" }
        );
        println!("{line}");
        if row.inside() == row.miss.is_some() {
            wrong.push(line);
        }
    }
    assert!(wrong.is_empty(), "not as written down:\n{}", wrong.join("\n"));
}

/// The rows as a table of the docs, a section a block.
pub(crate) fn table(rows: &[Row]) -> String {
    let mut text = String::new();
    let mut block = "";
    for row in rows {
        if row.block != block {
            block = row.block;
            let _ = write!(
                text,
                "\n### {block}\n\n| row | status | published | computed | difference | allowed | |\n|---|---|---|---|---|---|---|\n"
            );
        }
        let verdict = match row.miss {
            None => "inside".to_owned(),
            Some(because) => format!("**known miss**: {because}"),
        };
        let _ = writeln!(
            text,
            "| {} | {} | {} {} | {} | {} | {} | {verdict} |",
            row.what,
            row.status,
            range(row.told[0], row.told[1]),
            row.unit,
            ours(row),
            difference(row),
            allowed(row),
        );
    }
    text
}

fn allowed(row: &Row) -> String {
    match row.fit {
        Fit::Share(share) => format!("{} %", figures(100.0 * share, 2)),
        Fit::Within(most) => format!("{} {}", figures(most, 2), row.unit),
        Fit::Band => "80 % band".to_owned(),
        Fit::Told => "what was told".to_owned(),
    }
}

fn difference(row: &Row) -> String {
    let off = row.off();
    match row.fit {
        Fit::Within(_) => format!("{} {}", signed(off), row.unit),
        _ if row.inside() && off == 0.0 => "0".to_owned(),
        _ => format!("{} %", signed(100.0 * off / row.nearest().abs())),
    }
}

fn ours(row: &Row) -> String {
    let Band { median, low, high } = row.ours;
    if low.to_bits() == high.to_bits() {
        figures(median, 4)
    } else {
        format!("{} ({} to {})", figures(median, 3), figures(low, 3), figures(high, 3))
    }
}

fn range(from: f64, to: f64) -> String {
    if from.to_bits() == to.to_bits() {
        figures(from, 4)
    } else if to.is_infinite() {
        format!("{} or more", figures(from, 3))
    } else if from.is_infinite() {
        format!("{} or less", figures(to, 3))
    } else {
        format!("{} to {}", figures(from, 3), figures(to, 3))
    }
}

/// So few figures that a last bit of another machine does not show.
fn signed(value: f64) -> String {
    if value.abs() < 5e-5 {
        return "0".to_owned();
    }
    let text = figures(value.abs(), 2);
    if value < 0.0 { format!("−{text}") } else { format!("+{text}") }
}

fn figures(value: f64, count: i32) -> String {
    if !value.is_finite() {
        return "never".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let places = (count - 1 - value.abs().log10().floor() as i32).max(0) as usize;
    let text = format!("{value:.places$}").replace('-', "−");
    if places > 9 { format!("{value:.1e}").replace('-', "−") } else { text }
}
