//! Items as written.

use super::Counted;
use crate::domain::{Basis, Kind, Map};
use crate::load::numbers::{Amount, Count};
use crate::load::quantity::Price;
use crate::load::words::Access;
use crate::units::{Length, Mass, Temperature, Volume};
use fardel_words::word;
use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, Visitor};
use std::fmt;

/// A thing that can be carried.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ItemShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// The same in two or three words, for lists; the name if left out. Not taken over where the entry has its own name.
    pub short: Option<String>,
    /// Takes over from this item what is not stated.
    pub like: Option<String>,
    /// What sort of thing.
    pub kind: Option<Kind>,
    /// Mass of one, as carried.
    pub mass: Option<Mass>,
    /// Volume of one, packed.
    pub volume: Option<Volume>,
    /// Longest side, packed.
    pub longest: Option<Length>,
    /// Price of one.
    pub price: Option<Price>,
    /// How many are of any use; 1 if left out.
    pub at_most: Option<Count>,
    /// Functions, so many at a time from one.
    pub provides: Option<Counted>,
    /// Stocks, so many units in one.
    pub holds: Option<Counted>,
    /// Needs, and how much of each one meets.
    pub meets: Option<Map<ContributionShape>>,
    /// Functions without which it is useless.
    pub requires: Option<Counted>,
    /// How soon it must be at hand; deep if left out.
    pub access: Option<Access>,
    /// Whether it must be kept dry; false if left out.
    pub dry: Option<bool>,
    /// Kinds that must not share its bag.
    pub apart_from: Option<Vec<Kind>>,
    /// Whether each person has one; false if left out.
    pub personal: Option<bool>,
    /// Whether it is carried only when asked for by name, for reasons the program does not know; false if left out.
    pub on_request: Option<bool>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// An amount, or an amount with the temperature down to which it counts.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct ContributionShape {
    pub amount: Option<Amount>,
    pub down_to: Option<Temperature>,
}

/// An amount that counts down to a temperature.
#[derive(Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Graded {
    /// How much of the need one meets.
    amount: Option<Amount>,
    /// The coldest night for which it counts.
    down_to: Option<Temperature>,
}

struct ContributionVisitor;

impl<'de> Visitor<'de> for ContributionVisitor {
    type Value = ContributionShape;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a number, or `{ amount: 1, down_to: 0 °C }`"))
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<ContributionShape, E> {
        let amount = Amount::deserialize(serde::de::value::I64Deserializer::<E>::new(value))?;
        Ok(ContributionShape { amount: Some(amount), down_to: None })
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<ContributionShape, E> {
        let amount = Amount::deserialize(serde::de::value::F64Deserializer::<E>::new(value))?;
        Ok(ContributionShape { amount: Some(amount), down_to: None })
    }
    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<ContributionShape, A::Error> {
        let graded = Graded::deserialize(MapAccessDeserializer::new(map))?;
        Ok(ContributionShape { amount: graded.amount, down_to: graded.down_to })
    }
}

impl<'de> Deserialize<'de> for ContributionShape {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(ContributionVisitor)
    }
}
