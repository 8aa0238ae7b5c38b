//! Select, stow, and back: until the chosen kit can be stowed, or the joint model has to decide.

use super::joint;
use crate::engine::{Effort, EngineError, Stop};
use crate::resolve::Case;
use crate::risk::Stakes;
use crate::select::{self, Choice, Cut};
use crate::stow::{self, Placement};
use std::time::Instant;

/// After this many kits that could not be stowed, the joint model decides.
const MOST_ROUNDS: usize = 8;

/// A kit that is stowed, and how it was found.
#[derive(Debug, Clone)]
pub struct Solved {
    /// The kit.
    pub choice: Choice,
    /// Where it goes.
    pub placement: Placement,
    /// Kits that were chosen but could not be stowed.
    pub rounds: usize,
    /// Did the joint model decide?
    pub joint: bool,
}

/// Finds the best kit that can be stowed.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or a solver that failed.
pub fn solve(case: &Case, stakes: &Stakes, effort: &Effort) -> Result<Solved, EngineError> {
    let started = Instant::now();
    let mut cuts: Vec<Cut> = Vec::new();
    while cuts.len() < MOST_ROUNDS {
        let left = remaining(effort, started)?;
        let choice = select::select(case, stakes, &cuts, &left)?;
        match stow::stow(case, &choice.counts, &untimed(effort)) {
            Ok(placement) => return Ok(Solved { choice, placement, rounds: cuts.len(), joint: false }),
            Err(EngineError::Infeasible) => match stow::smallest_misfit(case, &choice.counts, &untimed(effort)) {
                Some(cut) => cuts.push(cut),
                None => break,
            },
            Err(_) => break,
        }
    }
    let (choice, placement) = joint::solve(case, stakes, &remaining(effort, started)?)?;
    Ok(Solved { choice, placement, rounds: cuts.len(), joint: true })
}

/// Stowing decides whether an answer stands at all, so the rider's time limit does not apply to it.
const fn untimed(effort: &Effort) -> Effort {
    Effort { engine: effort.engine, time_limit: None, gap: effort.gap }
}

/// The effort with the time that is left.
fn remaining(effort: &Effort, started: Instant) -> Result<Effort, EngineError> {
    let Some(limit) = effort.time_limit else { return Ok(*effort) };
    let left = limit.checked_sub(started.elapsed()).ok_or(EngineError::NoAnswerInTime)?;
    Ok(Effort { time_limit: Some(left), ..*effort })
}

impl Solved {
    /// Relative distance between the kit and the best bound; 0 when proven.
    #[must_use]
    pub fn gap(&self) -> f64 {
        if self.choice.stop == Stop::Proven {
            return 0.0;
        }
        (self.choice.bound - self.choice.objective).max(0.0) / self.choice.objective.abs().max(1e-9)
    }
}
