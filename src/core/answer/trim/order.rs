//! The order in which things go: always the one that gives up least for what it takes, on the way to the kit that is best
//! at the target.

use super::figures::GoingFigures;
use crate::answer::pack::PackError;
use crate::answer::ready::Ready;
use crate::answer::tradeoff::{Change, Limits, curve};
use crate::resolve::{Amount, Measure};
use crate::risk::{self, KitValue, value::available};
use crate::serial::{Number, OrNull};
use crate::units::Hours;
use fardel_milp::{EngineError, SolveOptions};
use schemars::JsonSchema;
use serde::Serialize;

/// One thing that goes.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Going {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// How many go together.
    pub count: u32,
    /// What they take.
    #[serde(skip)]
    pub amount: Amount,
    /// What the kit takes after that.
    #[serde(skip)]
    pub left: Amount,
    /// Both as numbers of the answer's unit.
    #[serde(flatten)]
    pub figures: GoingFigures,
    /// Net hours given up by this step; below zero where the weight cost more than the thing saved.
    #[serde(rename = "hours_given_up", with = "Number")]
    pub hours: Hours,
    /// Net hours given up since the packed kit.
    #[serde(rename = "hours_given_up_in_all", with = "Number")]
    pub total: Hours,
    /// Failures that nothing can be done about any more.
    #[serde(rename = "no_more_help_with")]
    pub unrepairable: Vec<String>,
    /// By how much the best choice of the packed things of this weight would be better, where it is not the one left.
    #[serde(rename = "best_is_better_by_h", with = "OrNull")]
    pub best_is_better_by: Option<Hours>,
}

/// Better by less than this (hours) is no difference.
const SAME: f64 = 1e-6;

/// Things going one by one.
pub(super) struct Order<'a> {
    ready: &'a Ready<'a>,
    measure: Measure,
    counts: Vec<u32>,
    left: Amount,
    total: f64,
    gone: Vec<Going>,
    /// For each step that is weighed: its number, what the weighed things still take, what they save.
    kits: Vec<(usize, Amount, f64)>,
}

impl<'a> Order<'a> {
    pub fn new(ready: &'a Ready<'a>, measure: Measure, counts: Vec<u32>, left: Amount) -> Self {
        Self { ready, measure, counts, left, total: 0.0, gone: Vec::new(), kits: Vec::new() }
    }

    pub fn into_gone(self) -> Vec<Going> {
        self.gone
    }

    /// Something of no use goes.
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    pub fn idle(&mut self, id: &str, count: u32) {
        let Some(item) = self.ready.catalogue.items.get(id) else { return };
        let amount = match self.measure {
            Measure::Volume => (item.volume * count).microlitres(),
            _ => (item.mass * count).milligrams(),
        };
        let hours = -self.ready.risk_model.handling_per_kg(None) * (item.mass * count).kilograms();
        self.step(id, &item.name, count, (amount, hours), Vec::new());
    }

    fn step(&mut self, id: &str, name: &str, count: u32, (amount, hours): (Amount, f64), unrepairable: Vec<String>) {
        self.left -= amount;
        self.total += hours;
        self.gone.push(Going {
            id: id.to_owned(),
            name: name.to_owned(),
            count,
            amount,
            left: self.left,
            figures: GoingFigures { amount: self.measure.in_row(amount), left: self.measure.in_row(self.left) },
            hours: Hours::new(hours),
            total: Hours::new(self.total),
            unrepairable,
            best_is_better_by: None,
        });
    }

    /// Everything that leaves, in the best order.
    pub fn all(&mut self, leaving: &[Change]) {
        let instance = &self.ready.instance;
        let number =
            |change: &Change| Some((instance.items.iter().position(|item| item.id == change.id)?, change.count));
        let mut open: Vec<(usize, u32)> = leaving.iter().filter_map(number).collect();
        while !open.is_empty() {
            let before = self.value(&self.counts);
            let next = (0..open.len()).min_by(|a, b| {
                let rank = |at: usize| self.rank(&before, open[at]);
                let (a, b) = (rank(*a), rank(*b));
                a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
            });
            let Some(next) = next else { return };
            let (item, count) = open.remove(next);
            self.go(item, count, &before);
        }
    }

    fn value(&self, counts: &[u32]) -> KitValue {
        risk::value(&self.ready.instance, &self.ready.risk_model, counts)
    }

    fn without(&self, (item, count): (usize, u32)) -> Vec<u32> {
        let mut less = self.counts.clone();
        less[item] -= count.min(less[item]);
        less
    }

    /// Would it leave something useless behind? Then what is given up for each unit of what it takes.
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    fn rank(&self, before: &KitValue, going: (usize, u32)) -> (bool, f64) {
        let instance = &self.ready.instance;
        let less = self.without(going);
        let there = available(instance, &less);
        let carried = instance.items.iter().zip(&less).filter(|(_, n)| **n > 0);
        let orphans = carried.flat_map(|(i, _)| &i.requires).any(|(function, n)| there[*function] < (*n).max(1));
        let amount = self.measure.used(instance, &self.counts) - self.measure.used(instance, &less);
        let given_up = before.objective() - self.value(&less).objective();
        (orphans, given_up / (amount.max(1) as f64))
    }

    fn go(&mut self, item: usize, count: u32, before: &KitValue) {
        let instance = &self.ready.instance;
        let less = self.without((item, count));
        let after = self.value(&less);
        let lost = (0..instance.failures.len()).filter(|f| before.saved[*f] > 0.0 && after.saved[*f] <= 0.0);
        let unrepairable = lost.map(|f| instance.failures[f].name.clone()).collect();
        let used = self.measure.used(instance, &less);
        let amount = self.measure.used(instance, &self.counts) - used;
        let (id, name) = (instance.items[item].id.clone(), instance.items[item].name.clone());
        self.counts = less;
        self.step(&id, &name, count, (amount, before.objective() - after.objective()), unrepairable);
        self.kits.push((self.gone.len() - 1, used, after.objective()));
    }

    /// Compares every kit on the way with the best of its weight; leaves it out where there is no time for that.
    pub fn compare(&mut self, options: &SolveOptions) -> Result<(), PackError> {
        let limits = Limits::At(self.kits.iter().map(|(_, used, _)| *used).collect());
        let Ready { instance, risk_model, .. } = self.ready;
        let curve = match curve(instance, risk_model, self.measure, &limits, options, &|_| ()) {
            Err(EngineError::NoAnswerInTime) => return Ok(()),
            done => done.map_err(|error| self.ready.explain(error, options))?,
        };
        for (step, used, net) in &self.kits {
            let best = curve.points.iter().find(|point| point.limit == *used).map_or(*net, |point| point.objective);
            self.gone[*step].best_is_better_by = (best - net > SAME).then(|| Hours::new(best - net));
        }
        Ok(())
    }
}
