//! Functions: the ways to have them exist, and no function is had from itself.

use super::rings::rings;
use crate::diagnostic::{Code, quoted};
use crate::load::convert::Draft;
use crate::load::findings::Findings;
use crate::load::section::Section;
use fardel_words::say;

/// Checks `also_from`.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, function) in &draft.catalogue.functions {
        let place = draft.place(Section::Functions, id).key("also_from");
        for (at, way) in function.also_from.iter().enumerate() {
            for part in way {
                draft.names.check(Section::Functions, part, &place.index(at), findings);
            }
            if way.is_empty() {
                let expected = say!("the functions that give it together");
                findings.add(Code::NothingThere, &place.index(at), say!("an empty list"), expected, None);
            }
        }
    }
    for ring in rings(&draft.catalogue.functions) {
        let Some(first) = ring.first() else { continue };
        let place = draft.place(Section::Functions, first).key("also_from");
        let found = quoted(&format!("{} -> {first}", ring.join(" -> ")));
        let expected = say!("ways that end at functions which items provide");
        findings.add(Code::FunctionRing, &place, found, expected, None);
    }
}
