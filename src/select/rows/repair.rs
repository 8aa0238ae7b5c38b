//! Shares of a failure's occurrences: together not above one, each only with its functions and as far as its stock.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::risk::Stakes;
use crate::select::Columns;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case, stakes: &Stakes) {
    for (f, failure) in case.failures.iter().enumerate() {
        let shares: Vec<(usize, f64)> = columns.g[f].iter().flatten().map(|g| (*g, 1.0)).collect();
        if shares.len() > 1 {
            model.row("once", failure.id.clone(), shares, Sense::AtMost, 1.0);
        }
        for (repair, g) in failure.repairs.iter().zip(&columns.g[f]) {
            let Some(g) = *g else { continue };
            let key = |what: &str| format!("{} {} {what}", failure.id, repair.id);
            for (function, count) in &repair.needs {
                if let Some(there) = columns.there(*function, (*count).max(1)) {
                    let terms = vec![(g, 1.0), (there, -1.0)];
                    model.row("with", key(&case.functions[*function].id), terms, Sense::AtMost, 0.0);
                }
            }
            for (stock, units) in &repair.uses {
                if let Some((_, enough)) = columns.enough[*stock].iter().find(|(lump, _)| lump == units) {
                    let terms = vec![(g, 1.0), (*enough, -1.0)];
                    model.row("with", key(&case.stocks[*stock]), terms, Sense::AtMost, 0.0);
                }
                let mut terms = vec![(g, 1.0)];
                let ladder = columns.z[*stock].iter().zip(&stakes.ladders[*stock].shares);
                terms.extend(ladder.map(|(z, share)| (*z, -share)));
                model.row("from", key(&case.stocks[*stock]), terms, Sense::AtMost, 0.0);
            }
        }
    }
}
