//! The texts of the page in other languages, as the module that the page imports: of `LANGUAGE/page.po`, one a folder.

use polib::po_file;
use serde_json::{Map, Value, json};
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

/// The module `tables.js`: languages by their codes, each with its own name and its texts by the English ones.
///
/// # Errors
/// Where a file cannot be read, or does not name its language.
pub fn tables(words: &Path) -> Result<String, Box<dyn Error>> {
    let mut folders: Vec<PathBuf> = fs::read_dir(words)?.filter_map(|entry| Some(entry.ok()?.path())).collect();
    folders.retain(|folder| folder.join("page.po").is_file());
    folders.sort();
    let mut all = Map::new();
    for folder in &folders {
        let code = folder.file_name().and_then(|name| name.to_str()).ok_or("a folder without a name")?;
        all.insert(code.to_owned(), table(&folder.join("page.po"))?);
    }
    Ok(format!("export const TABLES = {};\n", Value::Object(all)))
}

fn table(path: &Path) -> Result<Value, Box<dyn Error>> {
    let told = |what: &dyn std::fmt::Display| format!("{}: {what}", path.display());
    let file = po_file::parse(path).map_err(|error| told(&error))?;
    // The library keeps only the fields of the header that it knows.
    let written = fs::read_to_string(path)?;
    let name = written.lines().find_map(|line| line.strip_prefix("\"X-Language-Name: ")?.strip_suffix("\\n\""));
    let name = name.ok_or_else(|| told(&"the header lacks X-Language-Name"))?;
    let mut texts = Map::new();
    for message in file.messages().filter(|message| message.is_translated()) {
        let words = if message.is_plural() { json!(message.msgstr_plural()?) } else { json!(message.msgstr()?) };
        texts.insert(message.msgid().to_owned(), words);
    }
    Ok(json!({ "name": name, "texts": texts }))
}
