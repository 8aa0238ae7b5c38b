//! A good kit at once, without a solver: the needs of the trip met by what costs least, then whole repairs added and
//! exchanged, then single things.
//!
//! Needs are met greedily, as in the classical cover heuristic (Chvatal, Mathematics of Operations Research 4, 1979,
//! 233-235): always the unit that covers most for what it costs. Where the kit then breaks a limit, what is scarce is
//! made dearer, and the needs are met anew.

use super::rows::cut::Cut;
use super::{Choice, Columns, tabu, ties};
use crate::resolve::{Instance, InstanceItem, Measure};
use crate::risk::{RiskModel, value, value_in_model};
use fardel_milp::{Model, Stop};

/// So often is what is scarce made dearer ...
const MOST_TRIES: usize = 14;
/// ... each time by this factor ...
const DEARER: f64 = 2.0;
/// ... from so many hours for all that the limit allows.
const FIRST_PRICE: f64 = 0.5;
/// Repairs weighed in the search by whole repairs: some hundredths of a second.
const WORK: usize = 400_000;
/// Exchanges of one thing for another, at most.
const MOST_EXCHANGES: usize = 60;
/// Requirements of requirements are followed so far.
const DEEPEST: usize = 6;
/// Amounts are sums of decimal texts and may miss by a rounding.
const ROUNDING: f64 = 1e-9;

/// A kit that keeps all limits and cuts, with the bound that no kit saves more than every failure's best repair; nothing
/// where none was found, which proves nothing. The same input gives the same kit.
#[must_use]
pub fn first(instance: &Instance, risk_model: &RiskModel, cuts: &[Cut]) -> Option<Choice> {
    let columns = Columns::new(&mut Model::default(), instance, risk_model);
    let limits = ties::Limits::new(instance, risk_model, &columns, cuts);
    let hold = |kit: &[u32]| limits.hold(kit);
    let mut kit = needs_met(instance, risk_model, &columns.most, &hold)?;
    exchange(instance, risk_model, &columns.most, &hold, &mut kit);
    if let Some(better) = tabu::by_repairs(instance, risk_model, &columns.most, &kit, &hold, WORK) {
        kit = better;
    }
    if let Some(better) = ties::improved(instance, risk_model, &columns, &hold, &kit) {
        kit = better;
    }
    let objective = value(instance, risk_model, &kit).objective();
    let bound = best_of_all(risk_model).max(objective);
    let risk_model = risk_model.at(instance, &kit);
    Some(Choice { counts: kit, objective, bound, stop: Stop::WithinGap, failed: Vec::new(), risk_model })
}

/// Takes one thing that meets a need instead of another, as many units as it takes, as long as the kit gets better by that.
fn exchange(
    instance: &Instance,
    risk_model: &RiskModel,
    most: &[u32],
    hold: &dyn Fn(&[u32]) -> bool,
    kit: &mut Vec<u32>,
) {
    let worth = |kit: &[u32]| value_in_model(instance, risk_model, kit).objective();
    let mut best = worth(kit);
    for _ in 0..MOST_EXCHANGES {
        let inside = (0..kit.len()).filter(|at| kit[*at] > instance.items[*at].at_least);
        let pairs = inside.flat_map(|out| (0..kit.len()).map(move |into| (out, into)));
        let pairs = pairs.filter(|(out, into)| out != into && meet_alike(instance, *out, *into));
        let better = pairs.filter_map(|(out, into)| {
            let next = exchanged(instance, most, kit, (out, into))?;
            let saved = worth(&next);
            (saved > best + ROUNDING && hold(&next)).then_some((saved, next))
        });
        let Some((saved, next)) = better.reduce(|best, now| if now.0 > best.0 { now } else { best }) else { break };
        (best, *kit) = (saved, next);
    }
}

/// Do two things meet a need in common?
fn meet_alike(instance: &Instance, a: usize, b: usize) -> bool {
    let of = |item: usize| &instance.items[item].meets;
    of(a).iter().any(|(demand, _)| of(b).iter().any(|(other, _)| other == demand))
}

