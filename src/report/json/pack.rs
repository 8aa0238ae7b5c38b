//! The answer of `pack`.

use super::bags::{Bag, bag};
use super::checks::{Check, checks};
use super::figures::{Figures, Objective, Prices, Proof, Totals, figures, objective, prices, proof, totals};
use super::firm::{Firm, firm};
use super::fuel::{FuelShort, fuel};
use super::loads::{Load, load};
use super::risks::{Risk, risk};
use super::robust::{Uncertain, uncertain};
use super::{Head, head, written};
use crate::cautions::cautions;
use fardel_core::answer::{PackAnswer, Robust};
use fardel_core::resolve::Range;
use serde::Serialize;

#[derive(Serialize)]
struct Pack<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    trip: Trip,
    totals: Totals,
    figures: Figures,
    objective: Objective,
    prices: Prices,
    proof: Proof,
    firm: Option<Firm<'a>>,
    bags: Vec<Bag<'a>>,
    purchases: Vec<Purchase<'a>>,
    loads: Vec<Load<'a>>,
    toolkit_left: Vec<Left<'a>>,
    risks: Vec<Risk<'a>>,
    fuel_short: Option<FuelShort<'a>>,
    needs: Vec<Need<'a>>,
    fuel_ranges: Vec<FuelRange<'a>>,
    checks: Vec<Check<'a>>,
    before_you_leave: Vec<Chore<'a>>,
    items_considered: usize,
    items_dropped: Vec<Dropped>,
    #[serde(skip_serializing_if = "Option::is_none")]
    uncertain: Option<Uncertain<'a>>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
pub(super) struct Trip {
    days: f64,
    nights: u32,
    distance_km: f64,
    track_and_rough_km: f64,
    furthest_help_h: f64,
}

#[derive(Serialize)]
pub(super) struct Purchase<'a> {
    name: &'a str,
    count: u32,
    price: f64,
}

#[derive(Serialize)]
struct Left<'a> {
    name: &'a str,
    count: u32,
    mass_g: f64,
}

#[derive(Serialize)]
pub(super) struct Need<'a> {
    id: &'a str,
    name: &'a str,
    unit: &'a str,
    demanded: f64,
    carried: f64,
    mass_g: f64,
    working: &'a str,
}

#[derive(Serialize)]
struct FuelRange<'a> {
    rider: &'a str,
    leg: &'a str,
    stretch_km: f64,
    litres_per_100_km: f64,
    reserve_factor: f64,
    wanted_l: f64,
    tank_l: f64,
    short_l: f64,
}

#[derive(Serialize)]
struct Dropped {
    reason: &'static str,
    items: usize,
}

#[derive(Serialize)]
struct Chore<'a> {
    id: &'a str,
    name: &'a str,
    kind: &'static str,
    price: f64,
    mass_g: f64,
    work_h: f64,
    hours_saved_with_this_kit: f64,
    hours_saved_packed_anew: Option<f64>,
}

fn chore(chore: &fardel_core::answer::Chore) -> Chore<'_> {
    Chore {
        id: &chore.id,
        name: &chore.name,
        kind: chore.kind.word(),
        price: chore.price.units(),
        mass_g: chore.mass.grams(),
        work_h: chore.time.get(),
        hours_saved_with_this_kit: chore.gain.get(),
        hours_saved_packed_anew: chore.gain_anew.map(fardel_core::units::Hours::get),
    }
}

/// The answer of `pack` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn pack(answer: &PackAnswer, robust: Option<&Robust>) -> Result<String, serde_json::Error> {
    written(&pack_document(answer, robust))
}

/// The same as plain data, for templates.
pub(crate) fn pack_document<'a>(answer: &'a PackAnswer, robust: Option<&'a Robust>) -> impl Serialize + use<'a> {
    Pack {
        head: head("pack"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        trip: trip(answer),
        totals: totals(answer),
        figures: figures(answer),
        objective: objective(&answer.figures.terms, answer.proof.objective),
        prices: prices(&answer.prices),
        proof: proof(&answer.proof),
        firm: answer.firm.as_ref().map(firm),
        bags: answer.bags.iter().map(bag).collect(),
        purchases: answer.purchases.iter().map(purchase).collect(),
        loads: answer.loads.iter().map(load).collect(),
        toolkit_left: answer
            .toolkit_left
            .iter()
            .map(|left| Left { name: &left.name, count: left.count, mass_g: left.mass.grams() })
            .collect(),
        risks: answer.risks.iter().map(risk).collect(),
        fuel_short: fuel(answer.fuel.as_ref()),
        needs: answer.needs.iter().map(need).collect(),
        fuel_ranges: answer.ranges.iter().map(|(rider, range)| fuel_range(rider, range)).collect(),
        checks: checks(&answer.checks),
        before_you_leave: answer.chores.iter().map(chore).collect(),
        items_considered: answer.considered,
        items_dropped: answer
            .dropped
            .iter()
            .map(|(reason, items)| Dropped { reason: reason.words(), items: *items })
            .collect(),
        uncertain: robust.map(uncertain),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    }
}

pub(super) fn trip(answer: &PackAnswer) -> Trip {
    Trip {
        days: answer.trip.days,
        nights: answer.trip.nights,
        distance_km: answer.trip.distance.km(),
        track_and_rough_km: answer.trip.off_road.km(),
        furthest_help_h: answer.trip.furthest.get(),
    }
}

pub(super) fn purchase(purchase: &fardel_core::answer::Purchase) -> Purchase<'_> {
    Purchase { name: &purchase.name, count: purchase.count, price: purchase.price.units() }
}

pub(super) fn need(need: &fardel_core::answer::NeedLine) -> Need<'_> {
    Need {
        id: &need.id,
        name: &need.name,
        unit: &need.unit,
        demanded: need.demanded,
        carried: need.carried,
        mass_g: need.mass.grams(),
        working: &need.working,
    }
}

fn fuel_range<'a>(rider: &'a str, range: &'a Range) -> FuelRange<'a> {
    FuelRange {
        rider,
        leg: &range.leg,
        stretch_km: range.stretch.km(),
        litres_per_100_km: range.per_100_km,
        reserve_factor: range.reserve,
        wanted_l: range.litres,
        tank_l: range.tank.litres(),
        short_l: range.short(),
    }
}
