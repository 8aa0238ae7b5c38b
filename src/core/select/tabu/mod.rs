//! A good kit by whole repairs. Where many tools are worth nothing until the last of them is there, the relaxation takes
//! a little of each and shows neither a good kit nor a good bound. So repairs are added, dropped and exchanged with all
//! that they need, by tabu search (Glover, ORSA Journal on Computing 1, 1989, 190-206), which is known to do well on
//! set-union knapsacks (Wei & Hao, arXiv 1903.04966, 2019). A short search also shows when a solver has called a poor kit
//! the best.

mod bundle;
mod pool;

use self::bundle::bundles;
use self::pool::Pool;
use crate::resolve::Instance;
use crate::risk::{RiskModel, value_in_model};
use rand::{RngExt, SeedableRng};
use rand_xoshiro::Xoshiro256PlusPlus;
use std::ops::Range;
use std::time::Duration;

/// Repairs weighed, all moves together, where there is little else to go by: some seconds ...
const LONG: usize = 200_000_000;
/// ... for so many exchanges of one repair for another; fewer where there are fewer repairs ...
const PER_EXCHANGE: usize = 25_000;
/// ... and where time is short, so many for each second of it: what is found does not hang on the clock.
const PER_SECOND: f64 = 1e7;
/// The same to check what a solver says: some milliseconds.
pub(super) const SHORT: usize = 20_000;
/// Moves without a better kit after which the search goes on from the best one, less a part of its repairs.
const PATIENCE: usize = 300;
/// Whether a repair belongs to that part is drawn: one in so many does, and how many that is, is drawn up to here.
const DROPPED: u32 = 4;
/// A repair that was dropped stays away for so many moves, drawn.
const AWAY: Range<usize> = 7..19;
/// One that was added stays for so many.
const STAYS: Range<usize> = 3..12;

/// The best kit found that keeps `hold`, if it saves more than the one to begin with, whose answer to the needs of the
/// trip it keeps, after weighing so many repairs. The same input gives the same kit.
pub(super) fn by_repairs(
    instance: &Instance,
    risk_model: &RiskModel,
    most: &[u32],
    start: &[u32],
    hold: &dyn Fn(&[u32]) -> bool,
    work: usize,
) -> Option<Vec<u32>> {
    let bundles = bundles(instance, risk_model, most);
    let floor = instance.items.iter().zip(start);
    let floor = floor.map(|(item, n)| if item.meets.is_empty() { item.at_least } else { *n }).collect();
    let mut pool = Pool::new(instance, risk_model, &bundles, floor);
    let mut best =
        Best { instance, risk_model, hold, saved: value_in_model(instance, risk_model, start).objective(), kit: None };
    let mut search = Search::new(bundles.len());
    let mut top = (pool.saved(), pool.all());
    // Reckoned exactly once it cannot be added to any more.
    let mut found: Option<Vec<u32>> = None;
    let mut idle = 0;
    while search.weighed < work {
        if !search.step(&mut pool, top.0) || idle > PATIENCE {
            search.go_on_from(&mut pool, &top.1);
            idle = 0;
        }
        idle += 1;
        if pool.saved() > top.0 + 1e-12 * top.0.abs() {
            top = (pool.saved(), pool.all());
            found = Some(pool.kit());
            idle = 0;
        } else if let Some(kit) = found.take() {
            best.offer(kit);
        }
    }
    found.into_iter().for_each(|kit| best.offer(kit));
    best.kit
}

/// How many repairs to weigh where there is little else to go by.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; `as` saturates")]
pub(super) fn long(instance: &Instance, limit: Option<Duration>) -> usize {
    let repairs = instance.failures.iter().map(|failure| failure.repairs.len()).sum::<usize>();
    let in_time = limit.map_or(LONG, |limit| (limit.as_secs_f64() * PER_SECOND) as usize);
    repairs.saturating_mul(repairs).saturating_mul(PER_EXCHANGE).min(in_time).clamp(SHORT, LONG)
}

