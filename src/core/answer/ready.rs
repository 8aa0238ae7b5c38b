//! One rider's trip made ready to be solved, and the way from a solved case to an answer that was checked.

use super::describe::{Found, describe};
use super::joint;
use super::pack::PackError;
use super::plan::PackAnswer;
use super::remedies::{self, TripRemedy};
use super::solve::{Solved, Way, solve};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::resolve::{Amount, Instance, Measure, resolve};
use crate::risk::{self, RiskModel};
use crate::select::Choice;
use crate::select::relax::{self, Shortfall};
use crate::units::{Mass, Money, Quantity, Volume};
use crate::verify::{self, Claim};
use fardel_milp::control;
use fardel_milp::{EngineError, SolveOptions};
use std::borrow::Cow;
use std::time::Duration;

/// Longest that the other way to an answer may take where the first answer did not stand up to checking.
const OTHERWISE_LIMIT: Duration = Duration::from_secs(60);

/// The share of the time that is left in which the smallest shortfalls are looked for; the rest is for ways out.
const SHORTFALLS: f64 = 0.5;

/// How near the safest kit is found (relative gap) where a limit on strandings cannot be kept.
const SAFEST_GAP: f64 = 1e-4;

/// Everything that solving and telling need.
#[derive(Debug, Clone)]
pub(crate) struct Ready<'a> {
    pub catalogue: Cow<'a, Catalogue>,
    pub scenario: Scenario,
    pub rider: &'a Rider,
    pub instance: Instance,
    pub risk_model: RiskModel,
}

impl<'a> Ready<'a> {
    /// The trip of one rider.
    pub fn new(catalogue: &'a Catalogue, scenario: &Scenario, rider: &'a Rider) -> Result<Self, PackError> {
        Self::of(catalogue.as_weighed_by(rider), scenario.as_ridden_by(rider), rider)
    }

    /// The same trip with another catalogue.
    pub fn with_catalogue(&self, catalogue: Catalogue) -> Result<Self, PackError> {
        Self::of(Cow::Owned(catalogue), self.scenario.clone(), self.rider)
    }

    fn of(catalogue: Cow<'a, Catalogue>, scenario: Scenario, rider: &'a Rider) -> Result<Self, PackError> {
        let instance = resolved(&catalogue, &scenario, rider)?;
        let risk_model = risk::assess(&instance);
        Ok(Self { catalogue, scenario, rider, instance, risk_model })
    }

    /// The same with another limit, or with none.
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    pub fn limited(&self, measure: Measure, limit: Option<Amount>) -> Self {
        let mut own = self.clone();
        measure.set_limit(&mut own.instance, limit);
        let limits = &mut own.scenario.limits;
        match measure {
            Measure::Mass => limits.kit_mass = limit.map(|amount| Mass::from_base(amount as f64)),
            Measure::Volume => limits.kit_volume = limit.map(|amount| Volume::from_base(amount as f64)),
            Measure::Money => limits.budget = limit.map(Money::from_cents),
        }
        own
    }

    /// The best kit.
    pub fn solve(&self, options: &SolveOptions) -> Result<Solved, PackError> {
        solve(&self.instance, &self.risk_model, options).map_err(|error| self.explain(error, options))
    }

    /// An answer by the joint model that stands up to checking, where the first one did not because of `failed`.
    pub fn otherwise(&self, failed: Vec<String>, options: &SolveOptions) -> Option<(Solved, PackAnswer)> {
        let limit = options.time_limit.map_or(OTHERWISE_LIMIT, |limit| limit.min(OTHERWISE_LIMIT));
        let quick = SolveOptions { time_limit: Some(limit), ..*options };
        let (choice, placement) = joint::solve(&self.instance, &self.risk_model, &quick).ok()?;
        let solved = Solved { choice: Choice { failed, ..choice }, placement, rounds: 0, way: Way::Joint };
        let answer = self.answer(&solved, options).ok()?;
        Some((solved, answer))
    }

