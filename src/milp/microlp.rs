//! The pure-Rust engine.
//!
//! microlp updates its point from pivot to pivot and never computes it anew: after some thousand pivots on 2,000 items
//! the optimum of a relaxation lay 2e-5 off its rows. A linear program therefore gets one more integer column that
//! cannot be more than a half. To round it, the library factorises its basis afresh, computes the point from the rows
//! and checks it to 1e-7.

use crate::{Answer, Deadline, EngineError, Model, Sense, SolveOptions, Stop, control};
use good_lp::solvers::microlp::microlp;
use good_lp::{
    Expression, ProblemVariables, ResolutionError, Solution, SolverModel, Variable, WithInitialSolution, WithMipGap,
    WithTimeLimit, variable,
};
use microlp::{ComparisonOp, Error, OptimizationDirection, Problem, ResumeOptions, SolveOutcome, TerminationReason};

/// Nodes of the search between two looks whether it is to stop: some hundredths of a second. A number of nodes, so that what
/// is found does not hang on the clock.
const NODES_BETWEEN_LOOKS: u64 = 8;
/// Going on takes as long as there are open nodes, so a long search is looked at after this share of its nodes so far.
const LOOKS_PER_SEARCH: u64 = 8;
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
    if control::is_cancelled() {
        return Err(EngineError::NoAnswerInTime);
    }
    let options = &options.within_time_left();
    let linear = !model.columns.iter().any(|column| column.integer);
    if !linear && model.columns.iter().all(is_plain) {
        return solve_with_pauses(model, options, start);
    }
    let (mut problem, handles, mut objective) = variables(model);
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

/// Are the bounds of a whole column whole numbers that the library takes?
fn is_plain(column: &crate::Column) -> bool {
    let small = |bound: f64| bound.fract() == 0.0 && bound.abs() < f64::from(i32::MAX);
    !column.integer || (small(column.lower) && small(column.upper) && column.lower <= column.upper)
}

/// The search with looks whether it is to stop: `good_lp` has no way to pause. It is the same search whether anybody may stop
/// it or not, so that what it finds is the same too.
#[allow(clippy::cast_possible_truncation, reason = "a gap, as `good_lp` takes it")]
fn solve_with_pauses(model: &Model, options: &SolveOptions, start: Option<&[f64]>) -> Result<Answer, EngineError> {
    let (problem, handles) = paused(model);
    let deadline = Deadline::new(options);
    let gap = f64::from(options.gap.max(0.0) as f32);
    let mut first = microlp::SolveOptions::default();
    first.mip_gap = gap;
    first.time_limit = options.time_limit;
    first.node_limit = Some(NODES_BETWEEN_LOOKS);
    first.warm_start = start.map(|point| {
        let whole = model.columns.iter().zip(&handles).zip(point).filter(|((column, _), _)| column.integer);
        whole.map(|((_, handle), value)| (*handle, *value)).collect()
    });
    let mut outcome = problem.solve_with(first).map_err(|error| trouble(&error))?;
    let mut nodes = NODES_BETWEEN_LOOKS;
    while outcome.termination_reason() == TerminationReason::NodeLimit {
        let Ok(left) = deadline.left() else { break };
        let more = (nodes / LOOKS_PER_SEARCH).max(NODES_BETWEEN_LOOKS);
        nodes += more;
        let mut further = ResumeOptions::default();
        further.mip_gap = Some(gap);
        further.time_limit = left.time_limit;
        further.node_limit = Some(more);
        outcome = outcome.resume_with(further).map_err(|error| trouble(&error))?;
    }
    concluded(model, &handles, outcome)
}

/// What a search came to.
fn concluded(model: &Model, handles: &[microlp::Variable], outcome: SolveOutcome) -> Result<Answer, EngineError> {
    let stop = match outcome.termination_reason() {
        TerminationReason::ProvenOptimal => Stop::Proven,
        TerminationReason::MipGap => Stop::WithinGap,
        _ => Stop::OutOfTime,
    };
    let solution = outcome.into_solution().map_err(|_| EngineError::NoAnswerInTime)?;
    let values: Vec<f64> = handles.iter().map(|handle| solution.var_value(*handle)).collect();
    let objective = model.objective(&values);
    let bound = match stop {
        Stop::Proven => objective,
        _ => solution.stats().best_bound.unwrap_or(f64::INFINITY),
    };
    Ok(Answer { values, objective, bound, stop, failed: Vec::new() })
}

/// The model in the library's own form.
#[allow(clippy::cast_possible_truncation, reason = "looked at before")]
fn paused(model: &Model) -> (Problem, Vec<microlp::Variable>) {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let handles: Vec<microlp::Variable> = model
        .columns
        .iter()
        .map(|column| {
            if column.integer {
                problem.add_integer_var(column.gain, (column.lower as i32, column.upper as i32))
            } else {
                problem.add_var(column.gain, (column.lower, column.upper))
            }
        })
        .collect();
    for row in &model.rows {
        let terms: Vec<(microlp::Variable, f64)> =
            row.terms.iter().map(|(column, each)| (handles[*column], row.sign() * each)).collect();
        problem.add_constraint(terms.as_slice(), ComparisonOp::Le, row.sign() * row.bound);
    }
    (problem, handles)
}

fn trouble(error: &Error) -> EngineError {
    match error {
        Error::Infeasible => EngineError::Infeasible,
        other => EngineError::Fault(other.to_string()),
    }
}
