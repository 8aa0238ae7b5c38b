//! What each item of a kit is there for.

use crate::resolve::Case;
use crate::risk::{KitValue, Stakes};

/// For one item: the needs it meets, the failures it helps to mend, the most valuable first, and the items that are
/// useless without it.
#[must_use]
pub(super) fn purposes(case: &Case, stakes: &Stakes, value: &KitValue, counts: &[u32], item: usize) -> Vec<String> {
    let own = &case.items[item];
    let wanted = wanted_functions(case, own.provides.iter().map(|(function, _)| *function).collect());
    let mut failures: Vec<(f64, &str)> = Vec::new();
    for (f, failure) in case.failures.iter().enumerate() {
        let helped = failure.repairs.iter().enumerate().filter(|(r, repair)| {
            value.shares[f][*r] > 0.0
                && (repair.needs.iter().any(|(function, _)| wanted.contains(function))
                    || repair.uses.iter().any(|(stock, _)| own.holds.iter().any(|(held, _)| held == stock)))
        });
        let hours: f64 = helped.map(|(r, _)| value.shares[f][r] * stakes.repairs[f][r].benefit).sum();
        // Bikes that are not alike suffer failures of one name: it is told once.
        match failures.iter_mut().find(|(_, name)| *name == failure.name) {
            Some((known, _)) => *known += hours,
            None if hours > 0.0 => failures.push((hours, &failure.name)),
            None => {}
        }
    }
    failures.sort_by(|a, b| b.0.total_cmp(&a.0));
    let needs = own.meets.iter().map(|(demand, _)| case.demands[*demand].name.clone());
    let others = case.items.iter().zip(counts).filter(|(other, count)| {
        **count > 0 && other.id != own.id && other.requires.iter().any(|(function, _)| wanted.contains(function))
    });
    let others = others.map(|(other, _)| format!("needed for {}", other.name));
    needs.chain(failures.into_iter().map(|(_, name)| name.to_owned())).chain(others).collect()
}

/// These functions and all that can be combined from them.
fn wanted_functions(case: &Case, mut own: Vec<usize>) -> Vec<usize> {
    loop {
        let more: Vec<usize> = (0..case.functions.len())
            .filter(|at| !own.contains(at))
            .filter(|at| case.functions[*at].also_from.iter().flatten().any(|part| own.contains(part)))
            .collect();
        if more.is_empty() {
            return own;
        }
        own.extend(more);
    }
}
