//! Makes tables of the PO files: a folder with a `program.po` is a language.

use polib::po_file;
use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// Texts of one file: the English text to the words of the language, one for each of its plural forms.
type Table = BTreeMap<String, Vec<String>>;

fn main() -> Result<(), Box<dyn Error>> {
    let here = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?);
    let mut folders: Vec<PathBuf> = fs::read_dir(&here)?.filter_map(|entry| Some(entry.ok()?.path())).collect();
    folders.retain(|folder| folder.join("program.po").is_file());
    folders.sort();
    let mut text = String::from("[\n");
    for folder in &folders {
        println!("cargo:rerun-if-changed={}", folder.display());
        let code = folder.file_name().and_then(|name| name.to_str()).ok_or("a folder without a name")?;
        let (program, header) = read(&folder.join("program.po"))?;
        let (catalogue, _) = read(&folder.join("catalogue.po"))?;
        let told = |key: &str| header.get(key).cloned().ok_or_else(|| format!("{code}: the header lacks {key}"));
        writeln!(
            text,
            "Table {{ code: {code:?}, name: {:?}, sign: {:?}, program: &{}, catalogue: &{}, guides: &{} }},",
            told("X-Language-Name")?,
            told("X-Decimal-Sign")?,
            code_of(&program),
            code_of(&catalogue),
            guides(&folder.join("guides"))?,
        )?;
    }
    text.push_str("]\n");
    println!("cargo:rerun-if-changed={}", here.display());
    fs::write(Path::new(&env::var("OUT_DIR")?).join("tables.rs"), text)?;
    Ok(())
}

/// The texts of a file and what its header says.
fn read(path: &Path) -> Result<(Table, BTreeMap<String, String>), Box<dyn Error>> {
    println!("cargo:rerun-if-changed={}", path.display());
    let mut table = Table::new();
    if !path.is_file() {
        return Ok((table, BTreeMap::new()));
    }
    let file = po_file::parse(path).map_err(|error| format!("{}: {error}", path.display()))?;
    // The library keeps only the fields that it knows.
    let written = fs::read_to_string(path)?;
    let lines = written.lines().take_while(|line| !line.starts_with("msgid \"") || *line == "msgid \"\"");
    let fields = lines.filter_map(|line| line.trim_matches('"').trim_end_matches("\\n").split_once(": "));
    let header = fields.map(|(key, value)| (key.to_owned(), value.to_owned())).collect();
    for message in file.messages().filter(|message| message.is_translated()) {
        let words =
            if message.is_plural() { message.msgstr_plural()?.clone() } else { vec![message.msgstr()?.to_owned()] };
        table.insert(message.msgid().to_owned(), words);
    }
    Ok((table, header))
}

/// The guides of a folder as code: pairs of a name and a text that is read when this is compiled.
fn guides(folder: &Path) -> Result<String, Box<dyn Error>> {
    if env::var_os("CARGO_FEATURE_GUIDES").is_none() || !folder.is_dir() {
        return Ok("[]".to_owned());
    }
    println!("cargo:rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(folder)?.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.sort();
    let pairs = files.iter().filter_map(|path| {
        let (name, file) = (path.file_stem()?.to_str()?, path.to_str()?);
        Some(format!("({name:?}, include_str!({file:?}))"))
    });
    Ok(format!("[{}]", pairs.collect::<Vec<_>>().join(", ")))
}

/// A table as code: pairs in the order of their keys.
fn code_of(table: &Table) -> String {
    let pairs = table.iter().map(|(key, words)| format!("({key:?}, &{words:?})"));
    format!("[{}]", pairs.collect::<Vec<_>>().join(",\n"))
}
