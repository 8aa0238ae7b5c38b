//! The model as readable text: for snapshot tests and for eyes.

use crate::rows::{Model, Sense};
use std::fmt::Write as _;

/// One line per row, in order, with names; then the objective and the whole columns.
#[must_use]
pub fn text(model: &Model) -> String {
    let mut out = String::new();
    let gains = model.columns.iter().enumerate().filter(|(_, c)| c.gain != 0.0).map(|(at, c)| (at, c.gain));
    let _ = writeln!(out, "maximise {}", sum(model, gains));
    for row in &model.rows {
        let sense = match row.sense {
            Sense::AtMost => "<=",
            Sense::AtLeast => ">=",
        };
        let terms = sum(model, row.terms.iter().copied());
        let _ = writeln!(out, "{} [{}]: {terms} {sense} {}", row.family, row.key, number(row.bound));
    }
    for column in &model.columns {
        let kind = if column.integer { " whole" } else { "" };
        let _ = writeln!(out, "{} <= {} <= {}{kind}", number(column.lower), column.name, number(column.upper));
    }
    out
}

fn sum(model: &Model, terms: impl Iterator<Item = (usize, f64)>) -> String {
    let shown: Vec<String> = terms.map(|(column, c)| term(&model.columns[column].name, c)).collect();
    if shown.is_empty() { "0".to_owned() } else { shown.join(" ") }
}

fn term(name: &str, coefficient: f64) -> String {
    let sign = if coefficient < 0.0 { '-' } else { '+' };
    let size = coefficient.abs();
    if (size - 1.0).abs() < f64::EPSILON { format!("{sign} {name}") } else { format!("{sign} {} {name}", number(size)) }
}

/// Six significant digits, so that the last bits of a float never show in a snapshot.
fn number(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    #[allow(clippy::cast_possible_truncation, reason = "a number of digits")]
    let digits = (5 - value.abs().log10().floor() as i32).clamp(0, 12);
    let text = format!("{value:.*}", usize::try_from(digits).unwrap_or(0));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
