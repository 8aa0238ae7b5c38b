//! The rider's own limits: mass of the kit, money for what is not owned.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::select::Columns;

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case) {
    if let Some(cap) = case.kit_mass {
        let terms = case.items.iter().zip(&columns.n).map(|(item, n)| (*n, item.mass.grams())).collect();
        model.row("cap", "kit mass, g".to_owned(), terms, Sense::AtMost, cap.grams());
    }
    if let Some(cap) = case.budget {
        let mut terms = Vec::new();
        for (at, item) in case.items.iter().enumerate() {
            match columns.buy[at] {
                Some(buy) => terms.push((buy, item.price.units())),
                None if item.owned == 0 => terms.push((columns.n[at], item.price.units())),
                None => {}
            }
        }
        model.row("cap", "budget".to_owned(), terms, Sense::AtMost, cap.units());
    }
    for (at, item) in case.items.iter().enumerate() {
        if let Some(buy) = columns.buy[at] {
            let terms = vec![(columns.n[at], 1.0), (buy, -1.0)];
            model.row("buy", item.id.clone(), terms, Sense::AtMost, f64::from(item.owned));
        }
    }
}
