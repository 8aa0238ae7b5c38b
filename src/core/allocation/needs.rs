//! What a part of the group needs with it on legs of its own, where things are handed out.

use super::{Columns, Holdings, Situation};
use crate::resolve::Instance;
use fardel_milp::{Model, Sense};

/// Shares of a need below this are rounding.
const ROUNDING: f64 = 1e-9;

/// The needs, by number, that those present do not meet with what they carry; what lacks something that it requires does
/// not count.
#[must_use]
pub fn lacking(situation: &Situation, holdings: &Holdings) -> Vec<usize> {
    let held = situation.held(holdings);
    let short = |(demand, wanted): &&(usize, f64)| situation.instance.met(*demand, &held) < wanted * (1.0 - ROUNDING);
    situation.instance.needed_apart(&situation.present).iter().filter(short).map(|(demand, _)| *demand).collect()
}

/// Those present carry what they need, of the things that they could use when the kit was chosen.
pub fn add_needs(model: &mut Model, columns: &Columns, instance: &Instance, situation: &Situation, chosen: &Holdings) {
    let held = situation.held(chosen);
    let riders = situation.riders();
    let who: Vec<&str> = riders.iter().map(|rider| instance.mounts[*rider].rider.as_str()).collect();
    for (demand, amount) in situation.instance.needed_apart(&situation.present) {
        let useful = instance.items.iter().enumerate().filter(|(item, _)| held[*item] > 0);
        let terms = useful.flat_map(|(item, own)| {
            let share = met_by_one(&own.meets, *demand).min(*amount) / amount;
            riders.iter().map(move |rider| (*rider, item, share))
        });
        let terms = terms.map(|(rider, item, share)| (columns.y[rider][item], share));
        let terms = terms.filter(|(y, share)| *share > 0.0 && model.columns[*y].upper > 0.0).collect();
        let key = format!("{} with {}", instance.demands[*demand].id, who.join("+"));
        model.row("need", key, terms, Sense::AtLeast, 1.0);
    }
}

fn met_by_one(meets: &[(usize, f64)], demand: usize) -> f64 {
    meets.iter().find(|(met, _)| *met == demand).map_or(0.0, |(_, amount)| *amount)
}
