//! What to measure first, in words.

use crate::words::minutes;
use fardel_core::answer::{Measure, Worthwhile};
use fardel_core::uncertain::What;
use fardel_core::units::Hours;
use fardel_words::{say, word};

/// A sentence for one thing: what it is, what it is worth to know it, and how to find it out.
pub(crate) fn sentence(own: &Worthwhile) -> String {
    let (what, how) = words(own.subject.what, &own.subject.name);
    let worth = minutes(Hours::new(own.gain.hours));
    say!("{what} is worth {worth} a trip; {how}")
}

/// What was done to find out, and what it would be worth to know everything.
pub(crate) fn opening(measure: &Measure) -> String {
    say!(
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
        return say!("No single number is surely worth knowing: the kit would hardly change.");
    }
    let widest = measure.first().map(|own| own.gain.error).fold(0.0, f64::max);
    say!(
        "Gains are those of knowing one number exactly before the kit is chosen; they do not add up. Each is give or take \
         {} at most, and what might be chance is left out.",
        minutes(Hours::new(2.0 * widest)),
    )
}

/// What the number is called in a sentence, and how to find it out. Nothing here asks for a risk to be taken.
fn words(what: What, name: &str) -> (String, &'static str) {
    match what {
        What::Falls => (say!("{name}'s own fall rate"), word!("log kilometres and falls")),
        What::LoadSensitivity => {
            (say!("what luggage does to your falls"), word!("log falls with and without luggage, and what it weighed"))
        }
        What::HoursPerFall => {
            (say!("what a fall costs before anything is broken"), word!("note how long the next ones held you up"))
        }
        What::Rate => (say!("how often this happens to you: {name},"), word!("log it")),
        What::System => {
            (say!("how often something goes wrong with {name}"), word!("log it, and ask others with this bike"))
        }
        What::Time => (say!("how long this takes you: {name},"), word!("practise it at home and time it")),
        What::Restores => (say!("how good this is: {name},"), word!("ask riders who have done it")),
        What::Limps => (say!("what getting on with this costs: {name},"), word!("ask riders who have had it")),
        What::Nags => (say!("what this costs you: {name},"), word!("note how long it kept you")),
        What::Help => (say!("how long help takes to come"), word!("ask whoever would fetch the bike")),
        What::Weight => (
            say!("what a kilogram costs you in riding"),
            word!("ride a familiar stretch with and without luggage and compare the times"),
        ),
        What::Hour => {
            (say!("what an hour of trouble is worth to you"), word!("say it in the scenario: `prices: { hour: ... }`"))
        }
        What::Thing => (say!("what packing one thing costs you"), word!("time yourself packing and unpacking")),
        What::RestOfDay => (
            say!("how much of a day a breakdown spoils"),
            word!("say it in the scenario: `prices: { rest_of_day: ... }`"),
        ),
        What::Recovery => (say!("what being fetched costs"), word!("ask for the price, or what your cover pays")),
        What::Night => (say!("what a night's lodging costs"), word!("look up the price on the way")),
        What::Dread => {
            (say!("how bad a stranding is beside the hours"), word!("say it in the scenario: `prices: { dread: ... }`"))
        }
    }
}
