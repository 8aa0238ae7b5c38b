//! Reading `350 g`, `1.2 L`, `50 min`, `-4 °C`: a number, then a unit that the quantity knows.

use fardel_words::{plain, say};
use thiserror::Error;

/// Why a text is not the quantity that was asked for.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum UnitError {
    /// There is a number but no unit behind it.
    #[error("{}", say!("`{found}` has no unit; write a {quantity} such as {example}", quantity = plain(quantity)))]
    NoUnit {
        /// the text as found
        found: String,
        /// what was wanted, in words
        quantity: &'static str,
        /// an accepted form
        example: &'static str,
    },
    /// The unit belongs to another quantity or to none.
    #[error("{}", say!("`{unit}` is not a unit of {quantity}; use one of {units}", quantity = plain(quantity)))]
    WrongUnit {
        /// the unit as found
        unit: String,
        /// what was wanted, in words
        quantity: &'static str,
        /// the accepted units
        units: String,
    },
    /// No number can be read.
    #[error("{}", say!("`{found}` is not a {quantity}; write it like {example}", quantity = plain(quantity)))]
    NotANumber {
        /// the text as found
        found: String,
        /// what was wanted, in words
        quantity: &'static str,
        /// an accepted form
        example: &'static str,
    },
    /// The number has a comma in it.
    #[error("{}", say!("`{found}` has a comma in its number; write {meant}"))]
    Comma {
        /// the text as found
        found: String,
        /// what was wanted, in words
        quantity: &'static str,
        /// the text with a decimal point
        meant: String,
    },
    /// A quantity that cannot be negative is.
    #[error("{}", say!("`{found}` is negative; a {quantity} is zero or more", quantity = plain(quantity)))]
    Negative {
        /// the text as found
        found: String,
        /// what was wanted, in words
        quantity: &'static str,
    },
    /// Beyond what a trip on a bike could mean.
    #[error("{}", say!("`{found}` is too large to be a {quantity} here", quantity = plain(quantity)))]
    TooLarge {
        /// the text as found
        found: String,
        /// what was wanted, in words
        quantity: &'static str,
    },
}

/// A quantity that can be read from a text with a unit.
pub trait Quantity: Sized + Copy {
    /// The name used in messages: `mass`, `volume`.
    const NAME: &'static str;
    /// An accepted form, shown in messages.
    const EXAMPLE: &'static str;
    /// Unit names with their size in the quantity's base unit.
    const UNITS: &'static [(&'static str, f64)];
    /// Whether it may be below zero.
    const SIGNED: bool = false;
    /// Largest magnitude accepted, in the base unit.
    const LARGEST: f64;

    /// From a number of base units.
    fn from_base(value: f64) -> Self;

    /// Reads a text such as `1.2 L`.
    ///
    /// # Errors
    /// [`UnitError`] when the number or the unit is missing, wrong, negative or absurdly large.
    fn read(text: &str) -> Result<Self, UnitError> {
        read_base::<Self>(text).map(Self::from_base)
    }
}

pub(crate) fn read_base<Q: Quantity>(text: &str) -> Result<f64, UnitError> {
    let (value, unit) = number_and_unit::<Q>(text)?;
    let size = Q::UNITS.iter().find(|(name, _)| *name == unit).map(|(_, size)| *size);
    let size = size.ok_or_else(|| UnitError::WrongUnit {
        unit: unit.to_owned(),
        quantity: Q::NAME,
        units: Q::UNITS.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", "),
    })?;
    in_range::<Q>(value * size, text)
}

/// The number in front and the unit behind it, whichever that is.
pub(crate) fn number_and_unit<Q: Quantity>(text: &str) -> Result<(f64, &str), UnitError> {
    let (number, unit) = split(text);
    let found = || text.trim().to_owned();
    let value: f64 = number.parse().ok().filter(|v: &f64| v.is_finite()).ok_or_else(|| UnitError::NotANumber {
        found: found(),
        quantity: Q::NAME,
        example: Q::EXAMPLE,
    })?;
    if unit.is_empty() {
        return Err(UnitError::NoUnit { found: found(), quantity: Q::NAME, example: Q::EXAMPLE });
    }
    if unit.strip_prefix(',').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
        let meant = text.trim().replacen(',', ".", 1);
        return Err(UnitError::Comma { found: found(), quantity: Q::NAME, meant });
    }
    Ok((value, unit))
}

