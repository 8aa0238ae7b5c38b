//! Plans that are kept open: jobs that differ in limits only share the case, and often the kit. What an answer is does not
//! hang on which job came first.

use super::cache::Place;
use crate::answer::PackError;
use crate::domain::{Catalogue, Scenario};
use crate::live::{Change, Live};
use crate::milp::SolveOptions;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// The last few plans, the newest first.
pub(super) struct Plans {
    most: usize,
    kept: Mutex<VecDeque<(Place, Live)>>,
}

impl Plans {
    /// So many are kept.
    pub(super) const fn new(most: usize) -> Self {
        Self { most, kept: Mutex::new(VecDeque::new()) }
    }

    /// A plan of this trip: one that is there with its limits changed, or a new one. `place` is where the scenario was loaded.
    pub(super) fn open(
        &self,
        place: &Place,
        catalogue: &Catalogue,
        (scenario, rider): (&Scenario, usize),
        options: &SolveOptions,
    ) -> Result<Live, PackError> {
        let mut nearest = None;
        for live in self.of_the_same_case(place, scenario, rider) {
            let mut own = live;
            own.patch(Change::Scenario(Box::new(scenario.clone())))?;
            if own.standing().is_some_and(|standing| standing.proven) {
                return Ok(own);
            }
            nearest = Some(own);
        }
        match nearest {
            Some(live) => Ok(live.without_kits()),
            None => Live::open(Arc::new(catalogue.clone()), scenario.clone(), rider, *options),
        }
    }

    fn of_the_same_case(&self, place: &Place, scenario: &Scenario, rider: usize) -> Vec<Live> {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let same = kept.iter().filter(|(other, live)| Arc::ptr_eq(place, other) && live.is_case_of(scenario, rider));
        same.map(|(_, live)| live.clone()).collect()
    }

    /// Keeps a plan for jobs to come.
    pub(super) fn keep(&self, place: &Place, live: Live) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.push_front((Arc::clone(place), live));
        kept.truncate(self.most);
    }
}
