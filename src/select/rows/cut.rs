//! What `stow` found cannot go together: not all of these counts at once. Room only shrinks as things are added, so
//! every larger kit is ruled out as well.

use crate::engine::{Model, Sense};
use crate::resolve::Case;
use crate::select::Columns;

/// Item numbers with counts that cannot be stowed together.
pub type Cut = Vec<(usize, u32)>;

/// Adds the rows: `n <= count - 1 + (most - count + 1) w` for each, and not all `w`.
pub fn add(model: &mut Model, columns: &Columns, case: &Case, cuts: &[Cut]) {
    for (number, cut) in cuts.iter().enumerate() {
        let mut reached = Vec::with_capacity(cut.len());
        for (item, count) in cut {
            let most = f64::from(columns.most[*item]);
            let below = f64::from(*count) - 1.0;
            let w = model.column(format!("w[{number} {}]", case.items[*item].id), (0.0, 1.0), true, 0.0);
            let key = format!("{number} {}", case.items[*item].id);
            model.row("reach", key, vec![(columns.n[*item], 1.0), (w, below - most)], Sense::AtMost, below);
            reached.push((w, 1.0));
        }
        #[allow(clippy::cast_precision_loss, reason = "a handful of items")]
        let most = cut.len() as f64 - 1.0;
        model.row("cut", number.to_string(), reached, Sense::AtMost, most);
    }
}
