//! `pack`: what one rider carries, in which bag, why, and what stays open.

use super::describe::{Found, describe};
use super::plan::PackAnswer;
use super::solve::solve;
use super::ways::{self, WayOut};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::engine::{Effort, EngineError};
use crate::resolve::{Case, resolve};
use crate::risk;
use crate::select::relax::{self, Shortfall};
use crate::verify::{self, Claim, Violation};
use thiserror::Error;

/// Why there is no answer.
#[derive(Debug, Error)]
pub enum PackError {
    /// Needs and limits cannot hold together.
    #[error("needs and limits cannot hold together")]
    Infeasible {
        /// The smallest shortfalls, each weighed by how readily a rider moves it.
        shortfalls: Vec<Shortfall>,
        /// What would make the trip possible, the shortest first.
        ways: Vec<WayOut>,
    },
    /// Time ran out first.
    #[error("time ran out before any kit was found")]
    OutOfTime,
    /// The solver failed.
    #[error("{0}")]
    Engine(EngineError),
    /// The answer did not survive checking.
    #[error("the answer did not survive checking")]
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
    effort: &Effort,
) -> Result<PackAnswer, PackError> {
    let scenario = &scenario.as_ridden_by(rider);
    let catalogue = &*catalogue.as_weighed_by(rider);
    let case = resolve(catalogue, scenario, rider)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(format!("no bike `{}`", rider.bike))))?;
    let stakes = risk::assess(&case);
    let solved = solve(&case, &stakes, effort).map_err(|error| {
        let ways = |shortfalls: &[Shortfall]| ways::ways_out(catalogue, scenario, rider, shortfalls, effort);
        explain(&case, effort, error, ways)
    })?;
    let found = Found { catalogue, scenario, rider, case: &case, stakes: &stakes, solved: &solved, effort };
    let answer = describe(&found);
    let claim = claim(&answer, &case);
    let violations = verify::verify(catalogue, scenario, rider, &answer.kit, &answer.stowage, &claim);
    if violations.is_empty() {
        return Ok(answer);
    }
    let dump = format!("kit {:?}\nstowage {:?}\nclaim {claim:?}", answer.kit, answer.stowage);
    Err(PackError::Unverified { violations, dump })
}

pub(super) fn explain(
    case: &Case,
    effort: &Effort,
    error: EngineError,
    ways: impl Fn(&[Shortfall]) -> Vec<WayOut>,
) -> PackError {
    match error {
        EngineError::Infeasible => {
            let (case, stakes) = ways::needs_only(case.clone());
            match relax::shortfalls(&case, &stakes, &Effort { time_limit: None, ..*effort }) {
                Ok(shortfalls) => {
                    let ways = ways(&shortfalls);
                    PackError::Infeasible { shortfalls, ways }
                }
                Err(error) => PackError::Engine(error),
            }
        }
        EngineError::NoAnswerInTime => PackError::OutOfTime,
        fault @ EngineError::Fault(_) => PackError::Engine(fault),
    }
}

fn claim(answer: &PackAnswer, case: &Case) -> Claim {
    Claim {
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        front_kg: answer.loads.first().map_or(f64::NAN, |load| load.loaded.front),
        rear_kg: answer.loads.first().map_or(f64::NAN, |load| load.loaded.rear),
        hours_empty: answer.figures.hours_empty,
        hours_saved: answer.figures.hours_saved,
        handling: answer.figures.handling,
        needs: case.demands.iter().map(|demand| (demand.id.clone(), demand.amount)).collect(),
    }
}
