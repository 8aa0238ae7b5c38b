//! A solved case told in plain data: who, what, where, why, and what stays open.

use super::charge::charge_short;
use super::checks::checks;
use super::demand::NeedLine;
use super::fuel;
use super::home;
use super::loading::loadings;
use super::plan::{
    Figures, PackAnswer, PackedBag, PackedItem, Proof, Purchase, RiskLine, Standing, ToolkitLeft, Totals, TripSummary,
};
use super::purpose::purposes;
use super::remedy::remedy;
use super::solve::Solved;
use crate::domain::{Bag, Catalogue, Kind, Kit, Rider, Scenario, Surface};
use crate::resolve::{ChargeRange, Demand, Instance, InstanceItem, Range, Reason};
use crate::risk::{self, KitValue, RiskModel};
use crate::select::Choice;
use crate::stow;
use crate::units::{Distance, Hours, Mass};
use fardel_milp::{SolveOptions, Stop};
use fardel_words::say;

/// A kit and the model that chose it may differ by so much, relative to hours: what an engine lets its rows slip by, and
/// what it gains where repairs of one failure draw on two stocks each, which the model divides to the best advantage and a
/// rider takes as they come. That is less than a second.
const OWN: f64 = 1e-5;

/// What was given and what was found.
pub(super) struct Found<'a> {
    pub catalogue: &'a Catalogue,
    pub scenario: &'a Scenario,
    pub rider: &'a Rider,
    pub instance: &'a Instance,
    pub risk_model: &'a RiskModel,
    pub solved: &'a Solved,
    pub options: &'a SolveOptions,
}

/// The whole answer.
pub(super) fn describe(found: &Found<'_>) -> PackAnswer {
    let Found { catalogue, scenario, rider, instance, risk_model, solved, options } = *found;
    let counts = &solved.choice.counts;
    let value = risk::value(instance, risk_model, counts);
    let own = risk_model.at(instance, counts);
    let hours_empty = risk_model.hours_empty();
    let units = instance.items.iter().zip(counts).map(|(item, n)| (item.id.clone(), *n));
    PackAnswer {
        trip: summary(catalogue, scenario, rider),
        totals: totals(catalogue, instance, counts),
        figures: Figures {
            failures: risk_model.means.iter().sum(),
            hours_empty: Hours::new(hours_empty),
            hours_saved: Hours::new(value.hours_saved()),
            hours_handling: Hours::new(value.terms.handling()),
            hours_lost: Hours::new(hours_empty - value.hours_saved() + value.terms.handling()),
            terms: value.terms,
            coverage: if hours_empty > 0.0 { value.hours_saved() / hours_empty } else { 1.0 },
            home: home::home(instance, counts, &[risk::value::mass(instance, counts)]),
            self_recovery_empty: risk::recovery::bound(instance, &vec![0; counts.len()]),
        },
        prices: home::price_tags(instance, &own),
        proof: Proof {
            engine: options.engine.word(),
            proven: solved.choice.stop == Stop::Proven && is_its_own(&solved.choice, &value),
            gap: gap(&solved.choice, &value),
            objective: value.objective(),
            // A solver may stop a hair below what it found; no kit does better than that one either.
            bound: solved.choice.bound.max(value.objective()),
            rounds: solved.rounds,
            way: solved.way,
        },
        bags: bags(found, &own, &value),
        purchases: purchases(instance, counts),
        loads: loadings(instance, &solved.placement, (catalogue, scenario, &[rider])),
        toolkit_left: toolkit_left(instance, catalogue, rider, counts),
        risks: risks(catalogue, instance, risk_model, &value, counts),
        needs: needs(instance, counts),
        fuel: fuel::short(instance, counts),
        charge: charge_short(instance),
        ranges: ranges(instance),
        charges: charges(instance),
        checks: checks(catalogue, rider),
        chores: Vec::new(),
        firm: None,
        dropped: dropped(instance),
        considered: instance.items.len(),
        warnings: warnings(instance, &solved.choice),
        kinds: kinds(instance, counts),
        kit: Kit::new(units),
        stowage: stow::stowage(instance, &solved.placement),
    }
}

