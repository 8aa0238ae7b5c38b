//! Changes of an open trip, and what of what is known they leave valid.

use super::{Known, Live};
use crate::answer::PackError;
use crate::domain::Scenario;
use crate::resolve::{Amount, Instance, Measure};
use crate::units::{Mass, Money, Quantity, Volume};
use serde::Serialize;
use std::sync::Arc;

/// So many kits of earlier revisions are kept in mind: a limit is dragged to and fro.
const MOST_PAST: usize = 12;

/// A change of an open trip.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Another limit, or none: milligrams, microlitres, hundredths of money. A rider's own limit of mass is replaced too.
    Limit(Measure, Option<Amount>),
    /// Another most that the chance of a stranding may be, from 0 to 1, or none.
    Stranded(Option<f64>),
    /// Anything else: the whole scenario as it is to be. What it leaves as it was is found by comparing.
    Scenario(Box<Scenario>),
}

/// What a patch left valid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Kept {
    /// The revision from now on.
    pub revision: u64,
    /// The case and its stakes: only limits changed, or nothing.
    pub case: bool,
    /// The kit in hand, which keeps all limits still.
    pub kit: bool,
    /// The bound: no limit became looser.
    pub bound: bool,
}

impl Live {
    /// Changes the trip. Where that fails, nothing is changed.
    ///
    /// # Errors
    /// [`PackError::Engine`]: a scenario without this rider, or with a bike that the catalogue lacks.
    pub fn patch(&mut self, change: Change) -> Result<Kept, PackError> {
        let scenario = match change {
            Change::Scenario(scenario) => *scenario,
            Change::Limit(measure, limit) => self.limited(measure, limit),
            Change::Stranded(most) => {
                let mut scenario = Scenario::clone(&self.scenario);
                scenario.limits.stranded = most;
                scenario
            }
        };
        if scenario == *self.scenario {
            return Ok(Kept { revision: self.revision, case: true, kit: self.known.in_hand.is_some(), bound: true });
        }
        if self.is_case_of(&scenario, self.rider) {
            Ok(self.take_limits(scenario))
        } else {
            self.take_scenario(scenario)
        }
    }

    /// The scenario with another limit.
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    fn limited(&self, measure: Measure, limit: Option<Amount>) -> Scenario {
        let mut scenario = Scenario::clone(&self.scenario);
        let limits = &mut scenario.limits;
        match measure {
            Measure::Mass => {
                limits.kit_mass = limit.map(|amount| Mass::from_base(amount as f64));
                scenario.riders[self.rider].kit_mass = None;
            }
            Measure::Volume => limits.kit_volume = limit.map(|amount| Volume::from_base(amount as f64)),
            Measure::Money => limits.budget = limit.map(Money::from_cents),
        }
        scenario
    }

    /// Is nothing but limits (and the title) another, and the rider the same?
    #[must_use]
    pub fn is_case_of(&self, next: &Scenario, rider: usize) -> bool {
        if rider != self.rider {
            return false;
        }
        let Some(rider) = next.riders.get(self.rider) else { return false };
        let mut alike = next.clone();
        alike.name.clone_from(&self.scenario.name);
        alike.limits = self.scenario.limits;
        alike.riders[self.rider].kit_mass = self.scenario.riders[self.rider].kit_mass;
        rider.name == self.rider().name && alike == *self.scenario
    }

    /// The same case within other limits.
    fn take_limits(&mut self, scenario: Scenario) -> Kept {
        let own = scenario.as_ridden_by(&scenario.riders[self.rider]);
        let mut instance = Instance::clone(&self.instance);
        Measure::Mass.set_limit(&mut instance, own.limits.kit_mass.map(Mass::milligrams));
        Measure::Volume.set_limit(&mut instance, own.limits.kit_volume.map(Volume::microlitres));
        Measure::Money.set_limit(&mut instance, own.limits.budget.map(Money::cents));
        instance.stranded = own.limits.stranded;
        let tighter = is_tighter(&instance, &self.instance);
        (self.scenario, self.own, self.instance) = (Arc::new(scenario), Arc::new(own), Arc::new(instance));
        self.revision += 1;
        let Known { in_hand, cuts, bound, mut past } = std::mem::take(&mut self.known);
        if let Some(standing) = &in_hand {
            past.retain(|counts| counts != standing.counts());
            past.insert(0, standing.counts().to_vec());
            past.truncate(MOST_PAST);
        }
        let bound = bound.filter(|_| tighter);
        let in_hand = in_hand.filter(|standing| self.breaks(standing.counts()).is_empty());
        let in_hand = in_hand.map(|standing| standing.in_revision(self.revision, bound));
        let kept = Kept { revision: self.revision, case: true, kit: in_hand.is_some(), bound: bound.is_some() };
        self.known = Known { in_hand, cuts, bound, past };
        kept
    }

    /// Another case, of which the kit in hand may still be one.
    fn take_scenario(&mut self, scenario: Scenario) -> Result<Kept, PackError> {
        let other = Self::open(Arc::clone(&self.given), scenario, self.rider, self.options)?;
        let in_hand = self.known.in_hand.take();
        let revision = self.revision + 1;
        *self = Self { revision, ..other };
        self.known.past = in_hand.map(|standing| self.instance.counts(&standing.kit)).into_iter().collect();
        let again = self.known.past.first().and_then(|counts| self.placed(counts));
        let kit = again.is_some();
        self.known.in_hand = again;
        Ok(Kept { revision, case: false, kit, bound: false })
    }
}

/// Is no limit of the first case looser than in the other?
fn is_tighter(now: &Instance, before: &Instance) -> bool {
    let measures = [Measure::Mass, Measure::Volume, Measure::Money];
    let kept = measures.into_iter().all(|measure| no_looser(measure.limit(now), measure.limit(before)));
    kept && no_looser(now.stranded, before.stranded)
}

fn no_looser<T: PartialOrd>(now: Option<T>, before: Option<T>) -> bool {
    before.is_none_or(|before| now.is_some_and(|now| now <= before))
}
