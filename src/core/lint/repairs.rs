//! Failures and repairs against what items can give, bike by bike.

use super::reach::{Reach, filled, sufferers};
use super::{Doubt, Lint};
use crate::domain::{Bike, Catalogue, Map, Repair};
use fardel_words::say;

/// Failures without a repair, and repairs beyond any kit. What is the same on several bikes is told once.
pub(super) fn doubts(catalogue: &Catalogue, reach: &Reach) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    for (id, failure) in &catalogue.failures {
        let mut lacking: Map<Vec<&str>> = Map::new();
        let mut unmended: Vec<&str> = Vec::new();
        for bike in sufferers(catalogue, failure) {
            let mut mended = false;
            for repair in &failure.repairs {
                match lacks(repair, bike, reach) {
                    None => mended = true,
                    Some(what) => lacking.entry(say!("`{}` lacks {what}", repair.id)).or_default().push(&bike.id),
                }
            }
            if !mended {
                unmended.push(&bike.id);
            }
        }
        let doubt = |lint, what| Doubt { lint, section: "failures", id: id.clone(), what };
        if !unmended.is_empty() {
            doubts.push(doubt(Lint::NoRepair, say!("no kit mends \"{}\" on {}", failure.name, listed(&unmended))));
        }
        let told = lacking.iter().map(|(what, bikes)| say!("{what} on {}", listed(bikes)));
        doubts.extend(told.map(|what| doubt(Lint::NoKitRepairs, what)));
    }
    doubts
}

/// The first thing a repair takes that no kit gives.
fn lacks(repair: &Repair, bike: &Bike, reach: &Reach) -> Option<String> {
    let need = repair.needs.iter().map(|(name, n)| (filled(name, bike), *n));
    let need = need.map(|(name, n)| (reach.function(&name), name, n));
    let used = repair.uses.iter().map(|(name, n)| (filled(name, bike), *n));
    let used = used.map(|(name, n)| (reach.stock(&name), name, n));
    let short = need.chain(used).find(|(there, _, wanted)| there < wanted);
    short.map(|(there, name, wanted)| say!("{wanted} x `{name}` (at most {there} can be had)"))
}

fn listed(bikes: &[&str]) -> String {
    match bikes {
        few if few.len() <= 3 => few.join(", "),
        [first, second, rest @ ..] => say!("{first}, {second} and {} more bikes", rest.len()),
        _ => String::new(),
    }
}

/// Entries for no bike.
pub(super) fn for_no_bike(catalogue: &Catalogue) -> Vec<Doubt> {
    let failures = catalogue.failures.iter().map(|(id, failure)| ("failures", id, &failure.applies));
    let preparations = catalogue.preparations.iter().map(|(id, entry)| ("preparations", id, &entry.applies));
    let checks = catalogue.checks.iter().map(|(id, entry)| ("checks", id, &entry.applies));
    failures
        .chain(preparations)
        .chain(checks)
        .filter(|(_, _, applies)| !catalogue.bikes.values().any(|bike| bike.matches(applies)))
        .map(|(section, id, _)| Doubt {
            lint: Lint::NoBike,
            section,
            id: id.clone(),
            what: say!("no bike has the attributes under `applies`"),
        })
        .collect()
}
