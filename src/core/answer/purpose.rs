//! What each item of a kit is there for.

use crate::resolve::Instance;
use crate::risk::{KitValue, RiskModel};
use fardel_words::say;

/// For one item: the needs it meets, the failures it helps to mend, the most valuable first, and the items that are
/// useless without it.
#[must_use]
pub(super) fn purposes(
    instance: &Instance,
    risk_model: &RiskModel,
    value: &KitValue,
    counts: &[u32],
    item: usize,
) -> Vec<String> {
    let own = &instance.items[item];
    let wanted = wanted_functions(instance, own.provides.iter().map(|(function, _)| *function).collect());
    let mut failures: Vec<(f64, &str)> = Vec::new();
    for (f, failure) in instance.failures.iter().enumerate() {
        let helped = failure.repairs.iter().enumerate().filter(|(r, repair)| {
            value.shares[f][*r] > 0.0
                && (repair.needs.iter().any(|(function, _)| wanted.contains(function))
                    || repair.uses.iter().any(|(stock, _)| own.holds.iter().any(|(held, _)| held == stock)))
        });
        let hours: f64 = helped.map(|(r, _)| value.shares[f][r] * risk_model.repairs[f][r].benefit).sum();
        // Bikes that are not alike suffer failures of one name: it is told once.
        match failures.iter_mut().find(|(_, name)| *name == failure.name) {
            Some((known, _)) => *known += hours,
            None if hours > 0.0 => failures.push((hours, &failure.name)),
            None => {}
        }
    }
    failures.sort_by(|a, b| b.0.total_cmp(&a.0));
    let needs = own.meets.iter().map(|(demand, _)| instance.demands[*demand].name.clone());
    let others = instance.items.iter().zip(counts).filter(|(other, count)| {
        **count > 0 && other.id != own.id && other.requires.iter().any(|(function, _)| wanted.contains(function))
    });
    let others = others.map(|(other, _)| say!("needed for {}", other.name));
    needs.chain(failures.into_iter().map(|(_, name)| name.to_owned())).chain(others).collect()
}

/// These functions and all that can be combined from them.
fn wanted_functions(instance: &Instance, mut own: Vec<usize>) -> Vec<usize> {
    loop {
        let more: Vec<usize> = (0..instance.functions.len())
            .filter(|at| !own.contains(at))
            .filter(|at| instance.functions[*at].also_from.iter().flatten().any(|part| own.contains(part)))
            .collect();
        if more.is_empty() {
            return own;
        }
        own.extend(more);
    }
}
