//! What the values of the files look like to a schema.

use crate::domain::{
    Basis, BasisKind, Fair, Family, Grade, Kind, NeedRule, PreparationType, RepairSkill, RidingSkill, Role, Side,
    SourceKind, Style,
};
use crate::load::exchange::{CODE, Day};
use crate::load::file::{ContributionShape, Counted, Graded, Listed, OneOrMany, Text};
use crate::load::numbers::{Amount, Chance, Count, Events, Factor, Kilometres, MOST_RIDERS, Rate, Riders, Share};
use crate::load::quantity::Price;
use crate::load::words::{Access, BASIS_FORMS, LANGUAGES, OutcomeWord, Spoken};
use crate::units::{Currency, Distance, Hours, Length, Mass, Pressure, Quantity, Temperature, Volume};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use std::borrow::Cow;

/// A number before its unit; the minus may be the typographic one, as when it is read.
const NUMBER: &str = r"\+? *[0-9]*\.?[0-9]+|\+? *[0-9]+\.";
/// The same where the number may be below zero.
const SIGNED: &str = "[-+\u{2212}]? *([0-9]*\\.?[0-9]+|[0-9]+\\.)";

/// Types whose values are described here.
macro_rules! described {
    ($($type:ty, $name:expr, $value:expr;)+) => {
        $(impl JsonSchema for $type {
            fn schema_name() -> Cow<'static, str> {
                $name.into()
            }
            fn json_schema(generator: &mut SchemaGenerator) -> Schema {
                let value: fn(&mut SchemaGenerator) -> Schema = $value;
                value(generator)
            }
        })+
    };
}

/// Word lists.
macro_rules! listed_words {
    ($($list:ty),+ $(,)?) => {
        $(described!($list, stringify!($list), |_| json_schema!({ "type": "string", "enum": <$list>::WORDS }););)+
    };
}

/// A number with a unit.
fn quantity<Q: Quantity>() -> Schema {
    let units: Vec<&str> = Q::UNITS.iter().map(|(unit, _)| *unit).collect();
    let number = if Q::SIGNED { SIGNED } else { NUMBER };
    json_schema!({
        "type": "string",
        "pattern": format!(r"^\s*({number}) *({})\s*$", units.join("|")),
        "description": format!("a {} such as {}; its units are {}", Q::NAME, Q::EXAMPLE, units.join(", ")),
    })
}

fn price() -> Schema {
    json_schema!({
        "type": "string",
        "pattern": format!(r"^\s*({NUMBER}) *[A-Z]{{3}}\s*$"),
        "description": "an amount and a currency, such as `12 USD`",
    })
}

fn number(most: f64, what: &str) -> Schema {
    json_schema!({ "type": "number", "minimum": 0, "maximum": most, "description": what })
}

/// It opens with a kind; what follows is parted from it, and must be there where something is cited.
fn basis() -> Schema {
    let openings = |wanted: bool| {
        let openings = BasisKind::OPENINGS.iter().filter(move |(_, kind)| kind.cites() == wanted);
        openings.map(|(opening, _)| *opening).collect::<Vec<_>>().join("|")
    };
    let pattern = format!(r"^\s*(({})[:;, ]+[^:;, ]|({})([:;, ]|$))", openings(true), openings(false));
    json_schema!({
        "type": "string",
        "pattern": pattern,
        "description": format!("where the numbers come from: {}", BASIS_FORMS.join("; ")),
    })
}

fn kilometres(generator: &mut SchemaGenerator) -> Schema {
    let distance = generator.subschema_for::<Distance>();
    json_schema!({ "anyOf": [number(1e7, "kilometres"), distance] })
}

fn one_or_many(generator: &mut SchemaGenerator) -> Schema {
    let text = generator.subschema_for::<Text>();
    json_schema!({ "description": "a value or a list of values", "anyOf": [text, { "type": "array", "items": text }] })
}

fn counted(generator: &mut SchemaGenerator) -> Schema {
    let (text, count) = (generator.subschema_for::<Text>(), generator.subschema_for::<Count>());
    json_schema!({
        "description": "names, each mention counting one, or names with their counts",
        "anyOf": [{ "type": "array", "items": text }, { "type": "object", "additionalProperties": count }],
    })
}

fn contribution(generator: &mut SchemaGenerator) -> Schema {
    let (amount, graded) = (generator.subschema_for::<Amount>(), generator.subschema_for::<Graded>());
    json_schema!({ "anyOf": [amount, graded] })
}

listed_words!(
    Fair,
    Family,
    SourceKind,
    Grade,
    Kind,
    NeedRule,
    PreparationType,
    RepairSkill,
    RidingSkill,
    Role,
    Side,
    Style,
    Access,
    OutcomeWord
);

described! {
    Mass, "Mass", |_| quantity::<Self>();
    Volume, "Volume", |_| quantity::<Self>();
    Length, "Length", |_| quantity::<Self>();
    Hours, "Hours", |_| quantity::<Self>();
    Distance, "Distance", |_| quantity::<Self>();
    Pressure, "Pressure", |_| quantity::<Self>();
    Temperature, "Temperature", |_| quantity::<Self>();
    Price, "Price", |_| price();
    Basis, "Basis", |_| basis();
    Count, "Count", |_| json_schema!({ "type": "integer", "minimum": 0, "maximum": 100_000 });
    Riders, "Riders", |_| json_schema!({ "type": "integer", "minimum": 1, "maximum": MOST_RIDERS });
    Amount, "Amount", |_| number(1e9, "zero or more");
    Events, "Events", |_| json_schema!({ "type": "number", "minimum": 0.3, "maximum": 1e6, "description": "events" });
    Share, "Share", |_| number(1.0, "a share from 0 to 1");
    Factor, "Factor", |_| number(1000.0, "a factor from 0 to 1000");
    Rate, "Rate", |_| json_schema!({
        "type": "number", "exclusiveMinimum": 0, "maximum": 1e6, "description": "what one of a currency is in another",
    });
    Currency, "Currency", |_| json_schema!({ "type": "string", "pattern": r"^\s*[A-Z]{3}\s*$", "description": CODE });
    Spoken, "Language", |_| json_schema!({ "type": "string", "enum": LANGUAGES.as_slice() });
    Day, "Day", |_| json_schema!({
        "type": "string", "pattern": r"^\s*[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])\s*$", "description": Day::WANTED,
    });
    Chance, "Chance", |_| json_schema!({
        "anyOf": [
            { "type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1 },
            { "type": "string", "pattern": r"^\s*[0-9.]+\s*(/\s*[0-9.]+|%)?\s*$" },
        ],
        "description": Chance::WANTED,
    });
    Kilometres, "Kilometres", kilometres;
    Text, "Text", |_| json_schema!({ "type": ["string", "number", "boolean"] });
    OneOrMany, "OneOrMany", one_or_many;
    Counted, "Counted", counted;
    ContributionShape, "Contribution", contribution;
}

impl<T: JsonSchema> JsonSchema for Listed<T> {
    fn schema_name() -> Cow<'static, str> {
        format!("ListOf{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let (text, count) = (generator.subschema_for::<String>(), generator.subschema_for::<Count>());
        let entry = generator.subschema_for::<T>();
        json_schema!({
            "description": "names or entries, or names with a count or an entry each",
            "anyOf": [
                { "type": "array", "items": { "anyOf": [text, entry] } },
                { "type": "object", "additionalProperties": { "anyOf": [count, entry] } },
            ],
        })
    }
}
