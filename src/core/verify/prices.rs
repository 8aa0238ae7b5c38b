//! What carrying, packing and buying cost, from the names up.

use super::needs::met_by;
use crate::domain::{Bag, Bike, Catalogue, Item, Kit, Leg, Map, Prices, Rider, Scenario};
use crate::units::{Hours, Mass};
use std::collections::BTreeSet;

/// Terms of an answer's objective, in hours of the trip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Terms {
    /// Saved by repairs.
    pub saved: Hours,
    /// Dread of being stranded that is taken away.
    pub relief: Hours,
    /// Lost to hard riding with the kit's weight.
    pub riding: Hours,
    /// Lost to falls that the weight brings.
    pub falls: Hours,
    /// What is bought, as far as this trip bears it.
    pub money: Hours,
    /// Lost to packing.
    pub packing: Hours,
}

/// The prices of a scenario.
pub(super) fn prices(catalogue: &Catalogue, scenario: &Scenario) -> Prices {
    catalogue.prices.with(&scenario.prices)
}

/// Hours by which one kilogram stretches a rider's hard riding.
pub(super) fn riding_per_kg(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider, bike: &Bike) -> f64 {
    let prices = prices(catalogue, scenario);
    let legs = scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&rider.name));
    let mut hard = 0.0;
    for (surface, km) in legs.flat_map(|leg| leg.km.iter()) {
        if prices.speed.on(surface) > 0.0 {
            hard += km.km() / prices.speed.on(surface) * prices.strain.on(surface);
        }
    }
    let own: BTreeSet<&String> = rider.bags.iter().filter(|id| !bike.bags.contains(id)).collect();
    let empty: Mass = own.into_iter().filter_map(|id| catalogue.bags.get(id)).map(|bag| bag.mass).sum();
    let moved = (bike.mass + rider.mass + rider.passenger.unwrap_or_default() + empty).kilograms();
    if moved > 0.0 { prices.weight * hard / moved } else { 0.0 }
}

/// A thing that is bought: how many, and for which riders.
pub(super) struct Bought<'a> {
    pub item: &'a Item,
    pub count: u32,
    /// The rider whom it belongs to; nobody: it is shared by all.
    pub owner: Option<&'a Rider>,
}

/// Hours that a purchase is charged with.
pub(super) fn money(
    catalogue: &Catalogue,
    scenario: &Scenario,
    riders: &[&Rider],
    demands: &[(String, Option<String>, f64)],
    bought: &Bought<'_>,
) -> f64 {
    if bought.count == 0 {
        return 0.0;
    }
    let prices = prices(catalogue, scenario);
    let concerned: Vec<&Rider> =
        riders.iter().copied().filter(|rider| bought.owner.is_none_or(|owner| owner.name == rider.name)).collect();
    let ridden =
        |rider: &Rider| scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&rider.name)).collect::<Vec<&Leg>>();
    let days = concerned.iter().map(|rider| ridden(rider).iter().map(|leg| leg.days).sum::<f64>()).fold(0.0, f64::max);
    let nights =
        concerned.iter().map(|rider| ridden(rider).iter().map(|leg| leg.nights).sum::<u32>()).max().unwrap_or(0);
    let same = is_owned_already(catalogue, scenario, &concerned, demands, bought);
    let share = if same { 1.0 } else { prices.share_borne(bought.item.kind, days, nights) };
    prices.charged(bought.item.price, share).get() * f64::from(bought.count)
}

/// Do the things that these riders own do all that a thing does that none of them owns?
fn is_owned_already(
    catalogue: &Catalogue,
    scenario: &Scenario,
    concerned: &[&Rider],
    demands: &[(String, Option<String>, f64)],
    bought: &Bought<'_>,
) -> bool {
    let mut owned: Vec<(&Item, u32)> = Vec::new();
    for rider in concerned {
        let Some(bike) = catalogue.bikes.get(&rider.bike) else { continue };
        let bags: Vec<&Bag> = bike.bags.iter().chain(&rider.bags).filter_map(|id| catalogue.bags.get(id)).collect();
        for (id, count) in bike.toolkit.iter().chain(&rider.owns) {
            let Some(item) = catalogue.items.get(id).filter(|_| !scenario.never.contains(id)) else { continue };
            if item.id == bought.item.id && *count > 0 {
                return false;
            }
            if bags.iter().any(|bag| takes(bag, item)) {
                owned.push((item, *count));
            }
        }
    }
    let given = |function: &str| -> u32 {
        owned.iter().map(|(item, n)| item.provides.get(function).copied().unwrap_or(0).saturating_mul(*n)).sum()
    };
    let own_scenario = |rider: &Rider| scenario.as_ridden_by(rider);
    let meets = |item: &str, need: &str| match (bought.owner, concerned) {
        (Some(owner), _) => met_by(catalogue, &own_scenario(owner), item, need),
        (None, [alone]) => met_by(catalogue, &own_scenario(alone), item, need),
        (None, _) => met_by(catalogue, scenario, item, need),
    };
    let its_needs: Vec<&(String, Option<String>, f64)> = demands
        .iter()
        .filter(|(_, whose, _)| {
            whose.as_ref().is_none_or(|whose| bought.owner.is_some_and(|owner| owner.name == *whose))
        })
        .filter(|(need, ..)| meets(&bought.item.id, need) > 0.0)
        .collect();
    let met = |need: &str| owned.iter().map(|(item, n)| meets(&item.id, need) * f64::from(*n)).sum::<f64>();
    (!bought.item.provides.is_empty() || !its_needs.is_empty())
        && bought.item.provides.iter().all(|(function, n)| given(function) >= *n)
        && its_needs.iter().all(|(need, _, amount)| met(need) >= amount - 1e-9 * amount.max(1.0))
        && bought.item.holds.keys().all(|stock| owned.iter().any(|(item, _)| item.holds.contains_key(stock)))
}

fn takes(bag: &Bag, item: &Item) -> bool {
    let size = item.longest <= bag.longest && item.volume <= bag.usable() && item.mass <= bag.max_load;
    size && !bag.refuses.contains(&item.kind)
}

/// Units of each item beyond those owned or in the toolkit.
pub(super) fn beyond_owned<'a>(
    catalogue: &'a Catalogue,
    kit: &Kit,
    owned: &Map<u32>,
    owner: Option<&'a Rider>,
) -> Vec<Bought<'a>> {
    let units = kit.iter().filter_map(|(id, count)| Some((catalogue.items.get(id)?, count)));
    let bought = units.map(|(item, count)| {
        let free = owned.get(&item.id).copied().unwrap_or(0);
        Bought { item, count: count.saturating_sub(free), owner }
    });
    bought.collect()
}
