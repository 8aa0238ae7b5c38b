//! A group's case as the bags of one rider see it: the same items by the same numbers, only that rider's bags and bike.
//! What is true of a kit in it (room, load, stowage) is true of that rider's part of the group's kit.

use crate::resolve::{Instance, InstanceItem, InstanceSet, Mount};

/// The part of one rider.
#[must_use]
pub fn part(instance: &Instance, rider: usize) -> Instance {
    let mount = &instance.mounts[rider];
    let item = |item: &InstanceItem| InstanceItem {
        fits: mount.bags.iter().map(|bag| item.fits[*bag]).collect(),
        at_least: 0,
        ..item.clone()
    };
    Instance {
        items: instance.items.iter().map(item).collect(),
        functions: Vec::new(),
        stocks: Vec::new(),
        failures: Vec::new(),
        demands: Vec::new(),
        apart: Vec::new(),
        fuel: None,
        bags: mount.bags.iter().map(|bag| instance.bags[*bag].clone()).collect(),
        mounts: vec![Mount { bags: (0..mount.bags.len()).collect(), ..mount.clone() }],
        kit_mass: instance.own_kit_mass[rider],
        own_kit_mass: vec![instance.own_kit_mass[rider]],
        parts: 1,
        kit_volume: None,
        budget: None,
        stranded: None,
        prices: instance.prices.clone(),
        pooling: instance.pooling,
        sets: instance.sets.iter().map(|set| set_of(set, rider)).collect(),
        exposures: vec![instance.exposures[rider].clone()],
        left_out: Vec::new(),
        warnings: Vec::new(),
    }
}

/// A set as one rider has it.
fn set_of(set: &InstanceSet, rider: usize) -> InstanceSet {
    InstanceSet {
        name: set.name.clone(),
        items: vec![set.items[rider].clone()],
        repairs: vec![set.repairs[rider]],
        daily: vec![set.daily[rider]],
    }
}

/// May this rider carry a unit of this item at all?
#[must_use]
pub fn may_carry(instance: &Instance, rider: usize, item: usize) -> bool {
    instance.mounts[rider].bags.iter().any(|bag| instance.items[item].fits[*bag])
}
