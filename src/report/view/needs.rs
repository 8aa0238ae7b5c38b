//! What the trip demands whatever breaks.

use crate::Look;
use crate::words::plural;
use fardel_core::answer::{NeedLine, PackAnswer};
use fardel_core::resolve::{ChargeRange, Range};
use fardel_core::units::{Quantity, Volume};

/// The title of the list.
pub(crate) const TITLE: &str = "What the trip demands";

/// How far fuel and batteries go.
pub(crate) fn ranges(answer: &PackAnswer) -> Vec<String> {
    let line = |(rider, range): &(String, Range)| {
        let whose = if answer.ranges.len() > 1 { format!(" of {rider}") } else { String::new() };
        let ending = if range.short() > 0.0 {
            format!("{:.1} L short, to be carried.", range.short())
        } else {
            "that will do.".to_owned()
        };
        format!("Fuel range{whose}: {}: {ending}", range.working())
    };
    answer.ranges.iter().map(line).chain(answer.charges.iter().map(|own| charge(own, answer.charges.len()))).collect()
}

fn charge((rider, range): &(String, ChargeRange), riders: usize) -> String {
    let whose = if riders > 1 { format!(" of {rider}") } else { String::new() };
    let lacking = range.short().km();
    let ending = if lacking > 0.0 {
        format!("{lacking:.0} km short, and nothing carried adds to it.")
    } else {
        "that will do; cold and wind take some of it.".to_owned()
    };
    format!("Battery range{whose}: {}: {ending}", range.working())
}

/// Name, demanded, carried, working.
pub(crate) fn row(need: &NeedLine, look: &Look) -> Vec<String> {
    let amount = |value| amount(value, &need.unit, look);
    vec![need.name.clone(), amount(need.demanded), amount(need.carried), working(need, look)]
}

/// The formula; for food also what the energy carried weighs.
fn working(need: &NeedLine, look: &Look) -> String {
    let mut text = need.working.clone();
    let grams = need.mass.grams();
    if need.unit == "kcal" && grams > 0.0 {
        text += &format!("; carried are {}, {:.1} kcal/g", look.show(need.mass), need.carried / grams);
    }
    text
}

/// `7.2 L`, `3500 kcal`, `2 sets`.
pub(crate) fn amount(value: f64, unit: &str, look: &Look) -> String {
    match unit {
        "R" => format!("R {value:.1}"),
        "mL" => look.show(Volume::from_base(value * 1e3)),
        "kcal" | "kJ" => format!("{value:.0} {unit}"),
        _ if value.fract() == 0.0 => plural(value, unit, &format!("{unit}s")),
        _ => format!("{value:.1} {unit}"),
    }
}
