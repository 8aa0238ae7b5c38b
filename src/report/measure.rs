//! What to measure first, in words.

use crate::words::minutes;
use fardel_core::answer::{Measure, Worthwhile};
use fardel_core::uncertain::What;
use fardel_core::units::Hours;

/// A sentence for one thing: what it is, what it is worth to know it, and how to find it out.
pub(crate) fn sentence(own: &Worthwhile) -> String {
    let (what, how) = words(own.subject.what, &own.subject.name);
    let worth = minutes(Hours::new(own.gain.hours));
    format!("{what} is worth {worth} a trip; {how}")
}

/// What was done to find out, and what it would be worth to know everything.
pub(crate) fn opening(measure: &Measure) -> String {
    format!(
        "{} numbers were drawn {} times, and the best of {} kits chosen with and without knowing each. To know all of them \
         would be worth {} a trip.",
        measure.numbers,
        measure.draws,
        measure.kits,
        minutes(Hours::new(measure.everything.hours.max(0.0))),
    )
}

/// What it means, and how certain it is.
pub(crate) fn closing(measure: &Measure) -> String {
    if measure.first().next().is_none() {
        return "No single number is surely worth knowing: the kit would hardly change.".to_owned();
    }
    let widest = measure.first().map(|own| own.gain.error).fold(0.0, f64::max);
    format!(
        "Gains are those of knowing one number exactly before the kit is chosen; they do not add up. Each is give or take \
         {} at most, and what might be chance is left out.",
        minutes(Hours::new(2.0 * widest)),
    )
}

/// What the number is called in a sentence, and how to find it out. Nothing here asks for a risk to be taken.
fn words(what: What, name: &str) -> (String, &'static str) {
    match what {
        What::Falls => (format!("{name}'s own fall rate"), "log kilometres and falls"),
        What::LoadSensitivity => {
            ("what luggage does to your falls".to_owned(), "log falls with and without luggage, and what it weighed")
        }
        What::HoursPerFall => {
            ("what a fall costs before anything is broken".to_owned(), "note how long the next ones held you up")
        }
        What::Rate => (format!("how often this happens to you: {name},"), "log it"),
        What::System => {
            (format!("how often something goes wrong with {name}"), "log it, and ask others with this bike")
        }
        What::Time => (format!("how long this takes you: {name},"), "practise it at home and time it"),
        What::Restores => (format!("how good this is: {name},"), "ask riders who have done it"),
        What::Limps => (format!("what getting on with this costs: {name},"), "ask riders who have had it"),
        What::Nags => (format!("what this costs you: {name},"), "note how long it kept you"),
        What::Help => ("how long help takes to come".to_owned(), "ask whoever would fetch the bike"),
        What::Weight => (
            "what a kilogram costs you in riding".to_owned(),
            "ride a familiar stretch with and without luggage and compare the times",
        ),
        What::Hour => {
            ("what an hour of trouble is worth to you".to_owned(), "say it in the scenario: `prices: { hour: ... }`")
        }
        What::Thing => ("what packing one thing costs you".to_owned(), "time yourself packing and unpacking"),
        What::RestOfDay => (
            "how much of a day a breakdown spoils".to_owned(),
            "say it in the scenario: `prices: { rest_of_day: ... }`",
        ),
        What::Recovery => ("what being fetched costs".to_owned(), "ask for the price, or what your cover pays"),
        What::Night => ("what a night's lodging costs".to_owned(), "look up the price on the way"),
        What::Dread => {
            ("how bad a stranding is beside the hours".to_owned(), "say it in the scenario: `prices: { dread: ... }`")
        }
    }
}