/// All units of one thing out that may go, and so many of the other in that its needs are met again.
fn exchanged(instance: &Instance, most: &[u32], kit: &[u32], (out, into): (usize, usize)) -> Option<Vec<u32>> {
    let mut next = kit.to_vec();
    next[out] = instance.items[out].at_least;
    let open = |next: &[u32]| {
        let short = |(demand, _): &(usize, f64)| {
            let wanted = instance.demands[*demand].amount;
            instance.met(*demand, next) < wanted - ROUNDING * wanted.max(1.0)
        };
        instance.items[out].meets.iter().any(short)
    };
    while open(&next) {
        if next[into] >= most[into] {
            return None;
        }
        next[into] += 1;
    }
    Some(next)
}

/// What all failures' best repairs would save together, at no cost.
fn best_of_all(risk_model: &RiskModel) -> f64 {
    let best = |repairs: &Vec<crate::risk::RepairRisk>| repairs.iter().map(|repair| repair.benefit).fold(0.0, f64::max);
    risk_model.repairs.iter().map(best).sum()
}

/// The least costly kit found that answers every need and keeps all limits.
fn needs_met(
    instance: &Instance,
    risk_model: &RiskModel,
    most: &[u32],
    hold: &dyn Fn(&[u32]) -> bool,
) -> Option<Vec<u32>> {
    let (shares, mut prices) = (shares(instance), [0.0; 3]);
    for _ in 0..MOST_TRIES {
        let least = instance.items.iter().map(|item| item.at_least).collect();
        let kit =
            Cover { instance, risk_model, most, shares: &shares, prices, kit: least, covered: Vec::new() }.run()?;
        if hold(&kit) {
            return Some(kit);
        }
        raise(&mut prices, instance, &shares, &kit);
    }
    None
}

/// What one unit of each item takes of the limits, as shares of them: mass, volume, money for what is bought.
fn shares(instance: &Instance) -> Vec<[f64; 3]> {
    let share = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { f64::from(u8::from(part > 0.0)) };
    let room = Measure::Volume.limit(instance).map_or(f64::INFINITY, |limit| Measure::Volume.in_row(limit));
    let room = room.min(instance.usable_volume().millilitres());
    let of = |item: &InstanceItem| {
        let mass = instance.kit_mass.map_or(0.0, |cap| share(item.mass.grams(), cap.grams()));
        let money = instance.budget.map_or(0.0, |cap| share(item.price.units(), cap.units()));
        [mass, share(item.volume.millilitres(), room), money]
    };
    instance.items.iter().map(of).collect()
}

/// Makes dearer what a kit has too much of; all of it where that cannot be told.
fn raise(prices: &mut [f64; 3], instance: &Instance, shares: &[[f64; 3]], kit: &[u32]) {
    let mut used = [0.0; 3];
    for ((item, [mass, volume, money]), count) in instance.items.iter().zip(shares).zip(kit) {
        used[0] += mass * f64::from(*count);
        used[1] += volume * f64::from(*count);
        used[2] += money * f64::from(count.saturating_sub(item.owned));
    }
    let over = used.map(|share| share > 1.0);
    for (price, over) in prices.iter_mut().zip(over) {
        if over || !used.iter().any(|share| *share > 1.0) {
            *price = (*price * DEARER).max(FIRST_PRICE);
        }
    }
}

/// Needs being met, unit by unit.
struct Cover<'a> {
    instance: &'a Instance,
    risk_model: &'a RiskModel,
    most: &'a [u32],
    /// Of each item, what one unit takes of the limits.
    shares: &'a [[f64; 3]],
    /// Hours for all that the limits on mass, volume and money allow.
    prices: [f64; 3],
    kit: Vec<u32>,
    /// Of each demand, how much is met.
    covered: Vec<f64>,
}

