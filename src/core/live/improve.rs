//! A good kit at once, then better ones, then the proof.

use super::{Live, Standing, fault};
use crate::answer::PackError;
use crate::answer::solve::{Solved, solve_heard};
use crate::{select, stow};
use fardel_milp::control::{self, Cancel};
use fardel_milp::{EngineError, SolveOptions};
use std::cell::RefCell;
use std::ops::ControlFlow;
use std::time::Duration;

/// How long and how far to improve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// Stop after this long; `None`: go on until it is proven.
    pub time: Option<Duration>,
    /// Near enough, as a share of what the kit is worth; 0: proven.
    pub gap: f64,
}

impl Default for Budget {
    /// Until it is proven.
    fn default() -> Self {
        Self { time: None, gap: 0.0 }
    }
}

/// Whoever hears of better kits; breaking off stops the work as cancelling does.
pub type Hear<'a> = &'a mut dyn FnMut(&Standing) -> ControlFlow<()>;

/// Hours by which a kit that was known has to be better than what a search comes to: more than rounding.
const NEARLY: f64 = 1e-6;
/// Kits that do not go into the bags, one after another, before the quick way is given up.
const MOST_CUTS: usize = 6;

impl Live {
    /// A good kit without a solver; the one in hand where it is better. `None`: none was found, which proves nothing.
    pub fn first(&mut self) -> Option<&Standing> {
        for counts in self.known.past.clone() {
            if let Some(standing) = self.placed(&counts) {
                self.offer(standing);
            }
        }
        for _ in 0..MOST_CUTS {
            let near = self.known.past.first().map(Vec::as_slice);
            let found = select::first(&self.instance, &self.risk_model, &self.known.cuts, near);
            let Some(choice) = found else { break };
            if let Some(standing) = self.placed(&choice.counts) {
                self.offer(standing);
                break;
            }
            match stow::stow(&self.instance, &choice.counts, &self.options) {
                Ok(placement) => {
                    if let Ok(standing) = self.stood(&choice.counts, placement) {
                        self.offer(standing);
                    }
                    break;
                }
                Err(EngineError::Infeasible) => {
                    let cut = stow::smallest_no_good(&self.instance, &choice.counts, &self.options);
                    let Some(cut) = cut else { break };
                    self.known.cuts.push(cut);
                }
                Err(_) => break,
            }
        }
        self.standing()
    }

    /// The kit in hand, or a first one where there is none yet. `None`: none was found, which proves nothing.
    pub fn at_hand(&mut self) -> Option<&Standing> {
        if self.known.in_hand.is_none() {
            self.first();
        }
        self.standing()
    }

    /// Takes a kit in hand if it is better than the one there. Was it?
    pub(super) fn offer(&mut self, standing: Standing) -> bool {
        let better = is_better(&standing, self.known.in_hand.as_ref());
        if better {
            self.known.in_hand = Some(standing);
        }
        better
    }

    /// Looks for better kits until the best is proven, the budget is spent or nobody waits any more. `hear` is told of every
    /// better kit, and of the last one. What it comes to is what `pack` comes to with as much time.
    ///
    /// # Errors
    /// [`PackError`]: `Infeasible` (with shortfalls; ways out are for [`Self::packed`]), `OutOfTime` where no kit was found in time
    /// or before it was cancelled, or a solver that failed; a kit in hand stays.
    pub fn improve(&mut self, budget: Budget, cancel: &Cancel, hear: Hear<'_>) -> Result<&Standing, PackError> {
        let stop = Cancel::new();
        let done = control::under(cancel, || control::under(&stop, || self.improved(budget, &stop, hear)));
        match done {
            Ok(()) | Err(PackError::OutOfTime) => self.known.in_hand.as_ref().ok_or(PackError::OutOfTime),
            Err(error) => Err(error),
        }
    }

    fn improved(&mut self, budget: Budget, stop: &Cancel, hear: Hear<'_>) -> Result<(), PackError> {
        if self.known.in_hand.as_ref().is_some_and(|standing| standing.proven) {
            self.tell(stop, hear);
            return Ok(());
        }
        let options = SolveOptions { time_limit: budget.time, gap: budget.gap, ..self.options };
        let found: RefCell<(Option<Standing>, Hear<'_>)> = RefCell::new((self.known.in_hand.take(), hear));
        let heard = |counts: &[u32]| {
            let (best, hear) = &mut *found.borrow_mut();
            let standing = self.placed(counts);
            if let Some(standing) = standing.filter(|own| is_better(own, best.as_ref())) {
                if hear(&standing).is_break() {
                    stop.cancel();
                }
                *best = Some(standing);
            }
        };
        let solved = solve_heard(&self.instance, &self.risk_model, &heard, &options);
        let (best, hear) = found.into_inner();
        self.known.in_hand = best;
        match solved {
            Ok(solved) => self.settle(solved)?,
            // A kit in hand keeps all limits: whoever says that none does is wrong.
            Err(EngineError::Infeasible) if self.known.in_hand.is_some() => {
                return Err(fault("it says that no choice satisfies all limits, where one is in hand".to_owned()));
            }
            Err(error) => return Err(self.explain(error)),
        }
        self.tell(stop, hear);
        Ok(())
    }

    fn tell(&self, stop: &Cancel, hear: Hear<'_>) {
        if let Some(standing) = &self.known.in_hand
            && hear(standing).is_break()
        {
            stop.cancel();
        }
    }

    /// Takes in what was solved. A kit that was known and is better stands, with the bound; it is no longer told as proven.
    fn settle(&mut self, solved: Solved) -> Result<(), PackError> {
        let choice = &solved.choice;
        let standing = self.stood(&choice.counts, solved.placement.clone());
        let mut standing = standing.map_err(|violations| {
            let dump = format!("kit {:?}\nplacement {:?}", choice.counts, solved.placement);
            PackError::Unverified { violations, dump }
        })?;
        let known = self.known.in_hand.take().filter(|known| known.objective() > standing.objective() + NEARLY);
        standing.proven = solved.is_proven(&self.instance, &self.risk_model);
        let bound = choice.bound;
        standing.solved = Some(solved);
        // Beyond what was proven by the stakes of another kit, or better than what there was time for.
        let mut standing = known.unwrap_or(standing);
        let bound = bound.max(standing.objective());
        standing.bound = Some(bound);
        self.known.bound = Some(bound);
        self.known.in_hand = Some(standing);
        Ok(())
    }

    fn explain(&self, error: EngineError) -> PackError {
        crate::answer::explain(&self.instance, &self.options, error, |_| Vec::new())
    }
}

fn is_better(standing: &Standing, known: Option<&Standing>) -> bool {
    known.is_none_or(|known| standing.objective() > known.objective())
}
