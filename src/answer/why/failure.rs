//! How a failure is dealt with, or the least that would deal with it.

use super::{About, Asked, FailureReasons, RepairReasons};
use crate::answer::pack::PackError;
use crate::answer::ready::Ready;
use crate::answer::sufficient::sufficient;
use crate::resolve::Measure;
use crate::risk;
use crate::units::Hours;

impl Asked<'_> {
    pub(super) fn failure(&self, id: &str) -> Result<About, PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { case, stakes, .. } = ready;
        let Some(f) = case.failures.iter().position(|failure| failure.id == id) else {
            return Ok(About::NotOnThisBike);
        };
        let failure = &case.failures[f];
        let value = risk::value(case, stakes, counts);
        let mut repairs = Vec::new();
        for (r, repair) in failure.repairs.iter().enumerate() {
            let share = value.shares[f][r];
            let able = risk::value::able(case, counts, repair);
            let set = |measure: Measure| {
                if able { Ok(None) } else { sufficient(case, stakes, counts, repair, measure, self.effort) }
            };
            let explain = |error| ready.explain(error, self.effort);
            repairs.push(RepairReasons {
                name: repair.name.clone(),
                hours: Hours::new(stakes.repairs[f][r].benefit),
                share,
                uses: if share > 0.0 { self.taken_by(f) } else { Vec::new() },
                lightest: set(Measure::Mass).map_err(explain)?,
                cheapest: set(Measure::Money).map_err(explain)?,
            });
        }
        repairs.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()));
        Ok(About::Failure(FailureReasons {
            outcome: failure.outcome.word(),
            mean: stakes.means[f],
            hours_empty: Hours::new(stakes.hours_unrepaired[f]),
            hours_left: Hours::new((stakes.hours_unrepaired[f] - value.saved[f]).max(0.0)),
            repairs,
            skill_wanted: failure.beyond_skill.map(crate::domain::RepairSkill::word),
        }))
    }

    /// Things in the kit without which less would be saved at a failure.
    fn taken_by(&self, f: usize) -> Vec<String> {
        let Self { ready: Ready { case, stakes, .. }, counts, .. } = *self;
        let before = risk::value(case, stakes, counts).saved[f];
        let matters = |i: &usize| {
            let mut less = counts.to_vec();
            less[*i] = 0;
            before - risk::value(case, stakes, &less).saved[f] > 1e-9
        };
        let carried = (0..counts.len()).filter(|i| counts[*i] > 0);
        carried.filter(matters).map(|i| case.items[i].name.clone()).collect()
    }
}
