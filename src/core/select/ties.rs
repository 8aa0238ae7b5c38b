//! Kits that save equally much are told apart by rule: the lighter, then the cheaper, then the earlier in the catalogue.
//!
//! Exact ties come from things that can stand in for each other, or that are not missed at all. So the rule is applied
//! by leaving out and by exchanging one item for another as long as the value stays and the kit improves by the rule.
//! Carrying costs hours, so anything further apart in mass than rounding is no tie to begin with.
//!
//! Solvers let rows slip by some 1e-7, so what they call best may be beaten by as little. The same steps, and one unit
//! more of anything, also mend that: a step is taken when it saves more, or as much and ranks better.

use super::rows::confined;
use super::rows::{PlainRow, chance, load};
use super::{Columns, Cut};
use crate::domain::Bag;
use crate::resolve::{Instance, InstanceItem, Measure};
use crate::risk::value::available;
use crate::risk::{RiskModel, value, value_in_model};
use crate::units::{Mass, Money, Volume};

/// Objectives closer than this (relative to their size) are ties.
const TIE: f64 = 1e-10;

/// A step by a kit's own figures has to bring more than a model may be off from them: a tenth of a second.
const CLEARLY: f64 = 3e-5;
/// Most steps of improving a kit by its own figures.
const MOST_STEPS: usize = 50;
/// With more items than this, exchanges would take longer than choosing the kit.
const MOST_EXCHANGED: usize = 40;

/// With more items than this, single steps would take longer as well, and none are tried.
const MOST_IMPROVED: usize = 500;

/// Rounding in sums of kilograms.
const ROUNDING: f64 = 1e-9;

/// What the rule compares: smaller is better.
type Rank = (Mass, Money, u64);

/// The counts to settle on: as valuable as `counts`, and no single change that keeps `hold` improves them further by the
/// rule.
pub(super) fn settle(
    instance: &Instance,
    risk_model: &RiskModel,
    columns: &Columns,
    hold: &dyn Fn(&[u32]) -> bool,
    counts: Vec<u32>,
) -> Vec<u32> {
    let mut kit = counts;
    let mut worth = value_in_model(instance, risk_model, &kit).objective();
    // Every step saves more or ranks better, so this ends; the bound only guards against a defect.
    for _ in 0..10_000 {
        let now = rank(instance, &kit);
        let tie = TIE * worth.abs().max(1.0);
        let better = steps(instance, columns, &kit).find_map(|next| {
            let lower = rank(instance, &next) < now;
            let saved = value_in_model(instance, risk_model, &next).objective();
            let improves = saved > worth + tie || (lower && saved >= worth - tie);
            (improves && hold(&next)).then_some((next, saved))
        });
        match better {
            Some((next, saved)) => (kit, worth) = (next, saved),
            None => break,
        }
    }
    kit
}

/// The best kit that is reached by single steps, each better by the kit's own figures; `None` where there is no such step.
/// Exchanges are tried in small cases only.
pub(super) fn improved(
    instance: &Instance,
    risk_model: &RiskModel,
    columns: &Columns,
    hold: &dyn Fn(&[u32]) -> bool,
    counts: &[u32],
) -> Option<Vec<u32>> {
    if instance.items.len() > MOST_IMPROVED {
        return None;
    }
    let exchanges = instance.items.len() <= MOST_EXCHANGED;
    let mut kit = counts.to_vec();
    let mut worth = value(instance, risk_model, &kit).objective();
    let mut moved = false;
    for _ in 0..MOST_STEPS {
        let better =
            steps(instance, columns, &kit).filter(|next| exchanges || changes(&kit, next) == 1).find_map(|next| {
                let saved = value(instance, risk_model, &next).objective();
                (saved > worth + CLEARLY * worth.abs().max(1.0) && hold(&next)).then_some((next, saved))
            });
        let Some((next, saved)) = better else { break };
        (kit, worth, moved) = (next, saved, true);
    }
    moved.then_some(kit)
}

/// Items of which one kit has more or fewer than the other.
fn changes(kit: &[u32], next: &[u32]) -> usize {
    kit.iter().zip(next).filter(|(a, b)| a != b).count()
}

/// All kits one step away: one unit less, one unit more, or one unit of something else that serves the same instead.
fn steps<'a>(instance: &'a Instance, columns: &'a Columns, kit: &'a [u32]) -> impl Iterator<Item = Vec<u32>> + 'a {
    let with = |changes: &[(usize, bool)]| {
        let mut next = kit.to_vec();
        changes.iter().for_each(|(item, more)| if *more { next[*item] += 1 } else { next[*item] -= 1 });
        next
    };
    let inside = move || (0..kit.len()).filter(|i| kit[*i] > instance.items[*i].at_least);
    let less = inside().map(move |i| with(&[(i, false)]));
    let exchanges = inside().flat_map(move |i| {
        let open = (0..kit.len()).filter(move |j| *j != i && kit[*j] < columns.most[*j]);
        open.filter(move |j| alike(&instance.items[i], &instance.items[*j]))
            .map(move |j| with(&[(i, false), (j, true)]))
    });
    let more = (0..kit.len()).filter(move |i| kit[*i] < columns.most[*i]).map(move |i| with(&[(i, true)]));
    less.chain(more).chain(exchanges)
}

