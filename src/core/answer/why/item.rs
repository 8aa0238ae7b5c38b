//! Why an item is in the kit, or is not: what it serves, what is lost without it, what it would displace.

use super::{About, Asked, Carried, Cover, Left, Other};
use crate::answer::describe::standing;
use crate::answer::home;
use crate::answer::pack::PackError;
use crate::answer::purpose::purposes;
use crate::answer::ready::Ready;
use crate::answer::solve::solve_near;
use crate::answer::tradeoff::differences;
use crate::domain::Scenario;
use crate::resolve::Reason;
use crate::risk;
use crate::units::{Hours, Money};
use fardel_milp::EngineError;

impl Asked<'_> {
    pub(super) fn item(&self, id: &str) -> Result<(About, bool), PackError> {
        let instance = &self.ready.instance;
        let Some(at) = instance.items.iter().position(|item| item.id == id) else {
            let reason =
                instance.left_out.iter().find(|left| left.item == id).map_or(Reason::NothingNeedsIt, |l| l.reason);
            return Ok((About::Dropped(reason), true));
        };
        if self.counts[at] > 0 { self.carried(at) } else { self.left(at) }
    }

    fn carried(&self, at: usize) -> Result<(About, bool), PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { instance, risk_model, .. } = ready;
        let own = &instance.items[at];
        let value = risk::value(instance, risk_model, counts);
        let mut less = counts.to_vec();
        less[at] = 0;
        let costs = risk::value(instance, risk_model, &less).terms.costs();
        // What is useless without it still weighs what it weighs.
        let useful = risk::value::useful(instance, &less);
        let after = risk::value(instance, risk_model, &useful);
        let (other, proven) = self.again(|scenario| {
            scenario.always.shift_remove(&own.id);
            scenario.never.push(own.id.clone());
        })?;
        let unmet = instance.demands.iter().enumerate().filter(|(d, demand)| {
            let met = |kit: &[u32]| -> f64 {
                let met = instance.items.iter().zip(kit).flat_map(|(item, n)| item.meets.iter().map(move |m| (m, *n)));
                met.filter(|((at, _), _)| at == d).map(|((_, amount), n)| amount * f64::from(n)).sum()
            };
            met(&useful) < demand.amount * (1.0 - 1e-9)
        });
        let carried = Carried {
            count: counts[at],
            mass: own.mass * counts[at],
            standing: standing(instance, counts, at),
            purposes: purposes(instance, risk_model, &value, counts, at),
            covers: self.covers(at, &value.saved, &after.saved),
            alone: Hours::new(value.objective() - (after.gains() - costs)),
            costs: home::item_costs(instance, &risk_model.at(instance, counts), own, counts[at]),
            unmet: unmet.map(|(_, demand)| demand.name.clone()).collect(),
            without: other,
        };
        Ok((About::Carried(carried), proven))
    }

    /// What goes at each failure, and what else in the kit it hangs on.
    fn covers(&self, at: usize, before: &[f64], after: &[f64]) -> Vec<Cover> {
        let Self { ready: Ready { instance, risk_model, .. }, counts, .. } = *self;
        let lost: Vec<usize> = (0..instance.failures.len()).filter(|f| before[*f] - after[*f] > 1e-9).collect();
        let others: Vec<usize> = (0..counts.len()).filter(|i| *i != at && counts[*i] > 0).collect();
        let mut with: Vec<Vec<String>> = vec![Vec::new(); instance.failures.len()];
        for other in others {
            let mut less = counts.to_vec();
            less[other] = 0;
            let saved = risk::value(instance, risk_model, &less).saved;
            for f in lost.iter().filter(|f| before[**f] - saved[**f] > 1e-9) {
                with[*f].push(instance.items[other].name.clone());
            }
        }
        let cover = |f: usize| Cover {
            failure: instance.failures[f].name.clone(),
            hours: Hours::new(before[f] - after[f]),
            with: with[f].clone(),
        };
        let mut covers: Vec<Cover> = lost.into_iter().map(cover).collect();
        covers.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()));
        covers
    }

    fn left(&self, at: usize) -> Result<(About, bool), PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { instance, risk_model, .. } = ready;
        let own = &instance.items[at];
        let mut more = counts.to_vec();
        more[at] = 1;
        let value = |kit: &[u32]| risk::value(instance, risk_model, kit).objective();
        let (with, proven) = self.again(|scenario| {
            scenario.always.insert(own.id.clone(), 1);
        })?;
        let left = Left {
            mass: own.mass,
            price: if own.owned > 0 { Money::ZERO } else { own.price },
            on_top: Hours::new(value(&more) - value(counts)),
            costs: home::item_costs(instance, &risk_model.at(instance, counts), own, 1),
            with,
        };
        Ok((About::Left(left), proven))
    }

    /// The best kit of a changed trip against the best kit; `None` where there is none. Also: is it proven?
    fn again(&self, change: impl FnOnce(&mut Scenario)) -> Result<(Option<Other>, bool), PackError> {
        if !self.anew {
            return Ok((None, true));
        }
        let mut scenario = self.ready.scenario.clone();
        change(&mut scenario);
        let changed = Ready::new(&self.ready.catalogue, &scenario, self.ready.rider)?;
        let kit = self.ready.instance.kit(self.counts);
        let known = changed.instance.counts(&kit);
        let solved = match solve_near(&changed.instance, &changed.risk_model, &known, self.options) {
            Ok(solved) => solved,
            Err(EngineError::Infeasible) => return Ok((None, true)),
            Err(error) => return Err(changed.explain(error, self.options)),
        };
        let answer = changed.answer(&solved, self.options)?;
        let (entering, leaving) = differences(&self.ready.catalogue, &kit, &answer.kit);
        let other = Other {
            loss: Hours::new(self.objective - answer.proof.objective),
            entering,
            leaving,
            mass: answer.totals.mass,
            self_recovery: answer.figures.home.chance(),
        };
        Ok((Some(other), answer.proof.proven))
    }
}
