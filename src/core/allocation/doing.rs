//! What a part of the group can do with its part of the kit, as rows: a copy of the families that say what a kit does, and
//! of what the legs demand that it rides without the others, over the units that those present carry.

use super::Columns;
use super::narrow::Narrow;
use crate::select;
use fardel_milp::{Model, Sense};

/// Adds the copy; the hours that repairs save in it are gains.
pub fn add(model: &mut Model, columns: &Columns, narrow: &Narrow) {
    let riders: Vec<usize> = (0..narrow.present.len()).filter(|rider| narrow.present[*rider]).collect();
    let most: Vec<f64> = (0..narrow.instance.items.len())
        .map(|item| riders.iter().map(|rider| model.columns[columns.y[*rider][item]].upper).sum())
        .collect();
    let who: Vec<&str> = riders.iter().map(|rider| narrow.instance.mounts[*rider].rider.as_str()).collect();
    let who = who.join("+");
    let mut there = Vec::with_capacity(most.len());
    for (item, own) in narrow.instance.items.iter().enumerate() {
        let upper = if narrow.matters[item] { most[item] } else { 0.0 };
        let with = model.column(format!("with[{} {who}]", own.id), (0.0, upper), false, 0.0);
        if upper > 0.0 {
            let held = riders.iter().map(|rider| (columns.y[*rider][item], -1.0));
            let terms = std::iter::once((with, 1.0)).chain(held).collect();
            model.row("present", format!("{} {who}", own.id), terms, Sense::AtMost, 0.0);
        }
        there.push(with);
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of units")]
    let most = most.iter().map(|most| most.round() as u32).collect();
    let none = vec![None; there.len()];
    let doing = select::Columns::on(model, &narrow.instance, &narrow.risk_model, there, most, none);
    select::add_doing(model, &doing, &narrow.instance, &narrow.risk_model);
    select::add_needs(model, &doing, &narrow.instance);
}
