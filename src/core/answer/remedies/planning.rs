//! Changes that cost nothing: leave things, refill sooner, let a companion carry.

use super::{Change, Trial};
use crate::domain::{Leg, NeedRule};
use crate::resolve::InstanceItem;
use crate::select::relax::{self, Give};
use crate::units::{Distance, Hours, Mass, Money};

/// Intervals are tried at a half, a third and a quarter of what they are.
const PARTS: [f64; 3] = [2.0, 3.0, 4.0];
/// Most things that may be borrowed; nobody lends more.
const MOST_BORROWED: usize = 4;
/// What one rider can carry for all.
const SHARED: [NeedRule; 5] =
    [NeedRule::Shelter, NeedRule::Heat, NeedRule::CookPot, NeedRule::WaterTreatment, NeedRule::FirstAid];

/// All that make the trip possible, each alone.
pub(super) fn all(trial: &Trial) -> Vec<Change> {
    let mut found: Vec<Change> = leave(trial).and_then(|change| trial.tried(change)).into_iter().collect();
    for kind in KINDS {
        found.extend(PARTS.iter().find_map(|part| trial.tried(sooner(trial, kind, *part)?)));
    }
    found.extend(borrow(trial).and_then(|change| trial.tried(change)));
    found.extend(shared(trial).into_iter().find_map(|change| trial.tried(change)));
    found
}

/// What each could bring at most, whether or not it suffices.
pub(super) fn strongest(trial: &Trial) -> Vec<Change> {
    KINDS.iter().filter_map(|kind| sooner(trial, *kind, PARTS[0])).chain(shared(trial)).collect()
}

/// The fewest things of the always list without which all else holds.
fn leave(trial: &Trial) -> Option<Change> {
    let (instance, risk_model) = trial.instance()?;
    let left = relax::left_at_home(&instance, &risk_model, &trial.options).filter(|left| !left.is_empty())?;
    let mass = left.iter().map(|(item, count)| instance.items[*item].mass * *count).sum::<Mass>();
    let named = left.iter().map(|(item, count)| {
        let item = &instance.items[*item];
        (item.id.clone(), item.name.clone(), *count)
    });
    Some(Change::Leave(named.collect(), mass))
}

/// The dearest things of the cheapest kit, until the rest is within the budget.
fn borrow(trial: &Trial) -> Option<Change> {
    let budget = trial.scenario.limits.budget?;
    let (instance, risk_model) = trial.instance()?;
    let (_, counts) = relax::least(&instance, &risk_model, Give::Money, &trial.options)?;
    let bought = instance.items.iter().zip(&counts).map(|(item, n)| (item, n.saturating_sub(item.owned)));
    let mut bought: Vec<(&InstanceItem, u32)> = bought.filter(|(item, n)| *n > 0 && item.price > Money::ZERO).collect();
    bought.sort_by_key(|(item, n)| std::cmp::Reverse(item.price * *n));
    let mut left: Money = bought.iter().map(|(item, n)| item.price * *n).sum();
    let (mut things, mut saved) = (Vec::new(), Money::ZERO);
    for (item, count) in bought {
        if left <= budget {
            break;
        }
        left = left - item.price * count;
        saved += item.price * count;
        things.push((item.id.clone(), item.name.clone(), count));
    }
    (!things.is_empty() && things.len() <= MOST_BORROWED).then_some(Change::Borrow(things, saved))
}

/// Intervals that planning can shorten.
#[derive(Clone, Copy)]
enum Interval {
    Water,
    Food,
    Pumps,
}

/// The intervals that may be shortened, in the order in which they are tried.
const KINDS: [Interval; 3] = [Interval::Water, Interval::Food, Interval::Pumps];

/// The longest interval of a kind divided; `None` where the trip does not ask for it.
fn sooner(trial: &Trial, kind: Interval, part: f64) -> Option<Change> {
    let legs = &trial.scenario.trip.legs;
    let days = legs.iter().map(|leg| leg.days).sum::<f64>().max(1.0);
    // No interval is longer than the trip.
    let longest = |of: &dyn Fn(&Leg) -> Hours| {
        let hours = legs.iter().map(|leg| of(leg).get()).fold(0.0, f64::max).min(days * 24.0);
        (hours > 0.0).then(|| (Hours::new(hours), Hours::new(hours / part)))
    };
    match kind {
        Interval::Water => longest(&|leg| leg.water_every).map(|(from, to)| Change::Water { from, to }),
        Interval::Food => longest(&|leg| leg.food_every).map(|(from, to)| Change::Food { from, to }),
        Interval::Pumps => {
            let km = legs.iter().filter_map(|leg| leg.fuel_every).map(Distance::km).fold(0.0, f64::max);
            (km > 0.0).then(|| Change::Pumps { from: Distance::new(km), to: Distance::new(km / part) })
        }
    }
}

/// What a companion could carry, where there is one.
fn shared(trial: &Trial) -> Vec<Change> {
    if trial.scenario.riders.len() < 2 {
        return Vec::new();
    }
    let Some((instance, _)) = trial.instance() else { return Vec::new() };
    let demands = instance.demands.iter().filter(|demand| SHARED.contains(&demand.rule));
    demands.map(|demand| Change::Share { need: demand.id.clone(), name: demand.name.clone() }).collect()
}
