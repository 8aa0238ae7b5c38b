//! Shares of a failure's occurrences: together not above one, each only with its functions and as far as its stock.
//!
//! Repairs of one failure that need the same function share a row, `sum of g <= h`: tighter than one row each, since
//! the shares together are at most one. For each stock, the repairs of one failure that draw on it share what there is of
//! it: `sum of g <= fill`.

use crate::domain::Pooling;
use crate::resolve::{Instance, InstanceFailure};
use crate::select::Columns;
use fardel_milp::{Model, Sense};
use std::collections::BTreeMap;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (f, failure) in instance.failures.iter().enumerate() {
        let shares: Vec<(usize, f64)> = columns.g[f].iter().flatten().map(|g| (*g, 1.0)).collect();
        if shares.len() > 1 {
            model.row("once", failure.id.clone(), shares, Sense::AtMost, 1.0);
        }
        with_functions(model, columns, instance, f, failure);
        from_stocks(model, columns, instance, f, failure);
    }
}

/// For each function and count: the repairs that need at least so many of it.
fn with_functions(model: &mut Model, columns: &Columns, instance: &Instance, f: usize, failure: &InstanceFailure) {
    let mut counts: BTreeMap<usize, Vec<u32>> = BTreeMap::new();
    for (function, count) in failure.repairs.iter().flat_map(|repair| &repair.needs) {
        counts.entry(*function).or_default().push((*count).max(1));
    }
    for (function, mut asked) in counts {
        asked.sort_unstable();
        asked.dedup();
        for count in asked {
            let needing = failure.repairs.iter().zip(&columns.g[f]).filter(|(repair, _)| {
                repair.needs.iter().any(|(needed, least)| *needed == function && (*least).max(1) >= count)
            });
            let mut terms: Vec<(usize, f64)> = needing.filter_map(|(_, g)| Some(((*g)?, 1.0))).collect();
            if let (Some(there), false) = (columns.there(function, count), terms.is_empty()) {
                terms.push((there, -1.0));
                let key = format!("{} {} x{count}", failure.id, instance.functions[function].id);
                model.row("with", key, terms, Sense::AtMost, 0.0);
            }
        }
    }
}

fn from_stocks(model: &mut Model, columns: &Columns, instance: &Instance, f: usize, failure: &InstanceFailure) {
    for (repair, g) in failure.repairs.iter().zip(&columns.g[f]) {
        let Some(g) = *g else { continue };
        for (stock, units) in &repair.uses {
            let key = format!("{} {} {}", failure.id, repair.id, instance.stocks[*stock]);
            if let Some((_, enough)) = columns.enough[*stock].iter().find(|(lump, _)| lump == units) {
                model.row("with", key.clone(), vec![(g, 1.0), (*enough, -1.0)], Sense::AtMost, 0.0);
            }
            if instance.pooling == Pooling::EveryRepair {
                model.row("from", key, vec![(g, 1.0), (columns.fill[*stock], -1.0)], Sense::AtMost, 0.0);
            }
        }
    }
    if instance.pooling == Pooling::EveryRepair {
        return;
    }
    let mut drawing: BTreeMap<usize, Vec<(usize, f64)>> = BTreeMap::new();
    for (repair, g) in failure.repairs.iter().zip(&columns.g[f]) {
        let Some(g) = *g else { continue };
        repair.uses.iter().for_each(|(stock, _)| drawing.entry(*stock).or_default().push((g, 1.0)));
    }
    for (stock, mut terms) in drawing {
        terms.push((columns.fill[stock], -1.0));
        model.row("from", format!("{} {}", failure.id, instance.stocks[stock]), terms, Sense::AtMost, 0.0);
    }
}
