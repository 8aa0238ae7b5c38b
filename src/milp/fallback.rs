//! One way to solve a model after another, until one gives an answer that the model bears out. Which ways failed is told
//! with the answer.

use crate::checked::{checked, empty};
use crate::deadline::Deadline;
use crate::scale::at_size;
use crate::{Answer, Column, CustomSolver, Engine, EngineError, Model, Row, SolveOptions, search};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

/// An engine that is still silent after twice its time limit and this long has lost its way.
const SILENCE: Duration = Duration::from_secs(5);
/// Longest that a second opinion on "no choice satisfies all limits" may take.
const SECOND_OPINION: Duration = Duration::from_secs(5);

/// What a caller may know about an answer that the model alone does not show: `Some` says what is wrong with it.
pub type Doubt<'a> = &'a mut dyn FnMut(&Answer) -> Option<String>;
/// A better point than the one given, of which only the whole columns count. Asked where the relaxation tells little.
pub type Better<'a> = &'a dyn Fn(&[f64]) -> Option<Vec<f64>>;

/// What a caller knows of a model beyond its rows.
#[derive(Clone, Copy)]
pub struct Guide<'a> {
    /// A feasible point to begin with, of which only the whole columns count.
    pub start: Option<&'a [f64]>,
    /// Betters a point.
    pub better: Better<'a>,
}

impl Guide<'_> {
    /// Nothing is known.
    pub const NONE: Guide<'static> = Guide { start: None, better: &|_| None };
}

/// Solves a model.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or all ways failed (a panic inside a solver, or an answer
/// that does not satisfy the model, counts as failure and never gets out).
pub fn solve(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
    attempt(model, options, Guide::NONE, &mut |_| None, false)
}

/// As [`solve`], where an answer that the caller doubts counts as a failure, and infeasibility is believed only if another
/// way finds no answer either.
///
/// # Errors
/// As [`solve`].
pub fn solve_doubting(model: &Model, options: &SolveOptions, doubt: Doubt<'_>) -> Result<Answer, EngineError> {
    solve_knowing(model, options, Guide::NONE, doubt)
}

/// As [`solve_doubting`], for a caller who also knows a point to begin with, or how to better an answer that is far from its
/// bound.
///
/// # Errors
/// As [`solve`].
pub fn solve_knowing(
    model: &Model,
    options: &SolveOptions,
    guide: Guide<'_>,
    doubt: Doubt<'_>,
) -> Result<Answer, EngineError> {
    attempt(model, options, guide, doubt, true)
}

/// A way to solve a model.
#[derive(Debug, Clone, Copy)]
enum Method {
    /// The pure-Rust engine with presolve, cuts and an early kit.
    Prepared,
    /// The same with columns and rows in the opposite order: other pivots, other rounding.
    Backwards,
    #[cfg(feature = "highs")]
    Highs,
    Custom(CustomSolver),
}

impl Method {
    /// The ways for an engine, the one asked for first.
    fn all(engine: Engine) -> Vec<Self> {
        match engine {
            #[cfg(not(feature = "highs"))]
            Engine::Microlp => vec![Self::Prepared, Self::Backwards],
            #[cfg(feature = "highs")]
            Engine::Microlp => vec![Self::Prepared, Self::Backwards, Self::Highs],
            #[cfg(feature = "highs")]
            Engine::Highs => vec![Self::Highs, Self::Prepared, Self::Backwards],
            Engine::Custom(custom) if custom.has_fallback => vec![Self::Custom(custom), Self::Prepared],
            Engine::Custom(custom) => vec![Self::Custom(custom)],
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Prepared => Engine::Microlp.word(),
            Self::Backwards => "microlp, the model told backwards",
            #[cfg(feature = "highs")]
            Self::Highs => Engine::Highs.word(),
            Self::Custom(custom) => custom.word,
        }
    }

    fn run(self, model: &Model, options: &SolveOptions, guide: Guide<'_>) -> Result<Answer, EngineError> {
        match self {
            Self::Prepared => at_size(model, |model| search::solve(model, options, guide)),
            Self::Backwards => {
                let mut answer = at_size(&backwards(model), |model| search::solve(model, options, Guide::NONE))?;
                answer.values.reverse();
                Ok(answer)
            }
            #[cfg(feature = "highs")]
            Self::Highs => at_size(model, |model| crate::highs::solve(model, options, guide.better)),
            Self::Custom(custom) => watched(custom, model, options),
        }
    }
}

fn attempt(
    model: &Model,
    options: &SolveOptions,
    guide: Guide<'_>,
    doubt: Doubt<'_>,
    surely: bool,
) -> Result<Answer, EngineError> {
    if model.columns.is_empty() {
        return empty(model);
    }
    let deadline = Deadline::new(options);
    let mut failed: Vec<String> = Vec::new();
    let mut infeasible = false;
    for method in Method::all(options.engine) {
        let Ok(mut left) = deadline.left() else { break };
        if infeasible {
            left.time_limit = Some(left.time_limit.map_or(SECOND_OPINION, |limit| limit.min(SECOND_OPINION)));
        }
        let result = checked(model, &left, || method.run(model, &left, guide).map(|answer| (answer, ())));
        let trouble = match result.map(|(answer, ())| (doubt(&answer), answer)) {
            Ok((None, answer)) => {
                if infeasible {
                    failed.push("there is a choice where it was said that there is none".to_owned());
                }
                return Ok(Answer { failed, ..answer });
            }
            Ok((Some(doubt), _)) => doubt,
            Err(EngineError::Fault(fault)) => fault,
            Err(EngineError::Infeasible) if surely && !infeasible => {
                infeasible = true;
                continue;
            }
            Err(EngineError::Infeasible) => return Err(EngineError::Infeasible),
            // Whoever is asked for a second opinion and does not come to one has not contradicted.
            Err(EngineError::NoAnswerInTime) if infeasible => return Err(EngineError::Infeasible),
            Err(EngineError::NoAnswerInTime) if failed.is_empty() => return Err(EngineError::NoAnswerInTime),
            Err(EngineError::NoAnswerInTime) => "it found nothing in time".to_owned(),
        };
        failed.push(format!("{}: {trouble}", method.word()));
    }
    match (infeasible, failed.is_empty()) {
        (true, _) => Err(EngineError::Infeasible),
        (false, true) => Err(EngineError::NoAnswerInTime),
        (false, false) => Err(EngineError::Fault(failed.join("; "))),
    }
}

/// Runs an engine that may never come back: after its time is up for good, it is left alone.
fn watched(custom: CustomSolver, model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
    let Some(limit) = options.time_limit else { return (custom.solve)(model, options) };
    let (tell, hear) = mpsc::channel();
    let (model, options) = (model.clone(), *options);
    thread::spawn(move || tell.send((custom.solve)(&model, &options)));
    match hear.recv_timeout(limit * 2 + SILENCE) {
        Ok(result) => result,
        Err(mpsc::RecvTimeoutError::Timeout) => Err(EngineError::NoAnswerInTime),
        Err(mpsc::RecvTimeoutError::Disconnected) => Err(EngineError::Fault("it panicked".to_owned())),
    }
}

/// The same model with columns and rows in the opposite order.
fn backwards(model: &Model) -> Model {
    let last = model.columns.len() - 1;
    let turned =
        |row: &Row| Row { terms: row.terms.iter().rev().map(|(c, a)| (last - c, *a)).collect(), ..row.clone() };
    let columns: Vec<Column> = model.columns.iter().rev().cloned().collect();
    Model { columns, rows: model.rows.iter().rev().map(turned).collect() }
}
