//! What goes and what comes instead, a row for each; amounts of the measure in g or mL.

use super::{plain, several, table};
use csv::Error;
use fardel_core::answer::{Change, Going, TrimAnswer};
use fardel_core::units::Hours;

/// What to leave at home, the first to go first, then what to take instead.
///
/// # Errors
/// [`Error`] when a row cannot be written, which memory always can.
pub fn trim(answer: &TrimAnswer) -> Result<String, Error> {
    let unit = &answer.figures.unit;
    let (takes, left) = (format!("takes_{unit}"), format!("kit_then_{unit}"));
    let price = format!("price_{}", answer.currency);
    let head = [
        "what",
        "step",
        "id",
        "name",
        "count",
        takes.as_str(),
        left.as_str(),
        "hours_given_up",
        "hours_given_up_in_all",
        "no_more_help_with",
        "best_is_better_by_h",
        price.as_str(),
    ];
    let leaving = answer.order.iter().enumerate().map(|(at, going)| leaving(answer, at, going));
    table(&head, leaving.chain(answer.entering.iter().map(entering)))
}

fn leaving(answer: &TrimAnswer, at: usize, going: &Going) -> Vec<String> {
    let better = going.best_is_better_by.map(Hours::get);
    vec![
        "leave".to_owned(),
        (at + 1).to_string(),
        going.id.clone(),
        plain(&going.name),
        going.count.to_string(),
        answer.measure.in_row(going.amount).to_string(),
        answer.measure.in_row(going.left).to_string(),
        going.hours.get().to_string(),
        going.total.get().to_string(),
        several(&going.unrepairable),
        better.map_or_else(String::new, |hours| hours.to_string()),
        String::new(),
    ]
}

fn entering(change: &Change) -> Vec<String> {
    let mut row = vec![String::new(); 12];
    "take".clone_into(&mut row[0]);
    row[2].clone_from(&change.id);
    row[3] = plain(&change.name);
    row[4] = change.count.to_string();
    row[11] = change.price.units().to_string();
    row
}
