//! Failures: where they apply, and that every repair can be told on every bike they happen to.

use super::templates::{Asked, check_names};
use super::{applies, templates};
use crate::domain::{Failure, Repair};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;

/// Checks all failures.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, failure) in &draft.catalogue.failures {
        let place = draft.place(Section::Failures, id);
        applies::check(&failure.applies, &place.key("applies"), draft, findings);
        let bikes = templates::bikes_of(failure, draft, findings);
        for repair in &failure.repairs {
            check_repair(failure, repair, &bikes, &place, draft, findings);
        }
    }
}

fn check_repair(
    failure: &Failure,
    repair: &Repair,
    bikes: &[&crate::domain::Bike],
    place: &Place,
    draft: &Draft,
    findings: &mut Findings,
) {
    let place = place.key("repairs").key(&repair.id);
    for (map, key, section) in [(&repair.needs, "needs", Section::Functions), (&repair.uses, "uses", Section::Stocks)] {
        for name in map.keys() {
            let asked = Asked { failure, name, section, place: place.key(key).key(name) };
            check_names(&asked, bikes, draft, findings);
        }
    }
}
