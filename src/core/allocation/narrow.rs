//! A situation made small enough to be copied into a program: only repairs that save something in it, what they ask
//! for, and what its legs demand where the others are away.

use super::situation::Situation;
use crate::resolve::{Demand, Instance};
use crate::risk::{Ladder, RiskModel};

/// A situation with what saves nothing left out. Numbers stay what they were, but for repairs.
#[derive(Debug, Clone)]
pub struct Narrow {
    /// The case; repairs that save nothing are gone.
    pub instance: Instance,
    /// Its stakes.
    pub risk_model: RiskModel,
    /// Who is there.
    pub present: Vec<bool>,
    /// For each item: does it matter to what is left?
    pub matters: Vec<bool>,
}

/// Leaves out what saves nothing in a situation, and what only that would have needed.
#[must_use]
pub fn narrow(situation: &Situation) -> Narrow {
    let (mut instance, mut risk_model) = (situation.instance.clone(), situation.risk_model.clone());
    drop_worthless(&mut instance, &mut risk_model);
    demand_own(&mut instance, &situation.present);
    let matters = prune(&mut instance, &mut risk_model);
    Narrow { instance, risk_model, present: situation.present.clone(), matters }
}

/// Repairs that save nothing here.
fn drop_worthless(instance: &mut Instance, risk_model: &mut RiskModel) {
    for (failure, risk_model) in instance.failures.iter_mut().zip(&mut risk_model.repairs) {
        let mut keep = risk_model.iter().map(|repair| repair.benefit > 0.0).collect::<Vec<_>>().into_iter();
        failure.repairs.retain(|_| keep.next().unwrap_or(false));
        risk_model.retain(|repair| repair.benefit > 0.0);
    }
}

/// What those present need with them where the others are away takes the place of what all need.
fn demand_own(instance: &mut Instance, present: &[bool]) {
    let amounts = instance.needed_apart(present).to_vec();
    let demand = |(at, amount): &(usize, f64)| Demand { amount: *amount, ..instance.demands[*at].clone() };
    instance.demands = amounts.iter().map(demand).collect();
    for item in &mut instance.items {
        let met = item.meets.iter();
        let met = met.filter_map(|(at, met)| Some((amounts.iter().position(|(own, _)| own == at)?, *met)));
        item.meets = met.collect();
    }
}

/// Forgets functions and stocks that nothing left asks for; says which items still matter.
fn prune(instance: &mut Instance, risk_model: &mut RiskModel) -> Vec<bool> {
    let mut functions = vec![false; instance.functions.len()];
    let mut stocks = vec![false; instance.stocks.len()];
    for repair in instance.failures.iter().flat_map(|failure| &failure.repairs) {
        repair.needs.iter().for_each(|(function, _)| functions[*function] = true);
        repair.uses.iter().for_each(|(stock, _)| stocks[*stock] = true);
    }
    let mut matters = vec![false; instance.items.len()];
    loop {
        let before = (functions.clone(), matters.clone());
        for at in 0..functions.len() {
            if functions[at] {
                instance.functions[at].also_from.iter().flatten().for_each(|part| functions[*part] = true);
            }
        }
        for (matters, item) in matters.iter_mut().zip(&instance.items) {
            *matters = item.provides.iter().any(|(function, _)| functions[*function])
                || item.holds.iter().any(|(stock, _)| stocks[*stock])
                || !item.meets.is_empty();
            if *matters {
                item.requires.iter().for_each(|(function, _)| functions[*function] = true);
            }
        }
        if before == (functions.clone(), matters.clone()) {
            break;
        }
    }
    for (_, function) in instance.functions.iter_mut().enumerate().filter(|(at, _)| !functions[*at]) {
        function.also_from.clear();
    }
    for (item, matters) in instance.items.iter_mut().zip(&matters) {
        item.provides.retain(|(function, _)| functions[*function]);
        item.holds.retain(|(stock, _)| stocks[*stock]);
        if !*matters {
            item.requires.clear();
        }
    }
    for (ladder, asked) in risk_model.ladders.iter_mut().zip(&stocks) {
        if !*asked {
            *ladder = Ladder { step: ladder.step, shares: Vec::new() };
        }
    }
    matters
}
