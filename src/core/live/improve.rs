//! A good kit at once, then better ones, then the proof.

use super::{Live, Standing};
use crate::answer::PackError;
use crate::answer::solve::{Solved, solve};
use crate::{select, stow};
use fardel_milp::control::{self, Cancel};
use fardel_milp::{EngineError, SolveOptions};
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

/// Kits that do not go into the bags, one after another, before the quick way is given up.
const MOST_CUTS: usize = 6;

impl Live {
    /// A good kit without a solver; the one in hand where it is better. `None`: none was found, which proves nothing.
    pub fn first(&mut self) -> Option<&Standing> {
        for _ in 0..MOST_CUTS {
            let found = select::first(&self.instance, &self.risk_model, &self.known.cuts, None);
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

    /// Takes a kit in hand if it is better than the one there. Was it?
    pub(super) fn offer(&mut self, standing: Standing) -> bool {
        let better = self.known.in_hand.as_ref().is_none_or(|known| standing.objective() > known.objective());
        if better {
            self.known.in_hand = Some(standing);
        }
        better
    }

    /// Looks for better kits until the best is proven, the budget is spent or nobody waits any more. `hear` is told of every
    /// better kit, and of the last one. What it comes to is what `pack` comes to with as much time.
    ///
    /// # Errors
    /// [`PackError`] where there is no kit to fall back on: `Infeasible` (with shortfalls; ways out are for `pack`), `OutOfTime`
    /// (also when cancelled), or a solver that failed.
    pub fn improve(&mut self, budget: Budget, cancel: &Cancel, hear: Hear<'_>) -> Result<&Standing, PackError> {
        let stop = Cancel::new();
        let done = control::under(cancel, || control::under(&stop, || self.improved(budget, &stop, hear)));
        match done {
            Ok(()) => {}
            Err(error) if self.known.in_hand.is_none() => return Err(error),
            Err(_) => {}
        }
        self.known.in_hand.as_ref().ok_or(PackError::OutOfTime)
    }

    fn improved(&mut self, budget: Budget, stop: &Cancel, hear: Hear<'_>) -> Result<(), PackError> {
        let options = SolveOptions { time_limit: budget.time, gap: budget.gap, ..self.options };
        if self.known.in_hand.is_none() {
            self.first();
            self.tell(stop, hear);
        }
        let solved = solve(&self.instance, &self.risk_model, &options).map_err(|error| self.explain(error))?;
        self.settle(&solved)?;
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

    /// Takes in what was solved.
    fn settle(&mut self, solved: &Solved) -> Result<(), PackError> {
        let choice = &solved.choice;
        let standing = self.stood(&choice.counts, solved.placement.clone());
        let mut standing = standing.map_err(|violations| {
            let dump = format!("kit {:?}\nplacement {:?}", choice.counts, solved.placement);
            PackError::Unverified { violations, dump }
        })?;
        let bound = choice.bound.max(standing.objective());
        standing.proven = solved.is_proven(&self.instance, &self.risk_model);
        standing.failed.clone_from(&choice.failed);
        standing.bound = Some(bound);
        self.known.bound = Some(bound);
        self.known.in_hand = Some(standing);
        Ok(())
    }

    fn explain(&self, error: EngineError) -> PackError {
        crate::answer::explain(&self.instance, &self.options, error, |_| Vec::new())
    }
}
