//! What `stow` found cannot go together: not all of these counts at once. Room only shrinks as things are added, so
//! every larger kit is ruled out as well.

use crate::resolve::Instance;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Item numbers with counts that cannot be stowed together.
pub type Cut = Vec<(usize, u32)>;

/// Adds the rows of every cut.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance, cuts: &[Cut]) {
    for (number, cut) in cuts.iter().enumerate() {
        not_all(model, instance, number, cut, |item| columns.n[item]);
    }
}

/// `n <= count - 1 + (most - count + 1) w` for each item, and not all `w`; `n` is the item's column. Nothing where one of
/// the counts cannot be reached anyway.
pub fn not_all(
    model: &mut Model,
    instance: &Instance,
    number: usize,
    cut: &[(usize, u32)],
    column: impl Fn(usize) -> usize,
) {
    let below = |count: u32| f64::from(count) - 1.0;
    if cut.iter().any(|(item, count)| model.columns[column(*item)].upper <= below(*count)) {
        return;
    }
    let mut reached = Vec::with_capacity(cut.len());
    for (item, count) in cut {
        let n = column(*item);
        let (most, below) = (model.columns[n].upper, below(*count));
        let key = format!("{number} {}", instance.items[*item].id);
        let w = model.column(format!("w[{key}]"), (0.0, 1.0), true, 0.0);
        model.row("reach", key, vec![(n, 1.0), (w, below - most)], Sense::AtMost, below);
        reached.push((w, 1.0));
    }
    if !reached.is_empty() {
        #[allow(clippy::cast_precision_loss, reason = "a handful of items")]
        let most = reached.len() as f64 - 1.0;
        model.row("cut", number.to_string(), reached, Sense::AtMost, most);
    }
}
