//! Mixed-integer linear programs: a [`Model`] of named columns and rows goes in, an [`Answer`] that was checked against it
//! comes out. The only crate that names a solver; it knows nothing of bikes.
//!
//! # How an answer is trusted
//!
//! Every answer is checked against its rows before anything sees it (`checked`), and so are the objective and the bound
//! that come with it: a solver that panics, breaks a row, leaves an integer column fractional or reckons wrongly has
//! failed. Then the next way is tried (`fallback`): the pure-Rust engine on the model with its columns reversed, and
//! the other engine where it is built in. Choosing a kit goes further ([`solve_knowing`]): a kit one step away, or
//! found by whole repairs, that is beyond the bound shows that the bound is wrong, and infeasibility is believed only
//! if two ways agree. (HiGHS 1.16 with presolve calls the empty kit best in one random world of some thousand, on
//! account of rungs worth 1e-5 and less.) Where stowing fails, or an answer does not pass `verify`, the joint model is
//! tried. Whatever failed is a warning in the answer; if nothing is left, the exit status is 3.
//!
//! # How the pure-Rust engine is led
//!
//! HiGHS is left to itself, with one thread and gap 0. The pure-Rust solver has no presolve, cuts or heuristics. So
//! bounds are propagated and columns substituted (`presolve`, `aggregate`), cutting planes added (`cut_loop`,
//! `mir_cuts`, `tableau`), a good kit found early from the columns that the relaxation uses, and columns fixed by
//! reduced cost; then comes the search for the rest (`search`). Cuts with which the relaxation fails are left out
//! again. Under a time limit each step gets a share of what is left (`deadline`). Models that differ in one limit only
//! share bounds, substitutions and cuts (`parametric`).
//!
//! Where a repair is worth nothing until the last of many tools is there, the relaxation takes a little of each and the
//! early kit is far from the bound. The caller may then look for a better kit by whole repairs, and the search goes on
//! from the better of the two. On the set-union knapsacks of the literature this finds the best known values within
//! seconds, which neither engine does in a minute; the proof takes as long as before.
//!
//! # Tolerances
//!
//! Rows are scaled before they are compared: a tolerance is relative to a row's largest coefficient, so grams and
//! shares are treated alike. The objective is scaled as well where its largest gain is tiny (`scale`).
//!
//! | what is compared | how closely | why |
//! | --- | --- | --- |
//! | a solver's rows, inside | 1e-7 (microlp, absolute on rows scaled to about 1), 1e-6 (HiGHS) | their own defaults; tighter ones make them search longer for what rounding then takes away |
//! | the rows of an answer | 1e-6 | ten times what microlp allows, for what presolve adds when it puts columns back |
//! | an integer column | 1e-5, then rounded, then the rows again | engines call 1e-6 integer; rounding by 1e-5 may break a row, so the rest is settled anew |
//! | the objective claimed | 1e-4 | rounding moves it by about 1e-6; a solver that is wrong is wrong by more |
//! | a kit against the bound | 1e-5 | ten times the rows' tolerance, since a bound is a sum over rows |
//! | ties between kits | 1e-10 h, or relative above an hour | reckoned from integer counts, so only floating point is left |
//! | cutting planes | loosened by 1e-7 | gives back what rounding could cut off |
//! | presolve | 1e-9, continuous bounds only by 1e-3 or more | bounds that creep would add rounding up |
//! | verify, hours and masses | 1e-6 relative | two reckonings in another order agree to about 1e-12; a wrong rule is wrong by more |
//! | sums of decimal amounts | 1e-9 | tenths have no exact binary form |
//! | engines against each other | 1e-6 relative | what their rows' tolerances allow in the objective |

mod aggregate;
mod checked;
pub mod control;
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
pub use fallback::{Better, Doubt, Guide, solve, solve_doubting, solve_knowing};
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

impl SolveOptions {
    /// The same with no more time than the work on this thread has left ([`control::time_left`]).
    #[must_use]
    pub fn within_time_left(&self) -> Self {
        let time_limit = match (self.time_limit, control::time_left()) {
            (Some(own), Some(whole)) => Some(own.min(whole)),
            (own, whole) => own.or(whole),
        };
        Self { time_limit, ..*self }
    }
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
