//! Reading: files and folders of files, as named texts.

use fardel_core::diagnostic::{Faults, quoted};
use fardel_core::domain::Catalogue;
use fardel_core::load::{self, Gear, List, Loaded, PackedKit, Source, Unreadable, is_yaml, names_path, shipped};
use fardel_milp::timing::timed;
use fardel_words::say;
use std::collections::BTreeSet;
use std::fs;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Most bytes that are read of any file: one more than a parser takes, which then says that the file is too large.
const LARGEST: u64 = (4 << 20) + 1;

/// Reads a file.
///
/// # Errors
/// [`Unreadable`] when it is missing, a folder, or not UTF-8.
pub fn source(path: &Path) -> Result<Source, Unreadable> {
    read_source(path, LARGEST)
}

fn read_source(path: &Path, largest: u64) -> Result<Source, Unreadable> {
    let name = path.display().to_string();
    let refuse = |reason: String| Unreadable { name: name.clone(), reason };
    if path.is_dir() {
        return Err(refuse("a folder".to_owned()));
    }
    let mut bytes = Vec::new();
    let opened = fs::File::open(path).and_then(|file| file.take(largest).read_to_end(&mut bytes));
    opened.map_err(|error| refuse(reason(&error)))?;
    // A cut in the middle of a letter must not hide that the file is simply too large.
    let large = bytes.len() as u64 == largest;
    let text = if large { Ok(String::from_utf8_lossy(&bytes).into_owned()) } else { String::from_utf8(bytes) };
    match text {
        Ok(text) => {
            note(path);
            Ok(Source { name, text })
        }
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let line = error.as_bytes()[..at].split(|byte| *byte == b'\n').count();
            Err(refuse(say!("bytes that are not UTF-8 text, in line {line}")))
        }
    }
}

fn reason(error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => say!("no such file"),
        ErrorKind::PermissionDenied => say!("a file that may not be read"),
        _ => error.to_string(),
    }
}

/// Files that were read, by their places on the disk: nothing is to be written over them by mistake.
static READ: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

fn read_so_far() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    READ.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Notes that this file was read.
pub fn note(path: &Path) {
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

/// The files that were read by this process, as they are now.
#[must_use]
pub fn read_again() -> Vec<(PathBuf, String)> {
    let places = read_so_far().clone();
    places.into_iter().filter_map(|place| Some((place.clone(), source(&place).ok()?.text))).collect()
}

/// Reads a file that may be larger than those of a catalogue, up to so many bytes and one more.
///
/// # Errors
/// [`Unreadable`] as [`source`] has it.
pub fn large_source(path: &Path, largest: u64) -> Result<Source, Unreadable> {
    read_source(path, largest.saturating_add(1))
}

/// Opens a file that is read piece by piece.
///
/// # Errors
/// [`Unreadable`] when it is missing, a folder, or may not be read.
pub fn opened(path: &Path) -> Result<fs::File, Unreadable> {
    let name = path.display().to_string();
    if path.is_dir() {
        return Err(Unreadable { name, reason: "a folder".to_owned() });
    }
    let file = fs::File::open(path).map_err(|error| Unreadable { name, reason: reason(&error) })?;
    note(path);
    Ok(file)
}

/// The catalogue files of a folder, in the order of their names.
///
/// # Errors
/// [`Faults`] when the folder or one of its files cannot be read, or when it has no catalogue file.
pub fn catalogue_files(dir: &Path) -> Result<Vec<Source>, Faults> {
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
fn read_dir(dir: &Path) -> Vec<Result<Source, Unreadable>> {
    match paths(dir) {
        Ok(paths) => paths.iter().map(|path| source(path)).collect(),
        Err(unreadable) => vec![Err(unreadable)],
    }
}

fn paths(dir: &Path) -> Result<Vec<PathBuf>, Unreadable> {
    let name = dir.display().to_string();
    let refuse = |reason: String| Unreadable { name: name.clone(), reason };
    let entries = fs::read_dir(dir).map_err(|error| match error.kind() {
        ErrorKind::NotFound => refuse(say!("no such folder")),
        ErrorKind::NotADirectory => refuse(say!("a file where a folder of catalogue files belongs")),
        _ => refuse(error.to_string()),
    })?;
    let mut paths: Vec<_> = entries.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.retain(|path| is_yaml(path));
    paths.sort();
    if paths.is_empty() {
        return Err(refuse(say!("no file ending in `.yaml` in {}", quoted(&name))));
    }
    Ok(paths)
}

/// Loads a scenario with the catalogue in `catalogue_dir`, or the shipped one.
///
/// # Errors
/// [`Faults`] with everything wrong in any of the files, unreadable ones included.
pub fn load(scenario: &Path, catalogue_dir: Option<&Path>) -> Result<Loaded, Faults> {
    timed("read the files", || {
        let catalogue = catalogue_dir.map_or_else(|| shipped().into_iter().map(Ok).collect(), read_dir);
        let folder = scenario.parent().unwrap_or_else(|| Path::new("")).to_owned();
        load::load_read(catalogue, source(scenario), &|name| source(&folder.join(name)))
    })
}

/// Reads a gear file on its own.
///
/// # Errors
/// [`Faults`] with everything wrong in the file.
pub fn gear(path: &Path, catalogue: &Catalogue) -> Result<Gear, Faults> {
    load::gear_text(source(path)?, catalogue)
}

/// Reads a packed kit, with the file of names beside it where there is one.
///
/// # Errors
/// [`Faults`] with everything wrong in the files.
pub fn kit(path: &Path, catalogue: &Catalogue) -> Result<PackedKit, Faults> {
    load::kit_read(source(path), names(path), catalogue)
}

/// Reads a list as a rider keeps it, with the file of names beside it where there is one; `changes` are confirmed names.
///
/// # Errors
/// [`Faults`] with everything wrong in the files.
pub fn list(path: &Path, catalogue: &Catalogue, changes: &[(String, String)]) -> Result<List, Faults> {
    load::list_text(source(path), names(path), catalogue, changes)
}

fn names(list: &Path) -> Option<Result<Source, Unreadable>> {
    let names = names_path(list);
    names.is_file().then(|| source(&names))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_and_missing_files_are_faults() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let faults = load(&here.join("src"), Some(&here.join("nowhere"))).unwrap_err();
        let found: Vec<&str> = faults.0.iter().map(|fault| fault.found.as_str()).collect();
        assert_eq!(found, ["a folder", "no such folder"]);
        assert!(catalogue_files(&here.join("src")).is_err());
        assert!(catalogue_files(&here.join("Cargo.toml")).is_err());
    }
}
