//! What the trip demands whatever breaks.

use crate::Look;
use fardel_core::answer::{NeedLine, PackAnswer};
use fardel_core::resolve::{ChargeRange, Range};
use fardel_core::units::{Quantity, Volume};
use fardel_words::{mark, say, several};

/// The title of the list.
pub(crate) const TITLE: &str = mark!("What the trip demands");

/// How far fuel and batteries go.
pub(crate) fn ranges(answer: &PackAnswer) -> Vec<String> {
    let line = |(rider, range): &(String, Range)| {
        let whose = if answer.ranges.len() > 1 { say!(" of {rider}") } else { String::new() };
        let ending = if range.short() > 0.0 {
            say!("{:.1} L short, to be carried.", range.short())
        } else {
            say!("that will do.")
        };
        say!("Fuel range{whose}: {}: {ending}", range.working())
    };
    answer.ranges.iter().map(line).chain(answer.charges.iter().map(|own| charge(own, answer.charges.len()))).collect()
}

fn charge((rider, range): &(String, ChargeRange), riders: usize) -> String {
    let whose = if riders > 1 { say!(" of {rider}") } else { String::new() };
    let lacking = range.short().km();
    let ending = if lacking > 0.0 {
        say!("{lacking:.0} km short, and nothing carried adds to it.")
    } else {
        say!("that will do; cold and wind take some of it.")
    };
    say!("Battery range{whose}: {}: {ending}", range.working())
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
        text += &say!("; carried are {}, {:.1} kcal/g", look.show(need.mass), need.carried / grams);
    }
    text
}

/// `7.2 L`, `3500 kcal`, `2 sets`.
pub(crate) fn amount(value: f64, unit: &str, look: &Look) -> String {
    match unit {
        "R" => say!("R {value:.1}"),
        "mL" => look.show(Volume::from_base(value * 1e3)),
        "kcal" | "kJ" => say!("{value:.0} {unit}"),
        _ => counted(value, unit),
    }
}

/// So many of the units that needs are counted in; of one that a rider's own catalogue counts in as well.
fn counted(value: f64, unit: &str) -> String {
    match unit {
        "bag" => several!(value, "{n} bag", "{n} bags"),
        "device" => several!(value, "{n} device", "{n} devices"),
        "kit" => several!(value, "{n} kit", "{n} kits"),
        "lamp" => several!(value, "{n} lamp", "{n} lamps"),
        "layer" => several!(value, "{n} layer", "{n} layers"),
        "pot" => several!(value, "{n} pot", "{n} pots"),
        "purse" => several!(value, "{n} purse", "{n} purses"),
        "set" => several!(value, "{n} set", "{n} sets"),
        "sleeper" => several!(value, "{n} sleeper", "{n} sleepers"),
        "suit" => several!(value, "{n} suit", "{n} suits"),
        "way" => several!(value, "{n} way", "{n} ways"),
        "supply" => several!(value, "{n} supply", "{n} supplies"),
        _ if value.fract() != 0.0 => say!("{value:.1} {unit}"),
        _ if (value - 1.0).abs() < 1e-9 => say!("{value:.0} {unit}"),
        _ => say!("{value:.0} {unit}s"),
    }
}
