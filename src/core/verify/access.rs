//! Wishes of items: at hand, dry, apart. A wish binds while some bag of the rider that takes the item can grant it.

use super::{Evidence, Violation};
use crate::domain::{Bag, Item};

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    let bags: Vec<&Bag> = e.bike.bags.iter().chain(&e.rider.bags).filter_map(|id| e.catalogue.bags.get(id)).collect();
    for (bag_id, units) in e.stowage {
        let Some(bag) = e.catalogue.bags.get(bag_id) else { continue };
        let items: Vec<&Item> = units.keys().filter_map(|id| e.catalogue.items.get(id)).collect();
        for item in &items {
            let takes = |bag: &&&Bag| takes(bag, item);
            let dry: Vec<&&Bag> = bags.iter().filter(takes).filter(|bag| !item.dry || bag.weatherproof).collect();
            let after_dry: Vec<&&Bag> = if dry.is_empty() { bags.iter().filter(takes).collect() } else { dry.clone() };
            if item.dry && !bag.weatherproof && !dry.is_empty() {
                found.push(broken(format!("`{}` must stay dry, not in `{bag_id}`", item.id)));
            }
            if item.quick && !bag.quick && after_dry.iter().any(|bag| bag.quick) {
                found.push(broken(format!("`{}` must be at hand, not in `{bag_id}`", item.id)));
            }
            for other in items.iter().filter(|other| item.apart_from.contains(&other.kind)) {
                found.push(broken(format!("`{}` and `{}` share `{bag_id}`", item.id, other.id)));
            }
        }
    }
    found
}

fn takes(bag: &Bag, item: &Item) -> bool {
    item.longest <= bag.longest
        && item.volume <= bag.usable()
        && item.mass <= bag.max_load
        && !bag.refuses.contains(&item.kind)
}

const fn broken(what: String) -> Violation {
    Violation { rule: "access", what, by: 1.0 }
}
