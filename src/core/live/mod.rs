//! A plan that is kept open while a rider changes the trip: a good kit at once, a better one soon, the proof at last.
//!
//! [`Live`] holds one rider's trip as it stands: the case, its stakes, the kit in hand and what is known of the best one.
//!
//! ```text
//! open -> patch -> evaluate   any kit, by arithmetic          (a few milliseconds)
//!            |  -> first      a good kit without a solver     (some hundredths of a second)
//!            |  -> improve    better kits, then the proof     (anytime: heard of as they are found, may be cancelled)
//!            |  -> curve      limit after limit, nearest first
//!            '  -> why        of the kit in hand
//! ```
//!
//! A plan is a value: a clone is cheap, and works on its own. Whoever keeps one for several threads lets a clone improve,
//! goes on patching and evaluating the other, and takes over with [`Live::adopt`] what was found. What was found for an
//! older revision is not taken over.
//!
//! What a patch leaves valid is kept: a change of limits keeps the case, its stakes and what was learnt of the bags; a
//! tighter limit keeps the bound, a looser one the kit. The improved answer is that of `pack`, whatever came before it.

mod change;
mod curve;
mod evaluate;
mod group;
mod improve;
mod standing;
mod tell;

pub use change::{Change, Kept};
pub use curve::{HearPoint, LivePoint};
pub use evaluate::Evaluation;
pub use fardel_milp::control::Cancel;
pub use group::{GroupEvaluation, LiveGroup, RiderLoad};
pub use improve::{Budget, Hear};
pub use standing::Standing;

use crate::answer::{PackError, resolved};
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::resolve::Instance;
use crate::risk::{self, RiskModel};
use crate::select::Cut;
use fardel_milp::{EngineError, SolveOptions};
use std::sync::Arc;

/// One rider's trip, kept open.
#[derive(Debug, Clone)]
pub struct Live {
    /// As opened.
    given: Arc<Catalogue>,
    /// With the rider's own masses in it.
    catalogue: Arc<Catalogue>,
    /// All riders' trip, as patched.
    scenario: Arc<Scenario>,
    /// The rider's part of it.
    own: Arc<Scenario>,
    /// Position among the riders.
    rider: usize,
    instance: Arc<Instance>,
    risk_model: Arc<RiskModel>,
    options: SolveOptions,
    /// Goes up with every patch that changes anything.
    revision: u64,
    known: Known,
}

/// What is known of a revision.
#[derive(Debug, Clone, Default)]
struct Known {
    in_hand: Option<Standing>,
    /// Things that cannot go into the bags together.
    cuts: Vec<Cut>,
    /// No kit is better than this.
    bound: Option<f64>,
    /// Kits of earlier revisions, the last first; they may break limits now, but good ones are near them.
    past: Vec<Vec<u32>>,
}

impl Live {
    /// Opens the trip of one rider of a scenario. `options` say which engine proves, and how near; a time limit in them holds
    /// for what is not given a budget of its own.
    ///
    /// # Errors
    /// [`PackError::Engine`]: no such rider, or a bike that the catalogue lacks.
    pub fn open(
        catalogue: Arc<Catalogue>,
        scenario: Scenario,
        rider: usize,
        options: SolveOptions,
    ) -> Result<Self, PackError> {
        let who = scenario.riders.get(rider).ok_or_else(|| fault(format!("no rider {}", rider + 1)))?;
        let own_catalogue = weighed(&catalogue, who);
        let own = scenario.as_ridden_by(who);
        let instance = resolved(&own_catalogue, &own, who)?;
        let risk_model = risk::assess(&instance);
        Ok(Self {
            given: catalogue,
            catalogue: own_catalogue,
            scenario: Arc::new(scenario),
            own: Arc::new(own),
            rider,
            instance: Arc::new(instance),
            risk_model: Arc::new(risk_model),
            options,
            revision: 0,
            known: Known::default(),
        })
    }

    /// Everybody's trip, as patched.
    #[must_use]
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// The catalogue, with the rider's own masses in it.
    #[must_use]
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// Who packs.
    #[must_use]
    pub fn rider(&self) -> &Rider {
        &self.scenario.riders[self.rider]
    }

    /// The case behind the trip.
    #[must_use]
    pub fn instance(&self) -> &Instance {
        &self.instance
    }

    /// Was it opened with this catalogue for this rider?
    #[must_use]
    pub fn is_of(&self, catalogue: &Catalogue, rider: usize) -> bool {
        self.rider == rider && *self.given == *catalogue
    }

    /// Goes up with every patch that changes anything; what was found for another revision does not hold any more.
    #[must_use]
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    /// The best kit known, if any.
    #[must_use]
    pub const fn standing(&self) -> Option<&Standing> {
        self.known.in_hand.as_ref()
    }

    /// What a kit does, takes and breaks, by arithmetic; it need not keep any limit.
    #[must_use]
    pub fn evaluate(&self, kit: &Kit) -> Evaluation {
        evaluate::evaluate(self, kit)
    }

    /// The same plan without any kit in hand: what it comes to then hangs on the trip alone.
    #[must_use]
    pub fn without_kits(self) -> Self {
        let known = Known { cuts: self.known.cuts, ..Known::default() };
        Self { known, ..self }
    }

    /// Takes over what a clone has found. `false`: it is of another revision, and nothing was taken.
    pub fn adopt(&mut self, other: &Self) -> bool {
        if self.revision != other.revision {
            return false;
        }
        self.known = other.known.clone();
        true
    }
}

fn fault(what: String) -> PackError {
    PackError::Engine(EngineError::Fault(what))
}

fn weighed(catalogue: &Arc<Catalogue>, rider: &Rider) -> Arc<Catalogue> {
    match catalogue.as_weighed_by(rider) {
        std::borrow::Cow::Borrowed(_) => Arc::clone(catalogue),
        std::borrow::Cow::Owned(own) => Arc::new(own),
    }
}

#[cfg(test)]
mod tests;
