//! The answer of `pack` cut down to what is looked at over many trips. What it has stands where it stands in the whole
//! answer.

use super::{Packed, headed};
use fardel_core::answer::PackAnswer;
use serde_json::{Map, Value};

/// Hours lost below which what is left of a failure is not said: half a minute.
const UNSEEN: f64 = 1.0 / 120.0;
/// What stays of the answer.
const KEPT: [&str; 13] = [
    "schema_version",
    "command",
    "program",
    "scenario",
    "rider",
    "bike",
    "trip",
    "totals",
    "figures",
    "proof",
    "bags",
    "purchases",
    "risks",
];
/// What stays of a thing in a bag.
const OF_ITEMS: [&str; 6] = ["id", "name", "kind", "count", "to_buy_in_kit", "hours_lost_without"];

/// The short answer.
pub(super) fn brief(answer: &PackAnswer) -> Value {
    let whole = serde_json::to_value(headed("pack", Packed { answer, uncertain: None })).unwrap_or_default();
    let mut short = kept(whole, &KEPT);
    if let Some(Value::Array(bags)) = short.get_mut("bags") {
        bags.retain(|bag| bag["items"].as_array().is_some_and(|items| !items.is_empty()));
        for bag in bags {
            let mut own = kept(bag.take(), &["id", "items"]);
            if let Some(Value::Array(items)) = own.get_mut("items") {
                items.iter_mut().for_each(|item| *item = kept(item.take(), &OF_ITEMS).into());
            }
            *bag = own.into();
        }
    }
    if let Some(Value::Array(risks)) = short.get_mut("risks") {
        risks.retain(|risk| risk["hours_lost_with_kit"].as_f64().is_some_and(|hours| hours > UNSEEN));
    }
    short.into()
}

/// An object with these fields alone, in its own order.
fn kept(value: Value, names: &[&str]) -> Map<String, Value> {
    match value {
        Value::Object(fields) => fields.into_iter().filter(|(name, _)| names.contains(&name.as_str())).collect(),
        _ => Map::new(),
    }
}
