//! How answers are written for machines: quantities as plain numbers whose unit stands in the name of the field.
//!
//! Types here stand behind `#[serde(with = "...")]`; what they write and what the schema says of it are in one place.

mod parts;

pub(crate) use parts::{Listed, Part, parts};

use crate::domain::Kit;
use crate::units::{Distance, Hours, Mass, Money, Temperature, Volume};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt::Display;

/// A quantity with a unit of its own in answers.
pub(crate) trait Figure: Copy {
    /// The number in that unit.
    fn figure(self) -> f64;
}

macro_rules! figures {
    ($($type:ty => $number:path;)+) => {
        $(impl Figure for $type {
            fn figure(self) -> f64 {
                $number(self)
            }
        })+
    };
}

figures! {
    Mass => Mass::grams;
    Volume => Volume::millilitres;
    Money => Money::units;
    Hours => Hours::get;
    Distance => Distance::km;
    Temperature => Temperature::celsius;
}

/// Types that say what they look like to a schema, in place.
macro_rules! inline_schema {
    ($($type:ident, $schema:expr;)+) => {
        $(impl JsonSchema for $type {
            fn schema_name() -> Cow<'static, str> {
                stringify!($type).into()
            }
            fn inline_schema() -> bool {
                true
            }
            fn json_schema(generator: &mut SchemaGenerator) -> Schema {
                let schema: fn(&mut SchemaGenerator) -> Schema = $schema;
                schema(generator)
            }
        })+
    };
}
pub(crate) use inline_schema;

/// A quantity as a number: grams, millilitres, whole money, hours, kilometres, degrees Celsius.
pub(crate) struct Number;
/// The same, or null where there is none.
pub(crate) struct OrNull;
/// What can be shown, as text.
pub(crate) struct Shown;
/// A mass in whole grams.
pub(crate) struct WholeGrams;
/// A kit as a list of items with their counts.
pub(crate) struct KitList;
/// Six places: enough for shares and moments, and the same on every machine.
pub(crate) struct SixPlaces;

inline_schema! {
    Number, |_| json_schema!({ "type": "number" });
    OrNull, |_| json_schema!({ "type": ["number", "null"] });
    Shown, |_| json_schema!({ "type": "string" });
    WholeGrams, |_| json_schema!({ "type": "number" });
    SixPlaces, |_| json_schema!({ "type": "number" });
    KitList, |generator| <Vec<KitLine>>::json_schema(generator);
}

impl Number {
    pub(crate) fn serialize<S: Serializer>(quantity: &impl Figure, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(quantity.figure())
    }
}

impl OrNull {
    #[allow(clippy::ref_option, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(quantity: &Option<impl Figure>, serializer: S) -> Result<S::Ok, S::Error> {
        quantity.map(Figure::figure).serialize(serializer)
    }
}

impl Shown {
    pub(crate) fn serialize<S: Serializer>(value: &impl Display, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(value)
    }
}

impl WholeGrams {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde asks for")]
    pub(crate) fn serialize<S: Serializer>(mass: &Mass, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(whole_grams(mass.kilograms()))
    }
}

impl SixPlaces {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(six_places(*value))
    }
}

impl KitList {
    pub(crate) fn serialize<S: Serializer>(kit: &Kit, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(kit.iter().map(|(id, count)| KitLine { id: id.to_owned(), count }))
    }
}

/// An item of a kit.
#[derive(Serialize, JsonSchema)]
pub(crate) struct KitLine {
    /// Key in the catalogue.
    id: String,
    /// How many.
    count: u32,
}

/// Whole grams: levers are known no better.
pub(crate) fn whole_grams(kilograms: f64) -> f64 {
    (kilograms * 1000.0).round()
}

/// See [`SixPlaces`].
pub(crate) fn six_places(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{json, to_value};

    #[derive(Serialize)]
    struct Own {
        #[serde(with = "Number")]
        mass: Mass,
        #[serde(with = "OrNull")]
        limit: Option<Money>,
        #[serde(with = "WholeGrams")]
        whole: Mass,
        #[serde(with = "SixPlaces")]
        share: f64,
    }

    #[test]
    fn quantities_are_numbers_in_the_unit_of_answers() {
        let mass = Mass::from_grams(1) * 3;
        let own = Own { mass, limit: Some(Money::from_cents(1250)), whole: mass, share: 1.0 / 3.0 };
        assert_eq!(to_value(&own).unwrap(), json!({ "mass": 3.0, "limit": 12.5, "whole": 3.0, "share": 0.333_333 }));
        let none = Own { limit: None, ..own };
        assert_eq!(to_value(&none).unwrap()["limit"], json!(null));
    }
}
