//! The joint model: items and bags decided at once. Slower than select and stow; used when they do not agree within
//! their rounds, and in tests and benchmarks as the other way to the same optimum.

use crate::resolve::Instance;
use crate::risk::RiskModel;
use crate::select::{self, Choice};
use crate::stow::{self, Placement};
use fardel_milp::timing::timed;
use fardel_milp::{EngineError, SolveOptions};

/// The joint model of a case.
#[must_use]
pub fn model(instance: &Instance, risk_model: &RiskModel) -> (fardel_milp::Model, select::Columns, stow::Columns) {
    let (mut model, n) = select::model(instance, risk_model, &[]);
    let x = stow::add_joint(&mut model, instance, &n.n, &n.most);
    (model, n, x)
}

/// Solves it.
///
/// # Errors
/// [`EngineError`] of the engine.
pub fn solve(
    instance: &Instance,
    risk_model: &RiskModel,
    options: &SolveOptions,
) -> Result<(Choice, Placement), EngineError> {
    let mut placement = None;
    let mut choose = |risk_model: &RiskModel, left: &SolveOptions| {
        let (model, n, x) = model(instance, risk_model);
        let answer = timed("choose and stow at once", || fardel_milp::solve_doubting(&model, left, &mut |_| None))?;
        let choice = select::choice(&answer, n.counts(&answer), risk_model);
        placement = Some((choice.counts.clone(), x.placement(instance, &answer)));
        Ok(choice)
    };
    let choice = select::fixed_point::fixed_point(instance, risk_model, options, &mut choose, &|_| None)?;
    if let Some((_, placement)) = placement.filter(|(counts, _)| *counts == choice.counts) {
        return Ok((choice, placement));
    }
    // Kits chose each other in turn, and the best of them was not the last.
    let placement = stow::stow(instance, &choice.counts, options)?;
    Ok((choice, placement))
}
