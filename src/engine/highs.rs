//! HiGHS, behind the cargo feature of that name.

use super::microlp::{constraints, error, variables};
use super::{Answer, Effort, EngineError, Model, Stop};
use good_lp::solvers::SolutionStatus;
use good_lp::solvers::highs::highs;
use good_lp::{Solution, SolverModel, WithTimeLimit};

#[allow(clippy::cast_possible_truncation, reason = "the library takes the gap as f32")]
pub(super) fn solve(model: &Model, effort: &Effort) -> Result<Answer, EngineError> {
    let (problem, handles, objective) = variables(model);
    let gap = effort.gap.max(0.0) as f32;
    let fault = |e: good_lp::solvers::MipGapError| EngineError::Fault(e.to_string());
    // One thread, and no gap but the one asked for: otherwise HiGHS keeps gaps of its own and engines cannot be compared.
    let mut solver = problem.maximise(objective).using(highs);
    for constraint in constraints(model, &handles) {
        solver.add_constraint(constraint);
    }
    let mut solver = solver
        .set_threads(1)
        .set_option("random_seed", 0)
        .set_mip_abs_gap(0.0)
        .and_then(|solver| solver.set_mip_rel_gap(gap))
        .map_err(fault)?;
    if let Some(limit) = effort.time_limit {
        solver = solver.with_time_limit(limit.as_secs_f64());
    }
    let solution = solver.solve().map_err(error)?;
    let stop = match solution.status() {
        SolutionStatus::TimeLimit => Stop::OutOfTime,
        SolutionStatus::GapLimit if effort.gap > 0.0 => Stop::WithinGap,
        // With a gap of 0 asked for, what HiGHS calls optimal is within its rounding.
        SolutionStatus::Optimal | SolutionStatus::GapLimit => Stop::Proven,
    };
    let values: Vec<f64> = handles.iter().map(|handle| solution.value(*handle)).collect();
    let objective = model.objective(&values);
    let bound = match stop {
        Stop::Proven => objective,
        // The library passes on no bound, so the linear relaxation gives one.
        _ => relaxed_bound(model, effort)?,
    };
    Ok(Answer { values, objective, bound, stop, failed: Vec::new() })
}

fn relaxed_bound(model: &Model, effort: &Effort) -> Result<f64, EngineError> {
    solve(&model.relaxed(), &Effort { time_limit: None, gap: 0.0, ..*effort }).map(|answer| answer.objective)
}
