//! The constraint families of handing out: every unit is with somebody, everybody's part fits on that rider's bike and
//! within that rider's limit, what is pinned to a role is with whoever has it, and parts that could not be stowed are
//! not tried again.

use super::Columns;
use super::part::part;
use super::preferences::Preferences;
use crate::resolve::Instance;
use crate::select::{PlainRow, not_all, plain_limits};
use fardel_milp::{Model, Sense};

/// Units of items that cannot be stowed together on one rider's bike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoGood {
    /// Whose bike.
    pub rider: usize,
    /// Item numbers with counts.
    pub units: Vec<(usize, u32)>,
}

/// How many there are of each item: given, or a column of its own.
pub enum Supply<'a> {
    /// So many units.
    Counts(&'a [u32]),
    /// As many as these columns say; only items that matter are handed out.
    Chosen {
        /// For each item, the column.
        n: &'a [usize],
        /// For each item: handed out here?
        matters: &'a [bool],
    },
}

/// Adds every family.
pub fn add_all(
    model: &mut Model,
    columns: &Columns,
    instance: &Instance,
    supply: &Supply<'_>,
    preferences: &Preferences,
    no_goods: &[NoGood],
) {
    handed(model, columns, instance, supply);
    for rider in 0..instance.mounts.len() {
        limits(model, columns, instance, rider);
    }
    pinned(model, columns, instance, preferences, supply);
    no_good(model, columns, instance, no_goods);
}

/// Every unit is with exactly one rider.
fn handed(model: &mut Model, columns: &Columns, instance: &Instance, supply: &Supply<'_>) {
    for (at, item) in instance.items.iter().enumerate() {
        if matches!(supply, Supply::Chosen { matters, .. } if !matters[at]) {
            continue;
        }
        let mut terms: Vec<(usize, f64)> = columns.y.iter().map(|own| (own[at], 1.0)).collect();
        let count = match supply {
            Supply::Counts(counts) => f64::from(counts[at]),
            Supply::Chosen { n, .. } => {
                terms.push((n[at], -1.0));
                0.0
            }
        };
        model.row("handed", item.id.clone(), terms.clone(), Sense::AtLeast, count);
        model.row("handed", item.id.clone(), terms, Sense::AtMost, count);
    }
}

/// A rider's part keeps that rider's limit, and what bags, bike and tyres bear as far as that can be said without
/// saying which bag. Rows that nothing could break are left out.
fn limits(model: &mut Model, columns: &Columns, instance: &Instance, rider: usize) {
    let own = part(instance, rider);
    let name = &instance.mounts[rider].rider;
    let cap = own.kit_mass.map(|cap| PlainRow {
        key: "kit mass, g".to_owned(),
        each: instance.items.iter().map(|item| item.mass.grams()).collect(),
        most: cap.grams(),
    });
    for PlainRow { key, each, most } in plain_limits(&own).into_iter().chain(cap) {
        let terms = columns.y[rider].iter().copied().zip(each);
        let terms: Vec<(usize, f64)> = terms.filter(|(y, each)| *each > 0.0 && model.columns[*y].upper > 0.0).collect();
        let heaviest: f64 = terms.iter().map(|(y, each)| each * model.columns[*y].upper).sum();
        if heaviest > most {
            model.row("part", format!("{name}: {key}"), terms, Sense::AtMost, most);
        }
    }
}

/// Of everything pinned to a role, those who have the role carry at least one, if the kit has any that they can carry.
fn pinned(model: &mut Model, columns: &Columns, instance: &Instance, preferences: &Preferences, supply: &Supply<'_>) {
    for pin in &preferences.pins {
        let giving = |item: &usize| match supply {
            Supply::Counts(counts) => counts[*item] > 0,
            Supply::Chosen { .. } => true,
        };
        let own =
            pin.riders.iter().flat_map(|rider| pin.items.iter().filter(|i| giving(i)).map(|i| columns.y[*rider][*i]));
        let terms: Vec<(usize, f64)> = own.filter(|y| model.columns[*y].upper > 0.0).map(|y| (y, 1.0)).collect();
        if terms.is_empty() {
            continue;
        }
        match supply {
            Supply::Counts(_) => model.row("pinned", pin.name.clone(), terms, Sense::AtLeast, 1.0),
            // Only if there is one at all: so many with the role, for any number in the kit.
            Supply::Chosen { n, .. } => {
                for item in &pin.items {
                    let most =
                        pin.riders.iter().map(|rider| model.columns[columns.y[*rider][*item]].upper).sum::<f64>();
                    let most = most.max(model.columns[n[*item]].upper);
                    if most > 0.0 {
                        let with = terms.iter().map(|(y, _)| (*y, most)).chain([(n[*item], -1.0)]).collect();
                        model.row(
                            "pinned",
                            format!("{}, {}", pin.name, instance.items[*item].id),
                            with,
                            Sense::AtLeast,
                            0.0,
                        );
                    }
                }
            }
        }
    }
}

/// Not all of these counts at once on that bike.
fn no_good(model: &mut Model, columns: &Columns, instance: &Instance, no_goods: &[NoGood]) {
    for (number, NoGood { rider, units }) in no_goods.iter().enumerate() {
        not_all(model, instance, number, units, |item| columns.y[*rider][item]);
    }
}
