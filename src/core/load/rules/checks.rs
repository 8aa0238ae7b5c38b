//! Checks before leaving: where they apply.

use super::applies;
use crate::load::convert::Draft;
use crate::load::findings::Findings;
use crate::load::section::Section;

/// Checks all checks.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, check) in &draft.catalogue.checks {
        let place = draft.place(Section::Checks, id).key("applies");
        applies::check(&check.applies, &place, draft, findings);
    }
}
