//! The riders' own limits: mass and volume of the kit, money for what is not owned.

use crate::resolve::{Instance, Measure};
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    if let Some(cap) = instance.kit_mass {
        let terms = instance.items.iter().zip(&columns.n).map(|(item, n)| (*n, item.mass.grams())).collect();
        model.row("cap", Measure::Mass.key().to_owned(), terms, Sense::AtMost, cap.grams());
    }
    if let Some(cap) = instance.kit_volume {
        let terms = instance.items.iter().zip(&columns.n).map(|(item, n)| (*n, item.volume.millilitres())).collect();
        model.row("cap", Measure::Volume.key().to_owned(), terms, Sense::AtMost, cap.millilitres());
    }
    if instance.own_kit_mass.len() > 1 {
        personal(model, columns, instance);
    }
    if let Some(cap) = instance.budget {
        let mut terms = Vec::new();
        for (at, item) in instance.items.iter().enumerate() {
            match columns.buy[at] {
                Some(buy) => terms.push((buy, item.price.units())),
                None if item.owned == 0 => terms.push((columns.n[at], item.price.units())),
                None => {}
            }
        }
        model.row("cap", Measure::Money.key().to_owned(), terms, Sense::AtMost, cap.units());
    }
    for (at, item) in instance.items.iter().enumerate() {
        if let Some(buy) = columns.buy[at] {
            let terms = vec![(columns.n[at], 1.0), (buy, -1.0)];
            model.row("buy", item.id.clone(), terms, Sense::AtMost, f64::from(item.owned));
        }
    }
}

/// What stays with its owner is within the owner's limit; who carries the rest is decided later.
fn personal(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (rider, cap) in instance.own_kit_mass.iter().enumerate() {
        let Some(cap) = cap else { continue };
        let own = instance.items.iter().zip(&columns.n).filter(|(item, _)| item.owner == Some(rider));
        let terms: Vec<(usize, f64)> = own.map(|(item, n)| (*n, item.mass.grams())).collect();
        if !terms.is_empty() {
            model.row("cap", format!("kit mass of rider {}, g", rider + 1), terms, Sense::AtMost, cap.grams());
        }
    }
}
