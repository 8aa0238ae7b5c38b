//! Where the entries of a catalogue were written, for whoever has something to say about them.

use super::convert::Draft;
use super::findings::{Findings, Place};
use super::section::Section;
use indexmap::IndexMap;

/// File and line of every entry of a catalogue.
#[derive(Debug)]
pub struct Origins {
    findings: Findings,
    places: IndexMap<(Section, String), Place>,
}

impl Origins {
    pub(super) fn new(findings: Findings, draft: &Draft) -> Self {
        Self { findings, places: draft.places() }
    }

    /// The file that has this entry of a section (`items`, `bikes` ...), and the line of its key. This reads the file
    /// again.
    #[must_use]
    pub fn of(&self, section: &str, id: &str) -> Option<(&str, Option<usize>)> {
        let section = Section::ALL.iter().find(|known| known.key() == section)?;
        let place = self.places.get(&(*section, id.to_owned()))?;
        Some((self.findings.name(place.file), self.findings.line(place)))
    }
}
