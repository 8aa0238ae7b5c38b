//! Preparations: where they apply, and what they act on.

use super::{applies, keys};
use crate::load::convert::Draft;
use crate::load::findings::Findings;
use crate::load::section::Section;

/// Checks all preparations.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, preparation) in &draft.catalogue.preparations {
        let place = draft.place(Section::Preparations, id);
        applies::check(&preparation.applies, &place.key("applies"), draft, findings);
        keys(&preparation.effects, Section::Failures, &place.key("effects"), draft, findings);
    }
}
