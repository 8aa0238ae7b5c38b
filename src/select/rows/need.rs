//! What the trip demands is there: `sum of met n >= amount`. Hard; see `relax` for when it cannot hold.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::select::Columns;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case) {
    for (at, demand) in case.demands.iter().enumerate() {
        let met = case.items.iter().zip(&columns.n).filter_map(|(item, n)| {
            let (_, amount) = item.meets.iter().find(|(met, _)| *met == at)?;
            // More than the demand from one unit is no better than the demand: a tighter relaxation.
            Some((*n, amount.min(demand.amount) / demand.amount))
        });
        model.row("need", demand.id.clone(), met.collect(), Sense::AtLeast, 1.0);
    }
}
