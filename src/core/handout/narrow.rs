//! A situation made small enough to be copied into a program: only repairs that save something in it, what they ask
//! for, and what its legs demand where the others are away.

use super::situation::Situation;
use crate::resolve::{Case, Demand};
use crate::risk::{Ladder, Stakes};

/// A situation with what saves nothing left out. Numbers stay what they were, but for repairs.
#[derive(Debug, Clone)]
pub struct Narrow {
    /// The case; repairs that save nothing are gone.
    pub case: Case,
    /// Its stakes.
    pub stakes: Stakes,
    /// Who is there.
    pub present: Vec<bool>,
    /// For each item: does it matter to what is left?
    pub matters: Vec<bool>,
}

/// Leaves out what saves nothing in a situation, and what only that would have needed.
#[must_use]
pub fn narrow(situation: &Situation) -> Narrow {
    let (mut case, mut stakes) = (situation.case.clone(), situation.stakes.clone());
    drop_worthless(&mut case, &mut stakes);
    demand_own(&mut case, &situation.present);
    let matters = prune(&mut case, &mut stakes);
    Narrow { case, stakes, present: situation.present.clone(), matters }
}

/// Repairs that save nothing here.
fn drop_worthless(case: &mut Case, stakes: &mut Stakes) {
    for (failure, stakes) in case.failures.iter_mut().zip(&mut stakes.repairs) {
        let mut keep = stakes.iter().map(|repair| repair.benefit > 0.0).collect::<Vec<_>>().into_iter();
        failure.repairs.retain(|_| keep.next().unwrap_or(false));
        stakes.retain(|repair| repair.benefit > 0.0);
    }
}

/// What those present need with them where the others are away takes the place of what all need.
fn demand_own(case: &mut Case, present: &[bool]) {
    let amounts = case.needed_apart(present).to_vec();
    let demand = |(at, amount): &(usize, f64)| Demand { amount: *amount, ..case.demands[*at].clone() };
    case.demands = amounts.iter().map(demand).collect();
    for item in &mut case.items {
        let met = item.meets.iter();
        let met = met.filter_map(|(at, met)| Some((amounts.iter().position(|(own, _)| own == at)?, *met)));
        item.meets = met.collect();
    }
}

/// Forgets functions and stocks that nothing left asks for; says which items still matter.
fn prune(case: &mut Case, stakes: &mut Stakes) -> Vec<bool> {
    let mut functions = vec![false; case.functions.len()];
    let mut stocks = vec![false; case.stocks.len()];
    for repair in case.failures.iter().flat_map(|failure| &failure.repairs) {
        repair.needs.iter().for_each(|(function, _)| functions[*function] = true);
        repair.uses.iter().for_each(|(stock, _)| stocks[*stock] = true);
    }
    let mut matters = vec![false; case.items.len()];
    loop {
        let before = (functions.clone(), matters.clone());
        for at in 0..functions.len() {
            if functions[at] {
                case.functions[at].also_from.iter().flatten().for_each(|part| functions[*part] = true);
            }
        }
        for (matters, item) in matters.iter_mut().zip(&case.items) {
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
    for (_, function) in case.functions.iter_mut().enumerate().filter(|(at, _)| !functions[*at]) {
        function.also_from.clear();
    }
    for (item, matters) in case.items.iter_mut().zip(&matters) {
        item.provides.retain(|(function, _)| functions[*function]);
        item.holds.retain(|(stock, _)| stocks[*stock]);
        if !*matters {
            item.requires.clear();
        }
    }
    for (ladder, asked) in stakes.ladders.iter_mut().zip(&stocks) {
        if !*asked {
            *ladder = Ladder { step: ladder.step, shares: Vec::new() };
        }
    }
    matters
}
