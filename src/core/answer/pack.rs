//! `pack`: what one rider carries, in which bag, why, and what stays open.

use super::departure::{Anew, chores};
use super::firm::firm;
use super::plan::PackAnswer;
use super::ready::Ready;
use super::remedies::TripRemedy;
use super::solve::{Solved, in_time};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::select::relax::Shortfall;
use crate::verify::Violation;
use fardel_milp::timing::timed;
use fardel_milp::{EngineError, SolveOptions};
use fardel_words::say;
use thiserror::Error;

/// Why there is no answer.
#[derive(Debug, Error)]
pub enum PackError {
    /// Needs and limits cannot hold together.
    #[error("{}", say!("needs and limits cannot hold together"))]
    Infeasible {
        /// The smallest shortfalls, each weighed by how readily a rider moves it.
        shortfalls: Vec<Shortfall>,
        /// What would make the trip possible, the shortest first.
        ways: Vec<TripRemedy>,
    },
    /// Time ran out first.
    #[error("{}", say!("time ran out before any kit was found"))]
    OutOfTime,
    /// The solver failed.
    #[error("{0}")]
    Engine(EngineError),
    /// With rates drawn, kits are ridden with, and too much happens for that.
    #[error(
        "{0:.0} things would break or fall on each trip, more than can be ridden to judge kits by rates that are drawn; \
         look at the rates and the distances"
    )]
    TooMuch(f64),
    /// The answer did not survive checking.
    #[error("{}", say!("the answer did not survive checking"))]
    Unverified {
        /// What is wrong.
        violations: Vec<Violation>,
        /// Kit, stowage and claim, for a report of the defect.
        dump: String,
    },
}

/// Packs for one rider of a scenario.
///
/// # Errors
/// [`PackError`]: no feasible kit, no time, a failing solver, or an answer that did not survive checking.
pub fn pack(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    options: &SolveOptions,
) -> Result<PackAnswer, PackError> {
    packed(catalogue, scenario, rider, Anew::default(), options)
}

/// As [`pack`], without packing anew for what could still be done to the bike: the same kit in less time.
///
/// # Errors
/// As [`pack`].
pub fn pack_briefly(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    options: &SolveOptions,
) -> Result<PackAnswer, PackError> {
    packed(catalogue, scenario, rider, Anew::None, options)
}

/// As [`pack`], saying which preparations are packed anew, and how firm the kit is.
///
/// # Errors
/// As [`pack`].
pub fn pack_thoroughly(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    anew: Anew,
    options: &SolveOptions,
) -> Result<PackAnswer, PackError> {
    in_time(options, |options| {
        let ready = Ready::new(catalogue, scenario, rider)?;
        let solved = ready.solve(options)?;
        told_thoroughly(&ready, solved, anew, options)
    })
}

fn packed(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    anew: Anew,
    options: &SolveOptions,
) -> Result<PackAnswer, PackError> {
    in_time(options, |options| {
        let ready = Ready::new(catalogue, scenario, rider)?;
        let solved = ready.solve(options)?;
        told(&ready, solved, anew, options).map(|(_, answer)| answer)
    })
}

/// A solved case told and checked, with what can still be done to the bike.
///
/// # Errors
/// [`PackError::Unverified`] where neither it nor another way of solving survives checking.
pub(crate) fn told(
    ready: &Ready<'_>,
    solved: Solved,
    anew: Anew,
    options: &SolveOptions,
) -> Result<(Solved, PackAnswer), PackError> {
    let (solved, answer) = match ready.answer(&solved, options) {
        Ok(answer) => (solved, answer),
        Err(PackError::Unverified { violations, dump }) => {
            let failed = violations.iter().map(|violation| violation.what.clone()).collect();
            let other = ready.otherwise(failed, options);
            other.ok_or(PackError::Unverified { violations, dump })?
        }
        Err(error) => return Err(error),
    };
    let chores =
        timed("see what can still be done to the bike", || chores(ready, &solved.choice.counts, anew, options));
    Ok((solved, PackAnswer { chores, ..answer }))
}

/// The same with how firm the kit is.
///
/// # Errors
/// As [`told`].
pub(crate) fn told_thoroughly(
    ready: &Ready<'_>,
    solved: Solved,
    anew: Anew,
    options: &SolveOptions,
) -> Result<PackAnswer, PackError> {
    let (solved, answer) = told(ready, solved, anew, options)?;
    let firm = firm(&ready.catalogue, &ready.instance, &solved.choice.counts, options);
    Ok(PackAnswer { firm: Some(firm), ..answer })
}
