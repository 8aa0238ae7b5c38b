//! What of a packed kit is weighed at all, and the trip on which nothing else is to be had.

use super::Wish;
use super::short::{self, Short};
use crate::answer::pack::PackError;
use crate::answer::ready::Ready;
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::resolve::{Amount, Instance, Measure};
use crate::risk::value::useful;
use crate::units::Money;
use std::borrow::Cow;

/// A packed kit on its trip.
pub(super) struct Packed<'a> {
    catalogue: Cow<'a, Catalogue>,
    scenario: Scenario,
    rider: Rider,
    /// What is of some use on the trip.
    pub used: Kit,
    /// What is of none: unknown to the trip, more than could be used, or useless without something that is not there.
    pub idle: Kit,
    /// The part of it that stays because the rider says so.
    pub idle_staying: Kit,
    /// Needs that the kit does not meet.
    pub short: Vec<Short>,
    /// What was paid for things of the kit that the rider does not own.
    spent: Money,
}

impl<'a> Packed<'a> {
    pub fn new(
        catalogue: &'a Catalogue,
        scenario: &Scenario,
        rider: &'a Rider,
        kit: &Kit,
        wish: &Wish,
    ) -> Result<Self, PackError> {
        let mut ready = Ready::new(catalogue, scenario, rider)?;
        let cold = short::too_cold(&ready.instance, &ready.catalogue, &ready.scenario, kit);
        if !cold.is_empty() {
            ready = ready.with_catalogue(short::as_if_warm(&ready.catalogue, &cold))?;
        }
        let counts = usable(&ready.instance, kit);
        let used = ready.instance.kit(&counts);
        let idle = Kit::new(kit.iter().map(|(id, n)| (id.to_owned(), n.saturating_sub(used.count(id)))));
        let staying = idle.iter().filter(|(id, _)| wish.keep.iter().any(|keep| keep == id));
        let idle_staying = Kit::new(staying.map(|(id, n)| (id.to_owned(), n)));
        let short = short::short(&ready.instance, &counts, &cold);
        let spent = ready.instance.to_buy(&counts);
        let mut rider = rider.clone();
        rider.kit_mass = None;
        for (id, count) in used.iter() {
            let owned = rider.owns.entry(id.to_owned()).or_insert(0);
            *owned = (*owned).max(count);
        }
        let Ready { catalogue, scenario, .. } = ready;
        Ok(Self { catalogue, scenario, rider, used, idle, idle_staying, short, spent })
    }

    /// What goes before anything is lost.
    pub fn idle_going(&self) -> Kit {
        Kit::new(self.idle.iter().map(|(id, n)| (id.to_owned(), n - self.idle_staying.count(id).min(n))))
    }

    /// The trip on which the kit is there for nothing, no more is asked than it meets, and, unless swapping, nothing
    /// else can be taken.
    pub fn ready(&self, wish: &Wish) -> Result<Ready<'_>, PackError> {
        let mut scenario = self.scenario.clone();
        let limits = &mut scenario.limits;
        (limits.kit_mass, limits.kit_volume) = (None, None);
        // The kit has cost what it has cost: only the rest of the budget is there for swaps.
        limits.budget = limits.budget.filter(|_| wish.swap).map(|budget| (budget - self.spent).max(Money::ZERO));
        scenario.needs.extend(self.short.iter().map(|short| (short.id.clone(), short.packed)));
        for (id, count) in &mut scenario.always {
            *count = if wish.swap { *count } else { (*count).min(self.used.count(id)) };
        }
        let kept = wish.keep.iter().filter(|id| self.used.count(id) > 0);
        scenario.always.extend(kept.map(|id| (id.clone(), self.used.count(id))));
        scenario.always.retain(|_, count| *count > 0);
        let mut ready = Ready::new(&self.catalogue, &scenario, &self.rider)?;
        for item in &mut ready.instance.items {
            let packed = self.used.count(&item.id);
            item.owned = item.owned.max(packed);
            if !wish.swap {
                item.at_most = packed.max(item.at_least);
            }
        }
        let room = wish.target - amount_of(&self.catalogue, &self.idle_staying, wish.measure);
        Ok(ready.limited(wish.measure, Some(room.max(0))))
    }
}

/// How many of each item of the case are packed and of use: not more than can be, nor without what they require.
fn usable(instance: &Instance, kit: &Kit) -> Vec<u32> {
    let counts: Vec<u32> = instance.items.iter().map(|item| kit.count(&item.id).min(item.at_most)).collect();
    useful(instance, &counts)
}

/// What a kit takes, things of no use included.
pub(super) fn amount_of(catalogue: &Catalogue, kit: &Kit, measure: Measure) -> Amount {
    match measure {
        Measure::Volume => kit.volume(catalogue).microlitres(),
        _ => kit.mass(catalogue).milligrams(),
    }
}