/// What the rider should know of a kit.
pub(super) fn warnings(instance: &Instance, choice: &Choice) -> Vec<String> {
    instance.warnings.iter().cloned().chain(overcome(&choice.failed)).collect()
}

/// Kinds of things in a kit, each once.
pub(super) fn kinds(instance: &Instance, counts: &[u32]) -> Vec<Kind> {
    let there = instance.items.iter().zip(counts).filter(|(_, n)| **n > 0);
    let mut kinds: Vec<Kind> = there.map(|(item, _)| item.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    kinds
}

impl Solved {
    /// Is it proven that no kit is better, by the kit's own stakes?
    pub(crate) fn is_proven(&self, instance: &Instance, risk_model: &RiskModel) -> bool {
        let value = risk::value(instance, risk_model, &self.choice.counts);
        self.choice.stop == Stop::Proven && is_its_own(&self.choice, &value)
    }
}

/// Is the kit worth by its own stakes what the model that chose it says? Kits chosen by the stakes of another are not.
fn is_its_own(choice: &Choice, value: &KitValue) -> bool {
    (value.objective() - choice.objective).abs() <= OWN * choice.objective.abs().max(1.0)
}

/// Relative distance of what a kit is worth to the best bound; 0 where it is proven the best.
fn gap(choice: &Choice, value: &KitValue) -> f64 {
    if choice.stop == Stop::Proven && is_its_own(choice, value) {
        return 0.0;
    }
    (choice.bound - value.objective()).max(0.0) / value.objective().abs().max(1e-9)
}

pub(super) fn summary(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider) -> TripSummary {
    use Surface::{Rough, Track};
    let legs = &scenario.trip.legs;
    let km =
        |surfaces: &[Surface]| -> Distance { legs.iter().flat_map(|leg| surfaces.iter().map(|s| leg.km.on(*s))).sum() };
    TripSummary {
        scenario: scenario.name.clone(),
        rider: rider.name.clone(),
        bike: catalogue.bikes.get(&rider.bike).map_or_else(|| rider.bike.clone(), |bike| bike.name.clone()),
        days: legs.iter().map(|leg| leg.days).sum(),
        nights: legs.iter().map(|leg| leg.nights).sum(),
        distance: km(Surface::ALL),
        off_road: km(&[Track, Rough]),
        furthest: legs.iter().map(|leg| leg.hours_to_help).fold(Hours::ZERO, |a, b| if b > a { b } else { a }),
    }
}

/// What is said where a solver failed before the answer was found.
pub(super) fn overcome(failed: &[String]) -> Option<String> {
    (!failed.is_empty()).then(|| {
        say!(
            "the solver failed before this answer was found ({}); the answer comes from another way of solving and was \
             checked like every other",
            failed.join("; ")
        )
    })
}

pub(super) fn totals(catalogue: &Catalogue, instance: &Instance, counts: &[u32]) -> Totals {
    Totals {
        mass: risk::value::mass(instance, counts),
        mass_limit: instance.kit_mass,
        volume: instance.volume(counts),
        room: instance.usable_volume(),
        to_buy: instance.to_buy(counts),
        budget: instance.budget,
        currency: catalogue.currency,
        units: counts.iter().sum(),
    }
}

pub(super) fn purchases(instance: &Instance, counts: &[u32]) -> Vec<Purchase> {
    let bought = instance.items.iter().zip(counts).map(|(item, n)| (item, n.saturating_sub(item.owned)));
    let bought = bought.filter(|(_, count)| *count > 0);
    let purchase =
        |(item, count): (&InstanceItem, u32)| Purchase { name: item.name.clone(), count, price: item.price * count };
    let mut purchases: Vec<Purchase> = bought.map(purchase).collect();
    purchases.sort_by_key(|purchase| std::cmp::Reverse(purchase.price));
    purchases
}

/// Demanded by the trip, directly or because something demanded needs it; asked for; or there for what it saves.
pub(super) fn standing(instance: &Instance, counts: &[u32], item: usize) -> Standing {
    let own = &instance.items[item];
    let gives = |function: &usize| own.provides.iter().any(|(given, _)| given == function);
    let mut others = instance.items.iter().zip(counts).filter(|(_, n)| **n > 0).map(|(other, _)| other);
    let demanded = !own.meets.is_empty();
    if demanded || others.any(|other| !other.meets.is_empty() && other.requires.iter().any(|(f, _)| gives(f))) {
        Standing::Needed
    } else if own.at_least > 0 {
        Standing::Asked
    } else {
        Standing::Earns
    }
}

fn bags(found: &Found<'_>, risk_model: &RiskModel, value: &KitValue) -> Vec<PackedBag> {
    let Found { catalogue, rider, instance, solved, .. } = *found;
    let built_in = |id: &String| catalogue.bikes.get(&rider.bike).is_some_and(|bike| bike.bags.contains(id));
    let counts = &solved.choice.counts;
    let items = packed_items(instance, risk_model, value, counts);
    let bag = |(bag, units): (&Bag, &Vec<(usize, u32)>)| packed_bag(bag, built_in(&bag.id), instance, &items, units);
    instance.bags.iter().zip(&solved.placement).map(bag).collect()
}

/// Every item of the kit with all its units, as it will stand in the bags; `None` for what is not taken.
pub(super) fn packed_items(
    instance: &Instance,
    risk_model: &RiskModel,
    value: &KitValue,
    counts: &[u32],
) -> Vec<Option<PackedItem>> {
    let packed = |item: usize| {
        let (own, count) = (&instance.items[item], counts[item]);
        let mut without = counts.to_vec();
        without[item] = 0;
        let worth = value.gains() - risk::value(instance, risk_model, &without).gains();
        PackedItem {
            id: own.id.clone(),
            name: own.name.clone(),
            count,
            mass: own.mass * count,
            volume: own.volume * count,
            kind: own.kind,
            standing: standing(instance, counts, item),
            to_buy: count.saturating_sub(own.owned),
            from_toolkit: count.min(own.in_toolkit),
            purposes: purposes(instance, risk_model, value, counts, item),
            worth: Hours::new(worth.max(0.0)),
            costs: home::item_costs(instance, risk_model, own, count),
        }
    };
    (0..counts.len()).map(|item| (counts[item] > 0).then(|| packed(item))).collect()
}

/// A bag with so many units of the kit's items in it.
pub(super) fn packed_bag(
    bag: &Bag,
    built_in: bool,
    instance: &Instance,
    kit: &[Option<PackedItem>],
    units: &[(usize, u32)],
) -> PackedBag {
    let part = |(item, count): &(usize, u32)| {
        let (own, whole) = (&instance.items[*item], kit[*item].clone()?);
        Some(PackedItem { count: *count, mass: own.mass * *count, volume: own.volume * *count, ..whole })
    };
    let mut items: Vec<PackedItem> = units.iter().filter_map(part).collect();
    items.sort_by_key(|item| (item.kind, std::cmp::Reverse(item.mass)));
    PackedBag {
        id: bag.id.clone(),
        name: bag.name.clone(),
        filled: items.iter().map(|item| item.volume).sum(),
        usable: bag.usable(),
        own_mass: bag.mass,
        built_in,
        mass: items.iter().map(|item| item.mass).sum(),
        max_load: bag.max_load,
        items,
    }
}

/// Toolkit units that are not taken. Owned units of the same item are taken last, so the toolkit's stay only when
/// fewer are wanted than it holds.
fn toolkit_left(instance: &Instance, catalogue: &Catalogue, rider: &Rider, counts: &[u32]) -> Vec<ToolkitLeft> {
    let Some(bike) = catalogue.bikes.get(&rider.bike) else { return Vec::new() };
    let taken = |id: &str| instance.items.iter().zip(counts).find(|(item, _)| item.id == id).map_or(0, |(_, n)| *n);
    let left = bike.toolkit.iter().filter_map(|(id, held)| {
        let item = catalogue.items.get(id)?;
        let count = held.saturating_sub(taken(id));
        (count > 0).then(|| ToolkitLeft { name: item.name.clone(), count, mass: item.mass * count })
    });
    left.collect()
}

pub(super) fn risks(
    catalogue: &Catalogue,
    instance: &Instance,
    risk_model: &RiskModel,
    value: &KitValue,
    counts: &[u32],
) -> Vec<RiskLine> {
    let mut lines: Vec<RiskLine> = instance
        .failures
        .iter()
        .enumerate()
        .map(|(f, failure)| RiskLine {
            id: failure.id.clone(),
            name: failure.name.clone(),
            system: catalogue.systems.get(&failure.system).map_or(failure.system.clone(), |s| s.name.clone()),
            outcome: failure.outcome.word(),
            mean: risk_model.means[f],
            hours_empty: Hours::new(risk_model.hours_unrepaired[f]),
            hours_left: Hours::new((risk_model.hours_unrepaired[f] - value.saved[f]).max(0.0)),
            repairs: failure
                .repairs
                .iter()
                .zip(&value.shares[f])
                .filter(|(_, share)| **share > 0.0)
                .map(|(repair, share)| (repair.name.clone(), *share))
                .collect(),
            remedy: remedy(instance, risk_model, counts, f, value.saved[f]),
        })
        .collect();
    lines.sort_by(|a, b| b.hours_left.get().total_cmp(&a.hours_left.get()));
    lines
}

fn charges(instance: &Instance) -> Vec<(String, ChargeRange)> {
    instance.mounts.iter().filter_map(|mount| Some((mount.rider.clone(), mount.charge.clone()?))).collect()
}

pub(super) fn ranges(instance: &Instance) -> Vec<(String, Range)> {
    instance.mounts.iter().filter_map(|mount| Some((mount.rider.clone(), mount.range.clone()?))).collect()
}

pub(super) fn needs(instance: &Instance, counts: &[u32]) -> Vec<NeedLine> {
    let mass = |at: usize| {
        let meeting =
            instance.items.iter().zip(counts).filter(|(item, _)| item.meets.iter().any(|(met, _)| *met == at));
        meeting.map(|(item, n)| item.mass * *n).sum()
    };
    let line = |demand: &Demand, demanded: f64, carried: f64, mass: Mass| NeedLine {
        mass,
        id: demand.id.clone(),
        name: demand.name.clone(),
        demanded,
        carried,
        unit: demand.unit.clone(),
        working: demand.working.clone(),
    };
    // Of petrol, what the trip asks for, not what containers hold.
    let asked = |demand: &Demand| instance.fuel.as_ref().filter(|fuel| fuel.id == demand.id).map(|fuel| fuel.amount);
    let demands = instance.demands.iter().enumerate();
    let mut lines: Vec<NeedLine> = demands
        .map(|(at, demand)| line(demand, asked(demand).unwrap_or(demand.amount), instance.met(at, counts), mass(at)))
        .collect();
    let left_out = instance.fuel.iter().filter(|fuel| instance.demands.iter().all(|demand| demand.id != fuel.id));
    lines.extend(left_out.map(|fuel| line(fuel, fuel.amount, 0.0, Mass::ZERO)));
    lines
}

fn dropped(instance: &Instance) -> Vec<(Reason, usize)> {
    let reasons = [Reason::OnNeverList, Reason::FitsNoBag, Reason::NothingNeedsIt];
    let count = |reason| instance.left_out.iter().filter(|left| left.reason == reason).count();
    reasons.into_iter().map(|reason| (reason, count(reason))).filter(|(_, n)| *n > 0).collect()
}
