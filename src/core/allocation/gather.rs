//! A handing out in which sets ride together: things and swaps of things between riders, as long as every row of the
//! program still holds. No rider gets more than the largest load there was, so the handing out stays as fair.
//!
//! Best first: a socket with its handle; then the things of a set with the rider who has most of it; then what the
//! program likes (spares with a bike they fit). Steps are tried in a fixed order.

use super::riding::{OFF, State, Step};
use super::{Columns, Holdings};
use crate::resolve::Instance;
use fardel_milp::{Answer, Model};

/// A step is taken only if it is better by more than rounding.
const BETTER: f64 = 1e-9;
/// The lightest load may come down by so much of its rider's share: a set together is worth that.
const LIGHTER: f64 = 0.1;
/// Steps after which a handing out is good enough.
const MOST_STEPS: usize = 300;
/// Things that go the other way, at most, when a set is gathered.
const MOST_BACK: usize = 24;

/// The holdings of an answer, changed so that sets ride together; `largest` and `least` are the columns of the largest
/// and the lightest load.
pub(super) fn gather(
    model: &Model,
    columns: &Columns,
    instance: &Instance,
    answer: &Answer,
    (largest, least): (usize, usize),
) -> Holdings {
    let mut values = answer.values.clone();
    // What the largest load may be is its column's limit, whatever the solver took.
    values[largest] = model.columns[largest].upper;
    values[least] = (values[least] - LIGHTER).max(0.0);
    let mut state = State::new(model, columns, instance, values);
    // Where rounding leaves a row off already, nothing could be seen to keep it.
    if state.off() > OFF {
        return columns.holdings(answer);
    }
    let mut steps = 0;
    while steps < MOST_STEPS {
        steps += 1;
        if !state.swap() && !state.gather() {
            break;
        }
    }
    state.holdings
}

impl State<'_> {
    /// The first step, or two in opposite directions, that helps and keeps every row.
    fn swap(&mut self) -> bool {
        let now = self.dislike();
        let riders = self.holdings.len();
        let steps: Vec<Step> = self
            .free
            .iter()
            .filter(|item| self.set[**item].is_some())
            .flat_map(|item| {
                (0..riders).flat_map(move |from| (0..riders).map(move |to| Step { item: *item, from, to }))
            })
            .filter(|step| step.from != step.to)
            .collect();
        for step in steps {
            if self.holdings[step.from][step.item] == 0 || !self.takes(step.item, step.to) {
                continue;
            }
            self.apply(step);
            if self.dislike() < now - BETTER && (self.off() <= OFF || self.balanced(step, now)) {
                return true;
            }
            self.apply(step.back());
        }
        false
    }

    /// Something that goes the other way, so that every row is kept and the two still help.
    fn balanced(&mut self, first: Step, now: f64) -> bool {
        for item in self.free.clone() {
            let back = Step { item, from: first.to, to: first.from };
            if item == first.item || self.holdings[back.from][item] == 0 || !self.takes(item, back.to) {
                continue;
            }
            self.apply(back);
            if self.off() <= OFF && self.dislike() < now - BETTER {
                return true;
            }
            self.apply(back.back());
        }
        false
    }

    /// A set gathered with one rider, and other things handed on until every row is kept; kept if it helps.
    fn gather(&mut self) -> bool {
        let now = self.dislike();
        for set in (0..self.instance.sets.len()).filter(|set| self.astray(*set) > 0.0).collect::<Vec<_>>() {
            for rider in 0..self.holdings.len() {
                let mut other = self.clone();
                other.gather_with(set, rider);
                if other.settle(set, rider) && other.dislike() < now - BETTER {
                    *self = other;
                    return true;
                }
            }
        }
        false
    }

    fn gather_with(&mut self, set: usize, rider: usize) {
        for item in self.free.clone() {
            if self.set[item] != Some(set) || self.holdings[rider][item] > 0 || !self.takes(item, rider) {
                continue;
            }
            if let Some(from) = (0..self.holdings.len()).find(|from| self.holdings[*from][item] > 0) {
                self.apply(Step { item, from, to: rider });
            }
        }
    }

    /// Hands on what else a rider has, whatever brings the rows nearest each time; are they kept in the end?
    fn settle(&mut self, set: usize, rider: usize) -> bool {
        for _ in 0..MOST_BACK {
            if self.off() <= OFF {
                return true;
            }
            let mut best: Option<(f64, Step)> = None;
            for item in self.free.iter().copied().filter(|item| self.set[*item] != Some(set)) {
                for other in (0..self.holdings.len()).filter(|other| *other != rider) {
                    for (from, to) in [(rider, other), (other, rider)] {
                        let step = Step { item, from, to };
                        if self.holdings[from][item] == 0 || !self.takes(item, to) {
                            continue;
                        }
                        let change = self.change_off(step);
                        if change < best.map_or(-BETTER, |(least, _)| least - BETTER) {
                            best = Some((change, step));
                        }
                    }
                }
            }
            let Some((_, step)) = best else { return false };
            self.apply(step);
        }
        self.off() <= OFF
    }
}
