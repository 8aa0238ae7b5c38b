//! What riders need on them on legs that they ride without the others: a tent, a stove or a first-aid kit with those who
//! are away is of no use.

use super::instance::{Apart, Demand};
use super::member::Member;
use super::{group, needs};
use crate::domain::{Catalogue, Leg, NeedRule, Scenario, Style};

/// Each part of the group that rides legs of its own, with what these legs demand of it: by the formulas of the whole
/// trip, for those riders and legs alone, and never more than the whole trip demands. Water, food and petrol are not
/// among it: they are filled and bought as the trip goes, and shared out anew before the group parts.
pub(super) fn apart(
    catalogue: &Catalogue,
    scenario: &Scenario,
    members: &[Member<'_>],
    demands: &[Demand],
) -> Vec<Apart> {
    let mut sets: Vec<(Vec<bool>, Vec<Leg>)> = Vec::new();
    for leg in &scenario.trip.legs {
        let present: Vec<bool> = members.iter().map(|member| leg.is_ridden_by(&member.rider.name)).collect();
        if present.iter().all(|there| *there) || !present.contains(&true) {
            continue;
        }
        match sets.iter_mut().find(|(set, _)| *set == present) {
            Some((_, legs)) => legs.push(leg.clone()),
            None => sets.push((present, vec![leg.clone()])),
        }
    }
    let part = |(present, legs): (Vec<bool>, Vec<Leg>)| {
        let names = legs.iter().map(|leg| leg.name.clone()).collect();
        let own = alone(scenario, legs);
        let there: Vec<&Member<'_>> =
            members.iter().zip(&present).filter(|(_, there)| **there).map(|(member, _)| member).collect();
        let each = there.iter().map(|member| needs::demands(catalogue, &own, member.rider, there.len()));
        let wanted = group::pooled(catalogue, &each.collect::<Vec<_>>());
        let amount = |wanted: &Demand| {
            let at = demands.iter().position(|demand| demand.id == wanted.id && demand.owner.is_none())?;
            Some((at, wanted.amount.min(demands[at].amount)))
        };
        let shared = wanted.iter().filter(|demand| demand.owner.is_none() && stays(demand.rule));
        let amounts = shared.filter_map(amount).filter(|(_, amount)| *amount > 0.0).collect();
        Apart { present, legs: names, amounts }
    };
    sets.into_iter().map(part).collect()
}

/// Does it stay with whoever has it?
const fn stays(rule: NeedRule) -> bool {
    !matches!(rule, NeedRule::Water | NeedRule::Food | NeedRule::Fuel)
}

/// The trip as if there were only these legs. Without a night on them nobody camps. Amounts that the scenario states are
/// meant for the whole trip: only that nothing is wanted counts here.
fn alone(scenario: &Scenario, legs: Vec<Leg>) -> Scenario {
    let mut own = scenario.clone();
    if legs.iter().all(|leg| leg.nights == 0) {
        own.trip.style = Style::None;
    }
    own.trip.legs = legs;
    own.needs.retain(|_, stated| *stated <= 0.0);
    own
}
