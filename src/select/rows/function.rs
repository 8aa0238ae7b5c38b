//! A function is there when enough items provide it: `q h <= sum of min(p, q) n`, or, one at a time, also when some
//! way to combine it is there: `way <= h of each part`.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::select::Columns;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case) {
    for (at, function) in case.functions.iter().enumerate() {
        for (count, column) in &columns.h[at] {
            let mut terms = vec![(*column, f64::from(*count))];
            for (item, n) in case.items.iter().zip(&columns.n) {
                if let Some((_, each)) = item.provides.iter().find(|(provided, _)| *provided == at) {
                    terms.push((*n, -f64::from(*each.min(count))));
                }
            }
            if *count == 1 {
                terms.extend(columns.ways[at].iter().map(|way| (*way, -1.0)));
            }
            model.row("function", format!("{} x{count}", function.id), terms, Sense::AtMost, 0.0);
        }
        for (way, parts) in columns.ways[at].iter().zip(&function.also_from) {
            for part in parts {
                if let Some(there) = columns.there(*part, 1) {
                    let key = format!("{} from {}", function.id, case.functions[*part].id);
                    model.row("combine", key, vec![(*way, 1.0), (there, -1.0)], Sense::AtMost, 0.0);
                }
            }
        }
    }
}
