//! A group's case as the bags of one rider see it: the same items by the same numbers, only that rider's bags and bike.
//! What is true of a kit in it (room, load, stowage) is true of that rider's part of the group's kit.

use crate::resolve::{Case, CaseItem, Mount};

/// The part of one rider.
#[must_use]
pub fn part(case: &Case, rider: usize) -> Case {
    let mount = &case.mounts[rider];
    let item = |item: &CaseItem| CaseItem {
        fits: mount.bags.iter().map(|bag| item.fits[*bag]).collect(),
        at_least: 0,
        ..item.clone()
    };
    Case {
        items: case.items.iter().map(item).collect(),
        functions: Vec::new(),
        stocks: Vec::new(),
        failures: Vec::new(),
        demands: Vec::new(),
        apart: Vec::new(),
        fuel: None,
        bags: mount.bags.iter().map(|bag| case.bags[*bag].clone()).collect(),
        mounts: vec![Mount { bags: (0..mount.bags.len()).collect(), ..mount.clone() }],
        kit_mass: case.own_kit_mass[rider],
        own_kit_mass: vec![case.own_kit_mass[rider]],
        parts: 1,
        kit_volume: None,
        budget: None,
        stranded: None,
        prices: case.prices.clone(),
        pooling: case.pooling,
        exposures: vec![case.exposures[rider].clone()],
        left_out: Vec::new(),
        warnings: Vec::new(),
    }
}

/// May this rider carry a unit of this item at all?
#[must_use]
pub fn may_carry(case: &Case, rider: usize, item: usize) -> bool {
    case.mounts[rider].bags.iter().any(|bag| case.items[item].fits[*bag])
}
