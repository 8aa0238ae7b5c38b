//! Answers for a spreadsheet.

use super::amount::unit;
use crate::answer::split::{Card, SplitAnswer};
use crate::answer::{Change, TradeoffAnswer};

/// One line a point; amounts of the measure in g, mL or the currency.
///
/// # Errors
/// [`csv::Error`] when a line cannot be written, which memory always can.
pub fn tradeoff(answer: &TradeoffAnswer) -> Result<String, csv::Error> {
    let unit = unit(answer.measure, answer.currency);
    let mut writer = csv::Writer::from_writer(Vec::new());
    let limit = format!("limit_{unit}");
    let used = format!("used_{unit}");
    let to_buy = format!("to_buy_{}", answer.currency);
    writer.write_record([
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
        "self_recovery_at_least",
        "on_envelope",
        "entering",
        "leaving",
    ])?;
    for point in &answer.points {
        writer.write_record([
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
        ])?;
    }
    text(writer)
}

/// `hand-pump; tyre-lever x2`.
fn ids(changes: &[Change]) -> String {
    let id = |change: &Change| match change.count {
        1 => change.id.clone(),
        count => format!("{} x{count}", change.id),
    };
    changes.iter().map(id).collect::<Vec<_>>().join("; ")
}

/// A group's kit, a line for each thing in each bag.
///
/// # Errors
/// [`csv::Error`] when a line cannot be written, which memory always can.
pub fn split(answer: &SplitAnswer) -> Result<String, csv::Error> {
    lines(&answer.cards)
}

/// One rider's part of it.
///
/// # Errors
/// As [`split`].
pub fn card(card: &Card) -> Result<String, csv::Error> {
    lines(std::slice::from_ref(card))
}

fn lines(cards: &[Card]) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["rider", "bag", "id", "name", "kind", "count", "mass_g", "volume_ml", "to_buy_in_kit"])?;
    for card in cards {
        for bag in &card.bags {
            for item in &bag.items {
                writer.write_record([
                    card.rider.as_str(),
                    &bag.name,
                    &item.id,
                    &item.name,
                    item.kind.word(),
                    &item.count.to_string(),
                    &item.mass.grams().to_string(),
                    &item.volume.millilitres().to_string(),
                    &item.to_buy.to_string(),
                ])?;
            }
        }
    }
    text(writer)
}

fn text(writer: csv::Writer<Vec<u8>>) -> Result<String, csv::Error> {
    let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
