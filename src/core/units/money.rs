//! Money in hundredths of one currency. Others are exchanged at loading, at a rate that the scenario states.

use super::parse::{UnitError, split, to_whole};
use fardel_words::{mark, say};
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

/// An amount of money in hundredths of the catalogue's currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

/// A currency code of three capital letters, as in ISO 4217.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Currency([u8; 3]);

impl Currency {
    /// Reads a code such as `USD`.
    #[must_use]
    pub fn read(code: &str) -> Option<Self> {
        let bytes: [u8; 3] = code.as_bytes().try_into().ok()?;
        bytes.iter().all(u8::is_ascii_uppercase).then_some(Self(bytes))
    }
}

impl Default for Currency {
    fn default() -> Self {
        Self(*b"USD")
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{}", char::from(*byte)))
    }
}

impl Money {
    /// No money.
    pub const ZERO: Self = Self(0);
    const EXAMPLE: &'static str = "`12 USD`";

    /// From hundredths.
    #[must_use]
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents)
    }
    /// What it is in another currency, one of this one's being `rate` of that one's; to the nearest hundredth.
    #[must_use]
    pub fn exchanged(self, rate: f64) -> Self {
        #[allow(clippy::cast_precision_loss, reason = "hundredths stay far below 2^53")]
        let cents = self.0 as f64;
        Self(to_whole(cents * rate))
    }
    /// In hundredths.
    #[must_use]
    pub const fn cents(self) -> i64 {
        self.0
    }
    /// In whole currency units, with a fraction.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "values stay below 2^53")]
    pub fn units(self) -> f64 {
        self.0 as f64 / 100.0
    }

    /// Reads `12 USD` into amount and currency.
    ///
    /// # Errors
    /// [`UnitError`] when number or currency code is missing, negative or absurdly large.
    pub fn read(text: &str) -> Result<(Self, Currency), UnitError> {
        let (number, unit) = split(text);
        let found = || text.trim().to_owned();
        let value: f64 = number.parse().map_err(|_| UnitError::NotANumber {
            found: found(),
            quantity: mark!("price"),
            example: Self::EXAMPLE,
        })?;
        if unit.is_empty() {
            return Err(UnitError::NoUnit { found: found(), quantity: mark!("price"), example: Self::EXAMPLE });
        }
        let currency = Currency::read(unit).ok_or_else(|| UnitError::WrongUnit {
            unit: unit.to_owned(),
            quantity: mark!("money"),
            units: say!("the three-letter currency codes, such as USD"),
        })?;
        if value < 0.0 {
            return Err(UnitError::Negative { found: found(), quantity: mark!("price") });
        }
        if value > 1e10 {
            return Err(UnitError::TooLarge { found: found(), quantity: mark!("price") });
        }
        Ok((Self(to_whole(value * 100.0)), currency))
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}
impl AddAssign for Money {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}
impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
impl Mul<u32> for Money {
    type Output = Self;
    fn mul(self, count: u32) -> Self {
        Self(self.0.saturating_mul(i64::from(count)))
    }
}
impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
        terms.fold(Self(0), Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_amount_and_currency() {
        let (price, currency) = Money::read("12.50 EUR").unwrap();
        assert_eq!(price.cents(), 1250);
        assert_eq!(currency.to_string(), "EUR");
        assert!(Money::read("12").is_err());
        assert!(Money::read("12 dollars").is_err());
    }

    #[test]
    fn is_exchanged_to_the_nearest_hundredth() {
        assert_eq!(Money::from_cents(1999).exchanged(1.52).cents(), 3038);
        assert_eq!(Money::from_cents(1).exchanged(0.0095), Money::ZERO);
        assert_eq!(Money::from_cents(i64::MAX).exchanged(1e6).cents(), i64::MAX);
    }
}
