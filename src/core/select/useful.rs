//! The most units of an item that could do any good. More of it only weighs, so the bound cuts off no best kit, and
//! it makes the linear relaxation much tighter than the catalogue's generous `at_most`.

use super::columns::asked;
use crate::resolve::{Instance, InstanceItem};
use crate::risk::RiskModel;

/// The bound for each item, not below what the always list asks for.
#[must_use]
pub fn most_useful(instance: &Instance, risk_model: &RiskModel) -> Vec<u32> {
    let asked: Vec<u32> = asked(instance).iter().map(|counts| counts.last().copied().unwrap_or(0)).collect();
    let bound = |item: &InstanceItem| {
        let by_function = item
            .provides
            .iter()
            .map(|(function, each)| asked[*function].saturating_mul(instance.parts).div_ceil((*each).max(1)));
        let by_stock = item.holds.iter().map(|(stock, each)| {
            units_that_matter(instance, risk_model, *stock).saturating_mul(instance.parts).div_ceil((*each).max(1))
        });
        let by_need = item.meets.iter().map(|(demand, amount)| {
            let apart = instance.apart.iter().flat_map(|part| &part.amounts).filter(|(wanted, _)| wanted == demand);
            let apart: u32 = apart.map(|(_, wanted)| times(*wanted, *amount)).sum();
            times(instance.demands[*demand].amount, *amount).max(apart)
        });
        let useful = by_function.chain(by_stock).chain(by_need).max().unwrap_or(0);
        useful.min(item.at_most).max(item.at_least)
    };
    instance.items.iter().map(bound).collect()
}

/// Units beyond which a stock's ladder is flat, and not below what one repair takes at once.
fn units_that_matter(instance: &Instance, risk_model: &RiskModel, stock: usize) -> u32 {
    let ladder = &risk_model.ladders[stock];
    let rungs = u32::try_from(ladder.shares.len()).unwrap_or(u32::MAX);
    let repairs = instance.failures.iter().flat_map(|failure| &failure.repairs).flat_map(|repair| &repair.uses);
    let lump = repairs.filter(|(used, _)| *used == stock).map(|(_, units)| *units).max().unwrap_or(0);
    rungs.saturating_mul(ladder.step).max(lump)
}

/// How many units of `each` reach `amount`.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
fn times(amount: f64, each: f64) -> u32 {
    (amount / each).ceil().clamp(1.0, 1e6) as u32
}