    /// Why there is no kit, and what would let there be one.
    pub fn explain(&self, error: EngineError, options: &SolveOptions) -> PackError {
        let ways = |shortfalls: &[Shortfall]| {
            remedies::remedies(&self.catalogue, &self.scenario, self.rider, shortfalls, options)
        };
        explain(&self.instance, options, error, ways)
    }

    /// A solved case told and checked.
    pub fn answer(&self, solved: &Solved, options: &SolveOptions) -> Result<PackAnswer, PackError> {
        let Self { catalogue, scenario, rider, instance, risk_model } = self;
        // Where things go was only a question of whether they go in until the kit stood.
        let placement = crate::stow::together(instance, solved.placement.clone());
        let solved = &Solved { placement, ..solved.clone() };
        let answer = describe(&Found { catalogue, scenario, rider, instance, risk_model, solved, options });
        let claim = claim(&answer, instance);
        let violations = verify::verify(catalogue, scenario, rider, &answer.kit, &answer.stowage, &claim);
        if violations.is_empty() {
            return Ok(answer);
        }
        let dump = format!("kit {:?}\nstowage {:?}\nclaim {claim:?}", answer.kit, answer.stowage);
        Err(PackError::Unverified { violations, dump })
    }
}

/// One rider's trip as numbers.
///
/// # Errors
/// [`PackError::Engine`] if the catalogue lacks the bike.
pub(crate) fn resolved(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider) -> Result<Instance, PackError> {
    resolve(catalogue, scenario, rider)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(format!("no bike `{}`", rider.bike))))
}

/// What a failed search means; `ways` looks for changes that would help.
pub(crate) fn explain(
    instance: &Instance,
    options: &SolveOptions,
    error: EngineError,
    ways: impl Fn(&[Shortfall]) -> Vec<TripRemedy>,
) -> PackError {
    match error {
        EngineError::Infeasible => {
            if let Some(shortfall) = too_seldom(instance, options) {
                return PackError::Infeasible { shortfalls: vec![shortfall], ways: Vec::new() };
            }
            let (instance, risk_model) = remedies::needs_only(instance.clone());
            let free = SolveOptions { time_limit: None, ..*options };
            match control::within(SHORTFALLS, || relax::shortfalls(&instance, &risk_model, &free)) {
                Ok(shortfalls) => {
                    let ways = ways(&shortfalls);
                    PackError::Infeasible { shortfalls, ways }
                }
                // That there is no kit is known; what stands in its way is not.
                Err(EngineError::NoAnswerInTime) => PackError::Infeasible { shortfalls: Vec::new(), ways: Vec::new() },
                Err(error) => PackError::Engine(error),
            }
        }
        EngineError::NoAnswerInTime => PackError::OutOfTime,
        fault @ EngineError::Fault(_) => PackError::Engine(fault),
    }
}

/// Is it the limit on strandings alone that no kit keeps?
fn too_seldom(instance: &Instance, options: &SolveOptions) -> Option<Shortfall> {
    let limit = instance.stranded?;
    let open = Instance { stranded: None, ..instance.clone() };
    let least =
        relax::safest(&open, &risk::assess(&open), &SolveOptions { gap: options.gap.max(SAFEST_GAP), ..*options })?;
    let by = least - limit;
    (by > 0.0).then(|| Shortfall { family: "stranded", key: "stranded_at_most".to_owned(), by, limit })
}

fn claim(answer: &PackAnswer, instance: &Instance) -> Claim {
    Claim {
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        front_kg: answer.loads.first().map_or(f64::NAN, |load| load.loaded.front),
        rear_kg: answer.loads.first().map_or(f64::NAN, |load| load.loaded.rear),
        hours_empty: answer.figures.hours_empty,
        terms: super::claim::terms(&answer.figures.terms),
        home: super::claim::home(&answer.figures.home),
        sets: answer.loads.first().map(|load| super::claim::in_bags(&load.sets)),
        needs: instance.demands.iter().map(|demand| (demand.id.clone(), demand.amount)).collect(),
    }
}
