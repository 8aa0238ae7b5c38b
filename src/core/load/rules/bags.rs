//! Bags: something fits in.

use super::physics::above_zero;
use crate::load::convert::Draft;
use crate::load::findings::Findings;
use crate::load::section::Section;

/// Checks all bags.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, bag) in &draft.catalogue.bags {
        let place = draft.place(Section::Bags, id);
        above_zero(bag.volume.litres(), "volume", &place, findings);
        above_zero(bag.packing, "packing", &place, findings);
        above_zero(bag.max_load.grams(), "max_load", &place, findings);
        above_zero(bag.longest.millimetres(), "longest", &place, findings);
    }
}