/// Two items that could stand in for each other give something in common.
fn alike(a: &InstanceItem, b: &InstanceItem) -> bool {
    a.provides.iter().any(|(f, _)| b.provides.iter().any(|(g, _)| f == g))
        || a.holds.iter().any(|(f, _)| b.holds.iter().any(|(g, _)| f == g))
        || a.meets.iter().any(|(f, _)| b.meets.iter().any(|(g, _)| f == g))
}

fn rank(instance: &Instance, kit: &[u32]) -> Rank {
    let places = kit.iter().enumerate().map(|(at, n)| (at as u64 + 1) * u64::from(*n)).sum();
    (value::mass(instance, kit), instance.to_buy(kit), places)
}

/// Kilograms that a kit puts on a row's scale at least.
fn carried(row: &PlainRow, kit: &[u32]) -> f64 {
    row.each.iter().zip(kit).map(|(each, n)| each * f64::from(*n)).sum()
}

/// Everything that a kit must keep, as plain arithmetic.
pub(super) struct Limits<'a> {
    instance: &'a Instance,
    columns: &'a Columns,
    cuts: &'a [Cut],
    risk_model: &'a RiskModel,
    sets: Vec<Vec<bool>>,
    loads: Vec<PlainRow>,
}

impl<'a> Limits<'a> {
    pub fn new(instance: &'a Instance, risk_model: &'a RiskModel, columns: &'a Columns, cuts: &'a [Cut]) -> Self {
        Self { instance, risk_model, columns, cuts, sets: confined::sets(instance), loads: load::rows(instance) }
    }

    /// Does a kit keep them all?
    pub fn hold(&self, kit: &[u32]) -> bool {
        let (mass, price, _) = rank(self.instance, kit);
        self.instance.kit_mass.is_none_or(|cap| mass <= cap)
            && Measure::Volume.limit(self.instance).is_none_or(|cap| Measure::Volume.used(self.instance, kit) <= cap)
            && self.instance.budget.is_none_or(|cap| price <= cap)
            && kit.iter().zip(&self.columns.most).all(|(n, most)| n <= most)
            && self.instance.items.iter().zip(kit).all(|(item, n)| *n >= item.at_least)
            && self.personal(kit)
            && self.needs(kit)
            && self.required(kit)
            && self.sets.iter().all(|set| self.fits(kit, set))
            && self.loads.iter().all(|row| carried(row, kit) <= row.most + ROUNDING)
            && self.cuts.iter().all(|cut| cut.iter().any(|(item, n)| kit[*item] < *n))
            && self.strands_seldom(kit)
    }

    /// What stays with its owner is within the owner's limit.
    fn personal(&self, kit: &[u32]) -> bool {
        let mut own = vec![Mass::ZERO; self.instance.own_kit_mass.len()];
        for (item, n) in self.instance.items.iter().zip(kit) {
            if let Some(rider) = item.owner {
                own[rider] += item.mass * *n;
            }
        }
        self.instance.own_kit_mass.iter().zip(own).all(|(cap, mass)| cap.is_none_or(|cap| mass <= cap))
    }

    fn strands_seldom(&self, kit: &[u32]) -> bool {
        self.instance.stranded.is_none_or(|most| {
            let shares = value_in_model(self.instance, self.risk_model, kit).shares;
            chance::expected(self.instance, self.risk_model, &shares) <= chance::allowed(most) + ROUNDING
        })
    }

    fn needs(&self, kit: &[u32]) -> bool {
        let mut met = vec![0.0; self.instance.demands.len()];
        for (item, n) in self.instance.items.iter().zip(kit) {
            item.meets.iter().for_each(|(demand, amount)| met[*demand] += amount * f64::from(*n));
        }
        self.instance.demands.iter().zip(met).all(|(demand, met)| met >= demand.amount * (1.0 - 1e-12))
    }

    fn required(&self, kit: &[u32]) -> bool {
        let there = available(self.instance, kit);
        let carried = self.instance.items.iter().zip(kit).filter(|(_, n)| **n > 0);
        carried.flat_map(|(item, _)| &item.requires).all(|(function, count)| there[*function] >= (*count).max(1))
    }

    fn fits(&self, kit: &[u32], set: &[bool]) -> bool {
        let inside = |item: &InstanceItem| item.fits.iter().zip(set).all(|(fits, in_set)| !fits || *in_set);
        let own = || self.instance.items.iter().zip(kit).filter(|(item, _)| inside(item));
        let bags = || self.instance.bags.iter().zip(set).filter(|(_, in_set)| **in_set).map(|(bag, _)| bag);
        own().map(|(item, n)| item.volume * *n).sum::<Volume>() <= bags().map(Bag::usable).sum()
            && own().map(|(item, n)| item.mass * *n).sum::<Mass>() <= bags().map(|bag| bag.max_load).sum()
    }
}
