//! Every unit of the kit is in exactly one bag of the rider, and no bag is overfull.

use super::{Evidence, Violation};
use crate::units::{Mass, Volume};

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    let mut wrong = |what: String, by: f64| found.push(Violation { rule: "bags", what, by });
    for (bag_id, units) in e.stowage {
        let own = e.bike.bags.contains(bag_id) || e.rider.bags.contains(bag_id);
        let Some(bag) = e.catalogue.bags.get(bag_id).filter(|_| own) else {
            wrong(format!("`{bag_id}` is not on the bike"), 1.0);
            continue;
        };
        let (mut mass, mut volume) = (Mass::ZERO, Volume::ZERO);
        for (id, count) in units {
            let Some(item) = e.catalogue.items.get(id) else { continue };
            mass += item.mass * *count;
            volume += item.volume * *count;
            if item.longest > bag.longest {
                wrong(format!("`{id}` is too long for `{bag_id}`, mm"), (item.longest - bag.longest).millimetres());
            }
            if bag.refuses.contains(&item.kind) {
                wrong(format!("`{bag_id}` does not take `{id}`"), f64::from(*count));
            }
        }
        if volume > bag.usable() {
            wrong(format!("`{bag_id}` is overfull, mL"), (volume - bag.usable()).millilitres());
        }
        if mass > bag.max_load {
            wrong(format!("`{bag_id}` is overloaded, g"), (mass - bag.max_load).grams());
        }
    }
    for (id, count) in e.kit.iter() {
        let stowed: u32 = e.stowage.values().filter_map(|units| units.get(id)).sum();
        if stowed != count {
            wrong(format!("{count} of `{id}` chosen, {stowed} stowed"), f64::from(stowed.abs_diff(count)));
        }
    }
    for id in e.stowage.values().flat_map(|units| units.keys()).filter(|id| e.kit.count(id) == 0) {
        wrong(format!("`{id}` is stowed but not chosen"), 1.0);
    }
    found
}
