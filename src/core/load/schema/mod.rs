//! The shapes of the files as JSON Schema, for editors. Derived from the very types that read them, so that no key can
//! be in one and not in the other; described by hand only where a value may take several forms.

mod values;

use super::file::{CatalogueFile, GearFile, KitFile, ScenarioFile};
use crate::domain::words;
use schemars::Schema;
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use serde_json::Value;

words!(
    /// The files that have a schema.
    Shape { Catalogue = "catalogue", Scenario = "scenario", Gear = "gear", Kit = "kit" }
);

/// The JSON Schema (draft 2020-12) of a file, as text that ends its last line. What a schema cannot tell (names that
/// refer to other entries, keys that are required unless taken over), `fardel check` does.
///
/// # Errors
/// Never in practice: every schema can be written.
pub fn schema(shape: Shape) -> Result<String, serde_json::Error> {
    let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(allow_nothing));
    let generator = settings.into_generator();
    let mut schema = match shape {
        Shape::Catalogue => generator.into_root_schema_for::<CatalogueFile>(),
        Shape::Scenario => generator.into_root_schema_for::<ScenarioFile>(),
        Shape::Gear => generator.into_root_schema_for::<GearFile>(),
        Shape::Kit => generator.into_root_schema_for::<KitFile>(),
    };
    schema.insert("title".to_owned(), format!("fardel {} file", shape.word()).into());
    serde_json::to_string_pretty(&schema).map(|text| text + "\n")
}

/// A key with nothing after it is an empty map or list to the reader, so it is one here.
fn allow_nothing(schema: &mut Schema) {
    let Some(kind) = schema.get("type").and_then(Value::as_str) else { return };
    if kind == "object" || kind == "array" {
        let kinds = vec![Value::from(kind), Value::from("null")];
        schema.insert("type".to_owned(), kinds.into());
    }
}

#[cfg(test)]
mod tests;
