//! What buying a thing is charged with on one trip, in hours.
//!
//! A thing bought serves many trips, so a trip bears its share of the price: `price x days / days of service`, or all of
//! it where the thing is eaten or burnt. But where the riders own what does the same, buying is for comfort only, and the
//! thing must earn its whole price: nothing owned is pushed out by something bought for a few seconds.

use super::fits::possible;
use super::instance::{Demand, Instance, InstanceItem};
use super::member::Member;
use super::relevant::meets;
use crate::domain::{Catalogue, Item, Map, Scenario};
use crate::units::Hours;
use indexmap::IndexSet;

/// Amounts are sums of decimal texts and may miss by a rounding.
const ROUNDING: f64 = 1e-9;

/// Charges every item of a case.
pub(super) fn charge(instance: &mut Instance, catalogue: &Catalogue, scenario: &Scenario, members: &[Member<'_>]) {
    let owned_by = |owner: Option<usize>| Owned::new(instance, catalogue, scenario, members, owner);
    let shared = owned_by(None);
    let own: Vec<Owned<'_>> = (0..members.len()).map(|rider| owned_by(Some(rider))).collect();
    let charge = |item: &InstanceItem| {
        let owned = item.owner.map_or(&shared, |rider| &own[rider]);
        let same = catalogue.items.get(&item.id).is_some_and(|item| owned.does_the_same(item));
        let (days, nights) = service(members, item);
        let share = if same { 1.0 } else { instance.prices.share_borne(item.kind, days, nights) };
        instance.prices.charged(item.price, share)
    };
    let charges: Vec<Hours> = instance.items.iter().map(charge).collect();
    instance.items.iter_mut().zip(charges).for_each(|(item, hours)| item.buying = hours);
}

/// Days and nights that a thing serves on the trip: those of its owner, or of whoever of the group is longest under way.
fn service(members: &[Member<'_>], item: &InstanceItem) -> (f64, u32) {
    let riders = members.iter().enumerate().filter(|(at, _)| item.owner.is_none_or(|owner| owner == *at));
    let each = riders.map(|(_, member)| {
        let legs = &member.scenario.trip.legs;
        (legs.iter().map(|leg| leg.days).sum::<f64>(), legs.iter().map(|leg| leg.nights).sum::<u32>())
    });
    each.fold((0.0, 0), |most, own| (most.0.max(own.0), most.1.max(own.1)))
}

/// What the things that some riders own do together, by name.
struct Owned<'a> {
    owner: Option<usize>,
    /// Their names, whether or not they fit a bag.
    names: IndexSet<&'a str>,
    functions: Map<u32>,
    stocks: IndexSet<&'a str>,
    /// Demands of the case that they meet in full.
    met: Vec<&'a Demand>,
    /// Demands of the case.
    demands: &'a [Demand],
}

impl<'a> Owned<'a> {
    /// Of one rider, or of all; what fits no bag or is refused does not count.
    fn new(
        instance: &'a Instance,
        catalogue: &'a Catalogue,
        scenario: &Scenario,
        members: &[Member<'a>],
        owner: Option<usize>,
    ) -> Self {
        let mut things: Vec<(&Item, u32)> = Vec::new();
        let mut names = IndexSet::new();
        for (_, member) in members.iter().enumerate().filter(|(at, _)| owner.is_none_or(|owner| owner == *at)) {
            let owned =
                member.bike.toolkit.iter().chain(&member.rider.owns).filter(|(id, _)| !scenario.never.contains(id));
            let owned = owned.filter_map(|(id, count)| Some((catalogue.items.get(id)?, *count)));
            let owned: Vec<(&'a Item, u32)> = owned.filter(|(_, count)| *count > 0).collect();
            names.extend(owned.iter().map(|(item, _)| item.id.as_str()));
            things.extend(owned.into_iter().filter(|(item, _)| member.bags.iter().any(|bag| possible(item, bag))));
        }
        let mut functions = Map::new();
        let mut stocks = IndexSet::new();
        for (item, count) in &things {
            for (function, each) in &item.provides {
                let held: &mut u32 = functions.entry(function.clone()).or_insert(0);
                *held = held.saturating_add(each.saturating_mul(*count));
            }
            stocks.extend(item.holds.keys().map(String::as_str));
        }
        let amount = |demand: &Demand| -> f64 {
            things.iter().map(|(item, count)| meets(item, owner, demand) * f64::from(*count)).sum()
        };
        let met = instance
            .demands
            .iter()
            .filter(|demand| amount(demand) >= demand.amount - ROUNDING * demand.amount.max(1.0))
            .collect();
        Self { owner, names, functions, stocks, met, demands: &instance.demands }
    }

    /// Do owned things give every function of this one as often, meet every need that it meets, and hold what it holds?
    fn does_the_same(&self, item: &Item) -> bool {
        let meeting = |demand: &&Demand| meets(item, self.owner, demand) > 0.0;
        let needs: Vec<&Demand> = self.demands.iter().filter(meeting).collect();
        !self.names.contains(item.id.as_str())
            && (!item.provides.is_empty() || !needs.is_empty())
            && item.provides.iter().all(|(function, n)| self.functions.get(function).is_some_and(|held| held >= n))
            && needs.iter().all(|need| self.met.contains(need))
            && item.holds.keys().all(|stock| self.stocks.contains(stock.as_str()))
    }
}
