//! The curve, a row for each point.

use super::table;
use fardel_core::answer::{Change, TradeoffAnswer, TradeoffPoint};

/// One line a point; amounts of the measure in g, mL or the currency.
///
/// # Errors
/// [`csv::Error`] when a line cannot be written, which memory always can.
pub fn tradeoff(answer: &TradeoffAnswer) -> Result<String, csv::Error> {
    let unit = &answer.figures.unit;
    let limit = format!("limit_{unit}");
    let used = format!("used_{unit}");
    let to_buy = format!("to_buy_{}", answer.currency);
    let head = [
        limit.as_str(),
        used.as_str(),
        "units",
        "mass_g",
        "volume_ml",
        to_buy.as_str(),
        "hours_saved",
        "hours_handling",
        "hours_net",
        "bound_h",
        "proven_optimal",
        "self_recovery",
        "on_envelope",
        "entering",
        "leaving",
    ];
    let row = |point: &TradeoffPoint| {
        vec![
            answer.measure.in_row(point.limit).to_string(),
            answer.measure.in_row(point.used).to_string(),
            point.units.to_string(),
            point.mass.grams().to_string(),
            point.volume.millilitres().to_string(),
            point.to_buy.units().to_string(),
            point.saved.get().to_string(),
            point.handling.get().to_string(),
            point.net().get().to_string(),
            point.bound.get().to_string(),
            point.proven.to_string(),
            point.self_recovery.to_string(),
            point.on_envelope.to_string(),
            ids(&point.step.entering),
            ids(&point.step.leaving),
        ]
    };
    table(&head, answer.points.iter().map(row))
}

/// `hand-pump; tyre-lever x2`.
fn ids(changes: &[Change]) -> String {
    let id = |change: &Change| match change.count {
        1 => change.id.clone(),
        count => format!("{} x{count}", change.id),
    };
    changes.iter().map(id).collect::<Vec<_>>().join("; ")
}
