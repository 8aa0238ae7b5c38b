//! Reading quantities with their units. A bare number is refused with the accepted form.

use crate::units::{
    Currency, Distance, Hours, Length, Mass, Money, Pressure, Quantity, Temperature, UnitError, Volume,
};
use fardel_words::{plain, say};
use serde::de::{Deserialize, Deserializer, Error, Unexpected, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// What should have been written, from what was wrong with it.
fn expected(error: &UnitError) -> String {
    match error {
        UnitError::NoUnit { quantity, example, .. } => {
            say!("a {quantity} with its unit, such as {example}", quantity = plain(quantity))
        }
        UnitError::NotANumber { quantity, example, .. } => {
            say!("a {quantity} such as {example}", quantity = plain(quantity))
        }
        UnitError::WrongUnit { quantity, units, .. } => {
            say!("a {quantity} in one of these units: {units}", quantity = plain(quantity))
        }
        UnitError::Comma { quantity, meant, .. } => {
            say!("a {quantity} with a decimal point: {meant}", quantity = plain(quantity))
        }
        UnitError::Negative { quantity, .. } => say!("a {quantity} of zero or more", quantity = plain(quantity)),
        UnitError::TooLarge { quantity, .. } => {
            say!("a {quantity} that a trip on a bike could mean", quantity = plain(quantity))
        }
    }
}

/// Refuses a text as a quantity.
fn refuse<E: Error>(text: &str, error: &UnitError) -> E {
    E::invalid_value(Unexpected::Str(text), &expected(error).as_str())
}

/// Takes a text, or a bare number as the text it was written as, so that the refusal can show it.
struct Reader<T> {
    read: fn(&str) -> Result<T, UnitError>,
    wanted: &'static str,
    example: &'static str,
    made: PhantomData<T>,
}

impl<T> Visitor<'_> for Reader<T> {
    type Value = T;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", say!("a {} such as {}", plain(self.wanted), self.example))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        (self.read)(text).map_err(|error| refuse(text, &error))
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<T, E> {
        self.visit_str(&value.to_string())
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<T, E> {
        self.visit_str(&value.to_string())
    }
}

macro_rules! read_quantity {
    ($($name:ty),+) => {
        $(impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
                value.deserialize_any(Reader {
                    read: <$name as Quantity>::read,
                    wanted: <$name as Quantity>::NAME,
                    example: <$name as Quantity>::EXAMPLE,
                    made: PhantomData,
                })
            }
        })+
    };
}

read_quantity!(Mass, Volume, Length, Hours, Distance, Pressure, Temperature);

/// An amount of money that still knows its currency, so that mixing them can be refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Price {
    /// How much.
    pub money: Money,
    /// Of what.
    pub currency: Currency,
}

impl<'de> Deserialize<'de> for Price {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(Reader {
            read: |text| Money::read(text).map(|(money, currency)| Self { money, currency }),
            wanted: "price",
            example: "`12 USD`",
            made: PhantomData,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::decode::Wrong;
    use super::super::node::Node;
    use super::*;

    fn wrong<T: for<'de> Deserialize<'de>>(node: &Node) -> Option<Wrong> {
        T::deserialize(node).err().map(|error| error.wrong)
    }

    #[test]
    fn a_bare_number_shows_the_accepted_form() {
        let told = wrong::<Mass>(&Node::Int(60));
        assert_eq!(told, Some(Wrong::Quantity("`60`".into(), "a mass with its unit, such as `350 g`".into())));
    }

    #[test]
    fn negative_foreign_and_endless_quantities_are_refused() {
        for text in ["-5 g", "5 L", "1e400 g", "nan g", "g", ""] {
            assert!(matches!(wrong::<Mass>(&Node::Text(text.into())), Some(Wrong::Quantity(..))), "{text}");
        }
        assert!(matches!(wrong::<Price>(&Node::Float(f64::NAN)), Some(Wrong::Quantity(..))));
        assert_eq!(Mass::deserialize(&Node::Text("60 g".into())), Ok(Mass::from_grams(60)));
    }
}
