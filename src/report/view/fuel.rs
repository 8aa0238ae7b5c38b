//! That petrol or battery does not reach the next pump or place to charge, before everything else.

use crate::Look;
use crate::told::Line;
use fardel_core::answer::{ChargeShort, FuelShort, charge_short, short_at_best};
use fardel_core::resolve::Instance;
use fardel_core::units::{Quantity, UnitSystem, Volume};
use fardel_words::{say, word};

/// The lines, where there is something to say.
pub(crate) fn lines(fuel: Option<&FuelShort>, charge: Option<&ChargeShort>, look: &Look) -> Vec<Line> {
    let fuel = fuel.map(|short| (word!("Fuel"), told(short, look)));
    let charge = charge.map(|short| (word!("Battery"), flat(short, look)));
    let line = |(word, text)| Line::new(word, say!("{text}; whatever else is said here does not count this."));
    fuel.into_iter().chain(charge).map(line).collect()
}

/// The same as notes, with as much petrol aboard as the riders could carry.
pub fn range_notes(instance: &Instance) -> impl Iterator<Item = String> {
    let fuel = short_at_best(instance).map(|short| say!("Fuel: {}.", told(&short, &PLAIN)));
    let charge = charge_short(instance).map(|short| say!("Battery: {}.", flat(&short, &PLAIN)));
    fuel.into_iter().chain(charge)
}

/// For notes.
const PLAIN: Look = Look { units: UnitSystem::Metric, width: usize::MAX };

fn flat(short: &ChargeShort, look: &Look) -> String {
    let whose = if short.riders > 1 { say!("{} riders, {} worst: ", short.riders, short.rider) } else { String::new() };
    say!(
        "NOT ENOUGH to reach the next place to charge on \"{}\", {} away. {whose}{} wanted with reserve (x {:.2}), a full \
         battery does {} on that ground, less in cold and wind. Nothing in the bags adds to it: find a place to charge every {}",
        short.leg,
        look.show(short.stretch),
        look.show(short.wanted),
        short.reserve_factor,
        look.show(short.range),
        look.show(short.charge_every),
    )
}

fn told(short: &FuelShort, look: &Look) -> String {
    let lacking = Volume::from_base((short.wanted.millilitres() - short.carried.millilitres()) * 1000.0);
    let place = match short.stretch {
        Some(stretch) => say!(" to reach the next pump on \"{}\", {} away", short.leg, look.show(stretch)),
        None => say!(" for what the scenario states"),
    };
    let whose = if short.riders > 1 { say!("{} riders together: ", short.riders) } else { String::new() };
    let way_out = match short.pump_every {
        Some(every) => say!("Carry cans for it, or find a pump every {}", look.show(every)),
        None => say!("Carry cans for it"),
    };
    say!(
        "NOT ENOUGH{place}. {whose}{} wanted beyond the tank, {} carried, {} short. {way_out}",
        look.show(short.wanted),
        look.show(short.carried),
        look.show(lacking),
    )
}
