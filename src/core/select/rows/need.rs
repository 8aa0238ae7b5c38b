//! What the trip demands is there: `sum of met n >= amount`. Hard; see `relax` for when it cannot hold.

use crate::resolve::Instance;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (at, demand) in instance.demands.iter().enumerate() {
        let met = instance.items.iter().zip(&columns.n).filter_map(|(item, n)| {
            let (_, amount) = item.meets.iter().find(|(met, _)| *met == at)?;
            // More than the demand from one unit is no better than the demand: a tighter relaxation.
            Some((*n, amount.min(demand.amount) / demand.amount))
        });
        let met: Vec<(usize, f64)> = met.collect();
        without(model, columns, instance, at, &met);
        model.row("need", demand.id.clone(), met, Sense::AtLeast, 1.0);
    }
}

/// Tightening: what is met without a function, or the function, must cover the demand. Half a canister must not be had
/// with half a stove.
fn without(model: &mut Model, columns: &Columns, instance: &Instance, demand: usize, met: &[(usize, f64)]) {
    let meeting =
        || instance.items.iter().zip(&columns.n).filter(|(i, _)| i.meets.iter().any(|(met, _)| *met == demand));
    let mut required: Vec<(usize, u32)> = meeting().flat_map(|(item, _)| item.requires.clone()).collect();
    required.sort_unstable();
    required.dedup();
    for (function, count) in required {
        let Some(there) = columns.there(function, count.max(1)) else { continue };
        let free = meeting().filter(|(item, _)| !item.requires.contains(&(function, count)));
        let free: Vec<usize> = free.map(|(_, n)| *n).collect();
        let mut terms: Vec<(usize, f64)> = met.iter().copied().filter(|(n, _)| free.contains(n)).collect();
        terms.push((there, 1.0));
        let key = format!("{} or {}", instance.demands[demand].id, instance.functions[function].id);
        model.row("without", key, terms, Sense::AtLeast, 1.0);
    }
}