/// The best kit by exact reckoning.
struct Best<'a> {
    instance: &'a Instance,
    risk_model: &'a RiskModel,
    hold: &'a dyn Fn(&[u32]) -> bool,
    saved: f64,
    kit: Option<Vec<u32>>,
}

impl Best<'_> {
    fn offer(&mut self, kit: Vec<u32>) {
        let saved = value_in_model(self.instance, self.risk_model, &kit).objective();
        if saved > self.saved && (self.hold)(&kit) {
            (self.saved, self.kit) = (saved, Some(kit));
        }
    }
}

/// What is forbidden for a while, and the lots.
struct Search {
    /// For each repair, the move from which it may change again.
    free: Vec<usize>,
    moves: usize,
    weighed: usize,
    lots: Xoshiro256PlusPlus,
}

/// A repair to drop, one to add, and what that brings.
type Move = (Option<usize>, usize, f64);

impl Search {
    fn new(repairs: usize) -> Self {
        Self { free: vec![0; repairs], moves: 0, weighed: 0, lots: Xoshiro256PlusPlus::seed_from_u64(1) }
    }

    /// Makes the best move: one repair more if that saves anything, else one for another, else one more all the same: tools
    /// that two repairs share may be worth carrying for neither alone. Is there any?
    fn step(&mut self, pool: &mut Pool<'_>, top: f64) -> bool {
        self.moves += 1;
        let more = self.best_addition(pool, top, None).filter(|(_, _, gain)| *gain > 0.0);
        let other = more.or_else(|| self.best_exchange(pool, top)).or_else(|| self.best_addition(pool, top, None));
        let Some((less, more, _)) = other else { return false };
        if let Some(less) = less {
            pool.drop(less);
            self.free[less] = self.moves + self.lots.random_range(AWAY);
        }
        pool.add(more);
        self.free[more] = self.moves + self.lots.random_range(STAYS);
        true
    }

    fn best_addition(&mut self, pool: &Pool<'_>, top: f64, less: Option<(usize, f64)>) -> Option<Move> {
        let before = less.map_or(0.0, |(_, loss)| loss);
        let mut best: Option<Move> = None;
        for more in 0..self.free.len() {
            if pool.has(more) || less.is_some_and(|(less, _)| less == more) {
                continue;
            }
            self.weighed += 1;
            let Some(gain) = pool.gain(more) else { continue };
            // What leads beyond the best so far is never forbidden.
            let allowed = self.free[more] <= self.moves || pool.saved() + gain > top;
            if allowed && best.is_none_or(|(.., other)| gain - before > other) {
                best = Some((less.map(|(less, _)| less), more, gain - before));
            }
        }
        best
    }

    fn best_exchange(&mut self, pool: &mut Pool<'_>, top: f64) -> Option<Move> {
        let mut best: Option<Move> = None;
        for less in pool.all() {
            if self.free[less] > self.moves {
                continue;
            }
            let with = pool.saved();
            pool.drop(less);
            let found = self.best_addition(pool, top, Some((less, with - pool.saved())));
            pool.add(less);
            if let Some(found) = found
                && best.is_none_or(|(.., other)| found.2 > other)
            {
                best = Some(found);
            }
        }
        best
    }

    /// The best choice so far, less a part of it by lot.
    fn go_on_from(&mut self, pool: &mut Pool<'_>, best: &[usize]) {
        pool.all().into_iter().for_each(|repair| pool.drop(repair));
        self.free.fill(0);
        let dropped = self.lots.random_range(1..=DROPPED);
        for repair in best {
            self.weighed += 1;
            if self.lots.random_ratio(1, dropped) {
                self.free[*repair] = self.moves + self.lots.random_range(AWAY);
            } else {
                pool.add(*repair);
            }
        }
        self.weighed += 1;
    }
}
