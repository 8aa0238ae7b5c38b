//! Where texts come from: the binary itself, a folder, a path.

use super::rows::is_rows;
use super::yaml::line_text;
use crate::diagnostic::{Code, Fault, Faults, quoted};
use include_dir::{Dir, include_dir};
use std::collections::BTreeSet;
use std::fs;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

static CATALOGUES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/catalogues");

/// Beyond this nothing is read; the parser tells that the file is too large.
const LARGEST: u64 = (4 << 20) + 1;

/// A named text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// What messages call it.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// A file that could not be read, and why.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{name}: {reason}")]
pub struct Unreadable {
    /// The file.
    pub name: String,
    /// Why, in words.
    pub reason: String,
}

impl Source {
    /// One of its lines, counted from one.
    pub(super) fn line(&self, line: usize) -> Option<&str> {
        if is_rows(&self.name) { self.text.lines().nth(line.checked_sub(1)?) } else { line_text(&self.text, line) }
    }

    /// Reads a file.
    ///
    /// # Errors
    /// [`Unreadable`] when it is missing, a folder, or not UTF-8.
    pub fn read(path: &Path) -> Result<Self, Unreadable> {
        let name = path.display().to_string();
        let refuse = |reason: String| Unreadable { name: name.clone(), reason };
        if path.is_dir() {
            return Err(refuse("a folder".to_owned()));
        }
        let mut bytes = Vec::new();
        let opened = fs::File::open(path).and_then(|file| file.take(LARGEST).read_to_end(&mut bytes));
        opened.map_err(|error| match error.kind() {
            ErrorKind::NotFound => refuse("no such file".to_owned()),
            ErrorKind::PermissionDenied => refuse("a file that may not be read".to_owned()),
            _ => refuse(error.to_string()),
        })?;
        // A cut in the middle of a letter must not hide that the file is simply too large.
        let large = bytes.len() as u64 == LARGEST;
        let text = if large { Ok(String::from_utf8_lossy(&bytes).into_owned()) } else { String::from_utf8(bytes) };
        match text {
            Ok(text) => {
                note(path);
                Ok(Self { name, text })
            }
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                let line = error.as_bytes()[..at].split(|byte| *byte == b'\n').count();
                Err(refuse(format!("bytes that are not UTF-8 text, in line {line}")))
            }
        }
    }
}

/// Files that were read, by their places on the disk: nothing is to be written over them by mistake.
static READ: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

fn read_so_far() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    READ.lock().unwrap_or_else(PoisonError::into_inner)
}

fn note(path: &Path) {
    // A pipe or device cannot be overwritten, and has no place of its own.
    if let Some(place) = fs::canonicalize(path).ok().filter(|place| place.is_file()) {
        read_so_far().insert(place);
    }
}

/// Was this file read by this process, under whatever name?
#[must_use]
pub fn was_read(path: &Path) -> bool {
    fs::canonicalize(path).is_ok_and(|place| read_so_far().contains(&place))
}

impl Unreadable {
    pub(super) fn fault(self) -> Fault {
        Fault {
            code: Code::Unreadable,
            file: self.name,
            place: String::new(),
            line: None,
            excerpt: None,
            found: self.reason,
            expected: "a text file in UTF-8".to_owned(),
            nearest: None,
        }
    }
}

/// The catalogue files in the binary, in the order of their names.
#[must_use]
pub fn shipped() -> Vec<Source> {
    let mut sources: Vec<Source> = CATALOGUES
        .files()
        .filter(|file| is_yaml(file.path()))
        .map(|file| Source {
            name: format!("catalogues/{}", file.path().display()),
            text: String::from_utf8_lossy(file.contents()).into_owned(),
        })
        .collect();
    sources.sort_by(|a, b| a.name.cmp(&b.name));
    sources
}

/// The catalogue files of a folder, in the order of their names.
///
/// # Errors
/// [`Faults`] when the folder or one of its files cannot be read, or when it has no catalogue file.
pub fn catalogue_from_dir(dir: &Path) -> Result<Vec<Source>, Faults> {
    let (mut sources, mut faults) = (Vec::new(), Vec::new());
    for read in read_dir(dir) {
        match read {
            Ok(source) => sources.push(source),
            Err(unreadable) => faults.push(unreadable.fault()),
        }
    }
    if faults.is_empty() { Ok(sources) } else { Err(Faults(faults)) }
}

/// The same, file by file; a folder without any is one that cannot be read.
pub(super) fn read_dir(dir: &Path) -> Vec<Result<Source, Unreadable>> {
    match paths(dir) {
        Ok(paths) => paths.iter().map(|path| Source::read(path)).collect(),
        Err(unreadable) => vec![Err(unreadable)],
    }
}

fn paths(dir: &Path) -> Result<Vec<PathBuf>, Unreadable> {
    let name = dir.display().to_string();
    let refuse = |reason: String| Unreadable { name: name.clone(), reason };
    let entries = fs::read_dir(dir).map_err(|error| match error.kind() {
        ErrorKind::NotFound => refuse("no such folder".to_owned()),
        ErrorKind::NotADirectory => refuse("a file where a folder of catalogue files belongs".to_owned()),
        _ => refuse(error.to_string()),
    })?;
    let mut paths: Vec<_> = entries.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.retain(|path| is_yaml(path));
    paths.sort();
    if paths.is_empty() {
        return Err(refuse(format!("no file ending in `.yaml` in {}", quoted(&name))));
    }
    Ok(paths)
}

fn is_yaml(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}
