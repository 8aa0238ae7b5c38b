//! The riders' own limits: mass and volume of the kit, money for what is not owned.

use crate::resolve::{Case, Measure};
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, case: &Case) {
    if let Some(cap) = case.kit_mass {
        let terms = case.items.iter().zip(&columns.n).map(|(item, n)| (*n, item.mass.grams())).collect();
        model.row("cap", Measure::Mass.key().to_owned(), terms, Sense::AtMost, cap.grams());
    }
    if let Some(cap) = case.kit_volume {
        let terms = case.items.iter().zip(&columns.n).map(|(item, n)| (*n, item.volume.millilitres())).collect();
        model.row("cap", Measure::Volume.key().to_owned(), terms, Sense::AtMost, cap.millilitres());
    }
    if case.own_kit_mass.len() > 1 {
        personal(model, columns, case);
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
        model.row("cap", Measure::Money.key().to_owned(), terms, Sense::AtMost, cap.units());
    }
    for (at, item) in case.items.iter().enumerate() {
        if let Some(buy) = columns.buy[at] {
            let terms = vec![(columns.n[at], 1.0), (buy, -1.0)];
            model.row("buy", item.id.clone(), terms, Sense::AtMost, f64::from(item.owned));
        }
    }
}

/// What stays with its owner is within the owner's limit; who carries the rest is decided later.
fn personal(model: &mut Model, columns: &Columns, case: &Case) {
    for (rider, cap) in case.own_kit_mass.iter().enumerate() {
        let Some(cap) = cap else { continue };
        let own = case.items.iter().zip(&columns.n).filter(|(item, _)| item.owner == Some(rider));
        let terms: Vec<(usize, f64)> = own.map(|(item, n)| (*n, item.mass.grams())).collect();
        if !terms.is_empty() {
            model.row("cap", format!("kit mass of rider {}, g", rider + 1), terms, Sense::AtMost, cap.grams());
        }
    }
}
