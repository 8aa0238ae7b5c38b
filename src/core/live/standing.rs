//! The kit in hand: stowed, checked, and how near the best it is known to be.

use super::Live;
use super::evaluate::{Evaluation, of_counts};
use crate::answer::solve::Solved;
use crate::domain::{Kit, Stowage};
use crate::serial::KitList;
use crate::stow::{self, Placement};
use crate::units::Hours;
use crate::verify::{self, Claim, Violation};
use schemars::JsonSchema;
use serde::Serialize;

/// A kit that keeps all limits, stowed and checked by the second calculation.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Standing {
    /// The revision of the trip that it is for.
    pub revision: u64,
    /// The kit by item key.
    #[serde(with = "KitList")]
    pub kit: Kit,
    /// Which bag each unit goes into: bag key, then item key, then count.
    pub stowage: Stowage,
    /// What it does and takes.
    pub figures: Evaluation,
    /// No kit is better than this, by what kits are compared by; `None`: not known yet.
    #[serde(rename = "bound_h")]
    pub bound: Option<f64>,
    /// Proven to be the best kit?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    #[serde(skip)]
    counts: Vec<u32>,
    #[serde(skip)]
    placement: Placement,
    /// What a search came to, where one did.
    #[serde(skip)]
    pub(super) solved: Option<Solved>,
}

impl Standing {
    /// What it is worth: hours saved less all that it costs.
    #[must_use]
    pub const fn objective(&self) -> f64 {
        self.figures.objective
    }

    /// How far from the bound it is at most, as a share of its worth; `None` without a bound, 0 where it is proven.
    #[must_use]
    pub fn gap(&self) -> Option<f64> {
        if self.proven {
            return Some(0.0);
        }
        self.bound.map(|bound| (bound - self.objective()).max(0.0) / self.objective().abs().max(1e-9))
    }

    /// Units of each item of the case.
    #[must_use]
    pub fn counts(&self) -> &[u32] {
        &self.counts
    }

    /// Where they go, by the numbers of the case.
    #[must_use]
    pub const fn placement(&self) -> &Placement {
        &self.placement
    }

    /// The same in a later revision in which only limits are others.
    pub(super) fn in_revision(self, revision: u64, bound: Option<f64>) -> Self {
        let proven = self.proven && bound.is_some();
        let solved = self.solved.filter(|_| proven);
        Self { revision, bound, proven, solved, ..self }
    }
}

impl Live {
    /// Counts with a place for everything, found at once; nothing where a limit is broken, no place is found or checking fails.
    pub(super) fn placed(&self, counts: &[u32]) -> Option<Standing> {
        if !self.breaks(counts).is_empty() {
            return None;
        }
        self.stood(counts, stow::at_once(&self.instance, counts)?).ok()
    }

    /// A stowed kit, checked.
    pub(super) fn stood(&self, counts: &[u32], placement: Placement) -> Result<Standing, Vec<Violation>> {
        let figures = of_counts(self, counts, Some(&placement));
        let instance = &*self.instance;
        let kit = instance.kit(counts);
        let stowage = stow::stowage(instance, &placement);
        let violations =
            verify::verify(&self.catalogue, &self.own, self.rider(), &kit, &stowage, &self.claim(&figures));
        if !violations.is_empty() {
            return Err(violations);
        }
        Ok(Standing {
            revision: self.revision,
            kit,
            stowage,
            figures,
            bound: self.known.bound,
            proven: false,
            counts: counts.to_vec(),
            placement,
            solved: None,
        })
    }

    pub(super) fn claim(&self, figures: &Evaluation) -> Claim {
        let Evaluation { mass, volume, to_buy, ref wheels, ref terms, .. } = *figures;
        let on = |of: fn(&crate::answer::Wheels) -> f64| wheels.first().map_or(f64::NAN, of);
        Claim {
            mass,
            volume,
            to_buy,
            front_kg: on(|wheels| wheels.front),
            rear_kg: on(|wheels| wheels.rear),
            hours_empty: Hours::new(self.risk_model.hours_empty()),
            terms: crate::answer::claimed(terms),
            home: None,
            sets: None,
            needs: self.instance.demands.iter().map(|demand| (demand.id.clone(), demand.amount)).collect(),
        }
    }
}
