//! Something to write down, from Today: a weight leads to its piece, a temperature is written here.

mod temperature;
#[cfg(test)]
mod tests;
mod weight;

pub(crate) use temperature::{show as temperature, write as write_temperature};
pub(crate) use weight::show as weight;
