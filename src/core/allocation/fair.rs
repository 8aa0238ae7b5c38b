//! What makes one handing out better than another, in this order: the largest load for its rider's share is as small
//! as can be; then few moves from where things are now; then loads near each other, and spares with a bike they fit.

use super::Columns;
use super::preferences::Preferences;
use crate::resolve::Instance;
use fardel_milp::{Model, Sense};

/// Dislike of each unit that changes hands.
const PER_MOVE: f64 = 10.0;
/// Dislike of a load below its share, as a share of it.
const PER_SPREAD: f64 = 1.0;
/// Dislike of a kilogram of spares on a bike they do not fit.
const PER_KG_ASTRAY: f64 = 0.05;

/// Adds a column for the largest load relative to its share, and the rows that make it so; returns the column.
pub fn largest(
    model: &mut Model,
    columns: &Columns,
    instance: &Instance,
    preferences: &Preferences,
    total_kg: f64,
) -> usize {
    let most = 1.0 / preferences.fair.iter().copied().fold(f64::INFINITY, f64::min);
    let largest = model.column("largest".to_owned(), (0.0, most.max(1.0) + 1.0), false, 0.0);
    against_shares(model, columns, instance, preferences, total_kg, (largest, "most", Sense::AtMost));
    largest
}

/// Rows that hold every rider's load, relative to its share, on one side of a column.
fn against_shares(
    model: &mut Model,
    columns: &Columns,
    instance: &Instance,
    preferences: &Preferences,
    total_kg: f64,
    (column, word, sense): (usize, &str, Sense),
) {
    for (rider, fair) in preferences.fair.iter().enumerate() {
        let mut terms = load(columns, instance, rider, fair * total_kg);
        terms.push((column, -1.0));
        model.row("fair", format!("{}, {word}", instance.mounts[rider].rider), terms, sense, 0.0);
    }
}

/// Adds the lesser wishes as gains; returns the column of the lightest load relative to its share.
pub fn lesser(
    model: &mut Model,
    columns: &Columns,
    instance: &Instance,
    preferences: &Preferences,
    total_kg: f64,
) -> usize {
    let least = model.column("least".to_owned(), (0.0, 1.0), false, PER_SPREAD);
    against_shares(model, columns, instance, preferences, total_kg, (least, "least", Sense::AtLeast));
    for (item, own) in instance.items.iter().enumerate() {
        let Some(fits) = fitting(instance, item) else { continue };
        for rider in (0..instance.mounts.len()).filter(|rider| !fits.contains(rider)) {
            model.columns[columns.y[rider][item]].gain -= PER_KG_ASTRAY * own.mass.kilograms();
        }
    }
    if let Some(before) = &preferences.before {
        for (_, moved) in moves(model, columns, instance, before) {
            model.columns[moved].gain -= PER_MOVE;
        }
    }
    least
}

/// Adds a column for every unit that a rider has more of than before; `(rider, column)`.
pub fn moves(model: &mut Model, columns: &Columns, instance: &Instance, before: &[Vec<u32>]) -> Vec<(usize, usize)> {
    let mut all = Vec::new();
    for (rider, own) in columns.y.iter().enumerate() {
        for (item, y) in own.iter().enumerate() {
            let (had, most) = (f64::from(before[rider][item]), model.columns[*y].upper);
            if most > had {
                let key = format!("{} {}", instance.items[item].id, instance.mounts[rider].rider);
                let moved = model.column(format!("moved[{key}]"), (0.0, most - had), false, 0.0);
                model.row("moved", key, vec![(*y, 1.0), (moved, -1.0)], Sense::AtMost, had);
                all.push((rider, moved));
            }
        }
    }
    all
}

/// No more than so many units change hands.
pub fn limit_moves(model: &mut Model, columns: &Columns, instance: &Instance, before: &[Vec<u32>], most: u32) {
    let moved = moves(model, columns, instance, before).into_iter().map(|(_, column)| (column, 1.0)).collect();
    model.row("moved", "all".to_owned(), moved, Sense::AtMost, f64::from(most));
}

/// A rider's load as a multiple of `share_kg`.
fn load(columns: &Columns, instance: &Instance, rider: usize, share_kg: f64) -> Vec<(usize, f64)> {
    let each = instance.items.iter().zip(&columns.y[rider]);
    each.map(|(item, y)| (*y, item.mass.kilograms() / share_kg.max(1e-9))).collect()
}

/// The riders whose bikes a spare helps, where it does not help all of them alike; `None` for anything else.
fn fitting(instance: &Instance, item: usize) -> Option<Vec<usize>> {
    let own = &instance.items[item];
    if own.holds.is_empty() || own.owner.is_some() {
        return None;
    }
    let uses = |failure: &&crate::resolve::InstanceFailure| {
        let used = failure.repairs.iter().flat_map(|repair| &repair.uses);
        used.into_iter().any(|(stock, _)| own.holds.iter().any(|(held, _)| held == stock))
    };
    let mut riders: Vec<usize> = instance.failures.iter().filter(uses).flat_map(|f| f.riders.clone()).collect();
    riders.sort_unstable();
    riders.dedup();
    (riders.len() < instance.mounts.len()).then_some(riders)
}
