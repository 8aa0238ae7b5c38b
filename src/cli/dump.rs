//! What is needed to see a defect of the program again, in one file that a rider can send: the arguments, the files that were
//! read, and what went wrong.

use super::complain;
use crate::files::{read, write};
use crate::load::{Source, tree_json};
use clap::Args;
use fardel_words::say;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Counts up when the shape of the file changes.
const VERSION: u32 = 1;

/// Where to write what went wrong.
#[derive(Debug, Clone, Args)]
pub(super) struct Dump {
    /// If the program fails, write what shows it again
    #[arg(long, value_name = "FILE", global = true, display_order = 103)]
    dump: Option<PathBuf>,
    /// There, call riders, legs and trips by numbers, and leave comments out
    #[arg(long, global = true, requires = "dump", hide = true)]
    dump_without_names: bool,
}

/// What went wrong in this run.
static TROUBLE: Mutex<Vec<String>> = Mutex::new(Vec::new());

fn trouble() -> MutexGuard<'static, Vec<String>> {
    TROUBLE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Notes a defect, or a solver that failed before another way led to the answer.
pub(super) fn note(what: impl Into<String>) {
    trouble().push(what.into());
}

impl Dump {
    /// Writes the file if something went wrong and it was asked for.
    pub(super) fn write(&self, arguments: &[OsString]) {
        let (Some(path), what) = (&self.dump, trouble().clone()) else { return };
        if what.is_empty() {
            return;
        }
        let files: Vec<(PathBuf, String)> = read::read_again();
        let arguments: Vec<String> = arguments.iter().skip(1).map(|word| word.to_string_lossy().into_owned()).collect();
        let told = told(&arguments, &what, &files, self.dump_without_names);
        if let Err(unwritten) = write::whole_file(path, format!("{told:#}\n"), false) {
            complain(&say!("what went wrong cannot be written to {}: {unwritten}", path.display()));
        }
    }
}

/// All of it as one value.
fn told(arguments: &[String], what: &[String], files: &[(PathBuf, String)], without_names: bool) -> Value {
    let mut names = BTreeMap::new();
    let mut shown = Vec::new();
    for (at, (path, text)) in files.iter().enumerate() {
        let own = path.to_string_lossy().into_owned();
        let name = if without_names { numbered(at, path) } else { own.clone() };
        let text = if without_names { nameless(text, &mut names) } else { text.clone() };
        names.insert(own, name.clone());
        names.extend(path.file_name().map(|file| (file.to_string_lossy().into_owned(), name.clone())));
        shown.push(json!({ "file": name, "text": text }));
    }
    let said = |word: &String| -> String {
        if !without_names {
            return word.clone();
        }
        // The longest first: a name may be part of another.
        let mut order: Vec<(&String, &String)> = names.iter().collect();
        order.sort_by_key(|(old, _)| std::cmp::Reverse(old.len()));
        order.into_iter().fold(word.clone(), |text, (old, new)| text.replace(old.as_str(), new))
    };
    json!({
        "fardel_dump": VERSION,
        "program": concat!("fardel ", env!("CARGO_PKG_VERSION")),
        "arguments": arguments.iter().map(said).collect::<Vec<_>>(),
        "trouble": what.iter().map(said).collect::<Vec<_>>(),
        "files": shown,
    })
}

fn numbered(at: usize, path: &Path) -> String {
    let ending = path.extension().map_or_else(String::new, |ending| format!(".{}", ending.to_string_lossy()));
    format!("file-{}{ending}", at + 1)
}

/// A file without comments whose riders, legs and trips are numbered; what is not YAML with such names stays as it is.
fn nameless(text: &str, names: &mut BTreeMap<String, String>) -> String {
    let tree = tree_json(Source { name: String::new(), text: text.to_owned() }).ok();
    let tree = tree.and_then(|tree| serde_json::from_str::<Value>(&tree).ok());
    let Some(mut value) = tree.filter(Value::is_object) else { return text.to_owned() };
    let mut number = |list: Option<&Value>, word: &str| {
        let each = list.and_then(Value::as_array).into_iter().flatten();
        for (at, name) in each.filter_map(|each| each["name"].as_str()).enumerate() {
            names.insert(name.to_owned(), format!("{word} {}", at + 1));
        }
    };
    number(value.get("riders"), "rider");
    number(value.get("trip").and_then(|trip| trip.get("legs")), "leg");
    number(Some(&json!([{ "name": value["name"] }])), "trip");
    rename(&mut value, names);
    format!("{value:#}\n")
}

/// Every text and key that is one of these names, whole.
fn rename(value: &mut Value, names: &BTreeMap<String, String>) {
    let new = |text: &str| names.get(text).cloned();
    match value {
        Value::String(text) => *text = new(text).unwrap_or_else(|| std::mem::take(text)),
        Value::Array(all) => all.iter_mut().for_each(|each| rename(each, names)),
        Value::Object(map) => {
            let renamed: Map<String, Value> = std::mem::take(map)
                .into_iter()
                .map(|(key, mut value)| {
                    rename(&mut value, names);
                    (new(&key).unwrap_or(key), value)
                })
                .collect();
            *map = renamed;
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::told;
    use std::path::PathBuf;

    const TEXT: &str = "name: To the Brack hole  # with my sister\ntrip:\n  legs:\n    - name: down\n      riders: [Ada]\n\
                        riders:\n  - name: Ada\n    owns: { pump: 1 }\n";

    fn shown(without_names: bool) -> String {
        let files = [(PathBuf::from("/home/ada/brack.yaml"), TEXT.to_owned())];
        let arguments = ["pack".to_owned(), "brack.yaml".to_owned(), "--rider".to_owned(), "Ada".to_owned()];
        told(&arguments, &["mass of Ada is off".to_owned()], &files, without_names).to_string()
    }

    #[test]
    fn everything_is_in_it() {
        let told = shown(false);
        assert!(["/home/ada/brack.yaml", "my sister", "mass of Ada"].iter().all(|text| told.contains(text)), "{told}");
    }

    #[test]
    fn names_and_comments_can_be_left_out() {
        let told = shown(true);
        for name in ["Ada", "ada", "Brack", "brack", "sister", "down"] {
            assert!(!told.contains(name), "{name} is in {told}");
        }
        assert!(
            told.contains("pump") && told.contains("mass of rider 1 is off") && told.contains("file-1.yaml"),
            "{told}"
        );
    }
}
