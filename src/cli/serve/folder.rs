//! The folder that was named: its files are listed, read and written, and nothing else on this machine.
//!
//! A name is a plain file name with one of a few endings. A file goes to a temporary name in the folder and is renamed
//! into its place, so that a power cut leaves the old file or the new one; what stands in its place is replaced and never
//! followed, so a link leads nowhere.

use crate::files::{read, write};
use fardel_planner::Refused;
use fardel_words::say;
use serde::{Deserialize, Serialize};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// Longest name of a file.
const LONGEST_NAME: usize = 100;
/// Most bytes of a file that is saved: what every command reads.
const LARGEST: usize = 4 << 20;
/// Most files that are listed.
const MOST_LISTED: usize = 1000;
/// Endings of the files that a planner has to do with.
const ENDINGS: [&str; 6] = ["yaml", "yml", "json", "csv", "tsv", "gpx"];

/// A folder of trips.
#[derive(Debug)]
pub(super) struct Folder {
    path: PathBuf,
    /// One file at a time, so that what is compared is what is replaced.
    saving: Mutex<()>,
}

/// A file to save.
#[derive(Debug, Deserialize)]
#[allow(clippy::option_option, reason = "`null` is a file that is not there; a key that is not there asks for nothing")]
pub(super) struct Saved {
    name: String,
    text: String,
    /// What the page read there, or nothing where it is to be a new file; not given, whatever is there is replaced.
    #[serde(default, deserialize_with = "given")]
    was: Option<Option<String>>,
}

/// A file to read.
#[derive(Debug, Deserialize)]
pub(super) struct Named {
    name: String,
}

#[derive(Serialize)]
struct Text<'a> {
    name: &'a str,
    text: &'a str,
}

#[derive(Serialize)]
struct Listed {
    name: String,
    kind: &'static str,
}

/// Tells `null` from a key that is not there.
#[allow(clippy::option_option, reason = "they are not the same")]
fn given<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Option<Option<String>>, D::Error> {
    Option::deserialize(deserializer).map(Some)
}

impl Folder {
    /// A folder that is there.
    ///
    /// # Errors
    /// In words, where it is not.
    pub(super) fn new(path: &Path) -> Result<Self, String> {
        let told = |error: std::io::Error| say!("{}: no folder to keep trips in: {error}", path.display());
        let place = fs::canonicalize(path).map_err(told)?;
        if !place.is_dir() {
            return Err(say!("{}: a file; a folder is expected", path.display()));
        }
        Ok(Self { path: place, saving: Mutex::new(()) })
    }

    /// Where a file of this name is.
    fn place(&self, name: &str) -> Result<PathBuf, Refused> {
        if !is_plain(name) {
            let endings = ENDINGS.join(", ");
            let wanted = say!("a file name without folders that ends in one of {endings} is expected");
            return Err(Refused::words(format!("`{}`: {wanted}", name.escape_debug())));
        }
        let place = self.path.join(name);
        match fs::symlink_metadata(&place) {
            Ok(there) if !there.is_file() => {
                Err(Refused::words(say!("{name}: no plain file; links and folders are left alone")))
            }
            _ => Ok(place),
        }
    }

    /// Names and kinds of the files in it.
    pub(super) fn list(&self) -> Result<String, Refused> {
        let told = |error: std::io::Error| Refused::words(say!("the folder cannot be read: {error}"));
        let mut files: Vec<Listed> = Vec::new();
        for entry in fs::read_dir(&self.path).map_err(told)?.filter_map(Result::ok) {
            let is_file = entry.file_type().is_ok_and(|sort| sort.is_file());
            let name = entry.file_name().into_string().ok().filter(|name| is_file && is_plain(name));
            files.extend(name.map(|name| Listed { kind: kind(&entry.path()), name }));
            if files.len() == MOST_LISTED {
                break;
            }
        }
        files.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(serde_json::to_string(&files)?)
    }

    /// A file's text.
    pub(super) fn open(&self, named: &Named) -> Result<String, Refused> {
        let source =
            read::source(&self.place(&named.name)?).map_err(|error| self.unreadable(&named.name, &error.reason))?;
        Ok(serde_json::to_string(&Text { name: &named.name, text: &source.text })?)
    }

    fn unreadable(&self, name: &str, reason: &str) -> Refused {
        Refused::words(say!("{name} in {}: {reason}", self.path.display()))
    }

    /// Writes a file, whole or not at all.
    pub(super) fn save(&self, saved: &Saved) -> Result<String, Refused> {
        let place = self.place(&saved.name)?;
        if saved.text.len() > LARGEST {
            return Err(Refused::words(say!("{}: at most 4 MB are saved", saved.name)));
        }
        let _alone = self.saving.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(was) = &saved.was {
            let now = if place.exists() { fs::read_to_string(&place).ok() } else { None };
            if now != *was {
                return Err(Refused::Changed(say!(
                    "{}: it has changed since it was opened; nothing was saved",
                    saved.name
                )));
            }
        }
        write::replace(&place, &saved.text).map_err(|unwritten| Refused::words(unwritten.to_string()))?;
        Ok("{\"saved\":true}".to_owned())
    }
}

/// What is in a file.
fn kind(path: &Path) -> &'static str {
    if path.extension().is_some_and(|ending| ending == "gpx") {
        return "track";
    }
    read::source(path).map_or("unreadable", |source| fardel_planner::kind_of(&source))
}

/// A name that means a file in this very folder on every system.
fn is_plain(name: &str) -> bool {
    let path = Path::new(name);
    let ending = path.extension().and_then(|ending| ending.to_str()).is_some_and(|ending| ENDINGS.contains(&ending));
    let stem = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
    let fits = |c: char| !c.is_control() && !"/\\:*?\"<>|%".contains(c) && !is_directed(c);
    ending
        && !name.starts_with(['.', ' ', '-'])
        && !stem.ends_with([' ', '.'])
        && name.len() <= LONGEST_NAME
        && name.chars().all(fits)
        && !is_device(stem)
}

/// Letters that turn the direction of others around, so that a name shows an ending that it has not.
const fn is_directed(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Names that mean a device on one system, whatever their ending.
fn is_device(stem: &str) -> bool {
    let first = stem.split('.').next().unwrap_or_default().to_ascii_uppercase();
    let numbered = |word: &str| {
        first.strip_prefix(word).is_some_and(|rest| rest.len() == 1 && rest.as_bytes()[0].is_ascii_digit())
    };
    matches!(first.as_str(), "CON" | "PRN" | "AUX" | "NUL") || numbered("COM") || numbered("LPT")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_names_are_files_of_the_folder() {
        for name in ["trip.yaml", "Über den Berg.yaml", "my.names.csv", "a.json", "ride 2.gpx"] {
            assert!(is_plain(name), "{name}");
        }
        let long = format!("{}.yaml", "a".repeat(LONGEST_NAME));
        for name in [
            "",
            "..",
            ".yaml",
            ".hidden.yaml",
            "../a.yaml",
            "a/b.yaml",
            "a\\b.yaml",
            "c:a.yaml",
            "a.exe",
            "a",
            "a.yaml\0",
            "a\n.yaml",
            "nul.yaml",
            "COM1.csv",
            "a .yaml",
            "-a.yaml",
            "a%2f.yaml",
            "txt\u{202e}lmay.yaml",
            &long,
        ] {
            assert!(!is_plain(name), "{name:?}");
        }
    }
}
