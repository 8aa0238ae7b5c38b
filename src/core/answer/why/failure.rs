//! How a failure is dealt with, or the least that would deal with it.

use super::{About, Asked, FailureReasons, RepairReasons};
use crate::answer::pack::PackError;
use crate::answer::ready::Ready;
use crate::answer::sufficient::sufficient;
use crate::rehearse::Providers;
use crate::resolve::{InstanceRepair, Measure};
use crate::risk;
use crate::units::Hours;

impl Asked<'_> {
    pub(super) fn failure(&self, id: &str) -> Result<About, PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { instance, risk_model, .. } = ready;
        let Some(f) = instance.failures.iter().position(|failure| failure.id == id) else {
            return Ok(About::NotOnThisBike);
        };
        let failure = &instance.failures[f];
        let value = risk::value(instance, risk_model, counts);
        let providers = Providers::new(instance, counts);
        let mut repairs = Vec::new();
        for (r, repair) in failure.repairs.iter().enumerate() {
            let share = value.shares[f][r];
            let able = risk::value::able(instance, counts, repair);
            let set = |measure: Measure| {
                if able { Ok(None) } else { sufficient(instance, risk_model, counts, repair, measure, self.options) }
            };
            let explain = |error| ready.explain(error, self.options);
            repairs.push(RepairReasons {
                name: repair.name.clone(),
                hours: Hours::new(risk_model.repairs[f][r].benefit),
                share,
                uses: if share > 0.0 { self.taken_by(&providers, repair) } else { Vec::new() },
                lightest: set(Measure::Mass).map_err(explain)?,
                cheapest: set(Measure::Money).map_err(explain)?,
            });
        }
        repairs.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()));
        Ok(About::Failure(FailureReasons {
            outcome: failure.outcome.word(),
            mean: risk_model.means[f],
            hours_empty: Hours::new(risk_model.hours_unrepaired[f]),
            hours_left: Hours::new((risk_model.hours_unrepaired[f] - value.saved[f]).max(0.0)),
            repairs,
            skill_wanted: failure.beyond_skill.map(crate::domain::RepairSkill::word),
        }))
    }

    /// Things in the kit that a repair takes: those with its functions, and those that hold what it uses up.
    fn taken_by(&self, providers: &Providers<'_>, repair: &InstanceRepair) -> Vec<String> {
        let Self { ready: Ready { instance, .. }, counts, .. } = *self;
        let tools: Vec<usize> =
            repair.needs.iter().filter_map(|(function, n)| providers.of(*function, *n)).flatten().collect();
        let holds = |item: &usize| {
            let held = &instance.items[*item].holds;
            repair.uses.iter().any(|(stock, _)| held.iter().any(|(own, n)| own == stock && *n > 0))
        };
        let taken = (0..counts.len()).filter(|item| counts[*item] > 0 && (tools.contains(item) || holds(item)));
        taken.map(|item| instance.items[item].name.clone()).collect()
    }
}
