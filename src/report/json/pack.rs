//! The answer of `pack`.

use super::bags::{Bag, bag};
use super::figures::{Figures, Proof, Totals, figures, proof, totals};
use super::loads::{Load, load};
use super::risks::{Risk, risk};
use super::{Head, head, written};
use crate::answer::PackAnswer;
use crate::report::cautions::cautions;
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
    proof: Proof,
    bags: Vec<Bag<'a>>,
    purchases: Vec<Purchase<'a>>,
    loads: Vec<Load<'a>>,
    toolkit_left: Vec<Left<'a>>,
    risks: Vec<Risk<'a>>,
    needs: Vec<Need<'a>>,
    items_considered: usize,
    items_dropped: Vec<Dropped>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Trip {
    days: f64,
    nights: u32,
    distance_km: f64,
    track_and_rough_km: f64,
    furthest_help_h: f64,
}

#[derive(Serialize)]
struct Purchase<'a> {
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
struct Need<'a> {
    id: &'a str,
    name: &'a str,
    unit: &'a str,
    demanded: f64,
    carried: f64,
    working: &'a str,
}

#[derive(Serialize)]
struct Dropped {
    reason: &'static str,
    items: usize,
}

/// The answer of `pack` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn pack(answer: &PackAnswer) -> Result<String, serde_json::Error> {
    let shape = Pack {
        head: head("pack"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        trip: Trip {
            days: answer.trip.days,
            nights: answer.trip.nights,
            distance_km: answer.trip.distance.km(),
            track_and_rough_km: answer.trip.off_road.km(),
            furthest_help_h: answer.trip.furthest.get(),
        },
        totals: totals(answer),
        figures: figures(answer),
        proof: proof(&answer.proof),
        bags: answer.bags.iter().map(bag).collect(),
        purchases: answer
            .purchases
            .iter()
            .map(|p| Purchase { name: &p.name, count: p.count, price: p.price.units() })
            .collect(),
        loads: answer.loads.iter().map(load).collect(),
        toolkit_left: answer
            .toolkit_left
            .iter()
            .map(|left| Left { name: &left.name, count: left.count, mass_g: left.mass.grams() })
            .collect(),
        risks: answer.risks.iter().map(risk).collect(),
        needs: answer
            .needs
            .iter()
            .map(|need| Need {
                id: &need.id,
                name: &need.name,
                unit: &need.unit,
                demanded: need.demanded,
                carried: need.carried,
                working: &need.working,
            })
            .collect(),
        items_considered: answer.considered,
        items_dropped: answer
            .dropped
            .iter()
            .map(|(reason, items)| Dropped { reason: reason.words(), items: *items })
            .collect(),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    };
    written(&shape)
}
