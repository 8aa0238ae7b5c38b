//! What the fields of answers mean, as JSON Schema (draft 2020-12), derived from the types that are written.

use super::evidence::{Evidence, One};
use super::measure::Measured;
use super::pooled::Pool;
use super::refusal::{Complaint, Infeasible};
use super::{Files, Headed, Packed, Part, SCHEMA_VERSION};
use fardel_core::answer::split::SplitAnswer;
use fardel_core::answer::{CardAnswer, RehearseAnswer, TradeoffAnswer, TrimAnswer, WhyAnswer};
use fardel_core::debrief::Debrief;
use fardel_core::find::{Entry, Found};
use fardel_core::load::List;
use fardel_core::sheet::Sheet;
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde_json::{Map, Value, json};

/// The commands that answer in JSON.
pub const COMMANDS: [&str; 16] = [
    "pack",
    "measure-first",
    "split",
    "rehearse",
    "tradeoff",
    "trim",
    "why",
    "card",
    "debrief",
    "evidence",
    "pool",
    "find",
    "show",
    "bike",
    "gear",
    "check",
];

/// Makes the schema of a type.
type ShapeOf = fn(&mut SchemaGenerator) -> Schema;

/// Every shape of an answer: whose it is, what it is called, what it looks like.
const SHAPES: [(&str, &str, ShapeOf); 19] = [
    ("pack", "pack", Headed::<Packed<'static>>::json_schema),
    ("pack", "pack_without_a_kit", Infeasible::json_schema),
    ("measure-first", "measure_first", Headed::<Measured<'static>>::json_schema),
    ("split", "split", Headed::<SplitAnswer>::json_schema),
    ("split", "split_one_rider", Headed::<Part<'static>>::json_schema),
    ("rehearse", "rehearse", Headed::<RehearseAnswer>::json_schema),
    ("tradeoff", "tradeoff", Headed::<TradeoffAnswer>::json_schema),
    ("trim", "trim", Headed::<TrimAnswer>::json_schema),
    ("why", "why", Headed::<WhyAnswer>::json_schema),
    ("card", "card", Headed::<CardAnswer>::json_schema),
    ("debrief", "debrief", Headed::<Debrief>::json_schema),
    ("evidence", "evidence", Headed::<Evidence<'static>>::json_schema),
    ("evidence", "evidence_one_failure", Headed::<One<'static>>::json_schema),
    ("pool", "pool", Headed::<Pool<'static>>::json_schema),
    ("find", "find", Headed::<Found>::json_schema),
    ("show", "show", Headed::<Entry>::json_schema),
    ("bike", "bike", Headed::<Sheet>::json_schema),
    ("gear", "gear", Headed::<List>::json_schema),
    ("check", "check", Headed::<Files<'static>>::json_schema),
];

/// What it is called where there is no answer.
const COMPLAINT: &str = "complaint";

/// The JSON Schema of the answers of one command, or of all, as text that ends its last line. What stands on standard
/// error where there is no answer is there as well, as `$defs/complaint`.
///
/// # Errors
/// Never in practice: every schema can be written.
pub fn schema(command: Option<&str>) -> Result<String, serde_json::Error> {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let asked = SHAPES.iter().filter(|(own, _, _)| command.is_none_or(|command| command == *own));
    let mut shapes = Map::new();
    for (own, name, shape) in asked {
        let mut shape = shape(&mut generator);
        shape.insert("description".to_owned(), format!("What `fardel {own}` answers.").into());
        shapes.insert((*name).to_owned(), fixed(shape, Some(own)));
    }
    let answers: Vec<Value> = shapes.keys().map(|name| json!({ "$ref": format!("#/$defs/{name}") })).collect();
    shapes.insert(COMPLAINT.to_owned(), fixed(Complaint::json_schema(&mut generator), None));
    shapes.extend(generator.take_definitions(true));
    let whole = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": command.map_or_else(|| "Answers of fardel".to_owned(), |own| format!("Answers of fardel {own}")),
        "description": format!(
            "What fardel answers with --format json, schema_version {SCHEMA_VERSION}, which rises when a field goes or \
             changes its meaning; new fields may come without that. Units stand in the names: _g grams, _ml millilitres, \
             _l litres, _km kilometres, _h and hours_ hours, _c degrees Celsius; money is in whole units of the currency. \
             A field that does not apply is null, never 0."
        ),
        "anyOf": answers,
        "$defs": shapes,
    });
    serde_json::to_string_pretty(&whole).map(|text| text + "\n")
}

/// With what is always the same in it.
fn fixed(mut shape: Schema, command: Option<&str>) -> Value {
    let always = [("schema_version", Some(SCHEMA_VERSION.into())), ("command", command.map(Value::from))];
    for (name, value) in always {
        let property = shape.pointer_mut(&format!("/properties/{name}")).and_then(Value::as_object_mut);
        if let (Some(property), Some(value)) = (property, value) {
            property.insert("const".to_owned(), value);
        }
    }
    shape.to_value()
}
