//! Better kits by changes of a few things each: a repair with all that it lacks, a thing less, one thing for another.

use super::field::{Field, Step};

/// A change has to bring more than this (hours).
const LEAST: f64 = 1e-7;
/// Things that may go to make room for others, at most.
const MOST_GOING: usize = 8;
/// With more things than this, what each is missed by is reckoned once and not after each that goes.
const MOST_WEIGHED_ANEW: usize = 500;
/// Rounds of all changes, at most.
const MOST_ROUNDS: usize = 8;

/// What is tried on a kit.
pub struct Search<'a, 'b> {
    pub field: &'b mut Field<'a>,
    /// Must limits be kept, or is what is scarce only charged for?
    pub within: bool,
    /// So many changes may have been made when the search ends.
    pub until: usize,
    /// For each item, those that give, hold or meet something in common with it.
    pub alike: &'b [Vec<usize>],
    /// For each function, the items that give it; for each stock, those that hold it.
    pub givers: &'b (Vec<Vec<usize>>, Vec<Vec<usize>>),
}

impl Search<'_, '_> {
    /// Makes changes that better the kit until there are none.
    pub fn run(&mut self) {
        for _ in 0..MOST_ROUNDS {
            let before = self.worth();
            self.repairs();
            self.less();
            self.others();
            self.more();
            if self.worth() <= before + LEAST || self.is_over() {
                break;
            }
        }
    }

    fn is_over(&self) -> bool {
        self.field.work >= self.until
    }

    fn worth(&self) -> f64 {
        if self.within { self.field.objective - self.field.unmet() } else { self.field.priced() }
    }

    /// Tries a change; where limits are kept, things that are missed least go until they are. Was it any good?
    fn attempt(&mut self, steps: &[Step]) -> bool {
        if steps.is_empty() || self.is_over() || !self.is_allowed(steps) {
            return false;
        }
        let before = self.worth();
        self.field.apply(steps);
        let mut made = steps.to_vec();
        if self.within && self.field.excess() > 0.0 {
            // Only what is a gain before anything goes is worth making room for.
            if self.worth() > before + LEAST {
                self.make_room(&mut made, before);
            }
            if self.field.excess() > 0.0 {
                self.field.undo(&made);
                return false;
            }
        }
        if self.worth() > before + LEAST {
            return true;
        }
        self.field.undo(&made);
        false
    }

    fn is_allowed(&self, steps: &[Step]) -> bool {
        steps.iter().all(|(item, change)| {
            let after = i64::from(self.field.counts[*item]) + change;
            after >= i64::from(self.field.instance.items[*item].at_least) && after <= i64::from(self.field.most[*item])
        })
    }

    /// Things go, those first of which the least is lost for what they free, as long as the kit stays better than before.
    fn make_room(&mut self, made: &mut Vec<Step>, before: f64) {
        let kept: Vec<usize> = made.iter().filter(|(_, change)| *change > 0).map(|(item, _)| *item).collect();
        for _ in 0..MOST_GOING {
            let excess = self.field.excess();
            if excess <= 0.0 || self.worth() <= before {
                return;
            }
            let Some(step) = self.least_missed(excess, &kept) else { return };
            self.field.apply(&step);
            made.extend(step);
        }
    }

    /// What a change frees of this excess, and what it loses of this worth; it is taken back.
    fn tried(&mut self, steps: &[Step], excess: f64, worth: f64) -> (f64, f64) {
        self.field.apply(steps);
        let tried = (excess - self.field.excess(), worth - self.worth());
        self.field.undo(steps);
        tried
    }

    /// The unit of which least is lost for what it frees of the limits that are broken.
    fn least_missed(&mut self, excess: f64, kept: &[usize]) -> Option<Vec<Step>> {
        let now = self.worth();
        let mut best: Option<(f64, Vec<Step>)> = None;
        for item in 0..self.field.counts.len() {
            let count = self.field.counts[item];
            if self.is_over() {
                return None;
            }
            if count <= self.field.instance.items[item].at_least || kept.contains(&item) {
                continue;
            }
            let step = vec![(item, -1)];
            let (freed, lost) = self.tried(&step, excess, now);
            if freed > 0.0 {
                let ratio = lost / freed.min(excess);
                if best.as_ref().is_none_or(|(known, _)| ratio < *known) {
                    best = Some((ratio, step));
                }
            }
        }
        best.map(|(_, step)| step)
    }

    /// Lets things go until all limits are kept, whatever it costs. Could it?
    pub fn fit(&mut self) -> bool {
        if self.field.counts.len() > MOST_WEIGHED_ANEW {
            self.fit_in_one_go();
        }
        for _ in 0..self.field.counts.iter().sum::<u32>() {
            let excess = self.field.excess();
            if excess <= 0.0 || self.is_over() {
                break;
            }
            if self.lighter(excess) {
                continue;
            }
            let Some(step) = self.least_missed(excess, &[]) else { return false };
            self.field.apply(&step);
        }
        self.field.excess() <= 0.0
    }

