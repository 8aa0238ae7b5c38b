//! A number as it is shown, with the number and unit that the text came from.

use crate::Look;
use crate::amount;
use crate::words::minutes;
use fardel_core::units::{Currency, Hours, Mass, Money, Volume};
use fardel_words::say;
use serde::Serialize;
use std::fmt;

/// What is shown, and what it was before it was rounded.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// As shown, with its unit: `24.00 kg`.
    pub text: String,
    /// The number behind it.
    pub value: f64,
    /// Its unit: `g`, `mL`, `h`, `km`, a currency, `1` for shares and counts.
    pub unit: String,
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Figure {
    fn new(text: String, value: f64, unit: &str) -> Self {
        Self { text, value, unit: unit.to_owned() }
    }

    /// A mass, in grams.
    pub(crate) fn mass(mass: Mass, look: &Look) -> Self {
        Self::new(look.show(mass), mass.grams(), "g")
    }

    /// A volume, in millilitres.
    pub(crate) fn volume(volume: Volume, look: &Look) -> Self {
        Self::new(look.show(volume), volume.millilitres(), "mL")
    }

    /// Hours, in whole minutes below one.
    pub(crate) fn hours(hours: Hours, look: &Look) -> Self {
        Self::new(look.show(hours), hours.get(), "h")
    }

    /// Hours, with tenths of a minute where they are few.
    pub(crate) fn minutes(hours: Hours) -> Self {
        Self::new(minutes(hours), hours.get(), "h")
    }

    /// Money.
    pub(crate) fn money(money: Money, currency: Currency) -> Self {
        Self::new(amount::money(money, currency), money.units(), &currency.to_string())
    }

    /// A share of a whole, with a tenth of a per cent.
    pub(crate) fn tenths_of_percent(share: f64) -> Self {
        Self::new(say!("{:.1} %", share * 100.0), share, "1")
    }

    /// So many.
    pub(crate) fn count(count: u32) -> Self {
        Self::new(count.to_string(), f64::from(count), "1")
    }

    /// `24.00 of 24.00 kg`; both units where they differ.
    pub(crate) fn of(&self, whole: &Self) -> String {
        let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
        match (unit(&self.text), unit(&whole.text)) {
            (Some(own), Some(other)) if own == other => {
                let number = self.text.split(' ').next().unwrap_or_default();
                say!("{number} of {}", whole.text)
            }
            _ => say!("{} of {}", self.text, whole.text),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Figure;
    use crate::Look;
    use fardel_core::units::{Mass, UnitSystem};

    #[test]
    fn a_unit_is_said_once() {
        let look = Look { units: UnitSystem::Metric, width: 80 };
        let mass = |grams| Figure::mass(Mass::from_grams(grams), &look);
        assert_eq!(mass(2000).of(&mass(24_000)), "2.00 of 24.00 kg");
        assert_eq!(mass(200).of(&mass(24_000)), "200 g of 24.00 kg");
    }
}