/// The value read from `text`, in base units, unless it is out of range.
pub(crate) fn in_range<Q: Quantity>(base: f64, text: &str) -> Result<f64, UnitError> {
    let found = || text.trim().to_owned();
    if base < 0.0 && !Q::SIGNED {
        return Err(UnitError::Negative { found: found(), quantity: Q::NAME });
    }
    if base.abs() > Q::LARGEST {
        return Err(UnitError::TooLarge { found: found(), quantity: Q::NAME });
    }
    Ok(base)
}

/// Splits `1.2 L` into number and unit; the space may be missing, the minus may be the typographic one.
pub(crate) fn split(text: &str) -> (String, &str) {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|(_, c)| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '\u{2212}' | ' ')))
        .map_or(text.len(), |(at, _)| at);
    let number = text[..end].trim().replace('\u{2212}', "-");
    (number, text[end..].trim())
}

/// The only rounding from decimal to whole units: to the nearest, halves away from zero.
#[must_use]
#[allow(clippy::cast_possible_truncation, reason = "callers keep values far below 2^53")]
pub fn to_whole(value: f64) -> i64 {
    value.round() as i64
}

#[cfg(test)]
mod tests {
    use crate::units::{Distance, Hours, Length, Mass, Quantity, Temperature, UnitError, Volume};

    #[test]
    fn reads_the_accepted_forms() {
        assert_eq!(Mass::read("350 g"), Ok(Mass::from_grams(350)));
        assert_eq!(Mass::read("1.25kg"), Ok(Mass::from_grams(1250)));
        assert_eq!(Volume::read("1.2 L"), Ok(Volume::from_millilitres(1200)));
        assert_eq!(Length::read("-50 mm"), Ok(Length::from_millimetres(-50)));
        assert!((Hours::read("50 min").unwrap().get() - 50.0 / 60.0).abs() < 1e-12);
        assert!((Hours::read("3 days").unwrap().get() - 72.0).abs() < 1e-12);
        assert!((Temperature::read("\u{2212}4 °C").unwrap().celsius() + 4.0).abs() < 1e-12);
        assert!((Distance::read("210 km").unwrap().km() - 210.0).abs() < 1e-12);
    }

    /// International pound, 0.45359237 kg exactly (international yard and pound agreement, 1959).
    #[test]
    fn pounds_are_the_international_pound() {
        assert_eq!(Mass::read("12 lb").unwrap().milligrams(), 5_443_108);
    }

    #[test]
    fn a_bare_number_is_refused_with_the_accepted_form() {
        let error = Mass::read("350").unwrap_err();
        assert_eq!(error.to_string(), "`350` has no unit; write a mass such as `350 g`");
    }

    #[test]
    fn a_wrong_unit_lists_the_right_ones() {
        let error = Volume::read("3 kg").unwrap_err();
        assert!(error.to_string().contains("mL, L"), "{error}");
    }

    #[test]
    fn negative_infinite_and_absurd_are_refused() {
        assert!(matches!(Mass::read("-1 g"), Err(UnitError::Negative { .. })));
        assert!(matches!(Mass::read("inf g"), Err(UnitError::NotANumber { .. })));
        assert!(matches!(Mass::read("1e3 g"), Err(UnitError::WrongUnit { .. })));
        assert!(matches!(Mass::read("99999999999999999 kg"), Err(UnitError::TooLarge { .. })));
        assert!(matches!(Mass::read(""), Err(UnitError::NotANumber { .. })));
        assert!(matches!(Mass::read("20,5 kg"), Err(UnitError::Comma { meant, .. }) if meant == "20.5 kg"));
    }
}
