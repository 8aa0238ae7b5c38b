//! What the riders insist on: known things, and no two wishes against each other.

use super::{keys, members};
use crate::diagnostic::{Code, quoted};
use crate::domain::Scenario;
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use fardel_words::say;

/// Checks `always`, `never`, `done` and `needs`.
pub(super) fn check(scenario: &Scenario, root: &Place, draft: &Draft, findings: &mut Findings) {
    keys(&scenario.always, Section::Items, &root.key("always"), draft, findings);
    members(&scenario.never, Section::Items, &root.key("never"), draft, findings);
    members(&scenario.done, Section::Preparations, &root.key("done"), draft, findings);
    keys(&scenario.needs, Section::Needs, &root.key("needs"), draft, findings);
    both(scenario, root, findings);
    too_many(scenario, root, draft, findings);
}

fn both(scenario: &Scenario, root: &Place, findings: &mut Findings) {
    for (at, item) in scenario.never.iter().enumerate() {
        if scenario.always.contains_key(item) {
            let found = say!("{}, which is under `always` too", quoted(item));
            let expected = say!("an item under `always` or under `never`");
            findings.add(Code::Contradiction, &root.key("never").index(at), found, expected, None);
        }
    }
}

/// `at_most` counts per bike.
fn too_many(scenario: &Scenario, root: &Place, draft: &Draft, findings: &mut Findings) {
    let bikes = u32::try_from(scenario.riders.len()).unwrap_or(u32::MAX).max(1);
    for (id, count) in &scenario.always {
        let Some(item) = draft.catalogue.items.get(id) else { continue };
        let most = item.at_most.saturating_mul(bikes);
        if *count > most && item.at_most > 0 {
            let expected = say!("at most {most}, as the item's `at_most` says");
            let place = root.key("always").key(id);
            findings.add(Code::Contradiction, &place, say!("{count} of `{id}`"), expected, None);
        }
    }
}
