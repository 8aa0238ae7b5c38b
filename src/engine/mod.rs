//! The only folder that names the solver. A [`Model`] of named columns and rows goes in, an [`Answer`] comes out.

pub mod exchange;
#[cfg(feature = "highs")]
mod highs;
mod microlp;
mod presolve;
mod rounding;
mod rows;
mod search;
mod series;
mod substitute;
mod tableau;
mod text;
mod tighten;

pub use rows::{Column, Model, Row, Sense};
pub use series::{Carried, Known, Series};
pub use text::text;

use crate::timing;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};
use thiserror::Error;

/// Which solver.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Engine {
    /// Pure Rust, always there.
    #[default]
    Microlp,
    /// C++, behind the cargo feature `highs`.
    #[cfg(feature = "highs")]
    Highs,
}

impl Engine {
    /// The engines built into this program.
    pub const ALL: &'static [Self] = &[
        Self::Microlp,
        #[cfg(feature = "highs")]
        Self::Highs,
    ];

    /// The name used on the command line and in output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Microlp => "microlp",
            #[cfg(feature = "highs")]
            Self::Highs => "highs",
        }
    }
}

/// How hard to try.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Effort {
    /// Which solver.
    pub engine: Engine,
    /// Stop after this long with the best answer so far; `None`: until proven.
    pub time_limit: Option<Duration>,
    /// Stop when the answer is within this share of the bound; 0: proven optimal.
    pub gap: f64,
}

/// Why the solver stopped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stop {
    /// Proven optimal.
    Proven,
    /// Within the gap that was asked for.
    WithinGap,
    /// Out of time with a feasible answer.
    OutOfTime,
}

/// A feasible point and how good it is.
#[derive(Debug, Clone)]
pub struct Answer {
    /// A value for each column; whole where the column is whole.
    pub values: Vec<f64>,
    /// Objective at that point, recomputed from the model.
    pub objective: f64,
    /// No feasible point is better than this.
    pub bound: f64,
    /// Why the solver stopped.
    pub stop: Stop,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum EngineError {
    /// No point satisfies all rows.
    #[error("no choice satisfies all limits")]
    Infeasible,
    /// Out of time before any feasible point was found.
    #[error("time ran out before any answer was found")]
    NoAnswerInTime,
    /// The solver failed.
    #[error("the solver failed: {0}")]
    Fault(String),
}

/// Largest violation of a row or of integrality, in the row's own units, that an answer may show.
const TOLERANCE: f64 = 1e-6;

/// Solves a model.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or a solver that failed (a panic inside it, or an
/// answer that does not satisfy the model, counts as failure and never gets out).
pub fn solve(model: &Model, effort: &Effort) -> Result<Answer, EngineError> {
    if model.columns.is_empty() {
        return empty(model);
    }
    let run = || match effort.engine {
        Engine::Microlp if model.columns.iter().any(|column| column.whole) => search::solve(model, effort),
        Engine::Microlp => microlp::solve(model, effort, None),
        #[cfg(feature = "highs")]
        Engine::Highs => highs::solve(model, effort),
    };
    checked(model, effort, || run().map(|answer| (answer, ()))).map(|(answer, ())| answer)
}

/// Runs a solver: a panic inside it, or an answer that does not satisfy the model, is a failure and never gets out.
fn checked<T>(
    model: &Model,
    effort: &Effort,
    run: impl FnOnce() -> Result<(Answer, T), EngineError>,
) -> Result<(Answer, T), EngineError> {
    let started = Instant::now();
    let raw = catch_unwind(AssertUnwindSafe(run)).unwrap_or_else(|_| Err(EngineError::Fault("it panicked".to_owned())));
    if model.columns.iter().any(|column| column.whole) {
        tell(model, effort, raw.as_ref().map(|(answer, _)| answer), started.elapsed());
    }
    let (mut answer, more) = raw?;
    for (value, column) in answer.values.iter_mut().zip(&model.columns) {
        if column.whole {
            *value = value.round();
        }
    }
    if let Some(broken) = model.first_violation(&answer.values, TOLERANCE) {
        let settled = settled(model, &answer.values, effort);
        answer.values = settled.ok_or_else(|| EngineError::Fault(format!("its answer breaks {broken}")))?;
    }
    answer.objective = model.objective(&answer.values);
    answer.bound = answer.bound.max(answer.objective);
    Ok((answer, more))
}

/// Tells what was solved, how it ended, and how long it took.
fn tell(model: &Model, effort: &Effort, end: Result<&Answer, &EngineError>, took: Duration) {
    let how = match end {
        Ok(Answer { stop: Stop::Proven, .. }) => "proven best".to_owned(),
        Ok(Answer { stop: Stop::WithinGap, .. }) => "near enough to the best".to_owned(),
        Ok(Answer { stop: Stop::OutOfTime, .. }) => "out of time, with an answer".to_owned(),
        Err(error) => error.to_string(),
    };
    timing::note(took, || {
        let (columns, whole) = (model.columns.len(), model.columns.iter().filter(|column| column.whole).count());
        let (engine, rows) = (effort.engine.word(), model.rows.len());
        format!("  {engine}: {columns} columns ({whole} whole), {rows} rows: {how}")
    });
}

/// The best point with these whole columns, from a fresh start: after many pivots on a large model the other columns may
/// lie a little beside their rows.
fn settled(model: &Model, values: &[f64], effort: &Effort) -> Option<Vec<f64>> {
    let mut rest = model.relaxed();
    for ((column, own), value) in rest.columns.iter_mut().zip(&model.columns).zip(values) {
        if own.whole {
            (column.lower, column.upper) = (*value, *value);
        }
    }
    let again = microlp::solve(&rest, &Effort { gap: 0.0, ..*effort }, None).ok()?;
    model.first_violation(&again.values, TOLERANCE).is_none().then_some(again.values)
}

/// A model without columns is feasible when every right-hand side allows zero.
fn empty(model: &Model) -> Result<Answer, EngineError> {
    match model.first_violation(&[], TOLERANCE) {
        Some(_) => Err(EngineError::Infeasible),
        None => Ok(Answer { values: Vec::new(), objective: 0.0, bound: 0.0, stop: Stop::Proven }),
    }
}
