//! What a kit lacks for a repair, for a thing that is useless without others, or for the needs of the trip: of each the
//! least costly.

use super::field::Step;
use super::search::{Search, add};
use crate::resolve::{InstanceItem, amount};

/// Requirements of requirements are followed so far.
const DEEPEST: usize = 4;

impl Search<'_, '_> {
    /// What is lacking for these functions and stocks: of each the least costly things.
    pub fn lacking(&mut self, needs: &[(usize, u32)], uses: &[(usize, u32)]) -> Option<Vec<Step>> {
        let mut steps = Vec::new();
        let done = needs.iter().all(|(function, n)| self.give(*function, (*n).max(1), &mut steps, DEEPEST))
            && uses.iter().all(|(stock, units)| self.hold(*stock, *units, &mut steps));
        // They were made one after another to see what is still lacking.
        self.field.undo(&steps);
        done.then_some(steps)
    }

    fn give(&mut self, function: usize, count: u32, steps: &mut Vec<Step>, depth: usize) -> bool {
        if self.field.is_there(function, count) {
            return true;
        }
        if depth == 0 {
            return false;
        }
        let short = count - self.field.given(function);
        let each = |item: &InstanceItem| amount(&item.provides, function);
        let alone = self.cheapest(self.givers.0[function].clone(), short, each);
        let ways = &self.field.instance.functions[function].also_from;
        let combined = if count == 1 && !ways.is_empty() { self.way(function, depth) } else { None };
        match (alone, combined) {
            (Some((item, n, cost)), combined) if combined.as_ref().is_none_or(|(_, other)| cost <= *other) => {
                self.take(item, n, steps);
                let requires = self.field.instance.items[item].requires.clone();
                requires.iter().all(|(function, n)| self.give(*function, (*n).max(1), steps, depth - 1))
            }
            (_, Some((parts, _))) => {
                self.field.apply(&parts);
                parts.iter().for_each(|(item, n)| add(steps, *item, *n));
                true
            }
            (_, None) => false,
        }
    }

    /// The least costly combination that gives a function.
    fn way(&mut self, function: usize, depth: usize) -> Option<(Vec<Step>, f64)> {
        let ways = self.field.instance.functions[function].also_from.clone();
        let mut best: Option<(Vec<Step>, f64)> = None;
        for way in ways {
            let mut parts = Vec::new();
            let done = way.iter().all(|part| self.give(*part, 1, &mut parts, depth - 1));
            self.field.undo(&parts);
            #[allow(clippy::cast_precision_loss, reason = "small counts")]
            let cost = parts.iter().map(|(item, n)| self.field.cost(*item) * *n as f64).sum();
            if done && best.as_ref().is_none_or(|(_, known)| cost < *known) {
                best = Some((parts, cost));
            }
        }
        best
    }

    fn hold(&mut self, stock: usize, units: u32, steps: &mut Vec<Step>) -> bool {
        let there = self.field.stocked(stock);
        if there >= units {
            return true;
        }
        let each = |item: &InstanceItem| amount(&item.holds, stock);
        let Some((item, n, _)) = self.cheapest(self.givers.1[stock].clone(), units - there, each) else { return false };
        self.take(item, n, steps);
        let requires = self.field.instance.items[item].requires.clone();
        requires.iter().all(|(function, n)| self.give(*function, (*n).max(1), steps, DEEPEST - 1))
    }

    /// The item that gives so much at least cost, how many of it, and what they cost.
    fn cheapest(
        &self,
        items: Vec<usize>,
        short: u32,
        each: impl Fn(&InstanceItem) -> u32,
    ) -> Option<(usize, i64, f64)> {
        let able = items.into_iter().filter_map(|at| {
            let n = short.div_ceil(each(&self.field.instance.items[at]).max(1));
            (self.field.counts[at] + n <= self.field.most[at])
                .then(|| (at, i64::from(n), self.field.cost(at) * f64::from(n)))
        });
        able.min_by(|a, b| a.2.total_cmp(&b.2).then(a.0.cmp(&b.0)))
    }

    fn take(&mut self, item: usize, n: i64, steps: &mut Vec<Step>) {
        self.field.apply(&[(item, n)]);
        add(steps, item, n);
    }

    /// Meets every need by what covers most for its cost. Could it?
    pub fn cover(&mut self) -> bool {
        for item in 0..self.field.counts.len() {
            if self.field.counts[item] > 0 && !self.required(item) {
                return false;
            }
        }
        // What would be useless, whatever is added, is passed over.
        let mut barred = vec![false; self.field.counts.len()];
        loop {
            let open: Vec<f64> = (0..self.field.instance.demands.len()).map(|at| self.field.open(at)).collect();
            if open.iter().all(|open| *open <= 0.0) {
                return true;
            }
            let covers = |item: &InstanceItem| -> f64 {
                let part = |(demand, each): &(usize, f64)| {
                    each.min(open[*demand]) / self.field.instance.demands[*demand].amount.max(1e-9)
                };
                item.meets.iter().map(part).sum()
            };
            let each = self.field.instance.items.iter().enumerate();
            let able = each.filter(|(at, _)| !barred[*at] && self.field.counts[*at] < self.field.most[*at]);
            let able = able.map(|(at, item)| (at, covers(item) / self.field.cost(at).max(1e-9)));
            let best = able.filter(|(_, ratio)| *ratio > 0.0).max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)));
            let Some((item, _)) = best else { return false };
            self.field.apply(&[(item, 1)]);
            if !self.required(item) {
                self.field.undo(&[(item, 1)]);
                barred[item] = true;
            }
        }
    }

    /// Adds what a thing is useless without.
    fn required(&mut self, item: usize) -> bool {
        let requires = self.field.instance.items[item].requires.clone();
        let Some(steps) = self.lacking(&requires, &[]) else { return false };
        self.field.apply(&steps);
        true
    }
}
