//! A function is there when enough items provide it: `q h <= sum of min(p, q) n`, or, one at a time, also when some
//! way to combine it is there: `way <= h of each part`.
//!
//! Where several counts of one function are asked for (two tyre levers, three), two families only tighten: more implies
//! fewer, `h(3) <= h(2)`, and the steps add up, `2 h(2) + (3 - 2) h(3) <= sum of min(p, 3) n`.

use crate::resolve::Instance;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (at, function) in instance.functions.iter().enumerate() {
        for (count, column) in &columns.h[at] {
            let mut terms = vec![(*column, f64::from(*count))];
            for (item, n) in instance.items.iter().zip(&columns.n) {
                if let Some((_, each)) = item.provides.iter().find(|(provided, _)| *provided == at) {
                    terms.push((*n, -f64::from(*each.min(count))));
                }
            }
            if *count == 1 {
                terms.extend(columns.ways[at].iter().map(|way| (*way, -1.0)));
            }
            model.row("function", format!("{} x{count}", function.id), terms, Sense::AtMost, 0.0);
        }
        steps(model, columns, instance, at);
        for (way, parts) in columns.ways[at].iter().zip(&function.also_from) {
            for part in parts {
                if let Some(there) = columns.there(*part, 1) {
                    let key = format!("{} from {}", function.id, instance.functions[*part].id);
                    model.row("combine", key, vec![(*way, 1.0), (there, -1.0)], Sense::AtMost, 0.0);
                }
            }
        }
    }
}

/// The tightening rows where one is not enough.
fn steps(model: &mut Model, columns: &Columns, instance: &Instance, function: usize) {
    // A combination counts as one and is in none of these sums, so counting starts at two.
    let asked: Vec<(u32, usize)> = columns.h[function].iter().copied().filter(|(count, _)| *count > 1).collect();
    let id = &instance.functions[function].id;
    for pair in columns.h[function].windows(2) {
        let [(fewer, there), (more, both)] = pair else { continue };
        model.row("implies", format!("{id} x{more}, x{fewer}"), vec![(*both, 1.0), (*there, -1.0)], Sense::AtMost, 0.0);
    }
    let Some((most, _)) = asked.last().filter(|_| asked.len() > 1) else { return };
    let mut before = 0;
    let mut terms = Vec::new();
    for (count, column) in &asked {
        terms.push((*column, f64::from(count - before)));
        before = *count;
    }
    for (item, n) in instance.items.iter().zip(&columns.n) {
        if let Some((_, each)) = item.provides.iter().find(|(provided, _)| *provided == function) {
            terms.push((*n, -f64::from(*each.min(most))));
        }
    }
    model.row("function", format!("{id}, steps"), terms, Sense::AtMost, 0.0);
}
