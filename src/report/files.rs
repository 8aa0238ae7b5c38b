//! Files that the program writes to read again: rides in a book, rates in a catalogue.

use fardel_core::debrief::Debrief;
use fardel_core::domain::{BySurface, Catalogue, Map, Rate, Ride, RidingSkill, Surface};
use fardel_core::evidence::{self, Derivation};

/// The first line of a catalogue of rates, by which it is known again.
pub const RATES_HEAD: &str =
    "# Rates by your own rides, written by `fardel debrief`. It writes this file anew each time.";

/// A text in quotation marks; JSON's are YAML's.
pub(crate) fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

pub(crate) fn surfaces(values: BySurface<f64>) -> String {
    flow(values.iter().filter(|(_, value)| *value != 0.0).map(of_surface))
}

fn of_surface((surface, value): (Surface, f64)) -> String {
    format!("{}: {value}", surface.word())
}

/// A mapping in one line.
fn flow(parts: impl Iterator<Item = String>) -> String {
    format!("{{ {} }}", parts.collect::<Vec<_>>().join(", "))
}

pub(crate) fn counted(counts: &Map<u32>) -> String {
    flow(counts.iter().map(|(id, count)| format!("{}: {count}", quoted(id))))
}

/// A ride as a member of the list `rides`.
fn ride(ride: &Ride) -> String {
    let mut text = format!("  - name: {}\n", quoted(&ride.name));
    if let Some(rider) = &ride.rider {
        text += &format!("    rider: {}\n", quoted(rider));
    }
    text += &format!("    bike: {}\n", quoted(&ride.bike));
    text += &format!("    km: {}\n", surfaces(ride.km.map(fardel_core::units::Distance::km)));
    text += &format!("    days: {}\n    falls: {}\n", ride.days, ride.falls);
    if ride.riding_skill != RidingSkill::Intermediate {
        text += &format!("    riding_skill: {}\n", ride.riding_skill.word());
    }
    if let Some(mass) = ride.kit_mass {
        text += &format!("    kit_mass: {} g\n", mass.grams());
    }
    if !ride.done.is_empty() {
        let done: Vec<String> = ride.done.iter().map(|id| quoted(id)).collect();
        text += &format!("    done: [{}]\n", done.join(", "));
    }
    for (key, counts) in
        [("broke", &ride.broke), ("carried", &ride.carried), ("used", &ride.used), ("missed", &ride.missed)]
    {
        if !counts.is_empty() {
            text += &format!("    {key}: {}\n", counted(counts));
        }
    }
    text
}

/// The book with more rides at its end. What is there already stays to the letter.
#[must_use]
pub fn book(before: Option<&str>, more: &[Ride]) -> String {
    let mut text = before.map_or_else(|| "rides:\n".to_owned(), str::to_owned);
    if !text.ends_with('\n') {
        text.push('\n');
    }
    more.iter().for_each(|one| text += &ride(one));
    text
}

/// A catalogue with the new rates; everything else of each failure is as before.
#[must_use]
pub fn rates(debrief: &Debrief) -> String {
    let mut text = format!(
        "{RATES_HEAD}\n# {} rides, {:.0} km. Name it under `catalogues` in a scenario, after files that change failures.\n",
        debrief.rides,
        debrief.distance.km()
    );
    if let Some(fallen) = &debrief.fallen {
        let basis = format!("ride log: {} falls where {:.3} were expected", fallen.seen, fallen.expected);
        let (rates, worth) = (every(fallen.per_1000_km), fallen.worth_events);
        text += &format!("fall_rate:\n  per_1000_km: {rates}\n  worth_events: {worth}\n");
        if let Some(load) = &fallen.load_sensitivity {
            text += &format!("  load_sensitivity: {}\n", load.after.mean);
        }
        text += &format!("  basis: {}\n", quoted(&basis));
    }
    text += "failures:\n";
    for learnt in &debrief.learnt {
        let rate = &learnt.rate;
        let basis = format!(
            "ride log: seen {} where {:.3} were expected; before that {}",
            learnt.seen, learnt.expected, rate.basis
        );
        text += &format!("  {}:\n    like: {}\n", quoted(&learnt.id), quoted(&learnt.id));
        text += &rate_of_failure(rate, &basis);
    }
    text
}

/// A catalogue with the rates that were worked out from evidence.
#[must_use]
pub fn derived(catalogue: &Catalogue, derivation: &Derivation) -> String {
    let mut text = DERIVED_HEAD.to_owned();
    if let Some(rate) = evidence::falls(catalogue, derivation) {
        text += &format!("\nfall_rate: {}\n", in_one_line(&rate));
    }
    text += "\nrates:\n";
    for failure in catalogue.failures.values() {
        if let Some(rate) = evidence::updated(catalogue, derivation, failure) {
            text += &format!("  {}: {}\n", failure.id, in_one_line(&rate));
        }
    }
    text
}

const DERIVED_HEAD: &str = "# yaml-language-server: $schema=schema/catalogue.json
# Written by `fardel evidence --rates`: do not edit. Rates worked out from the sources under `evidence`, in place of those typed
# in with the failures. After a change of evidence, groups, typed-in rates or reference bikes write it anew.
";

/// A rate in one line.
fn in_one_line(rate: &Rate) -> String {
    flow(parts(rate, every, &rate.basis.to_string()).into_iter())
}

fn every(values: BySurface<f64>) -> String {
    flow(values.iter().map(of_surface))
}

/// The keys of a rate with this basis; those that are 0 are left out.
fn parts(rate: &Rate, by_surface: fn(BySurface<f64>) -> String, basis: &str) -> Vec<String> {
    let mut parts = Vec::new();
    if rate.per_1000_km.iter().any(|(_, value)| value != 0.0) {
        parts.push(format!("per_1000_km: {}", by_surface(rate.per_1000_km)));
    }
    for (key, value) in [("per_day", rate.per_day), ("per_fall", rate.per_fall)] {
        if value != 0.0 {
            parts.push(format!("{key}: {value}"));
        }
    }
    parts.push(format!("worth_events: {}", rate.worth_events));
    parts.push(format!("basis: {}", quoted(basis)));
    parts
}

/// A failure's rate as its key `rate`, with this basis.
pub(crate) fn rate_of_failure(rate: &Rate, basis: &str) -> String {
    parts(rate, surfaces, basis).iter().fold("    rate:\n".to_owned(), |text, part| text + "      " + part + "\n")
}
