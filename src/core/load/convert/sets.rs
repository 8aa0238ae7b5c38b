//! Working sets.

use super::form::Form;
use super::{Draft, Merged, keep};
use crate::domain::WorkingSet;
use crate::load::findings::Findings;
use crate::load::section::Section;

/// Converts all sets; the systems that they name must be there.
pub(super) fn sets(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.sets {
        let shape = entry.shape.clone();
        let mut form = Form::new(findings, entry.place.clone());
        let set = WorkingSet {
            id: id.clone(),
            name: form.name(shape.name),
            systems: shape.systems.unwrap_or_default(),
            kinds: shape.kinds.unwrap_or_default(),
            a_day: shape.a_day.map_or(0.0, |a_day| a_day.0),
            basis: form.basis(shape.basis),
        };
        for (at, system) in set.systems.iter().enumerate() {
            draft.names.check(Section::Systems, system, &entry.place.key("systems").index(at), form.findings);
        }
        keep!(draft, Sets, sets, id.clone(), entry.place.clone(), set);
    }
}
