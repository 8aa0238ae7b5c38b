//! Files to trees and back: what the page holds is the tree, what the rider keeps is the file.

use crate::refused::Refused;
use fardel_core::load::{self, Sort, Source};
use fardel_words::say;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::path::Path;

/// What a call to read brings.
#[derive(Debug, Deserialize)]
pub(crate) struct Reading {
    name: String,
    text: String,
}

/// What a call to write brings.
#[derive(Debug, Deserialize)]
pub(crate) struct Writing {
    /// Of a scenario, a kit or a log.
    #[serde(alias = "tree")]
    scenario: Box<RawValue>,
}

/// What a file is, with its tree, or its text where it is a spreadsheet.
#[derive(Serialize)]
struct Tree<'a> {
    kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    scenario: Option<&'a RawValue>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tree: Option<&'a RawValue>,
    #[serde(skip_serializing_if = "Option::is_none")]
    text: Option<&'a str>,
}

/// Top keys by which a file is told that [`Sort`] does not know.
#[derive(Debug, Deserialize)]
struct Top {
    rides: Option<serde::de::IgnoredAny>,
    bags: Option<serde::de::IgnoredAny>,
    command: Option<serde::de::IgnoredAny>,
}

/// What a file is: `scenario`, `gear`, `kit`, `log` or `catalogue`.
#[must_use]
pub fn kind_of(source: &Source) -> &'static str {
    let sort = Sort::of(source);
    if is_sheet(&source.name) {
        return sort.word();
    }
    load::tree_json(source.clone()).map_or(sort.word(), |json| kind(&json, sort))
}

fn is_sheet(name: &str) -> bool {
    matches!(Path::new(name).extension().and_then(|ending| ending.to_str()), Some("csv" | "tsv"))
}

/// The tree of a file.
pub(crate) fn read(reading: &Reading) -> Result<String, Refused> {
    let source = Source { name: reading.name.clone(), text: reading.text.clone() };
    let sort = Sort::of(&source);
    if is_sheet(&source.name) {
        let told = Tree { kind: sort.word(), scenario: None, tree: None, text: Some(&reading.text) };
        return Ok(serde_json::to_string(&told)?);
    }
    let json = load::tree_json(source)?;
    let kind = kind(&json, sort);
    let tree = RawValue::from_string(json)?;
    let scenario = kind == Sort::Scenario.word();
    let told = Tree { kind, scenario: scenario.then_some(&tree), tree: (!scenario).then_some(&tree), text: None };
    Ok(serde_json::to_string(&told)?)
}

fn kind(json: &str, sort: Sort) -> &'static str {
    match serde_json::from_str::<Top>(json) {
        Ok(Top { rides: Some(_), .. }) => "log",
        Ok(Top { bags: Some(_), command: Some(_), .. }) => "kit",
        _ => sort.word(),
    }
}

#[derive(Serialize)]
struct Text<'a> {
    text: &'a str,
}

/// The file of a tree.
pub(crate) fn write(writing: &Writing) -> Result<String, Refused> {
    let source = Source { name: say!("the tree"), text: writing.scenario.get().to_owned() };
    let text = load::tree_yaml(source)?;
    Ok(serde_json::to_string(&Text { text: &text })?)
}
