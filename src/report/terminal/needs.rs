//! What the trip demands whatever breaks.

use super::table::{Set, table};
use super::{Look, heading};
use crate::answer::{NeedLine, PackAnswer};
use crate::report::words::plural;
use crate::units::{Quantity, Volume};

pub(super) fn needs(answer: &PackAnswer, look: &Look) -> String {
    if answer.needs.is_empty() {
        return String::new();
    }
    let rows = answer.needs.iter().map(|need| row(need, look)).collect();
    let set = [Set::Left(Some(32)), Set::Right(Some(12)), Set::Right(Some(12)), Set::Left(None)];
    heading("What the trip demands") + &table(&["need", "demanded", "carried", "reckoned from"], &set, rows, look)
}

fn row(need: &NeedLine, look: &Look) -> Vec<String> {
    let amount = |value| amount(value, &need.unit, look);
    vec![need.name.clone(), amount(need.demanded), amount(need.carried), need.working.clone()]
}

/// `7.2 L`, `3500 kcal`, `2 sets`.
fn amount(value: f64, unit: &str, look: &Look) -> String {
    match unit {
        "R" => format!("R {value:.1}"),
        "mL" => look.show(Volume::from_base(value * 1e3)),
        "kcal" => format!("{value:.0} kcal"),
        _ if value.fract() == 0.0 => plural(value, unit, &format!("{unit}s")),
        _ => format!("{value:.1} {unit}"),
    }
}
