//! Writing: whole files or none, and a quiet end when the reader goes away.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Writes a file whole or not at all: to a temporary name in the same folder, then renamed. An existing file is kept
/// unless `force` is set.
///
/// # Errors
/// [`io::Error`] with the reason; `AlreadyExists` when the file is there and `force` is not set.
pub fn whole_file(path: &Path, content: impl AsRef<[u8]>, force: bool) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !force && path.try_exists()? {
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, "it exists already; --force replaces it"));
    }
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(content.as_ref())?;
    file.as_file().sync_all()?;
    readable_as_usual(file.as_file())?;
    let kept = if force { file.persist(path).map(drop) } else { file.persist_noclobber(path).map(drop) };
    kept.map_err(|error| error.error)
}

/// Temporary files are born private; an answer may be read by whoever may read the folder.
#[cfg(unix)]
fn readable_as_usual(file: &fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable_as_usual(_: &fs::File) -> io::Result<()> {
    Ok(())
}

/// Prints to standard output; a reader that has gone away is no error.
///
/// # Errors
/// [`io::Error`] other than a broken pipe.
pub fn print(content: &str) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    match out.write_all(content.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
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
        assert_eq!(whole_file(&path, "two", false).unwrap_err().kind(), io::ErrorKind::AlreadyExists);
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
}
