//! What a solver claims, held against the model: no point, objective or bound gets out that the model does not bear out.

use crate::timing;
use crate::{Answer, EngineError, Model, SolveOptions, Stop, microlp};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;
use web_time::Instant;

/// Largest violation of a row, relative to its largest coefficient, that an answer may show.
pub(super) const TOLERANCE: f64 = 1e-6;
/// A whole column further than this from a whole number is no answer; engines stop at 1e-6.
const WHOLE: f64 = 1e-5;
/// Largest difference, relative to its size, between the objective claimed and that of the point.
const SAME_OBJECTIVE: f64 = 1e-4;

/// Runs a solver: a panic inside it, or an answer that the model does not bear out, is a failure.
pub(super) fn checked<T>(
    model: &Model,
    options: &SolveOptions,
    run: impl FnOnce() -> Result<(Answer, T), EngineError>,
) -> Result<(Answer, T), EngineError> {
    let started = Instant::now();
    let raw = catch_unwind(AssertUnwindSafe(run)).unwrap_or_else(|_| Err(EngineError::Fault("it panicked".to_owned())));
    if model.columns.iter().any(|column| column.integer) {
        tell(model, options, raw.as_ref().map(|(answer, _)| answer), started.elapsed());
    }
    let (mut answer, more) = raw?;
    let claimed = (answer.objective, answer.bound);
    round(model, &mut answer.values)?;
    if let Some(broken) = model.first_violation(&answer.values, TOLERANCE) {
        let settled = settled(model, &answer.values, options);
        answer.values = settled.ok_or_else(|| EngineError::Fault(format!("its answer breaks {broken}")))?;
    }
    answer.objective = model.objective(&answer.values);
    keep_claims(&answer, claimed)?;
    answer.bound = answer.bound.max(answer.objective);
    Ok((answer, more))
}

/// Tells what was solved, how it ended, and how long it took.
fn tell(model: &Model, options: &SolveOptions, end: Result<&Answer, &EngineError>, took: Duration) {
    let how = match end {
        Ok(Answer { stop: Stop::Proven, .. }) => "proven best".to_owned(),
        Ok(Answer { stop: Stop::WithinGap, .. }) => "near enough to the best".to_owned(),
        Ok(Answer { stop: Stop::OutOfTime, .. }) => "out of time, with an answer".to_owned(),
        Err(error) => error.to_string(),
    };
    timing::add(took, || {
        let (columns, integer) = (model.columns.len(), model.columns.iter().filter(|column| column.integer).count());
        let (engine, rows) = (options.engine.word(), model.rows.len());
        format!("  {engine}: {columns} columns ({integer} whole), {rows} rows: {how}")
    });
}

/// Whole columns made exactly whole.
fn round(model: &Model, values: &mut [f64]) -> Result<(), EngineError> {
    if values.len() != model.columns.len() {
        return Err(EngineError::Fault("its answer has another number of columns".to_owned()));
    }
    for (value, column) in values.iter_mut().zip(&model.columns).filter(|(_, column)| column.integer) {
        if (*value - value.round()).abs() > WHOLE {
            return Err(EngineError::Fault(format!("its answer has {value} of {}", column.name)));
        }
        *value = value.round();
    }
    Ok(())
}

/// Objective and bound as claimed against the point: what is wrong there makes the proof worthless.
fn keep_claims(answer: &Answer, (objective, bound): (f64, f64)) -> Result<(), EngineError> {
    let slack = SAME_OBJECTIVE * answer.objective.abs().max(1.0);
    if objective.is_nan() || (objective - answer.objective).abs() > slack {
        return Err(EngineError::Fault(format!("it claims {objective} where its answer gives {}", answer.objective)));
    }
    if bound.is_nan() || bound < answer.objective - slack {
        return Err(EngineError::Fault(format!("its answer gives {}, beyond its bound {bound}", answer.objective)));
    }
    Ok(())
}

/// The best point with these whole columns, from a fresh start: after many pivots on a large model the other columns may
/// lie a little beside their rows.
fn settled(model: &Model, values: &[f64], options: &SolveOptions) -> Option<Vec<f64>> {
    let mut rest = model.relaxed();
    for ((column, own), value) in rest.columns.iter_mut().zip(&model.columns).zip(values) {
        if own.integer {
            (column.lower, column.upper) = (*value, *value);
        }
    }
    let again = microlp::solve(&rest, &SolveOptions { gap: 0.0, ..*options }, None).ok()?;
    model.first_violation(&again.values, TOLERANCE).is_none().then_some(again.values)
}

/// A model without columns is feasible when every right-hand side allows zero.
pub(super) fn empty(model: &Model) -> Result<Answer, EngineError> {
    match model.first_violation(&[], TOLERANCE) {
        Some(_) => Err(EngineError::Infeasible),
        None => Ok(Answer { values: Vec::new(), objective: 0.0, bound: 0.0, stop: Stop::Proven, failed: Vec::new() }),
    }
}
