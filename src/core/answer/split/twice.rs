//! A group's kit with things there twice, without a solver: for when the search for the best such kit does not end in time.
//! The lightest units that make up what is missing are added; where that breaks a limit, what saves least goes.

use crate::allocation::Redundancy;
use crate::resolve::Instance;
use crate::risk::{RiskModel, value, value_in_model};
use crate::select::{self, Choice};
use crate::units::Mass;
use fardel_milp::Stop;

/// The kit of `choice` with all of this twice, within all limits; `None` where that was not found.
pub(super) fn twice(
    instance: &Instance,
    risk_model: &RiskModel,
    choice: &Choice,
    redundancies: &[Redundancy],
) -> Option<Choice> {
    let mut kit = choice.counts.clone();
    for redundancy in redundancies {
        while !redundancy.holds(instance, &kit) {
            let more = lightest(instance, &kit, *redundancy)?;
            more.into_iter().for_each(|item| kit[item] += 1);
        }
    }
    let counts = lightened(instance, risk_model, kit, redundancies)?;
    let risk_model = risk_model.at(instance, &counts);
    let objective = value(instance, &risk_model, &counts).objective();
    let bound = choice.bound.max(objective);
    Some(Choice { counts, objective, bound, stop: Stop::OutOfTime, failed: Vec::new(), risk_model, unaided: true })
}

/// The units of least mass that bring a kit nearer to having something twice: one that gives it, or one for each part that
/// it is combined of.
fn lightest(instance: &Instance, kit: &[u32], redundancy: Redundancy) -> Option<Vec<usize>> {
    let one = |wanted: Redundancy| {
        let items = instance.items.iter().enumerate();
        let open = items.filter(|(at, item)| kit[*at] < item.at_most && wanted.given(item) > 0);
        open.min_by_key(|(at, item)| (item.mass, item.price, *at)).map(|(at, _)| at)
    };
    let combined = redundancy.ways(instance).iter().filter_map(|way| {
        let scarce = |part: &&usize| !Redundancy::Function(**part, 1).holds(instance, kit);
        way.iter().filter(scarce).map(|part| one(Redundancy::Function(*part, 1))).collect::<Option<Vec<usize>>>()
    });
    let ways = one(redundancy).map(|item| vec![item]).into_iter().chain(combined);
    let mass = |items: &[usize]| -> Mass { items.iter().map(|item| instance.items[*item].mass).sum() };
    ways.filter(|items| !items.is_empty()).min_by_key(|items| (mass(items), items.clone()))
}

/// Leaves out what saves least until no limit is broken, but nothing that is needed twice.
fn lightened(
    instance: &Instance,
    risk_model: &RiskModel,
    mut kit: Vec<u32>,
    redundancies: &[Redundancy],
) -> Option<Vec<u32>> {
    let broken = |kit: &[u32]| -> (usize, f64) {
        let all = select::broken(instance, risk_model, kit);
        (all.len(), all.iter().map(|short| short.by / short.limit.abs().max(1e-9)).sum())
    };
    let saved = |kit: &[u32]| value_in_model(instance, risk_model, kit).objective();
    let mut worst = broken(&kit);
    if worst.0 == 0 {
        return Some(kit);
    }
    let all = saved(&kit);
    let without = |kit: &[u32], item: usize| {
        let mut less = kit.to_vec();
        less[item] -= 1;
        less
    };
    let there = (0..kit.len()).filter(|item| kit[*item] > instance.items[*item].at_least);
    let mut order: Vec<(f64, usize)> = there.map(|item| (all - saved(&without(&kit, item)), item)).collect();
    order.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    for (_, item) in order {
        while kit[item] > instance.items[item].at_least {
            let less = without(&kit, item);
            let now = broken(&less);
            if now.1 >= worst.1 || !redundancies.iter().all(|redundancy| redundancy.holds(instance, &less)) {
                break;
            }
            (kit, worst) = (less, now);
            if worst.0 == 0 {
                return Some(kit);
            }
        }
    }
    None
}
