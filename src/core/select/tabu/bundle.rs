//! What a repair takes along, as counts of items.

use crate::resolve::{Instance, InstanceRepair};
use crate::risk::RiskModel;
use std::collections::BTreeMap;

/// Combinations of combinations are followed so far.
const DEPTH: usize = 4;

/// A repair with all that it needs.
#[derive(Debug, Clone)]
pub struct Bundle {
    /// The failure it deals with.
    pub failure: usize,
    /// Items, and how many of each have to be there.
    pub takes: Vec<(usize, u32)>,
    /// Expected hours saved.
    pub worth: f64,
}

/// A bundle for each repair that saves anything and that some kit allows, of the lightest items that do.
pub fn bundles(instance: &Instance, risk_model: &RiskModel, most: &[u32]) -> Vec<Bundle> {
    let mut all = Vec::new();
    for (at, (failure, worths)) in instance.failures.iter().zip(&risk_model.repairs).enumerate() {
        for (repair, stake) in failure.repairs.iter().zip(worths).filter(|(_, stake)| stake.benefit > 0.0) {
            let mut takes = BTreeMap::new();
            if gather(instance, most, repair, &mut takes).is_some() {
                let worth = stake.benefit * filled(instance, risk_model, repair, &takes);
                all.push(Bundle { failure: at, takes: takes.into_iter().collect(), worth });
            }
        }
    }
    all
}

fn gather(instance: &Instance, most: &[u32], repair: &InstanceRepair, takes: &mut BTreeMap<usize, u32>) -> Option<()> {
    for (function, count) in &repair.needs {
        give(instance, most, (*function, *count), takes, DEPTH)?;
    }
    for (stock, units) in &repair.uses {
        let holding = instance.items.iter().map(|item| held(&item.holds, *stock));
        for item in lightest(instance, most, holding, *units, takes)? {
            instance.items[item].requires.iter().try_for_each(|need| give(instance, most, *need, takes, DEPTH))?;
        }
    }
    Some(())
}

fn held(list: &[(usize, u32)], wanted: usize) -> u32 {
    list.iter().find(|(at, _)| *at == wanted).map_or(0, |(_, each)| *each)
}

/// Takes whatever gives a function so many at a time.
fn give(
    instance: &Instance,
    most: &[u32],
    (function, count): (usize, u32),
    takes: &mut BTreeMap<usize, u32>,
    depth: usize,
) -> Option<()> {
    let depth = depth.checked_sub(1)?;
    let count = count.max(1);
    let there = takes.iter().map(|(item, n)| held(&instance.items[*item].provides, function).saturating_mul(*n));
    if there.fold(0, u32::saturating_add) >= count {
        return Some(());
    }
    let providing = instance.items.iter().map(|item| held(&item.provides, function));
    let mut with = takes.clone();
    if let Some(taken) = lightest(instance, most, providing, count, &mut with) {
        *takes = with;
        let mut required = taken.iter().flat_map(|item| &instance.items[*item].requires);
        return required.try_for_each(|need| give(instance, most, *need, takes, depth));
    }
    let ways = instance.functions[function].also_from.iter().filter(|_| count == 1);
    for way in ways {
        let mut with = takes.clone();
        if way.iter().all(|part| give(instance, most, (*part, 1), &mut with, depth).is_some()) {
            *takes = with;
            return Some(());
        }
    }
    None
}

/// Takes as many as necessary of what is owned, or of the item that weighs least for it, or, where no item does alone, of one after another.
/// Gives the items that it took.
fn lightest(
    instance: &Instance,
    most: &[u32],
    each: impl Iterator<Item = u32>,
    wanted: u32,
    takes: &mut BTreeMap<usize, u32>,
) -> Option<Vec<usize>> {
    let able: Vec<(usize, u32)> = each.enumerate().filter(|(item, each)| *each > 0 && most[*item] > 0).collect();
    let alone = able.iter().map(|(item, each)| (*item, wanted.div_ceil(*each)));
    let alone = alone.filter(|(item, count)| *count <= most[*item]);
    if let Some((item, count)) = alone
        .min_by_key(|(item, count)| (instance.items[*item].owned < *count, instance.items[*item].mass * *count, *item))
    {
        take(takes, item, count);
        return Some(vec![item]);
    }
    let mut by_mass = able;
    by_mass.sort_by_key(|(item, _)| (instance.items[*item].owned == 0, instance.items[*item].mass, *item));
    let (mut left, mut taken) = (wanted, Vec::new());
    for (item, each) in by_mass {
        let count = left.div_ceil(each).min(most[item]);
        take(takes, item, count);
        taken.push(item);
        left = left.saturating_sub(each.saturating_mul(count));
        if left == 0 {
            return Some(taken);
        }
    }
    None
}

fn take(takes: &mut BTreeMap<usize, u32>, item: usize, count: u32) {
    let taken = takes.entry(item).or_default();
    *taken = count.max(*taken);
}

/// The share of its demand that the stocks taken meet.
fn filled(instance: &Instance, risk_model: &RiskModel, repair: &InstanceRepair, takes: &BTreeMap<usize, u32>) -> f64 {
    let units = |stock: usize| {
        let each = takes.iter().map(|(item, n)| held(&instance.items[*item].holds, stock).saturating_mul(*n));
        each.fold(0, u32::saturating_add)
    };
    repair.uses.iter().map(|(stock, _)| risk_model.ladders[*stock].fill(units(*stock))).fold(1.0, f64::min)
}
