//! Writing: whole files or none, and a quiet end when the reader goes away.
//!
//! A file is written under a temporary name, `.fardel-` and six characters, in the folder of its place, and then
//! renamed; several files of one answer all together. An existing file is kept unless `--force` is given; then links
//! are followed and the file's permissions stay. Devices and pipes are written to. What is in the way is reported
//! before the work is done, with what to do about it.

use super::temp_files::{Draft, finish};
use fardel_words::{say, word};
use std::fs::{self, File, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// What could not be written, and why, with what to do about it.
#[derive(Debug, thiserror::Error)]
#[error("{}", say!("{place}: cannot be written: {}", reason(.error)))]
pub struct Unwritten {
    /// The file, or what else it was.
    pub place: String,
    /// What went wrong.
    pub error: io::Error,
}

impl Unwritten {
    fn at(path: &Path, error: impl Into<io::Error>) -> Self {
        Self { place: path.display().to_string(), error: error.into() }
    }
}

/// In words, the same on every system.
fn reason(error: &io::Error) -> String {
    let known = match error.kind() {
        ErrorKind::AlreadyExists => word!("it exists already; --force replaces it"),
        ErrorKind::NotFound => word!("there is no such folder; make it first"),
        ErrorKind::NotADirectory => word!("a file is in the way where a folder is named; choose another place"),
        ErrorKind::IsADirectory => word!("it is a folder; name a file"),
        ErrorKind::PermissionDenied => word!("you may not write there; choose another place"),
        ErrorKind::ReadOnlyFilesystem => word!("the folder is read-only; choose another place"),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            word!("the disk is full; make room, or choose another place")
        }
        ErrorKind::FileTooLarge => word!("it grows larger than is allowed here; choose another place, or allow more"),
        _ => "",
    };
    if known.is_empty() { error.to_string() } else { known.to_owned() }
}

/// Writes files whole or not at all: to temporary names in the same folders, and only once all are written, into their
/// places. Existing files are kept unless `force` is set; then a link is followed, and the rights of the file stay.
/// Devices and pipes are not replaced but written to.
///
/// # Errors
/// [`Unwritten`] with the first file that fails; `AlreadyExists` when it is there and `force` is not set.
pub fn whole_files<'a>(files: impl IntoIterator<Item = (&'a Path, &'a [u8])>, force: bool) -> Result<(), Unwritten> {
    let (mut drafts, mut paths) = (Vec::new(), Vec::new());
    for (path, content) in files {
        let at = |error: io::Error| Unwritten::at(path, error);
        unobstructed(path, force)?;
        match fs::metadata(path) {
            Ok(there) if !there.is_file() => through(path, content).map_err(at)?,
            there => {
                let place = if there.is_ok() { fs::canonicalize(path).map_err(at)? } else { path.to_owned() };
                drafts.push((draft(&place, content, there.ok().as_ref()).map_err(at)?, place));
                paths.push(path);
            }
        }
    }
    finish(drafts, force).map_err(|(at, error)| Unwritten::at(paths[at], error))
}

/// Files into a folder, which is made if need be, as [`whole_files`] does it.
///
/// # Errors
/// As there.
pub fn into_folder<'a>(
    folder: &Path,
    files: impl IntoIterator<Item = (&'a Path, &'a [u8])>,
    force: bool,
) -> Result<(), Unwritten> {
    let new = !folder.exists();
    fs::create_dir_all(folder).map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => Unwritten::at(folder, ErrorKind::NotADirectory),
        _ => Unwritten::at(folder, error),
    })?;
    let written = whole_files(files, force);
    if new && written.is_err() {
        // An empty folder is of no use to anybody; one that another run has begun to fill stays.
        let _ = fs::remove_dir(folder);
    }
    written
}

/// One file, as [`whole_files`] does it.
///
/// # Errors
/// As there.
pub fn whole_file(path: &Path, content: impl AsRef<[u8]>, force: bool) -> Result<(), Unwritten> {
    whole_files([(path, content.as_ref())], force)
}

