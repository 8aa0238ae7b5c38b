//! The constraint families of stowing.

use super::Columns;
use super::columns::TOLERATED_LEAN_KG_M;
use crate::domain::Kind;
use crate::resolve::{Instance, Mount, Scale, mount};
use fardel_milp::{Model, Sense};

/// Adds every family.
pub(super) fn add_all(model: &mut Model, columns: &Columns, instance: &Instance, counts: &[u32]) {
    placed(model, columns, instance, counts);
    room(model, columns, instance);
    load(model, columns, instance);
    lean(model, columns, instance);
    apart(model, columns, instance, counts);
}

/// Adds every family for a kit that is itself being chosen; leaning is only a preference and is left out.
pub(super) fn add_joint(model: &mut Model, columns: &Columns, instance: &Instance, most: &[u32], n: &[usize]) {
    for (at, item) in instance.items.iter().enumerate() {
        let there = columns.x[at].iter().map(|(_, column)| (*column, 1.0));
        let terms: Vec<(usize, f64)> = there.chain([(n[at], -1.0)]).collect();
        model.row("placed", item.id.clone(), terms.clone(), Sense::AtLeast, 0.0);
        model.row("placed", item.id.clone(), terms, Sense::AtMost, 0.0);
    }
    room(model, columns, instance);
    load(model, columns, instance);
    apart(model, columns, instance, most);
}

/// Every unit is in exactly one bag (stated as two rows, so that the model knows one kind of comparison only).
fn placed(model: &mut Model, columns: &Columns, instance: &Instance, counts: &[u32]) {
    for (at, item) in instance.items.iter().enumerate().filter(|(at, _)| counts[*at] > 0) {
        let terms: Vec<(usize, f64)> = columns.x[at].iter().map(|(_, column)| (*column, 1.0)).collect();
        model.row("placed", item.id.clone(), terms.clone(), Sense::AtLeast, f64::from(counts[at]));
        model.row("placed", item.id.clone(), terms, Sense::AtMost, f64::from(counts[at]));
    }
}

/// What is in a bag fits its room and its load limit.
fn room(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (at, bag) in instance.bags.iter().enumerate() {
        let inside = |measure: fn(&crate::resolve::InstanceItem) -> f64| -> Vec<(usize, f64)> {
            let all = instance.items.iter().zip(&columns.x);
            all.filter_map(|(item, x)| Some((x.iter().find(|(b, _)| *b == at)?.1, measure(item)))).collect()
        };
        let volumes = inside(|item| item.volume.millilitres());
        if !volumes.is_empty() {
            model.row("room", format!("{}, mL", bag.id), volumes, Sense::AtMost, bag.usable().millilitres());
            let masses = inside(|item| item.mass.grams());
            model.row("room", format!("{}, g", bag.id), masses, Sense::AtMost, bag.max_load.grams());
        }
    }
}

/// The bags of each mount pull no further to one side than what is tolerated, or the difference is disliked. What the
/// empty bags pull counts, so that a lighter case gets more.
fn lean(model: &mut Model, columns: &Columns, instance: &Instance) {
    for (mount, lean) in instance.mounts.iter().zip(&columns.lean) {
        let Some(lean) = *lean else { continue };
        let pull = on(mount, columns, instance, |bag| mount::lean(&instance.bags[bag]));
        let to = |sign: f64| pull.iter().map(|(column, c)| (*column, sign * c)).chain([(lean, -1.0)]).collect();
        let key = |side: &str| format!("{} to the {side}, kg m", mount.rider);
        let (left, right) = (TOLERATED_LEAN_KG_M - mount.empty_lean, TOLERATED_LEAN_KG_M + mount.empty_lean);
        model.row("lean", key("left"), to(1.0), Sense::AtMost, left);
        model.row("lean", key("right"), to(-1.0), Sense::AtMost, right);
    }
}

/// Neither wheel, nor both together, carry more than bike and tyres bear. Rows that nothing could break are left out.
fn load(model: &mut Model, columns: &Columns, instance: &Instance) {
    for mount in &instance.mounts {
        for scale in Scale::ALL {
            let Some(spare) = mount.spare(scale) else { continue };
            let terms = on(mount, columns, instance, |bag| mount.charge(scale, instance.bags[bag].ahead));
            let heaviest: f64 = terms.iter().map(|(column, c)| c * model.columns[*column].upper).sum();
            if heaviest > spare {
                model.row("load", format!("{}, {} kg", mount.rider, scale.word()), terms, Sense::AtMost, spare);
            }
        }
    }
}

/// Kilograms of each unit in each bag of a mount, times what the bag makes of a kilogram.
fn on(mount: &Mount, columns: &Columns, instance: &Instance, of_bag: impl Fn(usize) -> f64) -> Vec<(usize, f64)> {
    let all = instance.items.iter().zip(&columns.x).flat_map(|(item, x)| x.iter().map(move |place| (item, place)));
    let here = all.filter(|(_, (bag, _))| mount.bags.contains(bag));
    here.map(|(item, (bag, column))| (*column, item.mass.kilograms() * of_bag(*bag))).collect()
}

/// Things that must not share a bag: for each bag, either the wary ones are in it or the offending kind, never both.
fn apart(model: &mut Model, columns: &Columns, instance: &Instance, counts: &[u32]) {
    let mut preferences: Vec<&Vec<Kind>> = Vec::new();
    for (item, count) in instance.items.iter().zip(counts) {
        if *count > 0 && !item.apart_from.is_empty() && !preferences.contains(&&item.apart_from) {
            preferences.push(&item.apart_from);
        }
    }
    for (number, wish) in preferences.into_iter().enumerate() {
        for (at, bag) in instance.bags.iter().enumerate() {
            let here = |i: usize| columns.x[i].iter().find(|(b, _)| *b == at).map(|(_, column)| *column);
            let wary = (0..instance.items.len()).filter(|i| instance.items[*i].apart_from == *wish);
            let wary: Vec<(usize, usize)> = wary.filter_map(|i| Some((i, here(i)?))).collect();
            let offending = (0..instance.items.len()).filter(|i| wish.contains(&instance.items[*i].kind));
            let offending: Vec<(usize, usize)> = offending.filter_map(|i| Some((i, here(i)?))).collect();
            if wary.is_empty() || offending.is_empty() {
                continue;
            }
            let side = model.column(format!("apart[{number} {}]", bag.id), (0.0, 1.0), true, 0.0);
            for (i, column) in wary {
                let key = format!("{} in {}", instance.items[i].id, bag.id);
                model.row("apart", key, vec![(column, 1.0), (side, -f64::from(counts[i]))], Sense::AtMost, 0.0);
            }
            for (i, column) in offending {
                let most = f64::from(counts[i]);
                let key = format!("{} in {}", instance.items[i].id, bag.id);
                model.row("apart", key, vec![(column, 1.0), (side, most)], Sense::AtMost, most);
            }
        }
    }
}
