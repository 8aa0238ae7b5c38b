//! What the trip demands whatever breaks.

use super::table::{Set, table};
use super::{Look, heading};
use crate::answer::{NeedLine, PackAnswer};

pub(super) fn needs(answer: &PackAnswer, look: &Look) -> String {
    if answer.needs.is_empty() {
        return String::new();
    }
    let rows = answer.needs.iter().map(row).collect();
    let set = [Set::Left(Some(32)), Set::Right(Some(12)), Set::Right(Some(12)), Set::Left(None)];
    heading("What the trip demands") + &table(&["need", "demanded", "carried", "reckoned from"], &set, rows, look)
}

fn row(need: &NeedLine) -> Vec<String> {
    vec![need.name.clone(), amount(need.demanded, &need.unit), amount(need.carried, &need.unit), need.working.clone()]
}

/// `7.2 L`, `3500 kcal`, `2`.
fn amount(value: f64, unit: &str) -> String {
    match unit {
        "mL" if value >= 1000.0 => format!("{:.1} L", value / 1000.0),
        _ if value.fract() == 0.0 => format!("{value:.0} {unit}"),
        _ => format!("{value:.1} {unit}"),
    }
}
