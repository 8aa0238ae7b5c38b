//! The sections of a catalogue, and the names known in each.

use super::findings::{Findings, Place};
use super::node::{Path, Step};
use crate::diagnostic::{Code, quoted};
use fardel_words::say;
use indexmap::IndexSet;

macro_rules! sections {
    ($($section:ident = $key:literal, $noun:literal;)+) => {
        /// A section whose entries have names.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub(crate) enum Section { $($section),+ }

        impl Section {
            pub const ALL: &'static [Self] = &[$(Self::$section),+];
            /// The key of the section in a file.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$section => $key),+ }
            }
            /// What one entry is called.
            pub const fn noun(self) -> &'static str {
                match self { $(Self::$section => $noun),+ }
            }
        }
    };
}

sections! {
    Attributes = "attributes", "an attribute";
    Functions = "functions", "a function";
    Stocks = "stocks", "a stock";
    Needs = "needs", "a need";
    Systems = "systems", "a system";
    Ladders = "ladders", "a ladder";
    Items = "items", "an item";
    Bikes = "bikes", "a bike";
    Bags = "bags", "a bag";
    Failures = "failures", "a failure";
    Preparations = "preparations", "a preparation";
    Checks = "checks", "a check";
    Sets = "sets", "a set";
    Evidence = "evidence", "a source";
    EventGroups = "event_groups", "a group of events";
    Rates = "rates", "a failure with a rate";
}

/// The names known in each section, and those of entries too broken to be read.
#[derive(Debug, Default)]
pub(crate) struct Names {
    known: Vec<IndexSet<String>>,
    broken: Vec<Vec<String>>,
}

impl Names {
    /// With the names of broken entries taken from what has been told so far.
    pub fn new(findings: &Findings) -> Self {
        let mut names =
            Self { known: vec![IndexSet::new(); Section::ALL.len()], broken: vec![Vec::new(); Section::ALL.len()] };
        for path in findings.spoilt_paths() {
            names.note_broken(path);
        }
        names
    }
    fn note_broken(&mut self, path: &Path) {
        let own = match path.0.as_slice() {
            [Step::Key(first), rest @ ..] if first == "catalogue" => rest,
            whole => whole,
        };
        let [Step::Key(key), Step::Key(id)] = own else { return };
        if let Some(section) = Section::ALL.iter().find(|section| section.key() == key) {
            self.broken[*section as usize].push(id.clone());
        }
    }
    /// Declares names.
    pub fn learn<'a>(&mut self, section: Section, names: impl IntoIterator<Item = &'a String>) {
        self.known[section as usize].extend(names.into_iter().cloned());
    }
    /// Every name that can be referred to.
    pub fn all(&self, section: Section) -> impl Iterator<Item = &str> {
        self.known[section as usize].iter().map(String::as_str)
    }
    /// Can this name be referred to?
    pub fn has(&self, section: Section, name: &str) -> bool {
        self.known[section as usize].contains(name)
            || self.broken[section as usize].iter().any(|broken| covers(broken, name))
    }
    /// The known name that looks most like the one at this place.
    pub fn nearest(&self, section: Section, name: &str, place: &Place, findings: &Findings) -> Option<String> {
        findings.nearest(place, name, self.known[section as usize].iter().map(String::as_str))
    }
    /// Tells when the name is unknown; `true` when it is known.
    pub fn check(&self, section: Section, name: &str, place: &Place, findings: &mut Findings) -> bool {
        let known = findings.blind() || self.has(section, name);
        if !known {
            let near = self.nearest(section, name, place, findings);
            let expected = say!("the name of {} in the section `{}`", section.noun(), section.key());
            findings.add(Code::UnknownName, place, quoted(name), expected, near);
        }
        known
    }
}

/// Is `name` the broken entry, or could it be a member of the broken family?
fn covers(broken: &str, name: &str) -> bool {
    match (broken.find('{'), broken.rfind('}')) {
        (Some(open), Some(close)) if open < close => {
            name.starts_with(&broken[..open]) && name.ends_with(&broken[close + 1..])
        }
        _ => broken == name,
    }
}
