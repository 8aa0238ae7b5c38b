//! The least to add to a kit so that one repair becomes possible: a small program of its own, limits aside.

use super::shapes::NamedCount;
use crate::resolve::{Instance, InstanceRepair, Measure};
use crate::risk::RiskModel;
use crate::select;
use crate::serial::{Listed, Number};
use crate::units::{Mass, Money};
use fardel_milp::{EngineError, Sense, SolveOptions};
use schemars::JsonSchema;
use serde::Serialize;

/// Things to add.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Set {
    /// Names and counts, in the order of the catalogue.
    #[serde(with = "Listed::<NamedCount>")]
    pub items: Vec<(String, u32)>,
    /// Their mass.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Money for those that are not owned.
    #[serde(with = "Number")]
    pub price: Money,
}

/// Families that say how things work together; the others are limits, needs and hours.
const FAMILIES: [&str; 4] = ["function", "implies", "combine", "requires"];
/// A gram among the money, a cent among the grams: of two sets alike the lighter or cheaper.
const BESIDE: f64 = 1e-4;

/// The lightest or cheapest set of things that, on top of `counts`, make the repair possible once. `None` where not even
/// everything would.
///
/// # Errors
/// [`EngineError`] of the engine.
pub(super) fn sufficient(
    instance: &Instance,
    risk_model: &RiskModel,
    counts: &[u32],
    repair: &InstanceRepair,
    measure: Measure,
    options: &SolveOptions,
) -> Result<Option<Set>, EngineError> {
    let (mut model, columns) = select::model(instance, risk_model, &[]);
    model.columns.iter_mut().for_each(|column| column.gain = 0.0);
    model.rows.retain(|row| FAMILIES.contains(&row.family));
    for (i, item) in instance.items.iter().enumerate() {
        let column = columns.n[i];
        let own = &mut model.columns[column];
        own.lower = f64::from(counts[i]);
        own.upper = f64::from(item.at_most.max(counts[i]));
        let left = f64::from(item.owned.saturating_sub(counts[i]));
        let bought = model.column(format!("bought[{}]", item.id), (0.0, f64::from(item.at_most)), false, 0.0);
        let beyond = f64::from(counts[i]) + left;
        model.row("bought", item.id.clone(), vec![(column, 1.0), (bought, -1.0)], Sense::AtMost, beyond);
        let (grams, money) = if measure == Measure::Money { (BESIDE, 1.0) } else { (1.0, BESIDE) };
        model.columns[column].gain = -grams * item.mass.grams();
        model.columns[bought].gain = -money * item.price.units();
    }
    for (function, count) in &repair.needs {
        let Some(there) = columns.there(*function, (*count).max(1)) else { return Ok(None) };
        model.row("wanted", instance.functions[*function].id.clone(), vec![(there, 1.0)], Sense::AtLeast, 1.0);
    }
    for (stock, units) in &repair.uses {
        let held = |item: &crate::resolve::InstanceItem| item.holds.iter().find(|(held, _)| held == stock).map(|h| h.1);
        let terms = instance.items.iter().zip(&columns.n).filter_map(|(item, n)| Some((*n, f64::from(held(item)?))));
        model.row("wanted", instance.stocks[*stock].clone(), terms.collect(), Sense::AtLeast, f64::from(*units));
    }
    let answer = match fardel_milp::solve(&model, &SolveOptions { gap: 0.0, ..*options }) {
        Ok(answer) => answer,
        Err(EngineError::Infeasible) => return Ok(None),
        Err(error) => return Err(error),
    };
    let kit = columns.counts(&answer);
    let added = || instance.items.iter().zip(kit.iter().zip(counts)).filter(|(_, (now, before))| now > before);
    Ok(Some(Set {
        items: added().map(|(item, (now, before))| (item.name.clone(), now - before)).collect(),
        mass: added().map(|(item, (now, before))| item.mass * (now - before)).sum(),
        price: added().map(|(item, (now, before))| item.price * now.saturating_sub(item.owned.max(*before))).sum(),
    }))
}
