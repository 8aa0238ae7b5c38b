//! The joint model: items and bags decided at once. Slower than select and stow; used when they do not agree within
//! their rounds, and in tests and benchmarks as the other way to the same optimum.

use crate::engine::{self, Effort, EngineError};
use crate::resolve::Case;
use crate::risk::Stakes;
use crate::select::{self, Choice};
use crate::stow::{self, Placement};
use crate::timing::timed;

/// The joint model of a case.
#[must_use]
pub fn model(case: &Case, stakes: &Stakes) -> (engine::Model, select::Columns, stow::Columns) {
    let (mut model, n) = select::model(case, stakes, &[]);
    let x = stow::add_joint(&mut model, case, &n.n, &n.most);
    (model, n, x)
}

/// Solves it.
///
/// # Errors
/// [`EngineError`] of the engine.
pub fn solve(case: &Case, stakes: &Stakes, effort: &Effort) -> Result<(Choice, Placement), EngineError> {
    let (model, n, x) = model(case, stakes);
    let answer = timed("choose and stow at once", || engine::solve_doubting(&model, effort, &mut |_| None))?;
    let counts = n.counts(&answer);
    Ok((select::choice(&answer, counts, stakes), x.placement(case, &answer)))
}