impl Cover<'_> {
    /// The kit once everything is met; nothing where something cannot be.
    fn run(mut self) -> Option<Vec<u32>> {
        self.covered = (0..self.instance.demands.len()).map(|demand| self.instance.met(demand, &self.kit)).collect();
        for item in 0..self.kit.len() {
            if self.kit[item] > 0 {
                self.require(item, 0)?;
            }
        }
        while let Some(item) = self.next()? {
            self.take(item, 1);
            self.require(item, 0)?;
        }
        self.spare();
        Some(self.kit)
    }

    fn open(&self, demand: usize) -> f64 {
        let wanted = self.instance.demands[demand].amount;
        let open = wanted - self.covered[demand];
        if open > ROUNDING * wanted.max(1.0) { open } else { 0.0 }
    }

    /// The unit that covers most for its cost; `Some(None)`: all is covered; `None`: something cannot be.
    #[allow(clippy::option_option, reason = "done and stuck are different")]
    fn next(&self) -> Option<Option<usize>> {
        let open: Vec<f64> = (0..self.covered.len()).map(|demand| self.open(demand)).collect();
        if open.iter().all(|open| *open <= 0.0) {
            return Some(None);
        }
        let covers = |item: &InstanceItem| -> f64 {
            let part = |(demand, amount): &(usize, f64)| {
                let wanted = self.instance.demands[*demand].amount;
                if wanted > 0.0 { amount.min(open[*demand]) / wanted } else { 0.0 }
            };
            item.meets.iter().map(part).sum()
        };
        let mut best: Option<(f64, usize)> = None;
        for (at, item) in self.instance.items.iter().enumerate() {
            let covered = if self.kit[at] < self.most[at] { covers(item) } else { 0.0 };
            if covered > 0.0 {
                let ratio = covered / self.cost(at).max(1e-9);
                if best.is_none_or(|(known, _)| ratio > known) {
                    best = Some((ratio, at));
                }
            }
        }
        best.map(|(_, at)| Some(at))
    }

    /// Hours for one more unit.
    fn cost(&self, at: usize) -> f64 {
        let item = &self.instance.items[at];
        let free = self.kit[at] < item.owned;
        let weight = self.risk_model.handling_per_kg(item.owner) * item.mass.kilograms();
        let bought = if free { 0.0 } else { item.buying.get() };
        let [mass, volume, money] = self.shares[at];
        let taken = [mass, volume, if free { 0.0 } else { money }];
        let scarce: f64 = taken.iter().zip(self.prices).map(|(share, price)| share * price).sum();
        weight + self.instance.prices.thing.get() + bought + scarce
    }

    fn take(&mut self, at: usize, count: u32) {
        self.kit[at] += count;
        for (demand, amount) in &self.instance.items[at].meets {
            self.covered[*demand] += amount * f64::from(count);
        }
    }

    /// Adds what an item is useless without: for each function the least costly item that gives it, or else the parts of
    /// the first way to combine it.
    fn require(&mut self, at: usize, depth: usize) -> Option<()> {
        let instance = self.instance;
        instance.items[at]
            .requires
            .iter()
            .try_for_each(|(function, count)| self.give(*function, (*count).max(1), depth))
    }

    fn give(&mut self, function: usize, count: u32, depth: usize) -> Option<()> {
        if depth > DEEPEST {
            return None;
        }
        let given = |item: &InstanceItem| crate::resolve::amount(&item.provides, function);
        loop {
            let there: u32 =
                self.instance.items.iter().zip(&self.kit).map(|(item, n)| given(item).saturating_mul(*n)).sum();
            if there >= count {
                return Some(());
            }
            let able =
                (0..self.kit.len()).filter(|at| self.kit[*at] < self.most[*at] && given(&self.instance.items[*at]) > 0);
            let Some(next) = able.min_by(|a, b| self.cost(*a).total_cmp(&self.cost(*b))) else { break };
            self.take(next, 1);
            self.require(next, depth + 1)?;
        }
        let ways = if count == 1 { self.instance.functions[function].also_from.clone() } else { Vec::new() };
        ways.iter().find_map(|way| {
            let before = (self.kit.clone(), self.covered.clone());
            let done = way.iter().try_for_each(|part| self.give(*part, 1, depth + 1));
            if done.is_none() {
                (self.kit, self.covered) = before;
            }
            done
        })
    }

    /// Drops units that are not needed after all, the most costly first.
    fn spare(&mut self) {
        let mut order: Vec<usize> =
            (0..self.kit.len()).filter(|at| !self.instance.items[*at].meets.is_empty()).collect();
        order.sort_by(|a, b| self.cost(*b).total_cmp(&self.cost(*a)));
        for at in order {
            let gives = !self.instance.items[at].provides.is_empty();
            while !gives && self.kit[at] > self.instance.items[at].at_least && self.is_spare(at) {
                self.kit[at] -= 1;
                for (demand, amount) in &self.instance.items[at].meets {
                    self.covered[*demand] -= amount;
                }
            }
        }
    }

    fn is_spare(&self, at: usize) -> bool {
        self.instance.items[at].meets.iter().all(|(demand, amount)| {
            let wanted = self.instance.demands[*demand].amount;
            self.covered[*demand] - amount >= wanted - ROUNDING * wanted.max(1.0) * 1e-3
        })
    }
}
