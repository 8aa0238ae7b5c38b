//! Bare numbers with a range: counts, amounts, shares, factors, and kilometres where the key says so.
//!
//! | number | range | fault |
//! | --- | --- | --- |
//! | a count | integer, 0 to 100,000; several lines of one thing add up | out-of-range |
//! | an amount or a rate without a unit | 0 to 1e9 | out-of-range |
//! | a share; a factor | 0 to 1; 0 to 1000 | out-of-range |
//! | an exchange rate | above 0, to 1e6 | out-of-range |
//! | kilometres | 0 to 1e7 | out-of-range |
//! | mass; volume; price | 0 to 10,000 t; 0 to 10,000 m³; 0 to 1e10 | not-a-quantity |
//! | length | up to 100 km either way (positions are signed) | not-a-quantity |
//! | a duration | 0 to 1e7 hours | not-a-quantity |
//! | temperature | -100 to 100 °C, in either scale | not-a-quantity |
//! | height of a leg | -450 to 6000 m | out-of-range |

use crate::units::{Distance, Quantity as _};
use fardel_words::{mark, plain};
use serde::de::{Deserialize, Deserializer, Error, Unexpected, Visitor};
use std::fmt;

/// Declares a number type that reads only what lies in its range.
macro_rules! ranged {
    ($(#[$doc:meta])* $name:ident($inner:ty), $wanted:literal, $take:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Default)]
        pub(crate) struct $name(pub $inner);

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
                let take: fn(f64) -> Option<$inner> = $take;
                value.deserialize_any(Number { take, wanted: $wanted }).map(Self)
            }
        }
    };
}

/// Takes a number and asks whether it is in range.
struct Number<T> {
    take: fn(f64) -> Option<T>,
    wanted: &'static str,
}

impl<T> Visitor<'_> for Number<T> {
    type Value = T;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(plain(self.wanted))
    }
    #[allow(clippy::cast_precision_loss, reason = "numbers beyond 2^53 are out of every range")]
    fn visit_i64<E: Error>(self, value: i64) -> Result<T, E> {
        (self.take)(value as f64).ok_or_else(|| E::invalid_value(Unexpected::Signed(value), &self))
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<T, E> {
        (self.take)(value).ok_or_else(|| E::invalid_value(Unexpected::Float(value), &self))
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to be whole and in range")]
fn whole(value: f64) -> Option<u32> {
    ((0.0..=100_000.0).contains(&value) && value.fract() == 0.0).then_some(value as u32)
}

ranged!(
    /// How many.
    Count(u32), "a whole number from 0 to 100000", whole
);
/// Most riders of one trip; nobody packs for more in one go.
pub(crate) const MOST_RIDERS: u32 = 50;

ranged!(
    /// How many riders have to be there.
    Riders(u32), "a whole number from 1 to 50 (how many riders have to be there)",
    |value| whole(value).filter(|riders| (1..=MOST_RIDERS).contains(riders))
);
ranged!(
    /// An amount or a rate. (`abs` only turns a negative zero into zero.)
    Amount(f64), "a number from 0 to 1e9", |value| (0.0..=1e9).contains(&value).then_some(value.abs())
);
ranged!(
    /// What a rate is worth, in events; with less than 0.3 a single event would multiply it by more than four.
    Events(f64), "a number of events from 0.3 to 1e6",
    |value| (crate::evidence::LEAST..=1e6).contains(&value).then_some(value)
);
ranged!(
    /// A part of a whole.
    Share(f64), "a share from 0 to 1", |value| (0.0..=1.0).contains(&value).then_some(value.abs())
);
ranged!(
    /// What a rate is multiplied by.
    Factor(f64), "a factor from 0 to 1000", |value| (0.0..=1000.0).contains(&value).then_some(value.abs())
);

ranged!(
    /// What one of a currency is in another.
    Rate(f64), "a rate above 0, up to 1e6", |value| (value > 0.0 && value <= 1e6).then_some(value)
);

/// A chance as riders say it: `1/500`, or a number between 0 and 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Chance(pub f64);

impl Chance {
    /// What is expected.
    pub const WANTED: &'static str = mark!("a chance above 0 and below 1, such as `1/500` or 0.002");

    /// Reads `1/500`, `0.2 %` or `0.002`.
    pub fn read(text: &str) -> Option<Self> {
        let number = |text: &str| text.trim().parse::<f64>().ok();
        let chance = match (text.split_once('/'), text.trim().strip_suffix('%')) {
            (Some((part, whole)), _) => number(part)? / number(whole)?,
            (None, Some(percent)) => number(percent)? / 100.0,
            (None, None) => number(text)?,
        };
        Self::new(chance)
    }

    fn new(chance: f64) -> Option<Self> {
        (chance > 0.0 && chance < 1.0).then_some(Self(chance))
    }
}

struct ChanceVisitor;

impl Visitor<'_> for ChanceVisitor {
    type Value = Chance;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(plain(Chance::WANTED))
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<Chance, E> {
        Err(E::invalid_value(Unexpected::Signed(value), &self))
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<Chance, E> {
        Chance::new(value).ok_or_else(|| E::invalid_value(Unexpected::Float(value), &self))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<Chance, E> {
        Chance::read(text).ok_or_else(|| E::invalid_value(Unexpected::Str(text), &self))
    }
}

impl<'de> Deserialize<'de> for Chance {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(ChanceVisitor)
    }
}

/// A distance under a key that says `km`: a bare number, or a text with its unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Kilometres(pub Distance);

struct KilometresVisitor;

impl Visitor<'_> for KilometresVisitor {
    type Value = Kilometres;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a number of kilometres from 0 to 1e7, or a distance such as `120 km`")
    }
    #[allow(clippy::cast_precision_loss, reason = "numbers beyond 2^53 are out of range")]
    fn visit_i64<E: Error>(self, value: i64) -> Result<Kilometres, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<Kilometres, E> {
        if (0.0..=1e7).contains(&value) {
            return Ok(Kilometres(Distance::new(value)));
        }
        Err(E::invalid_value(Unexpected::Float(value), &self))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<Kilometres, E> {
        Distance::read(text).map(Kilometres).map_err(|_| E::invalid_value(Unexpected::Str(text), &self))
    }
}

impl<'de> Deserialize<'de> for Kilometres {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(KilometresVisitor)
    }
}

