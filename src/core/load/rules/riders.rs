//! Riders: their bikes, bags and belongings exist, and nobody is two people.

use super::keys;
use crate::diagnostic::{Code, quoted};
use crate::domain::{Rider, Scenario};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::numbers::MOST_RIDERS;
use crate::load::section::Section;
use fardel_words::{say, several, word};
use indexmap::IndexSet;

/// Checks all riders.
pub(super) fn check(scenario: &Scenario, root: &Place, draft: &Draft, findings: &mut Findings) {
    let place = root.key("riders");
    if scenario.riders.is_empty() && findings.sound(root, &["riders"]) && !findings.is_spoilt_below(&place) {
        findings.add(Code::NothingThere, &place, say!("no riders"), say!("at least one rider"), None);
    }
    if scenario.riders.len() > MOST_RIDERS as usize {
        let expected = say!("at most {MOST_RIDERS} riders");
        findings.add(
            Code::TooLarge,
            &place,
            several!(scenario.riders.len(), "{n} rider", "{n} riders"),
            expected,
            None,
        );
        return;
    }
    let mut names = IndexSet::new();
    for (at, rider) in scenario.riders.iter().enumerate() {
        let place = place.index(at);
        if !names.insert(rider.name.as_str()) && findings.sound(&place, &["name"]) {
            let expected = say!("a name of their own for every rider");
            let found = say!("{} again", quoted(&rider.name));
            findings.add(Code::DefinedTwice, &place.key("name"), found, expected, None);
        }
        if findings.sound(&place, &["bike"]) {
            draft.names.check(Section::Bikes, &rider.bike, &place.key("bike"), findings);
        }
        keys(&rider.owns, Section::Items, &place.key("owns"), draft, findings);
        bags(rider, &place, draft, findings);
    }
}

/// Every bag hangs on the bike once, those that are part of the bike included.
fn bags(rider: &Rider, place: &Place, draft: &Draft, findings: &mut Findings) {
    let own = draft.catalogue.bikes.get(&rider.bike).map(|bike| bike.bags.as_slice()).unwrap_or_default();
    let mut seen: IndexSet<&str> = own.iter().map(String::as_str).collect();
    for (at, bag) in rider.bags.iter().enumerate() {
        let place = place.key("bags").index(at);
        draft.names.check(Section::Bags, bag, &place, findings);
        if !seen.insert(bag) {
            let part = if own.contains(bag) { word!(", which is part of the bike") } else { " again" };
            let found = format!("{}{part}", quoted(bag));
            findings.add(Code::Contradiction, &place, found, say!("every bag once on a bike"), None);
        }
    }
}
