//! Answers for a spreadsheet.

use crate::answer::split::{Card, SplitAnswer};

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
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
