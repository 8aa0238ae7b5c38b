//! A ladder is climbed as far as the units carried reach: `step x sum of z <= sum of held n`. Rungs are worth less the
//! higher they are, so they fill from the bottom by themselves. Where a repair takes several units at once and less
//! could be carried, `enough` says that so many are there: `units x enough <= sum of held n`.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::risk::Stakes;
use crate::select::Columns;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case, stakes: &Stakes) {
    for (at, stock) in case.stocks.iter().enumerate() {
        let step = f64::from(stakes.ladders[at].step);
        let held = |at_most: u32, per: f64| -> Vec<(usize, f64)> {
            let all = case.items.iter().zip(&columns.n);
            all.filter_map(|(item, n)| {
                let (_, each) = item.holds.iter().find(|(held, _)| *held == at)?;
                Some((*n, -f64::from((*each).min(at_most)) / per))
            })
            .collect()
        };
        if !columns.z[at].is_empty() {
            let rungs = columns.z[at].iter().map(|z| (*z, 1.0));
            model.row("stock", stock.clone(), rungs.chain(held(u32::MAX, step)).collect(), Sense::AtMost, 0.0);
        }
        for (units, enough) in &columns.enough[at] {
            let terms = std::iter::once((*enough, f64::from(*units))).chain(held(*units, 1.0)).collect();
            model.row("enough", format!("{stock} x{units}"), terms, Sense::AtMost, 0.0);
        }
    }
}
