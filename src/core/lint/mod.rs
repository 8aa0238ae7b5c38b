//! What is odd about files that can be read: no fault, but worth a second look before a rider trusts them.
//!
//! Faults (`load`) stop everything; doubts stop nothing. Each is about one entry and says what to look at.

mod checked;
mod code;
mod items;
mod likeness;
mod plausible;
mod reach;
mod repairs;
mod scale;
mod steps;

pub use checked::{Checked, Warning};
pub use code::Lint;
pub use scale::{SCALE_FIRST, for_the_scale};

use crate::domain::{Catalogue, Item, Map, Scenario};

/// A doubt about one entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doubt {
    /// What sort.
    pub lint: Lint,
    /// Section of the catalogue, or of the scenario.
    pub section: &'static str,
    /// Key of the entry.
    pub id: String,
    /// What there is to look at.
    pub what: String,
}

/// Every doubt about a catalogue, in the order of the lints and of the entries.
#[must_use]
pub fn catalogue(catalogue: &Catalogue) -> Vec<Doubt> {
    let reach = reach::Reach::of(catalogue);
    let mut doubts = items::unprovided(catalogue, &reach);
    doubts.extend(items::useless(catalogue, &reach));
    doubts.extend(repairs::doubts(catalogue, &reach));
    doubts.extend(plausible::densities(catalogue));
    doubts.extend(likeness::doubts(catalogue));
    doubts.extend(plausible::catalogue(catalogue));
    doubts.extend(repairs::for_no_bike(catalogue));
    doubts.sort_by_key(|doubt| doubt.lint);
    doubts
}

/// Every doubt about the numbers of some things, such as a rider's own.
#[must_use]
pub fn things(items: &Map<Item>) -> Vec<Doubt> {
    let alone = Catalogue { items: items.clone(), ..Catalogue::default() };
    let mut doubts = plausible::densities(&alone);
    doubts.extend(plausible::catalogue(&alone));
    doubts
}

/// Every doubt about a catalogue that a trip brings up.
#[must_use]
pub fn trip(catalogue: &Catalogue, scenario: &Scenario) -> Vec<Doubt> {
    steps::doubts(catalogue, scenario)
}

/// Every doubt about a scenario.
#[must_use]
pub fn scenario(scenario: &Scenario) -> Vec<Doubt> {
    plausible::scenario(scenario)
}
