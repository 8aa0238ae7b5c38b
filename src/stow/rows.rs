//! The constraint families of stowing.

use super::Columns;
use crate::domain::{Kind, Side};
use crate::engine::{Model, Sense};
use crate::resolve::Case;

/// Difference between the sides that a rider does not notice. Common practice, no source: 1 kg packed by hand.
const TOLERATED_LEAN_KG: f64 = 1.0;

/// Adds every family.
pub(super) fn add_all(model: &mut Model, columns: &Columns, case: &Case, counts: &[u32]) {
    placed(model, columns, case, counts);
    room(model, columns, case);
    lean(model, columns, case);
    apart(model, columns, case, counts);
}

/// Adds every family for a kit that is itself being chosen; leaning is only a preference and is left out.
pub(super) fn add_joint(model: &mut Model, columns: &Columns, case: &Case, most: &[u32], n: &[usize]) {
    for (at, item) in case.items.iter().enumerate() {
        let there = columns.x[at].iter().map(|(_, column)| (*column, 1.0));
        let terms: Vec<(usize, f64)> = there.chain([(n[at], -1.0)]).collect();
        model.row("placed", item.id.clone(), terms.clone(), Sense::AtLeast, 0.0);
        model.row("placed", item.id.clone(), terms, Sense::AtMost, 0.0);
    }
    room(model, columns, case);
    apart(model, columns, case, most);
}

/// Every unit is in exactly one bag (stated as two rows, so that the model knows one kind of comparison only).
fn placed(model: &mut Model, columns: &Columns, case: &Case, counts: &[u32]) {
    for (at, item) in case.items.iter().enumerate().filter(|(at, _)| counts[*at] > 0) {
        let terms: Vec<(usize, f64)> = columns.x[at].iter().map(|(_, column)| (*column, 1.0)).collect();
        model.row("placed", item.id.clone(), terms.clone(), Sense::AtLeast, f64::from(counts[at]));
        model.row("placed", item.id.clone(), terms, Sense::AtMost, f64::from(counts[at]));
    }
}

/// What is in a bag fits its room and its load limit.
fn room(model: &mut Model, columns: &Columns, case: &Case) {
    for (at, bag) in case.bags.iter().enumerate() {
        let inside = |measure: fn(&crate::resolve::CaseItem) -> f64| -> Vec<(usize, f64)> {
            let all = case.items.iter().zip(&columns.x);
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

/// Left and right differ by no more than what is tolerated, or the difference is disliked.
fn lean(model: &mut Model, columns: &Columns, case: &Case) {
    let Some(lean) = columns.lean else { return };
    let mut difference = Vec::new();
    for (item, x) in case.items.iter().zip(&columns.x) {
        for (bag, column) in x {
            let sign = match case.bags[*bag].side {
                Side::Left => 1.0,
                Side::Right => -1.0,
                Side::Centre => continue,
            };
            difference.push((*column, sign * item.mass.kilograms()));
        }
    }
    let negated = difference.iter().map(|(column, c)| (*column, -c));
    let right: Vec<(usize, f64)> = negated.chain([(lean, -1.0)]).collect();
    difference.push((lean, -1.0));
    model.row("lean", "left".to_owned(), difference, Sense::AtMost, TOLERATED_LEAN_KG);
    model.row("lean", "right".to_owned(), right, Sense::AtMost, TOLERATED_LEAN_KG);
}

/// Things that must not share a bag: for each bag, either the wary ones are in it or the offending kind, never both.
fn apart(model: &mut Model, columns: &Columns, case: &Case, counts: &[u32]) {
    let mut wishes: Vec<&Vec<Kind>> = Vec::new();
    for (item, count) in case.items.iter().zip(counts) {
        if *count > 0 && !item.apart_from.is_empty() && !wishes.contains(&&item.apart_from) {
            wishes.push(&item.apart_from);
        }
    }
    for (number, wish) in wishes.into_iter().enumerate() {
        for (at, bag) in case.bags.iter().enumerate() {
            let here = |i: usize| columns.x[i].iter().find(|(b, _)| *b == at).map(|(_, column)| *column);
            let wary = (0..case.items.len()).filter(|i| case.items[*i].apart_from == *wish);
            let wary: Vec<(usize, usize)> = wary.filter_map(|i| Some((i, here(i)?))).collect();
            let offending = (0..case.items.len()).filter(|i| wish.contains(&case.items[*i].kind));
            let offending: Vec<(usize, usize)> = offending.filter_map(|i| Some((i, here(i)?))).collect();
            if wary.is_empty() || offending.is_empty() {
                continue;
            }
            let side = model.column(format!("apart[{number} {}]", bag.id), (0.0, 1.0), true, 0.0);
            for (i, column) in wary {
                let key = format!("{} in {}", case.items[i].id, bag.id);
                model.row("apart", key, vec![(column, 1.0), (side, -f64::from(counts[i]))], Sense::AtMost, 0.0);
            }
            for (i, column) in offending {
                let most = f64::from(counts[i]);
                let key = format!("{} in {}", case.items[i].id, bag.id);
                model.row("apart", key, vec![(column, 1.0), (side, most)], Sense::AtMost, most);
            }
        }
    }
}
