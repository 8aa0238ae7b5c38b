//! The joint model: items and bags decided at once. Slower than select and stow; used when they do not agree within
//! their rounds, and in tests and benchmarks as the other way to the same optimum.

use crate::resolve::Case;
use crate::risk::Stakes;
use crate::select::{self, Choice};
use crate::stow::{self, Placement};
use fardel_milp::timing::timed;
use fardel_milp::{Effort, EngineError};

/// The joint model of a case.
#[must_use]
pub fn model(case: &Case, stakes: &Stakes) -> (fardel_milp::Model, select::Columns, stow::Columns) {
    let (mut model, n) = select::model(case, stakes, &[]);
    let x = stow::add_joint(&mut model, case, &n.n, &n.most);
    (model, n, x)
}

/// Solves it.
///
/// # Errors
/// [`EngineError`] of the engine.
pub fn solve(case: &Case, stakes: &Stakes, effort: &Effort) -> Result<(Choice, Placement), EngineError> {
    let mut placement = None;
    let mut choose = |stakes: &Stakes, left: &Effort| {
        let (model, n, x) = model(case, stakes);
        let answer = timed("choose and stow at once", || fardel_milp::solve_doubting(&model, left, &mut |_| None))?;
        let choice = select::choice(&answer, n.counts(&answer), stakes);
        placement = Some((choice.counts.clone(), x.placement(case, &answer)));
        Ok(choice)
    };
    let choice = select::settled::settled(case, stakes, effort, &mut choose, &|_| None)?;
    if let Some((_, placement)) = placement.filter(|(counts, _)| *counts == choice.counts) {
        return Ok((choice, placement));
    }
    // Kits chose each other in turn, and the best of them was not the last.
    let placement = stow::stow(case, &choice.counts, effort)?;
    Ok((choice, placement))
}
