//! Who lacks what the leader carries.

use crate::domain::{Catalogue, Item, Kit, Rider, Scenario};
use crate::resolve::resolve;
use crate::units::Mass;
use std::collections::BTreeSet;

/// Something that the leader carries and a rider does not.
#[derive(Debug, Clone, PartialEq)]
pub struct Lack {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Mass of one.
    pub mass: Mass,
}

/// What of `theirs` could matter on this rider's bike and trip, does something that nothing of `own` does, and is not
/// personal.
pub(super) fn lacks(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    (own, theirs): (&Kit, &Kit),
) -> Vec<Lack> {
    let Some(instance) = resolve(catalogue, &scenario.as_ridden_by(rider), rider) else { return Vec::new() };
    let matters: BTreeSet<&str> = instance.items.iter().map(|item| item.id.as_str()).collect();
    let has = Has::of(catalogue, own);
    let lacking = |id: &str| {
        let item = catalogue.items.get(id).filter(|item| !item.personal && own.count(id) == 0)?;
        (matters.contains(id) && !has.does(item)).then(|| Lack {
            id: item.id.clone(),
            name: item.name.clone(),
            mass: item.mass,
        })
    };
    theirs.iter().filter_map(|(id, _)| lacking(id)).collect()
}

/// What a kit can do.
struct Has<'a> {
    functions: BTreeSet<&'a str>,
    stocks: BTreeSet<&'a str>,
    needs: BTreeSet<&'a str>,
}

impl<'a> Has<'a> {
    fn of(catalogue: &'a Catalogue, kit: &Kit) -> Self {
        let mut own = Self { functions: BTreeSet::new(), stocks: BTreeSet::new(), needs: BTreeSet::new() };
        for item in kit.iter().filter_map(|(id, _)| catalogue.items.get(id)) {
            own.functions.extend(item.provides.keys().map(String::as_str));
            own.stocks.extend(item.holds.keys().map(String::as_str));
            own.needs.extend(item.meets.keys().map(String::as_str));
        }
        own
    }

    /// All that the item does?
    fn does(&self, item: &Item) -> bool {
        item.provides.keys().all(|name| self.functions.contains(name.as_str()))
            && item.holds.keys().all(|name| self.stocks.contains(name.as_str()))
            && item.meets.keys().all(|name| self.needs.contains(name.as_str()))
    }
}
