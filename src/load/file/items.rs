//! Items as written.

use super::Counted;
use crate::domain::{Basis, Kind, Map};
use crate::load::numbers::{Amount, Count};
use crate::load::quantity::Price;
use crate::load::words::Access;
use crate::units::{Length, Mass, Temperature, Volume};
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, Visitor};
use std::fmt;

/// A thing that can be carried.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ItemShape {
    pub name: Option<String>,
    pub like: Option<String>,
    pub kind: Option<Kind>,
    pub mass: Option<Mass>,
    pub volume: Option<Volume>,
    pub longest: Option<Length>,
    pub price: Option<Price>,
    pub at_most: Option<Count>,
    pub provides: Option<Counted>,
    pub holds: Option<Counted>,
    pub meets: Option<Map<ContributionShape>>,
    pub requires: Option<Counted>,
    pub access: Option<Access>,
    pub dry: Option<bool>,
    pub apart_from: Option<Vec<Kind>>,
    pub personal: Option<bool>,
    pub on_request: Option<bool>,
    pub basis: Option<Basis>,
}

/// An amount, or an amount with the temperature down to which it counts.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct ContributionShape {
    pub amount: Option<Amount>,
    pub down_to: Option<Temperature>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Graded {
    amount: Option<Amount>,
    down_to: Option<Temperature>,
}

struct ContributionVisitor;

impl<'de> Visitor<'de> for ContributionVisitor {
    type Value = ContributionShape;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a number, or `{ amount: 1, down_to: 0 °C }`")
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
