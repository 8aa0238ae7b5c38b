//! The answer of `rehearse`.

use super::fuel::{FuelShort, fuel};
use super::{Head, head, written};
use fardel_core::answer::RehearseAnswer;
use fardel_core::rehearse::{Estimate, Party, Tally};
use serde::Serialize;

#[derive(Serialize)]
struct Rehearsal<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    riders: Vec<&'a str>,
    kit_g: f64,
    trips: u64,
    seed: u64,
    uncertain_rates: bool,
    uncertain: bool,
    worlds: u64,
    in_hand_h: f64,
    hours_lost: Hours,
    self_recovery: Figure,
    nights_out: Figure,
    trips_with_a_night_out: Figure,
    trips_without_trouble: Figure,
    breakdowns_a_trip: f64,
    falls_a_trip: f64,
    fuel_short: Option<FuelShort<'a>>,
    reckoned: Reckoned,
    failures: Vec<Failure<'a>>,
    items: Vec<Item<'a>>,
    stocks: Vec<Stock<'a>>,
}

#[derive(Serialize)]
struct Hours {
    mean: f64,
    standard_error: f64,
    median: f64,
    three_in_four: f64,
    nine_in_ten: f64,
    nineteen_in_twenty: f64,
    ninety_nine_in_hundred: f64,
    worst: f64,
}

#[derive(Serialize)]
struct Figure {
    mean: f64,
    standard_error: f64,
}

#[derive(Serialize)]
struct Reckoned {
    hours_lost_empty: f64,
    hours_lost_with_kit: f64,
    self_recovery_at_least: f64,
    expected_failures: f64,
}

#[derive(Serialize)]
struct Failure<'a> {
    id: &'a str,
    name: &'a str,
    times: u64,
    repaired: u64,
    strandings: u64,
    hours_lost_a_trip: f64,
}

#[derive(Serialize)]
struct Item<'a> {
    id: &'a str,
    name: &'a str,
    count: u32,
    for_the_trip: bool,
    asked_for: bool,
    repairs: u64,
    trips: u64,
}

#[derive(Serialize)]
struct Stock<'a> {
    id: &'a str,
    aboard: u32,
    used_a_trip: f64,
    trips_short: u64,
}

/// The answer of `rehearse` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn rehearsal(answer: &RehearseAnswer) -> Result<String, serde_json::Error> {
    written(&rehearsal_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn rehearsal_document(answer: &RehearseAnswer) -> impl Serialize {
    let (party, tally, plan) = (&answer.party, &answer.tally, &answer.plan);
    Rehearsal {
        head: head("rehearse"),
        scenario: &answer.trip.scenario,
        riders: party.members.iter().map(|member| member.name.as_str()).collect(),
        kit_g: answer.mass.grams(),
        trips: tally.trips,
        seed: plan.seed,
        uncertain_rates: plan.uncertain,
        uncertain: tally.worlds.count > 0,
        worlds: tally.worlds.count,
        in_hand_h: plan.in_hand.get(),
        hours_lost: hours(tally),
        self_recovery: figure(tally.self_recovery()),
        nights_out: figure(tally.nights_out_each()),
        trips_with_a_night_out: figure(tally.night_out()),
        trips_without_trouble: figure(tally.without_trouble()),
        breakdowns_a_trip: tally.each(tally.breakdowns),
        falls_a_trip: tally.each(tally.falls),
        fuel_short: fuel(answer.fuel.as_ref()),
        reckoned: Reckoned {
            hours_lost_empty: answer.predicted.hours_empty.get(),
            hours_lost_with_kit: answer.predicted.hours_lost.get(),
            self_recovery_at_least: answer.predicted.self_recovery,
            expected_failures: answer.predicted.breakdowns,
        },
        failures: failures(party, tally),
        items: items(party, tally),
        stocks: stocks(party, tally),
    }
}

fn hours(tally: &Tally) -> Hours {
    let Estimate { mean, error } = tally.hours_lost();
    let percentile = |share| tally.hours_percentile(share).get();
    Hours {
        mean,
        standard_error: error,
        median: percentile(0.5),
        three_in_four: percentile(0.75),
        nine_in_ten: percentile(0.9),
        nineteen_in_twenty: percentile(0.95),
        ninety_nine_in_hundred: percentile(0.99),
        worst: tally.hours_worst().get(),
    }
}

const fn figure(estimate: Estimate) -> Figure {
    Figure { mean: estimate.mean, standard_error: estimate.error }
}

fn failures<'a>(party: &'a Party, tally: &Tally) -> Vec<Failure<'a>> {
    let each = party.troubles.iter().zip(&tally.troubles);
    each.map(|(trouble, own)| Failure {
        id: &trouble.id,
        name: &trouble.name,
        times: own.times,
        repaired: own.repaired,
        strandings: own.strandings,
        hours_lost_a_trip: tally.hours_each(own.lost).get(),
    })
    .collect()
}

fn items<'a>(party: &'a Party, tally: &Tally) -> Vec<Item<'a>> {
    let each = party.items.iter().zip(&tally.items);
    each.map(|(item, own)| Item {
        id: &item.id,
        name: &item.name,
        count: item.count,
        for_the_trip: item.for_the_trip,
        asked_for: item.asked_for,
        repairs: own.repairs,
        trips: own.trips,
    })
    .collect()
}

fn stocks<'a>(party: &'a Party, tally: &Tally) -> Vec<Stock<'a>> {
    let each = party.stocks.iter().zip(&tally.stocks);
    each.map(|(stock, own)| Stock {
        id: &stock.id,
        aboard: stock.units,
        used_a_trip: tally.each(own.used),
        trips_short: own.short,
    })
    .collect()
}
