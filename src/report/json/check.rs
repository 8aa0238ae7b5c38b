//! What checking files came to.

use super::{Head, head, written};
use fardel_core::diagnostic::Fault;
use fardel_core::lint::{Checked, Warning};
use serde::Serialize;

#[derive(Serialize)]
struct Check<'a> {
    #[serde(flatten)]
    head: Head,
    files: Vec<File<'a>>,
}

#[derive(Serialize)]
struct File<'a> {
    file: &'a str,
    sort: &'static str,
    title: &'a str,
    sound: bool,
    notes: &'a [String],
    faults: Vec<Found<'a>>,
    warnings: Vec<Doubted<'a>>,
}

#[derive(Serialize)]
struct Found<'a> {
    code: &'static str,
    title: &'static str,
    file: &'a str,
    line: Option<usize>,
    place: &'a str,
    found: &'a str,
    expected: &'a str,
    nearest: Option<&'a str>,
}

#[derive(Serialize)]
struct Doubted<'a> {
    code: &'static str,
    title: &'static str,
    file: &'a str,
    line: Option<usize>,
    place: &'a str,
    what: &'a str,
}

/// All files, sound or not.
///
/// # Errors
/// Never in practice: no field can fail to be written.
pub fn check(files: &[Checked]) -> Result<String, serde_json::Error> {
    written(&Check { head: head("check"), files: files.iter().map(file).collect() })
}

fn file(checked: &Checked) -> File<'_> {
    File {
        file: &checked.file,
        sort: checked.sort.word(),
        title: &checked.title,
        sound: checked.faults.is_empty(),
        notes: &checked.notes,
        faults: checked.faults.iter().map(found).collect(),
        warnings: checked.warnings.iter().map(doubted).collect(),
    }
}

fn found(fault: &Fault) -> Found<'_> {
    Found {
        code: fault.code.id(),
        title: fault.code.title(),
        file: &fault.file,
        line: fault.line,
        place: &fault.place,
        found: &fault.found,
        expected: &fault.expected,
        nearest: fault.nearest.as_deref(),
    }
}

fn doubted(warning: &Warning) -> Doubted<'_> {
    Doubted {
        code: warning.lint.id(),
        title: warning.lint.title(),
        file: &warning.file,
        line: warning.line,
        place: &warning.place,
        what: &warning.what,
    }
}
