//! What drives a bike, as facts of its entry.

use super::show::Fact;
use crate::domain::Energy;
use crate::units::{Show, UnitSystem};
use fardel_words::say;

/// Tank and consumption, or the range of a full battery.
pub(super) fn facts(energy: &Energy, units: UnitSystem) -> Vec<Fact> {
    let fact = |key: String, label: String, value: f64, text: String| Fact { key, label, value: Some(value), text };
    match energy {
        Energy::Fuel { tank, consumption } => {
            let first = fact("tank_l".to_owned(), say!("tank"), tank.litres(), tank.show(units));
            let used = consumption.iter().map(|(surface, used)| {
                let (key, label) =
                    (format!("consumption_{}_l", surface.word()), say!("fuel for 100 km, {}", surface.shown()));
                fact(key, label, used.litres(), used.show(units))
            });
            std::iter::once(first).chain(used).collect()
        }
        Energy::Battery { range } => {
            let far = range.iter().map(|(surface, far)| {
                let (key, label) =
                    (format!("range_{}_km", surface.word()), say!("range of a full battery, {}", surface.shown()));
                fact(key, label, far.km(), far.show(units))
            });
            far.collect()
        }
    }
}
