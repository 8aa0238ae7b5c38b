//! Checks before leaving.

use super::failures::applies;
use super::form::Form;
use super::{Draft, Merged, keep};
use crate::domain::Check;
use crate::load::findings::Findings;

/// Converts all checks.
pub(super) fn checks(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.checks {
        let shape = entry.shape.clone();
        let mut form = Form::new(findings, entry.place.clone());
        let check = Check {
            id: id.clone(),
            name: form.name(shape.name),
            applies: applies(shape.applies),
            look: form.text("look", shape.look),
            stop: form.text("stop", shape.stop),
            defer: form.text("defer", shape.defer),
            basis: form.basis(shape.basis),
        };
        keep!(draft, Checks, checks, id.clone(), entry.place.clone(), check);
    }
}
