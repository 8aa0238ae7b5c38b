//! How far a stock reaches. A ladder is climbed as far as the units carried reach: `step x sum of z <= sum of held n`;
//! rungs are worth less the higher they are, so they fill from the bottom by themselves. `fill <= sum of share z`.
//!
//! Two further families only tighten: a fraction of a patch kit must not look as good as its first patches, so
//! `fill <= sum of fill(held by one) n`, which holds for whole kits because the ladder is concave. And where a repair
//! takes several units at once and less could be carried, `enough` says that so many are there:
//! `units x enough <= sum of held n`.

use crate::resolve::Instance;
use crate::risk::RiskModel;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the rows.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance, risk_model: &RiskModel) {
    for (at, stock) in instance.stocks.iter().enumerate() {
        let ladder = &risk_model.ladders[at];
        let held = |worth: &dyn Fn(u32) -> f64| -> Vec<(usize, f64)> {
            let all = instance.items.iter().zip(&columns.n);
            let own = all.filter_map(|(item, n)| Some((*n, item.holds.iter().find(|(held, _)| *held == at)?.1)));
            own.map(|(n, units)| (n, -worth(units))).collect()
        };
        let fill = (columns.fill[at], 1.0);
        let climbed = columns.z[at].iter().zip(&ladder.shares).map(|(z, share)| (*z, -share));
        model.row("fill", stock.clone(), std::iter::once(fill).chain(climbed).collect(), Sense::AtMost, 0.0);
        let each = held(&|units| ladder.fill(units));
        model.row("fill", format!("{stock}, whole items"), with(fill, each), Sense::AtMost, 0.0);
        let rungs = columns.z[at].iter().map(|z| (*z, 1.0));
        let carried = held(&|units| f64::from(units) / f64::from(ladder.step));
        model.row("stock", stock.clone(), rungs.chain(carried).collect(), Sense::AtMost, 0.0);
        for (units, enough) in &columns.enough[at] {
            let terms = with((*enough, f64::from(*units)), held(&|held| f64::from(held.min(*units))));
            model.row("enough", format!("{stock} x{units}"), terms, Sense::AtMost, 0.0);
        }
    }
}

fn with(first: (usize, f64), rest: Vec<(usize, f64)>) -> Vec<(usize, f64)> {
    std::iter::once(first).chain(rest).collect()
}