    /// The same by one reckoning of what each unit is missed by: for thousands of things.
    fn fit_in_one_go(&mut self) {
        let (excess, now) = (self.field.excess(), self.worth());
        let mut order: Vec<(f64, usize)> = Vec::new();
        for item in self.carried() {
            let (freed, lost) = self.tried(&[(item, -1)], excess, now);
            if freed > 0.0 {
                order.push((lost / freed, item));
            }
        }
        order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (_, item) in order {
            let unmet = self.field.unmet();
            while self.field.excess() > 0.0 && self.is_allowed(&[(item, -1)]) {
                self.field.apply(&[(item, -1)]);
                if self.field.unmet() > unmet {
                    self.field.undo(&[(item, -1)]);
                    break;
                }
            }
        }
    }

    /// Takes one thing that meets a need for another where that frees most of what is short for what it loses. Was there any
    /// that loses less than letting things go?
    fn lighter(&mut self, excess: f64) -> bool {
        let now = self.worth();
        let alone = self.least_missed(excess, &[]).map_or(f64::INFINITY, |step| {
            let (freed, lost) = self.tried(&step, excess, now);
            lost / freed.max(1e-12)
        });
        let mut best: Option<(f64, Vec<Step>)> = None;
        for out in self.carried() {
            for into in self.alike[out].clone() {
                let Some(steps) = self.exchange(out, into) else { continue };
                if !self.is_allowed(&steps) {
                    continue;
                }
                let (freed, lost) = self.tried(&steps, excess, now);
                let ratio = lost / freed.max(1e-12);
                if freed > 0.0 && ratio < alone && best.as_ref().is_none_or(|(known, _)| ratio < *known) {
                    best = Some((ratio, steps));
                }
            }
        }
        let Some((_, steps)) = best else { return false };
        self.field.apply(&steps);
        true
    }

    /// Things of which some may go.
    fn carried(&self) -> Vec<usize> {
        let field = &self.field;
        (0..field.counts.len()).filter(|at| field.counts[*at] > field.instance.items[*at].at_least).collect()
    }

    /// Repairs that the kit does not allow, with all that they lack.
    fn repairs(&mut self) {
        for f in 0..self.field.instance.failures.len() {
            for repair in &self.field.instance.failures[f].repairs {
                if !self.field.is_able(repair)
                    && let Some(steps) = self.lacking(&repair.needs, &repair.uses)
                {
                    self.attempt(&steps);
                }
            }
        }
    }

    /// A unit less, or all units, of everything.
    fn less(&mut self) {
        for item in self.carried() {
            let spare = i64::from(self.field.counts[item]) - i64::from(self.field.instance.items[item].at_least);
            if !self.attempt(&[(item, -spare)]) && spare > 1 {
                while self.attempt(&[(item, -1)]) {}
            }
        }
    }

    /// A unit more of everything.
    fn more(&mut self) {
        for item in 0..self.field.counts.len() {
            let requires = self.field.instance.items[item].requires.clone();
            let needs: Vec<(usize, u32)> = requires.iter().map(|(function, n)| (*function, (*n).max(1))).collect();
            while let Some(mut steps) = self.lacking(&needs, &[]) {
                add(&mut steps, item, 1);
                if !self.attempt(&steps) {
                    break;
                }
            }
        }
    }

    /// One thing for another that serves the same.
    fn others(&mut self) {
        for out in self.carried() {
            for into in self.alike[out].clone() {
                if self.field.counts[out] <= self.field.instance.items[out].at_least {
                    break;
                }
                if let Some(steps) = self.exchange(out, into) {
                    self.attempt(&steps);
                }
            }
        }
    }

    /// All units of one thing that may go, and so many of the other that its needs are met again, or one, with what that one
    /// requires.
    fn exchange(&mut self, out: usize, into: usize) -> Option<Vec<Step>> {
        let instance = self.field.instance;
        let going = i64::from(self.field.counts[out]) - i64::from(instance.items[out].at_least);
        let all = [(out, -going)];
        self.field.apply(&all);
        let wanted = instance.items[into].meets.iter().map(|(demand, each)| times(self.field.open(*demand), *each));
        let wanted = wanted.max().unwrap_or(0).max(i64::from(self.field.counts[into] == 0));
        let lacking = self.lacking(&instance.items[into].requires, &[]);
        self.field.undo(&all);
        let mut steps = lacking?;
        add(&mut steps, out, -going);
        add(&mut steps, into, wanted);
        (wanted > 0).then_some(steps)
    }
}

/// Adds to a list of changes, each item once.
pub(super) fn add(steps: &mut Vec<Step>, item: usize, change: i64) {
    match steps.iter_mut().find(|(own, _)| *own == item) {
        Some((_, before)) => *before += change,
        None => steps.push((item, change)),
    }
}

/// How many units of `each` reach `amount`.
#[allow(clippy::cast_possible_truncation, reason = "clamped")]
fn times(amount: f64, each: f64) -> i64 {
    if amount <= 0.0 || each <= 0.0 { 0 } else { (amount / each - 1e-9).ceil().clamp(1.0, 1e6) as i64 }
}
