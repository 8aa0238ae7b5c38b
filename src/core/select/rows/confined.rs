//! Room and load of the bags, without saying which bag: for every set of bags that some items are confined to, those
//! items together fit into the set. With the whole set of bags this is the ordinary volume cap.

use crate::domain::Bag;
use crate::resolve::{Instance, InstanceItem};
use crate::select::Columns;
use crate::select::rows::PlainRow;
use fardel_milp::{Model, Sense};
use std::collections::BTreeSet;

/// Unions of confinements are followed up to this many sets; what they miss, `stow` finds and returns as a cut.
const MOST_SETS: usize = 128;

/// Adds the rows; only this share of the room may be used.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance, share: f64) {
    for row in rows(instance, share) {
        let terms = columns.n.iter().copied().zip(row.each).filter(|(_, each)| *each > 0.0).collect();
        model.row("confined", row.key, terms, Sense::AtMost, row.most);
    }
}

/// All rows of a case, for this share of the room.
pub fn rows(instance: &Instance, share: f64) -> Vec<PlainRow> {
    let mut rows = Vec::new();
    for set in sets(instance) {
        let inside = |item: &InstanceItem| item.fits.iter().zip(&set).all(|(fits, in_set)| !fits || *in_set);
        let each = |measure: fn(&InstanceItem) -> f64| -> Vec<f64> {
            instance.items.iter().map(|item| if inside(item) { measure(item) } else { 0.0 }).collect()
        };
        let bags = || instance.bags.iter().zip(&set).filter(|(_, in_set)| **in_set).map(|(bag, _)| bag);
        let names = bags().map(|bag| bag.id.as_str()).collect::<Vec<_>>().join(" + ");
        let key = if names.is_empty() { "no bag" } else { &names };
        let room = bags().map(Bag::usable).sum::<crate::units::Volume>().millilitres() * share;
        let load = bags().map(|bag| bag.max_load).sum::<crate::units::Mass>().grams();
        rows.push(PlainRow { key: format!("{key}, mL"), each: each(|item| item.volume.millilitres()), most: room });
        rows.push(PlainRow { key: format!("{key}, g"), each: each(|item| item.mass.grams()), most: load });
    }
    rows
}

/// The distinct confinements and their unions, the whole set last.
pub fn sets(instance: &Instance) -> Vec<Vec<bool>> {
    let single: BTreeSet<Vec<bool>> = instance.items.iter().map(|item| item.fits.clone()).collect();
    let mut all = single.clone();
    for one in &single {
        let unions: Vec<Vec<bool>> =
            all.iter().map(|set| set.iter().zip(one).map(|(a, b)| *a || *b).collect()).collect();
        all.extend(unions);
        if all.len() > MOST_SETS {
            break;
        }
    }
    all.insert(vec![true; instance.bags.len()]);
    all.into_iter().collect()
}