/// A file into its place, whole or not at all, in the place of whatever file or link is there: a link is not followed.
///
/// # Errors
/// [`Unwritten`]; what was there is as it was.
pub fn replace(path: &Path, content: impl AsRef<[u8]>) -> Result<(), Unwritten> {
    let at = |error: io::Error| Unwritten::at(path, error);
    let there = fs::symlink_metadata(path).ok().filter(Metadata::is_file);
    let draft = draft(path, content.as_ref(), there.as_ref()).map_err(at)?;
    finish(vec![(draft, path.to_owned())], true).map_err(|(_, error)| at(error))
}

/// Is there nothing to be seen, before the work is done, that a file will fail by?
///
/// # Errors
/// [`Unwritten`] if a file is there that is to be kept, or a folder, or if the file's folder is not there.
pub fn unobstructed(path: &Path, force: bool) -> Result<(), Unwritten> {
    match fs::metadata(path) {
        Ok(there) if there.is_dir() => Err(Unwritten::at(path, ErrorKind::IsADirectory)),
        Ok(there) if there.is_file() && !force => Err(Unwritten::at(path, ErrorKind::AlreadyExists)),
        Ok(_) => Ok(()),
        Err(_) => match fs::metadata(folder(path)) {
            Ok(there) if !there.is_dir() => Err(Unwritten::at(path, ErrorKind::NotADirectory)),
            there => there.map(drop).map_err(|error| Unwritten::at(path, error)),
        },
    }
}

/// Where a file is.
fn folder(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// The content under a temporary name, safe on the disk, with the rights of the file that it is to replace.
fn draft(place: &Path, content: &[u8], replaced: Option<&Metadata>) -> io::Result<Draft> {
    let draft = Draft::new_in(folder(place))?;
    let mut file = draft.file()?;
    file.write_all(content)?;
    if let Some(replaced) = replaced {
        file.set_permissions(replaced.permissions())?;
    }
    file.sync_all()?;
    Ok(draft)
}

/// To a device or a pipe; nobody at its other end is no error.
fn through(path: &Path, content: &[u8]) -> io::Result<()> {
    quiet_end(File::options().write(true).open(path)?.write_all(content))
}

/// Waits until no other run holds this place, and holds it until dropped. Where places cannot be held, nobody waits.
///
/// What is held is the folder, so that nothing is left behind and a run that dies lets go.
#[must_use]
pub fn hold(path: &Path) -> Option<File> {
    let place: PathBuf = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let held = File::open(folder(&place)).ok()?;
    held.lock().ok().map(|()| held)
}

/// Prints to standard output; a reader that has gone away is no error.
///
/// # Errors
/// [`Unwritten`], other than by a broken pipe.
pub fn print(content: &str) -> Result<(), Unwritten> {
    let mut out = anstream::stdout().lock();
    let printed = out.write_all(content.as_bytes()).and_then(|()| out.flush());
    quiet_end(printed).map_err(|error| Unwritten { place: say!("standard output"), error })
}

fn quiet_end(written: io::Result<()>) -> io::Result<()> {
    match written {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_existing_file_survives_without_force() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("plan.json");
        whole_file(&path, "one", false).unwrap();
        assert_eq!(whole_file(&path, "two", false).unwrap_err().error.kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read_to_string(&path).unwrap(), "one");
        whole_file(&path, "two", true).unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "no temporary file is left");
    }

    #[test]
    fn a_missing_folder_is_an_error_and_writes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        assert!(whole_file(&folder.path().join("no/such/plan.json"), "x", true).is_err());
    }

    /// The second file is in the way of itself: the first must not stay without it.
    #[test]
    fn of_several_files_all_or_none_are_there() {
        let folder = tempfile::tempdir().unwrap();
        let (one, two) = (folder.path().join("one"), folder.path().join("two"));
        let files = |paths: [&Path; 3]| whole_files(paths.map(|path| (path, &b"x"[..])), false);
        assert_eq!(files([&one, &two, &two]).unwrap_err().place, two.display().to_string());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
