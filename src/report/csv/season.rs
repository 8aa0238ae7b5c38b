//! A season, a row for each line of its tables.

use super::{plain, table};
use csv::Error;
use fardel_core::season::Season;

const HEAD: [&str; 9] = ["table", "name", "bike", "route", "kits", "units", "money", "hours", "share"];

/// Rows of nothing but a table and a name, to be filled.
fn row(table: &str, name: &str, cells: [(usize, String); 3]) -> Vec<String> {
    let mut row = vec![String::new(); HEAD.len()];
    table.clone_into(&mut row[0]);
    row[1] = plain(name);
    for (at, cell) in cells {
        row[at] = cell;
    }
    row
}

/// All tables one after the other. `share` is the covered share of the hours for coverage, the mean chance of getting home
/// for home, the expected occurrences for the vehicle.
///
/// # Errors
/// [`Error`] when a row cannot be written, which memory always can.
pub fn season(season: &Season) -> Result<String, Error> {
    let mut rows = Vec::new();
    for (name, own) in &season.bought {
        rows.push(row(
            "bought",
            name,
            [(4, own.kits.to_string()), (5, own.units.to_string()), (6, own.money.to_string())],
        ));
    }
    for (id, own) in &season.spares {
        rows.push(row(
            "spare",
            id,
            [(4, own.kits.to_string()), (5, own.units.to_string()), (7, own.hours.to_string())],
        ));
        let named = |at: usize, name: &str, kits: u64| {
            row("spare", id, [(at, plain(name)), (4, kits.to_string()), (5, String::new())])
        };
        rows.extend(own.bikes.iter().map(|(bike, kits)| named(2, bike, *kits)));
        rows.extend(own.routes.iter().map(|(route, kits)| named(3, route, *kits)));
    }
    for (bike, routes) in &season.coverage {
        for (route, own) in routes {
            let mut line = |table: &str, share: f64, hours: f64| {
                let mut cells =
                    row(table, "", [(4, own.kits.to_string()), (7, hours.to_string()), (8, share.to_string())]);
                cells[2] = plain(bike);
                cells[3] = plain(route);
                rows.push(cells);
            };
            line("coverage", own.share(), own.hours_left);
            line("home", own.mean_home(), own.hours_empty);
        }
    }
    for (things, own) in &season.vehicle {
        let cells = [(4, own.kits.to_string()), (7, own.hours.to_string()), (8, own.occurrences.to_string())];
        rows.push(row("vehicle", things, cells));
    }
    for (id, (_, trips, hours)) in &season.numbers.rates {
        rows.push(row("rate", id, [(4, trips.to_string()), (7, hours.to_string()), (8, String::new())]));
    }
    for (number, hours) in &season.numbers.turned {
        rows.push(row(
            "number",
            number,
            [(4, season.numbers.trips.to_string()), (7, hours.to_string()), (8, String::new())],
        ));
    }
    table(&HEAD, rows)
}
