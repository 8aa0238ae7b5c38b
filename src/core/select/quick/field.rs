//! A kit under change: what it saves, costs and takes, kept up to date unit by unit.
//!
//! What one more or one less thing does touches few failures, so only these are reckoned anew. The sums are those of
//! `value_in_model`, and of the rows of the model that are limits on counts.

use crate::resolve::{Instance, InstanceRepair, Measure};
use crate::risk::RiskModel;
use crate::select::rows::{PlainRow, plain_limits};
use crate::units::Money;
use std::collections::BTreeSet;

/// Combinations of combinations are followed so far.
const DEEPEST: usize = 4;
/// Amounts are sums of decimal texts and may miss by a rounding.
const ROUNDING: f64 = 1e-9;
/// Hours for a whole need that is not met, or for a thing without what it is useless without: more than any kit saves.
const UNMET: f64 = 1e4;

/// So many more or less of an item.
pub type Step = (usize, i64);

/// A kit under change.
pub struct Field<'a> {
    pub instance: &'a Instance,
    risk_model: &'a RiskModel,
    pub most: &'a [u32],
    pub counts: Vec<u32>,
    /// How many of each function are there at a time, without combinations.
    functions: Vec<u32>,
    stocks: Vec<u32>,
    /// Of each demand, how much is met.
    met: Vec<f64>,
    /// Of each row, how much is taken.
    used: Vec<f64>,
    rows: Vec<PlainRow>,
    /// For each item, the rows that it takes of, and how much one unit takes.
    takes: Vec<Vec<(usize, f64)>>,
    /// Hours for all that a row allows; the last one is for the budget.
    pub prices: Vec<f64>,
    /// Money spent, in whole units of it.
    spent: f64,
    budget: Option<f64>,
    /// Hours that each failure's repairs save.
    saved: Vec<f64>,
    /// Hours for one unit of each item, beside buying it.
    carrying: Vec<f64>,
    /// What the ladders fill, by stock and steps.
    fills: Vec<Vec<f64>>,
    /// Failures that an item can touch.
    touched: Vec<Vec<usize>>,
    /// Items that are useless without something.
    needy: Vec<usize>,
    /// Hours saved less all costs.
    pub objective: f64,
    /// Changes made so far: what the search is measured by.
    pub work: usize,
}

impl<'a> Field<'a> {
    /// Nothing but what the always list asks for.
    pub fn new(instance: &'a Instance, risk_model: &'a RiskModel, most: &'a [u32]) -> Self {
        let rows = rows(instance, most);
        let takes = (0..instance.items.len()).map(|item| {
            let own = rows.iter().enumerate().map(|(at, row)| (at, row.each[item]));
            own.filter(|(_, each)| *each > 0.0).collect()
        });
        let carrying = instance
            .items
            .iter()
            .map(|item| risk_model.handling_per_kg(item.owner) * item.mass.kilograms() + instance.prices.thing.get());
        let filled = |ladder: &crate::risk::Ladder| -> Vec<f64> {
            let mut sum = 0.0;
            let steps = ladder.shares.iter().map(|share| {
                sum += share;
                f64::min(sum, 1.0)
            });
            std::iter::once(0.0).chain(steps).collect()
        };
        let mut field = Self {
            instance,
            risk_model,
            most,
            counts: vec![0; instance.items.len()],
            functions: vec![0; instance.functions.len()],
            stocks: vec![0; instance.stocks.len()],
            met: vec![0.0; instance.demands.len()],
            used: vec![0.0; rows.len()],
            takes: takes.collect(),
            prices: vec![0.0; rows.len() + 1],
            rows,
            spent: 0.0,
            budget: instance.budget.map(Money::units),
            saved: vec![0.0; instance.failures.len()],
            carrying: carrying.collect(),
            fills: risk_model.ladders.iter().map(filled).collect(),
            touched: touched(instance),
            needy: (0..instance.items.len()).filter(|at| !instance.items[*at].requires.is_empty()).collect(),
            objective: 0.0,
            work: 0,
        };
        for f in 0..field.saved.len() {
            field.saved[f] = field.of_failure(f);
            field.objective += field.saved[f];
        }
        let always: Vec<Step> = instance.items.iter().map(|item| i64::from(item.at_least)).enumerate().collect();
        field.apply(&always);
        field
    }

    /// Makes changes; gives what they bring of the objective.
    pub fn apply(&mut self, steps: &[Step]) -> f64 {
        self.work += 1;
        let before = self.objective;
        let mut touched: Vec<usize> = Vec::new();
        for (item, change) in steps.iter().filter(|(_, change)| *change != 0) {
            self.turn(*item, *change);
            touched.extend(&self.touched[*item]);
        }
        touched.sort_unstable();
        touched.dedup();
        for f in touched {
            let now = self.of_failure(f);
            self.objective += now - self.saved[f];
            self.saved[f] = now;
        }
        self.objective - before
    }

