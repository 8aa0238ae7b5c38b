//! The command line from outside: exit status, both streams, and the files left behind.
//!
//! Nearly all runs are on the tiny world in `tests/cli/tiny`, which can be checked by hand.

mod answers;
mod batch;
mod card;
mod check;
mod class;
mod comforts;
mod files;
mod formats;
mod help;
mod new;
mod refusals;
mod route;
mod schema;
mod stopped;
mod streams;
mod together;
mod tradeoff;
mod trim;
mod why;
mod writing;

use crate::support::{Run, fardel};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;
pub use writing::RIDE;

/// The tiny world in a folder of its own.
pub struct Tiny(TempDir);

/// What every run on the tiny world begins with.
const PACK: [&str; 5] = ["pack", "trip.yaml", "--catalogues", "catalogue", "--full"];

impl Tiny {
    pub fn new() -> Self {
        Self::but(&[])
    }

    /// With changes to the trip, each of which must have something to change.
    fn but(changes: &[(&str, &str)]) -> Self {
        let tiny = Self(tempfile::tempdir().unwrap());
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny");
        fs::create_dir(tiny.path().join("catalogue")).unwrap();
        fs::copy(from.join("catalogue/world.yaml"), tiny.path().join("catalogue/world.yaml")).unwrap();
        let mut trip = fs::read_to_string(from.join("trip.yaml")).unwrap();
        for (old, new) in changes {
            assert!(trip.contains(old), "`{old}` is not in the tiny trip");
            trip = trip.replace(old, new);
        }
        tiny.write("trip.yaml", &trip);
        tiny
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn write(&self, name: &str, text: &str) {
        fs::write(self.path().join(name), text).unwrap();
    }

    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// Everything in the folder, in order of names.
    fn files(&self) -> Vec<PathBuf> {
        let mut names: Vec<PathBuf> =
            fs::read_dir(self.path()).unwrap().map(|entry| entry.unwrap().file_name().into()).collect();
        names.sort();
        names
    }

    /// Packs the trip, with further arguments.
    pub fn pack(&self, further: &[&str]) -> Run {
        fardel(self.path(), &arguments(further))
    }
}

fn arguments<'a>(further: &[&'a str]) -> Vec<&'a str> {
    PACK.iter().chain(further).copied().collect()
}

impl Run {
    /// The run ended with this status and left nothing on standard output.
    pub fn refused(&self, code: i32) -> &str {
        assert_eq!((self.code, self.out.as_str()), (code, ""), "{}", self.err);
        assert!(!self.err.is_empty(), "a refusal says why");
        &self.err
    }

    /// The run answered and complained of nothing.
    pub fn answered(&self) -> &str {
        assert_eq!((self.code, self.err.as_str()), (0, ""));
        &self.out
    }
}

/// Compares a whole run with `tests/snapshots/cli`.
pub fn compare(name: &str, run: &Run) {
    let shown = format!("exit status {}\n--- standard output\n{}--- standard error\n{}", run.code, run.out, run.err);
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.set_snapshot_path("../snapshots/cli");
    settings.add_filter(r"fardel \d+\.\d+\.\d+", "fardel [version]");
    // The last digits of a float are not the point, and the second engine is there only in some builds.
    settings.add_filter(r"(\d\.\d{6})\d+", "$1");
    settings.add_filter(r"\n *- highs: [^\n]*", "");
    settings.bind(|| insta::assert_snapshot!(name, shown));
}
