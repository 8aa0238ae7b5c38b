//! Reading currencies, and the day on which rates of exchange were looked up.

use crate::units::Currency;
use fardel_words::{mark, plain};
use serde::de::{Deserialize, Deserializer, Error, Unexpected};

impl<'de> Deserialize<'de> for Currency {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        let text = String::deserialize(value)?;
        Self::read(text.trim()).ok_or_else(|| D::Error::invalid_value(Unexpected::Str(&text), &plain(CODE)))
    }
}

/// What is expected of a currency.
pub(crate) const CODE: &str = mark!("a currency code of three capital letters, such as USD");

/// A day as ISO 8601 writes it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Day(pub String);

impl Day {
    /// What is expected.
    pub const WANTED: &'static str = mark!("a day such as 2026-11-20");

    fn read(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.trim().split('-').collect();
        let [year, month, day] = parts.as_slice() else { return None };
        let number = |part: &str, digits: usize| {
            (part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()))
                .then(|| part.parse::<u16>().ok())?
        };
        let (_, month, day) = (number(year, 4)?, number(month, 2)?, number(day, 2)?);
        ((1..=12).contains(&month) && (1..=31).contains(&day)).then(|| Self(text.trim().to_owned()))
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        let text = String::deserialize(value)?;
        Self::read(&text).ok_or_else(|| D::Error::invalid_value(Unexpected::Str(&text), &plain(Self::WANTED)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_a_year_a_month_and_a_day() {
        assert_eq!(Day::read(" 2026-11-20 "), Some(Day("2026-11-20".to_owned())));
        for text in
            ["", "20.11.2026", "2026-13-01", "2026-00-10", "2026-1-1", "2026-11-32", "2026-11-2x", "2026-11-20-1"]
        {
            assert_eq!(Day::read(text), None, "{text}");
        }
    }
}