    /// Takes changes back.
    pub fn undo(&mut self, steps: &[Step]) {
        let back: Vec<Step> = steps.iter().map(|(item, change)| (*item, -change)).collect();
        self.apply(&back);
    }

    #[allow(clippy::cast_precision_loss, reason = "small counts")]
    fn turn(&mut self, item: usize, change: i64) {
        let own = &self.instance.items[item];
        let from = self.counts[item];
        let to = moved(from, change);
        self.counts[item] = to;
        for (function, each) in &own.provides {
            self.functions[*function] = moved(self.functions[*function], change * i64::from(*each));
        }
        for (stock, each) in &own.holds {
            self.stocks[*stock] = moved(self.stocks[*stock], change * i64::from(*each));
        }
        for (demand, each) in &own.meets {
            self.met[*demand] += each * change as f64;
        }
        for (row, each) in &self.takes[item] {
            self.used[*row] += each * change as f64;
        }
        let bought = f64::from(to.saturating_sub(own.owned)) - f64::from(from.saturating_sub(own.owned));
        self.spent += own.price.units() * bought;
        self.objective -= self.carrying[item] * change as f64 + own.buying.get() * bought;
    }

    /// Is a function there so many times?
    pub fn is_there(&self, function: usize, count: u32) -> bool {
        self.functions[function] >= count || (count <= 1 && self.combined(function, DEEPEST))
    }

    fn combined(&self, function: usize, depth: usize) -> bool {
        self.functions[function] > 0
            || depth > 0
                && self.instance.functions[function]
                    .also_from
                    .iter()
                    .any(|way| way.iter().all(|part| self.combined(*part, depth - 1)))
    }

    /// Functions that are there, without combinations.
    pub fn given(&self, function: usize) -> u32 {
        self.functions[function]
    }

    /// Units of a stock that are there.
    pub fn stocked(&self, stock: usize) -> u32 {
        self.stocks[stock]
    }

    fn fill(&self, stock: usize) -> f64 {
        let steps = (self.stocks[stock] / self.risk_model.ladders[stock].step.max(1)) as usize;
        let fills = &self.fills[stock];
        fills[steps.min(fills.len() - 1)]
    }

    /// Can a repair be done, once at least?
    pub fn is_able(&self, repair: &InstanceRepair) -> bool {
        repair.needs.iter().all(|(function, count)| self.is_there(*function, *count))
            && repair.uses.iter().all(|(stock, units)| self.stocks[*stock] >= *units)
    }

    /// What the repairs of a failure save: the one that saves most first, as far as its stocks reach, then the next.
    fn of_failure(&self, f: usize) -> f64 {
        let failure = &self.instance.failures[f];
        let (mut saved, mut left) = (0.0, 1.0_f64);
        let mut taken: Vec<(usize, f64)> = Vec::new();
        for at in &self.risk_model.order[f] {
            let repair = &failure.repairs[*at];
            if left <= 0.0 {
                break;
            }
            if !self.is_able(repair) {
                continue;
            }
            let before = |stock: usize| taken.iter().find(|(own, _)| *own == stock).map_or(0.0, |(_, share)| *share);
            let reach = repair.uses.iter().map(|(stock, _)| self.fill(*stock) - before(*stock)).fold(left, f64::min);
            if reach <= 0.0 {
                continue;
            }
            saved += reach * self.risk_model.repairs[f][*at].benefit;
            left -= reach;
            for (stock, _) in &repair.uses {
                match taken.iter_mut().find(|(own, _)| own == stock) {
                    Some((_, share)) => *share += reach,
                    None => taken.push((*stock, reach)),
                }
            }
        }
        saved
    }

    /// How much of a demand is open.
    pub fn open(&self, demand: usize) -> f64 {
        let wanted = self.instance.demands[demand].amount;
        let open = wanted - self.met[demand];
        if open > ROUNDING * wanted.max(1.0) { open } else { 0.0 }
    }

    /// Hours charged for needs that are open and for things that are useless.
    pub fn unmet(&self) -> f64 {
        let demands = self.instance.demands.iter().enumerate();
        let open: f64 = demands.map(|(at, demand)| self.open(at) / demand.amount.max(1e-9)).sum();
        let carried = self.needy.iter().filter(|at| self.counts[**at] > 0);
        let lacking = carried.flat_map(|at| &self.instance.items[*at].requires);
        let lacking = lacking.filter(|(function, count)| !self.is_there(*function, (*count).max(1))).count();
        #[allow(clippy::cast_precision_loss, reason = "a few things")]
        let lacking = lacking as f64;
        UNMET * (open + lacking)
    }

