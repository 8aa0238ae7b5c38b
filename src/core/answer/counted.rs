//! What a rehearsal counted, as means, shares and spreads.

use crate::rehearse::{Estimate, Party, Tally};
use crate::serial::Number;
use crate::units::Hours;
use schemars::JsonSchema;
use serde::Serialize;

/// What was counted over the trips.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Counted {
    /// Worlds in which they were ridden, where uncertain numbers were drawn; else 0.
    pub worlds: u64,
    /// Names of those who rode.
    pub riders: Vec<String>,
    /// Hours lost on a trip.
    pub hours_lost: HoursLost,
    /// Share of trips on which no stop was left unrepaired.
    pub self_recovery: Estimate,
    /// Nights on a trip that were spent somewhere else than planned.
    pub nights_out: Estimate,
    /// Share of trips with such a night.
    pub trips_with_a_night_out: Estimate,
    /// Share of trips on which nothing broke.
    pub trips_without_trouble: Estimate,
    /// Breakdowns of any sort on a trip.
    pub breakdowns_a_trip: f64,
    /// Falls on a trip.
    pub falls_a_trip: f64,
    /// Every failure that can happen, with what it did.
    pub failures: Vec<FailureCount>,
    /// Every item aboard, with how often it was used.
    pub items: Vec<ItemCount>,
    /// What is used up, with how far it reached.
    pub stocks: Vec<StockCount>,
}

/// How the hours lost spread over the trips.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct HoursLost {
    /// Their mean.
    pub mean: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Half of the trips lose no more.
    #[serde(with = "Number")]
    pub median: Hours,
    /// Three trips in four lose no more.
    #[serde(with = "Number")]
    pub three_in_four: Hours,
    /// Nine in ten.
    #[serde(with = "Number")]
    pub nine_in_ten: Hours,
    /// Nineteen in twenty.
    #[serde(with = "Number")]
    pub nineteen_in_twenty: Hours,
    /// 99 in 100.
    #[serde(with = "Number")]
    pub ninety_nine_in_hundred: Hours,
    /// Most on any trip.
    #[serde(with = "Number")]
    pub worst: Hours,
}

/// What one failure did on all trips.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FailureCount {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Occurrences.
    pub times: u64,
    /// Occurrences that were repaired.
    pub repaired: u64,
    /// Stops that no repair was left for.
    pub strandings: u64,
    /// Hours lost to it, for each trip.
    #[serde(with = "Number")]
    pub hours_lost_a_trip: Hours,
}

/// How often an item was used on all trips.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ItemCount {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Units aboard.
    pub count: u32,
    /// Carried because the trip demands it, so that it is used whatever breaks.
    pub for_the_trip: bool,
    /// Carried because the rider asked for it.
    pub asked_for: bool,
    /// Repairs that it was used for.
    pub repairs: u64,
    /// Trips on which it was used for one.
    pub trips: u64,
}

/// How far something that is used up reached.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct StockCount {
    /// Key in the catalogue.
    pub id: String,
    /// Units aboard.
    pub aboard: u32,
    /// Units used up, for each trip.
    pub used_a_trip: f64,
    /// Trips on which a better repair was missed for want of it.
    pub trips_short: u64,
}

impl Counted {
    /// From what a party's trips came to.
    pub(super) fn new(party: &Party, tally: &Tally) -> Self {
        Self {
            worlds: tally.worlds.count,
            riders: party.members.iter().map(|member| member.name.clone()).collect(),
            hours_lost: hours_lost(tally),
            self_recovery: tally.self_recovery(),
            nights_out: tally.nights_out_each(),
            trips_with_a_night_out: tally.night_out(),
            trips_without_trouble: tally.without_trouble(),
            breakdowns_a_trip: tally.each(tally.breakdowns),
            falls_a_trip: tally.each(tally.falls),
            failures: failures(party, tally),
            items: items(party, tally),
            stocks: stocks(party, tally),
        }
    }
}

fn hours_lost(tally: &Tally) -> HoursLost {
    let Estimate { mean, error } = tally.hours_lost();
    HoursLost {
        mean,
        standard_error: error,
        median: tally.hours_percentile(0.5),
        three_in_four: tally.hours_percentile(0.75),
        nine_in_ten: tally.hours_percentile(0.9),
        nineteen_in_twenty: tally.hours_percentile(0.95),
        ninety_nine_in_hundred: tally.hours_percentile(0.99),
        worst: tally.hours_worst(),
    }
}

fn failures(party: &Party, tally: &Tally) -> Vec<FailureCount> {
    let each = party.troubles.iter().zip(&tally.troubles);
    each.map(|(trouble, own)| FailureCount {
        id: trouble.id.clone(),
        name: trouble.name.clone(),
        times: own.times,
        repaired: own.repaired,
        strandings: own.strandings,
        hours_lost_a_trip: tally.hours_each(own.lost),
    })
    .collect()
}

fn items(party: &Party, tally: &Tally) -> Vec<ItemCount> {
    let each = party.items.iter().zip(&tally.items);
    each.map(|(item, own)| ItemCount {
        id: item.id.clone(),
        name: item.name.clone(),
        count: item.count,
        for_the_trip: item.for_the_trip,
        asked_for: item.asked_for,
        repairs: own.repairs,
        trips: own.trips,
    })
    .collect()
}

fn stocks(party: &Party, tally: &Tally) -> Vec<StockCount> {
    let each = party.stocks.iter().zip(&tally.stocks);
    each.map(|(stock, own)| StockCount {
        id: stock.id.clone(),
        aboard: stock.units,
        used_a_trip: tally.each(own.used),
        trips_short: own.short,
    })
    .collect()
}
