//! The pure-Rust engine.
//!
//! microlp updates its point from pivot to pivot and never computes it anew: after some thousand pivots on 2,000 items
//! the optimum of a relaxation lay 2e-5 off its rows. A linear program therefore gets one more integer column that
//! cannot be more than a half. To round it, the library factorises its basis afresh, computes the point from the rows
//! and checks it to 1e-7.

use crate::{Answer, EngineError, Model, Sense, SolveOptions, Stop};
use good_lp::solvers::microlp::microlp;
use good_lp::{
    Expression, ProblemVariables, ResolutionError, Solution, SolverModel, Variable, WithInitialSolution, WithMipGap,
    WithTimeLimit, variable,
};

/// What the column that makes the library reckon anew is worth.
const HALFWAY_GAIN: f64 = 1e-6;

/// The columns as variables of the library, and the objective over them.
pub(super) fn variables(model: &Model) -> (ProblemVariables, Vec<Variable>, Expression) {
    let mut problem = ProblemVariables::new();
    let handles: Vec<Variable> = model
        .columns
        .iter()
        .map(|column| {
            let definition = variable().min(column.lower).max(column.upper);
            problem.add(if column.integer { definition.integer() } else { definition })
        })
        .collect();
    let mut objective = Expression::with_capacity(handles.len());
    for (column, handle) in model.columns.iter().zip(&handles) {
        if column.gain != 0.0 {
            objective.add_mul(column.gain, *handle);
        }
    }
    (problem, handles, objective)
}

/// The rows as constraints of the library.
pub(super) fn constraints<'a>(
    model: &'a Model,
    handles: &'a [Variable],
) -> impl Iterator<Item = good_lp::Constraint> + 'a {
    model.rows.iter().map(|row| {
        let mut sum = Expression::with_capacity(row.terms.len());
        for (column, coefficient) in &row.terms {
            sum.add_mul(*coefficient, handles[*column]);
        }
        match row.sense {
            Sense::AtMost => sum.leq(row.bound),
            Sense::AtLeast => sum.geq(row.bound),
        }
    })
}

pub(super) fn error(error: ResolutionError) -> EngineError {
    match error {
        ResolutionError::Infeasible => EngineError::Infeasible,
        // Running out of time without an answer arrives as `Other`, not as `Infeasible`.
        ResolutionError::Other(_) => EngineError::NoAnswerInTime,
        other => EngineError::Fault(other.to_string()),
    }
}

/// A whole column that is worth a hair and cannot be more than a half: only a linear program gets one. The library
/// updates its point from pivot to pivot and never reckons it anew, so after thousands of pivots it lies beside its
/// rows. To round this column it has to: the optimum is reckoned from the rows again and checked against them.
fn add_halfway(problem: &mut ProblemVariables, objective: &mut Expression) -> Variable {
    let halfway = problem.add(variable().min(0.0).max(1.0).integer());
    objective.add_mul(HALFWAY_GAIN, halfway);
    halfway
}

/// Solves a model; `start`, where given, is a point whose whole columns are tried as a first answer.
#[allow(clippy::cast_possible_truncation, reason = "the library takes the gap as f32")]
pub(super) fn solve(model: &Model, options: &SolveOptions, start: Option<&[f64]>) -> Result<Answer, EngineError> {
    let (mut problem, handles, mut objective) = variables(model);
    let linear = !model.columns.iter().any(|column| column.integer);
    let halfway = linear.then(|| add_halfway(&mut problem, &mut objective));
    let mut solver = problem.maximise(objective).using(microlp);
    for constraint in constraints(model, &handles) {
        solver.add_constraint(constraint);
    }
    if let Some(halfway) = halfway {
        solver.add_constraint(Expression::from(halfway).leq(0.5));
    }
    let mut solver = solver.with_mip_gap(options.gap.max(0.0) as f32).map_err(|e| EngineError::Fault(e.to_string()))?;
    if let Some(limit) = options.time_limit {
        solver = solver.with_time_limit(limit.as_secs_f64());
    }
    if let Some(start) = start {
        let integer = model.columns.iter().zip(&handles).zip(start).filter(|((column, _), _)| column.integer);
        solver = solver.with_initial_solution(integer.map(|((_, handle), value)| (*handle, *value)));
    }
    let solution = solver.solve().map_err(error)?;
    let stop = match solution.status() {
        good_lp::solvers::SolutionStatus::Optimal => Stop::Proven,
        good_lp::solvers::SolutionStatus::GapLimit => Stop::WithinGap,
        good_lp::solvers::SolutionStatus::TimeLimit => Stop::OutOfTime,
    };
    let values: Vec<f64> = handles.iter().map(|handle| solution.value(*handle)).collect();
    let objective = model.objective(&values);
    let inner = solution.into_inner();
    // A pure linear program reports no bound; its optimum is one.
    let bound = match stop {
        Stop::Proven => objective,
        _ => inner.stats().best_bound.unwrap_or(f64::INFINITY),
    };
    Ok(Answer { values, objective, bound, stop, failed: Vec::new() })
}
