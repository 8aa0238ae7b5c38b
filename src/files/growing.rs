//! Lines that come one by one over a long time: what is there is kept when the program ends early.
//!
//! A file grows under the name of its own with `.part` behind it, and gets its name when it is whole.

use super::write::{Unwritten, unobstructed};
use fardel_words::say;
use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, Write};
use std::path::{Path, PathBuf};

/// Where lines go.
#[derive(Debug)]
pub struct Growing {
    to: Option<Place>,
    before: u64,
}

#[derive(Debug)]
struct Place {
    file: File,
    part: PathBuf,
    whole: PathBuf,
}

fn part(whole: &Path) -> PathBuf {
    let mut name = whole.as_os_str().to_owned();
    name.push(".part");
    PathBuf::from(name)
}

impl Growing {
    /// Standard output.
    #[must_use]
    pub const fn printed() -> Self {
        Self { to: None, before: 0 }
    }

    /// A new file.
    ///
    /// # Errors
    /// [`Unwritten`] if the file or its beginning is there already and `force` is not set, or it cannot be made.
    pub fn new(whole: &Path, force: bool) -> Result<Self, Unwritten> {
        let part = part(whole);
        unobstructed(whole, force)?;
        unobstructed(&part, force)?;
        let file = File::create(&part).map_err(|error| unwritten(&part, error))?;
        Ok(Self { to: Some(Place { file, part, whole: whole.to_owned() }), before: 0 })
    }

    /// A file that goes on, or a new one if there is none. Every line that is there whole is shown to `same`, which says
    /// what is wrong with it; a line that was cut off is dropped.
    ///
    /// # Errors
    /// What `same` says, with the place, or that the file cannot be read or written.
    pub fn resumed(whole: &Path, mut same: impl FnMut(&str) -> Result<(), String>) -> Result<Self, String> {
        let part = part(whole);
        let from = if part.exists() { part.clone() } else { whole.to_owned() };
        if !from.exists() {
            return Self::new(whole, false).map_err(|error| error.to_string());
        }
        let told = |error: io::Error| unwritten(&from, error).to_string();
        let (mut length, mut lines) = (0, 0);
        let mut reader = BufReader::new(File::open(&from).map_err(told)?);
        let mut line = Vec::new();
        while reader.read_until(b'\n', &mut line).map_err(told)? > 0 && line.ends_with(b"\n") {
            lines += 1;
            let text = String::from_utf8_lossy(&line);
            same(&text)
                .map_err(|wrong| say!("{}:{lines}: these are results of other jobs: {wrong}", from.display()))?;
            length += line.len() as u64;
            line.clear();
        }
        if from != part {
            fs::rename(&from, &part).map_err(told)?;
        }
        let file = File::options().append(true).open(&part).map_err(told)?;
        file.set_len(length).map_err(told)?;
        Ok(Self { to: Some(Place { file, part, whole: whole.to_owned() }), before: lines })
    }

    /// Lines that were there before.
    #[must_use]
    pub const fn before(&self) -> u64 {
        self.before
    }

    /// Adds a line, line break included; from then on it stays. False: nobody reads on.
    ///
    /// # Errors
    /// [`Unwritten`], such as on a full disk.
    pub fn add(&mut self, line: &str) -> Result<bool, Unwritten> {
        match &mut self.to {
            None => print_on(line),
            Some(place) => {
                place.file.write_all(line.as_bytes()).map_err(|error| unwritten(&place.part, error))?;
                Ok(true)
            }
        }
    }

    /// The file is whole.
    ///
    /// # Errors
    /// [`Unwritten`] if it cannot get its name.
    pub fn finish(self) -> Result<(), Unwritten> {
        let Some(place) = self.to else { return Ok(()) };
        let done = place.file.sync_all().and_then(|()| fs::rename(&place.part, &place.whole));
        done.map_err(|error| unwritten(&place.whole, error))
    }
}

fn print_on(line: &str) -> Result<bool, Unwritten> {
    let mut out = io::stdout().lock();
    match out.write_all(line.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(false),
        Err(error) => Err(Unwritten { place: say!("standard output"), error }),
        Ok(()) => Ok(true),
    }
}

fn unwritten(path: &Path, error: io::Error) -> Unwritten {
    Unwritten { place: path.display().to_string(), error }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_torn_line_goes_and_whole_ones_stay() {
        let folder = tempfile::tempdir().unwrap();
        let whole = folder.path().join("results.jsonl");
        let mut first = Growing::new(&whole, false).unwrap();
        assert!(first.add("one\n").unwrap() && first.add("two\ntor").unwrap());
        assert!(Growing::new(&whole, false).is_err(), "what is begun is not lost by mistake");
        let mut seen = Vec::new();
        let mut again = Growing::resumed(&whole, |line| {
            seen.push(line.to_owned());
            Ok(())
        })
        .unwrap();
        assert_eq!((seen, again.before()), (vec!["one\n".to_owned(), "two\n".to_owned()], 2));
        again.add("three\n").unwrap();
        assert!(!whole.exists());
        again.finish().unwrap();
        assert_eq!(fs::read_to_string(&whole).unwrap(), "one\ntwo\nthree\n");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn other_lines_are_left_as_they_are() {
        let folder = tempfile::tempdir().unwrap();
        let whole = folder.path().join("results.jsonl");
        fs::write(&whole, "one\ntwo\n").unwrap();
        let wrong = Growing::resumed(&whole, |line| if line == "one\n" { Ok(()) } else { Err("no".to_owned()) });
        assert!(wrong.unwrap_err().ends_with("results.jsonl:2: these are results of other jobs: no"));
        assert_eq!(fs::read_to_string(&whole).unwrap(), "one\ntwo\n");
    }
}