#[cfg(test)]
mod tests {
    use super::super::node::Node;
    use super::*;

    #[test]
    fn ranges_hold_at_their_ends() {
        assert_eq!(Count::deserialize(&Node::Int(100_000)), Ok(Count(100_000)));
        assert!(Count::deserialize(&Node::Int(100_001)).is_err());
        assert!(Count::deserialize(&Node::Float(1.5)).is_err());
        assert!(Count::deserialize(&Node::Int(-1)).is_err());
        assert!(Share::deserialize(&Node::Float(1.01)).is_err());
        assert_eq!(Riders::deserialize(&Node::Int(1)), Ok(Riders(1)));
        assert_eq!(Riders::deserialize(&Node::Int(50)), Ok(Riders(50)));
        assert!(Riders::deserialize(&Node::Int(0)).is_err());
        assert!(Riders::deserialize(&Node::Int(51)).is_err());
        assert!(Amount::deserialize(&Node::Float(f64::NAN)).is_err());
        assert!(Amount::deserialize(&Node::Float(f64::INFINITY)).is_err());
        assert!(Amount::deserialize(&Node::Text("3".into())).is_err());
    }

    #[test]
    fn chances_are_read_as_riders_say_them() {
        assert_eq!(Chance::deserialize(&Node::Text("1/500".into())), Ok(Chance(0.002)));
        assert_eq!(Chance::deserialize(&Node::Text(" 0.2 % ".into())), Ok(Chance(0.002)));
        assert_eq!(Chance::deserialize(&Node::Float(0.002)), Ok(Chance(0.002)));
        for text in ["0/5", "5/0", "1/1", "2", "x/3", "nan", "-1/500"] {
            assert!(Chance::deserialize(&Node::Text(text.into())).is_err(), "{text}");
        }
        assert!(Chance::deserialize(&Node::Int(1)).is_err());
    }

    #[test]
    fn kilometres_may_say_their_unit() {
        assert_eq!(Kilometres::deserialize(&Node::Int(120)), Ok(Kilometres(Distance::new(120.0))));
        assert_eq!(Kilometres::deserialize(&Node::Text("120 km".into())), Ok(Kilometres(Distance::new(120.0))));
        assert!(Kilometres::deserialize(&Node::Int(-1)).is_err());
    }
}
