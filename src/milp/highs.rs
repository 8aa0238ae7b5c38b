//! HiGHS, behind the cargo feature of that name.

use crate::deadline::Deadline;
use crate::microlp::{constraints, error, variables};
use crate::search::bettered;
use crate::{Answer, Better, EngineError, Model, SolveOptions, Stop};
use good_lp::solvers::SolutionStatus;
use good_lp::solvers::highs::highs;
use good_lp::{Solution, SolverModel, WithInitialSolution, WithTimeLimit};

/// Share of the time after which an answer that is still far from its bound is bettered by the caller, if he can.
const FIRST_SHARE: f64 = 0.25;

pub(super) fn solve(model: &Model, options: &SolveOptions, better: Better<'_>) -> Result<Answer, EngineError> {
    let deadline = Deadline::new(options);
    if options.time_limit.is_none() {
        return solve_from(model, None, options);
    }
    let first = solve_from(model, None, &deadline.share(FIRST_SHARE)?);
    match first {
        Ok(answer) if answer.stop != Stop::OutOfTime => Ok(answer),
        Ok(answer) => {
            let share = deadline.share(FIRST_SHARE).ok();
            let at_hand = share.and_then(|share| bettered(model, &answer, better, &share)).unwrap_or(answer);
            let last = deadline.left().and_then(|left| solve_from(model, Some(&at_hand.values), &left));
            Ok(last.ok().filter(|last| last.objective >= at_hand.objective).unwrap_or(at_hand))
        }
        Err(EngineError::NoAnswerInTime) => solve_from(model, None, &deadline.left()?),
        Err(error) => Err(error),
    }
}

#[allow(clippy::cast_possible_truncation, reason = "the library takes the gap as f32")]
fn solve_from(model: &Model, start: Option<&[f64]>, options: &SolveOptions) -> Result<Answer, EngineError> {
    let options = &options.within_time_left();
    let (problem, handles, objective) = variables(model);
    let gap = options.gap.max(0.0) as f32;
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
    if let Some(limit) = options.time_limit {
        solver = solver.with_time_limit(limit.as_secs_f64());
    }
    if let Some(start) = start {
        solver = solver.with_initial_solution(handles.iter().copied().zip(start.iter().copied()));
    }
    let solution = solver.solve().map_err(error)?;
    let stop = match solution.status() {
        SolutionStatus::TimeLimit => Stop::OutOfTime,
        SolutionStatus::GapLimit if options.gap > 0.0 => Stop::WithinGap,
        // With a gap of 0 asked for, what HiGHS calls optimal is within its rounding.
        SolutionStatus::Optimal | SolutionStatus::GapLimit => Stop::Proven,
    };
    let values: Vec<f64> = handles.iter().map(|handle| solution.value(*handle)).collect();
    let objective = model.objective(&values);
    let bound = match stop {
        Stop::Proven => objective,
        // The library passes on no bound, so the linear relaxation gives one.
        _ => relaxed_bound(model, options)?,
    };
    Ok(Answer { values, objective, bound, stop, failed: Vec::new() })
}

fn relaxed_bound(model: &Model, options: &SolveOptions) -> Result<f64, EngineError> {
    solve_from(&model.relaxed(), None, &SolveOptions { time_limit: None, gap: 0.0, ..*options })
        .map(|answer| answer.objective)
}
