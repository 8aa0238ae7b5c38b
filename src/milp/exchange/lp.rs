//! The model in the LP format that solvers share: readable, maximised as it is.

use super::names::{Names, one_line};
use crate::{Model, Sense};

/// Terms on a line: readers have a longest line.
const TERMS: usize = 5;

/// The model as an LP file. `title` goes into a comment.
#[must_use]
pub fn lp(model: &Model, title: &str) -> String {
    let names = Names::new(model);
    let mut out = format!("\\ {}\n\\ Names in this file and what they stand for:\n", one_line(title));
    for (name, column) in names.columns.iter().zip(&model.columns) {
        out += &format!("\\ {name} = {}\n", one_line(&column.name));
    }
    out += "Maximize\n obj:";
    let gains = model.columns.iter().enumerate().filter(|(_, column)| column.gain != 0.0);
    out += &sum(&names, gains.map(|(at, column)| (at, column.gain)));
    out += "\nSubject To\n";
    for (name, row) in names.rows.iter().zip(&model.rows) {
        let sense = if row.sense == Sense::AtMost { "<=" } else { ">=" };
        out += &format!(" {name}:{} {sense} {}\n", sum(&names, row.terms.iter().copied()), row.bound);
    }
    out += "Bounds\n";
    for (name, column) in names.columns.iter().zip(&model.columns) {
        out += &format!(" {} <= {name} <= {}\n", bound(column.lower), bound(column.upper));
    }
    let integer: Vec<&String> =
        names.columns.iter().zip(&model.columns).filter(|(_, column)| column.integer).map(|(name, _)| name).collect();
    if !integer.is_empty() {
        out += "General\n";
        integer.into_iter().for_each(|name| out += &format!(" {name}\n"));
    }
    out + "End\n"
}

/// Terms with shortest decimals that read back as the same number; an empty sum is written with a column at zero.
fn sum(names: &Names, terms: impl Iterator<Item = (usize, f64)>) -> String {
    let mut out = String::new();
    for (at, (column, coefficient)) in terms.enumerate() {
        if at > 0 && at % TERMS == 0 {
            out += "\n  ";
        }
        let sign = if coefficient < 0.0 { '-' } else { '+' };
        out += &format!(" {sign} {} {}", coefficient.abs(), names.columns[column]);
    }
    if out.is_empty() {
        out = names.columns.first().map_or_else(|| " 0".to_owned(), |name| format!(" 0 {name}"));
    }
    out
}

fn bound(value: f64) -> String {
    if value.is_finite() {
        value.to_string()
    } else if value > 0.0 {
        "+inf".to_owned()
    } else {
        "-inf".to_owned()
    }
}
