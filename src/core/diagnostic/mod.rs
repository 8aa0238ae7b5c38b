//! What is wrong with the files, told so that a rider can mend it: where, what was found, what was expected.

mod code;
mod nearest;
mod words;

pub use code::Code;
#[cfg(test)]
pub(crate) use code::tests::plain_words_each_once;
pub use nearest::nearest;
pub use words::{did_you_mean, plain, quoted, sentence};

use crate::serial::parts;
use fardel_words::{say, several};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

parts! {
    /// A sort of problem by its id.
    FaultCode(code => Code) {
        /// Stable id, such as `unreadable-file`.
        code: &'static str = code.id(),
        /// In a line.
        title: &'static str = code.title(),
    }
}

/// Most problems reported of one file; the rest waits until these are mended.
pub const MOST_PER_FILE: usize = 100;

/// One problem in one place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Fault {
    /// What sort of problem.
    #[serde(flatten, with = "FaultCode")]
    pub code: Code,
    /// The file, as the rider named it.
    pub file: String,
    /// The keys that lead there: `items.patch-kit.mass`; members of a list are counted from one: `trip.legs[1]`.
    pub place: String,
    /// Line in the file, counted from one, where it could be told.
    pub line: Option<usize>,
    /// That line, shortened.
    pub excerpt: Option<String>,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: String,
    /// The known name that looks most like the one found.
    pub nearest: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", plain(&self.file, 1000))?;
        if let Some(line) = self.line {
            write!(f, ":{line}")?;
        }
        if !self.place.is_empty() {
            write!(f, ", {}", plain(&self.place, 120))?;
        }
        writeln!(f, ": {} [{}]", self.code.title(), self.code.id())?;
        if let (Some(line), Some(excerpt)) = (self.line, &self.excerpt) {
            writeln!(f, "  {line:>4} | {excerpt}")?;
        }
        writeln!(f, "  found {}", self.found)?;
        write!(f, "  expected {}", self.expected)?;
        self.nearest.iter().try_for_each(|name| write!(f, "{}", say!("\n  did you mean `{}`?", plain(name, 80))))
    }
}

/// All problems of all files, each told once, in the order of files and lines. Never empty when returned as an error.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Faults(pub Vec<Fault>);

impl Faults {
    /// How many different files have a problem.
    #[must_use]
    pub fn files(&self) -> usize {
        let mut names: Vec<&str> = self.0.iter().map(|fault| fault.file.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names.len()
    }

    /// Does some file have as many problems as are told of one file?
    fn cut_short(&self) -> bool {
        let of = |name: &str| self.0.iter().filter(|fault| fault.file == name).count();
        self.0.chunk_by(|a, b| a.file == b.file).any(|run| of(&run[0].file) >= MOST_PER_FILE)
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|fault| writeln!(f, "{fault}\n"))?;
        if self.cut_short() {
            writeln!(f, "{}", say!("Only the first {MOST_PER_FILE} problems of a file are told."))?;
        }
        let (faults, files) =
            (several!(self.0.len(), "{n} problem", "{n} problems"), several!(self.files(), "{n} file", "{n} files"));
        write!(f, "{}", say!("{faults} in {files}; nothing was done."))
    }
}

impl std::error::Error for Faults {}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(file: &str) -> Fault {
        Fault {
            code: Code::UnknownName,
            file: file.to_owned(),
            place: "items.patch-kit.holds".to_owned(),
            line: Some(7),
            excerpt: Some("    holds: { tube pach: 8 }".to_owned()),
            found: "`tube pach`".to_owned(),
            expected: "the name of a stock".to_owned(),
            nearest: Some("tube patch".to_owned()),
        }
    }

    #[test]
    fn a_fault_reads_as_a_message() {
        let shown = Faults(vec![fault("a.yaml")]).to_string();
        insta::assert_snapshot!(shown, @r"
        a.yaml:7, items.patch-kit.holds: a name that nothing has [unknown-name]
             7 |     holds: { tube pach: 8 }
          found `tube pach`
          expected the name of a stock
          did you mean `tube patch`?

        1 problem in 1 file; nothing was done.
        ");
    }

    #[test]
    fn problems_and_files_are_counted() {
        let shown = Faults(vec![fault("a.yaml"), fault("b.yaml"), fault("b.yaml")]).to_string();
        assert!(shown.ends_with("3 problems in 2 files; nothing was done."), "{shown}");
    }

    #[test]
    fn a_long_list_says_that_it_is_cut() {
        let shown = Faults(vec![fault("a.yaml"); MOST_PER_FILE]).to_string();
        assert!(shown.contains("Only the first 100 problems"), "{shown}");
    }
}
