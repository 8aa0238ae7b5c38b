//! Files that the program writes to read again: rides in a book, rates in a catalogue.

use fardel_core::debrief::Debrief;
use fardel_core::domain::{BySurface, Map, Rate, Ride};

/// The first line of a catalogue of rates, by which it is known again.
pub const RATES_HEAD: &str =
    "# Rates by your own rides, written by `fardel debrief`. It writes this file anew each time.";

/// A text in quotation marks; JSON's are YAML's.
pub(crate) fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

pub(crate) fn surfaces(values: BySurface<f64>) -> String {
    let parts: Vec<String> =
        values.iter().filter(|(_, value)| *value != 0.0).map(|(s, value)| format!("{}: {value}", s.word())).collect();
    format!("{{ {} }}", parts.join(", "))
}

pub(crate) fn counted(counts: &Map<u32>) -> String {
    let parts: Vec<String> = counts.iter().map(|(id, count)| format!("{}: {count}", quoted(id))).collect();
    format!("{{ {} }}", parts.join(", "))
}

/// A ride as a member of the list `rides`.
fn ride(ride: &Ride) -> String {
    let mut text = format!("  - name: {}\n    bike: {}\n", quoted(&ride.name), quoted(&ride.bike));
    text += &format!("    km: {}\n", surfaces(ride.km.map(fardel_core::units::Distance::km)));
    text += &format!("    days: {}\n    falls: {}\n", ride.days, ride.falls);
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
        "{RATES_HEAD}\n# {} rides, {:.0} km. Name it under `catalogues` in a scenario, after files that change failures.\nfailures:\n",
        debrief.rides,
        debrief.distance.km()
    );
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

/// A failure's rate as its key `rate`, with this basis.
pub(crate) fn rate_of_failure(rate: &Rate, basis: &str) -> String {
    let mut text = "    rate:\n".to_owned();
    if rate.per_1000_km.iter().any(|(_, value)| value != 0.0) {
        text += &format!("      per_1000_km: {}\n", surfaces(rate.per_1000_km));
    }
    for (key, value) in [("per_day", rate.per_day), ("per_fall", rate.per_fall)] {
        if value != 0.0 {
            text += &format!("      {key}: {value}\n");
        }
    }
    text + &format!("      worth_km: {}\n      basis: {}\n", rate.worth.km(), quoted(basis))
}
