//! What checking files came to, as text.

use fardel_core::diagnostic::plain;
use fardel_core::lint::{Checked, Warning};
use fardel_words::{say, several};

/// The sound files and what there is to look at; faults are told elsewhere, in the words of `load`.
#[must_use]
pub fn check(files: &[Checked]) -> String {
    let mut text = String::new();
    for file in files.iter().filter(|file| file.faults.is_empty()) {
        let found = match file.warnings.len() {
            0 => say!("no problems found"),
            some => say!("{} to look at", several!(some, "{n} thing", "{n} things")),
        };
        text += &format!("{}: {}; {found}.\n", file.file, file.title);
        text.extend(file.notes.iter().map(|note| format!("  {note}\n")));
        text.extend(file.warnings.iter().map(warning));
    }
    text
}

fn warning(warning: &Warning) -> String {
    let line = warning.line.map_or_else(String::new, |line| format!(":{line}"));
    let place = plain(&warning.place, 120);
    let (lint, what) = (warning.lint, plain(&warning.what, 300));
    format!("\n{}{line}, {place}: {} [{}]\n  {what}\n", warning.file, lint.title(), lint.id())
}
