//! The answer of `pack` cut down to what is looked at over many trips. What it has stands where it stands in the whole
//! answer.

use super::figures::{Figures, Proof, Totals, figures, proof, totals};
use super::pack::{Purchase, Trip, purchase, trip};
use super::risks::{Risk, risk};
use super::{Head, head};
use fardel_core::answer::{PackAnswer, PackedBag, PackedItem, RiskLine};
use serde::Serialize;

/// Hours lost below which what is left of a failure is not told: half a minute.
const UNSEEN: f64 = 1.0 / 120.0;

#[derive(Serialize)]
struct Brief<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    trip: Trip,
    totals: Totals,
    figures: Figures,
    proof: Proof,
    bags: Vec<Bag<'a>>,
    purchases: Vec<Purchase<'a>>,
    risks: Vec<Risk<'a>>,
}

#[derive(Serialize)]
struct Bag<'a> {
    id: &'a str,
    items: Vec<Item<'a>>,
}

#[derive(Serialize)]
struct Item<'a> {
    id: &'a str,
    name: &'a str,
    kind: &'static str,
    count: u32,
    to_buy_in_kit: u32,
    hours_lost_without: f64,
}

/// The short answer.
pub(super) fn brief(answer: &PackAnswer) -> impl Serialize {
    let risks = answer.risks.iter().filter(|risk: &&RiskLine| risk.hours_left.get() > UNSEEN);
    Brief {
        head: head("pack"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        trip: trip(answer),
        totals: totals(answer),
        figures: figures(answer),
        proof: proof(&answer.proof),
        bags: answer.bags.iter().filter(|bag| !bag.items.is_empty()).map(bag).collect(),
        purchases: answer.purchases.iter().map(purchase).collect(),
        risks: risks.map(risk).collect(),
    }
}

fn bag(bag: &PackedBag) -> Bag<'_> {
    Bag { id: &bag.id, items: bag.items.iter().map(item).collect() }
}

fn item(item: &PackedItem) -> Item<'_> {
    Item {
        id: &item.id,
        name: &item.name,
        kind: item.kind.word(),
        count: item.count,
        to_buy_in_kit: item.to_buy,
        hours_lost_without: item.worth.get(),
    }
}