    /// The objective less what is charged for scarce things and for what is unmet.
    pub fn priced(&self) -> f64 {
        let rows = self.rows.iter().zip(&self.used).zip(&self.prices).filter(|(_, price)| **price > 0.0);
        let scarce: f64 = rows.map(|((row, used), price)| price * used / row.most.max(1e-9)).sum();
        let money = self.budget.map_or(0.0, |budget| self.prices[self.rows.len()] * self.spent / budget.max(1.0));
        self.objective - scarce - money - self.unmet()
    }

    /// Hours for one more unit: carrying, buying, and what is scarce.
    pub fn cost(&self, item: usize) -> f64 {
        let own = &self.instance.items[item];
        let scarce: f64 =
            self.takes[item].iter().map(|(row, each)| self.prices[*row] * each / self.rows[*row].most.max(1e-9)).sum();
        let bought = if self.counts[item] < own.owned {
            0.0
        } else {
            let money = self.budget.map_or(0.0, |budget| own.price.units() / budget.max(1.0));
            own.buying.get() + self.prices[self.rows.len()] * money
        };
        self.carrying[item] + bought + scarce
    }

    /// By how much limits are broken, each as a share of itself.
    pub fn excess(&self) -> f64 {
        self.over().map(|(_, over)| over).sum()
    }

    /// Which limits are broken, by number, and by what share of themselves; the last number is the budget.
    pub fn over(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        let rows = self.rows.iter().zip(&self.used).map(|(row, used)| (row.most, *used));
        let all = rows.chain(self.budget.map(|budget| (budget, self.spent))).enumerate();
        all.filter(|(_, (most, used))| *used > most + ROUNDING * most.abs().max(1.0))
            .map(|(at, (most, used))| (at, (used - most) / most.abs().max(1e-6)))
    }

    /// Which limits are used up but for this share.
    pub fn is_tight(&self, row: usize, slack: f64) -> bool {
        let (most, used) = match self.rows.get(row) {
            Some(own) => (own.most, self.used[row]),
            None => (self.budget.unwrap_or(f64::INFINITY), self.spent),
        };
        used > most * (1.0 - slack)
    }
}

/// Limits on counts that some kit could break: mass, volume, room and load of bags, what bikes bear.
fn rows(instance: &Instance, most: &[u32]) -> Vec<PlainRow> {
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    let cap = |measure: Measure, each: &dyn Fn(usize) -> f64| {
        let most = measure.in_row(measure.limit(instance)?);
        Some(PlainRow { key: measure.key().to_owned(), each: (0..instance.items.len()).map(each).collect(), most })
    };
    let mass = cap(Measure::Mass, &|item| instance.items[item].mass.grams());
    let volume = cap(Measure::Volume, &|item| instance.items[item].volume.millilitres());
    let personal = instance.own_kit_mass.iter().enumerate().filter_map(|(rider, cap)| {
        let own = instance.items.iter().map(|item| if item.owner == Some(rider) { item.mass.grams() } else { 0.0 });
        Some(PlainRow { key: format!("rider {rider}"), each: own.collect(), most: (*cap)?.grams() })
    });
    let all = mass.into_iter().chain(volume).chain(personal).chain(plain_limits(instance));
    let heaviest = |row: &PlainRow| row.each.iter().zip(most).map(|(each, most)| each * f64::from(*most)).sum::<f64>();
    all.filter(|row| heaviest(row) > row.most).collect()
}

/// For each item, the failures that it can touch: by what it gives, by what its functions are a part of, by what it holds.
fn touched(instance: &Instance) -> Vec<Vec<usize>> {
    let mut by_function: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); instance.functions.len()];
    let mut by_stock: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); instance.stocks.len()];
    for (f, failure) in instance.failures.iter().enumerate() {
        for repair in &failure.repairs {
            repair.needs.iter().for_each(|(function, _)| _ = by_function[*function].insert(f));
            repair.uses.iter().for_each(|(stock, _)| _ = by_stock[*stock].insert(f));
        }
    }
    // A part of a combination touches what the whole does.
    for _ in 0..DEEPEST {
        for (at, function) in instance.functions.iter().enumerate() {
            let whole = by_function[at].clone();
            for part in function.also_from.iter().flatten() {
                by_function[*part].extend(&whole);
            }
        }
    }
    let of = |item: &crate::resolve::InstanceItem| {
        let given = item.provides.iter().flat_map(|(function, _)| &by_function[*function]);
        let held = item.holds.iter().flat_map(|(stock, _)| &by_stock[*stock]);
        given.chain(held).copied().collect::<BTreeSet<usize>>().into_iter().collect()
    };
    instance.items.iter().map(of).collect()
}

fn moved(count: u32, change: i64) -> u32 {
    u32::try_from(i64::from(count) + change).unwrap_or(0)
}
