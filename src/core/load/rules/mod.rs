//! Checks that look across entries and files. One file per subject; each tells all it finds.

mod applies;
mod bags;
mod bikes;
mod checks;
mod evidence;
mod failures;
mod functions;
mod group;
mod items;
mod legs;
mod physics;
mod preferences;
mod preparations;
mod riders;
mod rings;
mod templates;

pub(super) use templates::shape;

use super::convert::Draft;
use super::findings::{Findings, Place};
use super::section::Section;
use crate::domain::{Map, Scenario};

/// Checks the catalogue against itself.
pub(super) fn catalogue(draft: &Draft, findings: &mut Findings) {
    functions::check(draft, findings);
    items::check(draft, findings);
    bags::check(draft, findings);
    bikes::check(draft, findings);
    failures::check(draft, findings);
    preparations::check(draft, findings);
    checks::check(draft, findings);
    evidence::check(draft, findings);
}

/// Checks a scenario against the catalogue.
pub(super) fn scenario(scenario: &Scenario, file: usize, draft: &Draft, findings: &mut Findings) {
    let root = Place { file, ..Place::default() };
    legs::check(&scenario.trip, &root.key("trip"), findings);
    riders::check(scenario, &root, draft, findings);
    group::check(scenario, &root, draft, findings);
    preferences::check(scenario, &root, draft, findings);
}

/// Checks the keys of a map or the members of a list against a section.
fn keys<T>(map: &Map<T>, section: Section, place: &Place, draft: &Draft, findings: &mut Findings) {
    for name in map.keys() {
        draft.names.check(section, name, &place.key(name), findings);
    }
}

/// The same for a list.
fn members(list: &[String], section: Section, place: &Place, draft: &Draft, findings: &mut Findings) {
    for (at, name) in list.iter().enumerate() {
        draft.names.check(section, name, &place.index(at), findings);
    }
}
