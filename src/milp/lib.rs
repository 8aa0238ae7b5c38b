//! Mixed-integer linear programs: a [`Model`] of named columns and rows goes in, an [`Answer`] that was checked against it
//! comes out. The only crate that names a solver; it knows nothing of bikes.

mod aggregate;
mod checked;
mod cut_loop;
mod deadline;
pub mod exchange;
mod fallback;
#[cfg(feature = "highs")]
mod highs;
mod microlp;
mod mir_cuts;
mod parametric;
mod presolve;
pub mod progress;
mod rows;
mod scale;
mod search;
mod tableau;
mod text;
pub mod timing;

pub use deadline::Deadline;
pub use fallback::{Better, Doubt, solve, solve_doubting, solve_knowing};
pub use parametric::{Carried, Known, Series};
pub use rows::{Column, Model, Row, Sense};
pub use text::text;

use std::time::Duration;
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
    /// One that the caller of the library brings; the program itself has no way to ask for it.
    Custom(CustomSolver),
}

/// A solver brought by the caller of the library.
#[derive(Debug, Clone, Copy)]
pub struct CustomSolver {
    /// Its name in output.
    pub word: &'static str,
    /// From a model and an effort to an answer. Nothing of what it claims is taken on trust.
    pub solve: fn(&Model, &SolveOptions) -> Result<Answer, EngineError>,
    /// Are the engines built in tried where it fails?
    pub has_fallback: bool,
}

impl PartialEq for CustomSolver {
    fn eq(&self, other: &Self) -> bool {
        self.word == other.word
    }
}

impl Eq for CustomSolver {}

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
            Self::Custom(custom) => custom.word,
        }
    }
}

/// How hard to try.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SolveOptions {
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
    /// Ways to solve the model that failed before this answer was found, and how.
    pub failed: Vec<String>,
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
