//! What happened on the trips: a row for each failure, each thing aboard and each stock. Counts are over all trips.

use super::{plain, table};
use csv::Error;
use fardel_core::answer::RehearseAnswer;

const HEAD: [&str; 11] = [
    "sort",
    "id",
    "name",
    "aboard",
    "times",
    "repaired",
    "strandings",
    "hours_lost_a_trip",
    "repairs",
    "trips_used",
    "trips_short",
];

/// Failures, things and stocks.
///
/// # Errors
/// [`Error`] when a row cannot be written, which memory always can.
pub fn rehearsal(answer: &RehearseAnswer) -> Result<String, Error> {
    let (party, tally) = (&answer.party, &answer.tally);
    let failures = party.troubles.iter().zip(&tally.troubles).map(|(trouble, own)| {
        row(
            "failure",
            &trouble.id,
            &trouble.name,
            &[
                (4, own.times.to_string()),
                (5, own.repaired.to_string()),
                (6, own.strandings.to_string()),
                (7, tally.hours_each(own.lost).get().to_string()),
            ],
        )
    });
    let items = party.items.iter().zip(&tally.items).map(|(item, own)| {
        row(
            "item",
            &item.id,
            &item.name,
            &[(3, item.count.to_string()), (8, own.repairs.to_string()), (9, own.trips.to_string())],
        )
    });
    let stocks = party.stocks.iter().zip(&tally.stocks).map(|(stock, own)| {
        row(
            "stock",
            &stock.id,
            "",
            &[(3, stock.units.to_string()), (4, own.used.to_string()), (10, own.short.to_string())],
        )
    });
    table(&HEAD, failures.chain(items).chain(stocks))
}

fn row(sort: &str, id: &str, name: &str, cells: &[(usize, String)]) -> Vec<String> {
    let mut row = vec![String::new(); HEAD.len()];
    (row[0], row[1], row[2]) = (sort.to_owned(), id.to_owned(), plain(name));
    cells.iter().for_each(|(at, cell)| row[*at].clone_from(cell));
    row
}
