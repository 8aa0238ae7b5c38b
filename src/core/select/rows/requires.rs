//! An item that is useless without a function comes only with it: `n <= most x h`.

use crate::resolve::Instance;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    for ((item, n), most) in instance.items.iter().zip(&columns.n).zip(&columns.most) {
        for (function, count) in &item.requires {
            if let Some(there) = columns.there(*function, (*count).max(1)) {
                let most = f64::from(*most);
                let key = format!("{} with {}", item.id, instance.functions[*function].id);
                model.row("requires", key, vec![(*n, 1.0), (there, -most)], Sense::AtMost, 0.0);
            }
        }
    }
}
