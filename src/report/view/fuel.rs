//! That the petrol does not reach the next pump, before everything else.

use crate::Look;
use crate::told::Line;
use fardel_core::answer::FuelShort;
use fardel_core::units::{Quantity, UnitSystem, Volume};

/// The line, where there is something to say.
pub(crate) fn line(short: Option<&FuelShort>, look: &Look) -> Option<Line> {
    let text = format!("{}; whatever else is said here does not count this.", told(short?, look));
    Some(Line::new("Fuel", text))
}

/// The same as a note.
#[must_use]
pub fn fuel_note(short: &FuelShort) -> String {
    format!("Fuel: {}.", told(short, &Look { units: UnitSystem::Metric, width: usize::MAX }))
}

fn told(short: &FuelShort, look: &Look) -> String {
    let lacking = Volume::from_base((short.wanted.millilitres() - short.carried.millilitres()) * 1000.0);
    let place = match short.stretch {
        Some(stretch) => format!(" to reach the next pump on \"{}\", {} away", short.leg, look.show(stretch)),
        None => " for what the scenario states".to_owned(),
    };
    let whose = if short.riders > 1 { format!("{} riders together: ", short.riders) } else { String::new() };
    let way_out = match short.pump_every {
        Some(every) => format!("Carry cans for it, or find a pump every {}", look.show(every)),
        None => "Carry cans for it".to_owned(),
    };
    format!(
        "NOT ENOUGH{place}. {whose}{} wanted beyond the tank, {} carried, {} short. {way_out}",
        look.show(short.wanted),
        look.show(short.carried),
        look.show(lacking),
    )
}
