//! Which things of a case are used together, and how often they are reached for.

use super::instance::{Instance, InstanceFailure, InstanceSet};
use super::member::Member;
use crate::domain::{Catalogue, WorkingSet};

/// The sets of the catalogue, in its order; those that no thing of the case belongs to are kept, so that numbers agree.
pub(super) fn sets(instance: &Instance, catalogue: &Catalogue, members: &[Member<'_>]) -> Vec<InstanceSet> {
    // For each rider and item, the set on that rider's bike.
    let of: Vec<Vec<Option<usize>>> = members
        .iter()
        .map(|member| {
            let own = catalogue.sets_on(member.bike);
            instance.items.iter().map(|item| own.of(catalogue.items.get(&item.id)?)).collect()
        })
        .collect();
    let set = |(at, set): (usize, &WorkingSet)| InstanceSet {
        name: set.name.clone(),
        items: of.iter().map(|own| (0..own.len()).filter(|item| own[*item] == Some(at)).collect()).collect(),
        repairs: (0..members.len()).map(|rider| repairs(instance, set, rider)).collect(),
        daily: instance
            .exposures
            .iter()
            .map(|own| set.a_day * own.legs.iter().map(|leg| leg.days).sum::<f64>())
            .collect(),
    };
    catalogue.sets.values().enumerate().map(set).collect()
}

/// Expected occurrences of what is mended with a set on one rider's bike.
fn repairs(instance: &Instance, set: &WorkingSet, rider: usize) -> f64 {
    let own = |failure: &&InstanceFailure| failure.riders.contains(&rider) && set.systems.contains(&failure.system);
    let legs = || instance.exposures[rider].legs.iter();
    let mean = |failure: &InstanceFailure| -> f64 { legs().map(|leg| failure.on_leg(leg)).sum() };
    instance.failures.iter().filter(own).map(mean).sum()
}
