//! What is wrong or odd with a trip, and what it demands, without a search.

use crate::host::Host;
use crate::refused::Refused;
use crate::trip::Trip;
use fardel_core::domain::{Leg, Rider, Scenario, Surface};
use fardel_core::lint::{self, Warning};
use fardel_core::load::Loaded;
use fardel_core::resolve::{Instance, Limit, Mount, Scale, resolve};
use fardel_core::units::{Distance, Mass};
use fardel_report::terminal;
use fardel_words::say;
use serde::Serialize;
use serde_json::{Value, json};

#[derive(Serialize)]
struct Checked {
    /// Problems that stand in the way; empty in an answer.
    faults: [Value; 0],
    /// What to look at.
    warnings: Vec<Warning>,
    /// How the files were read.
    notes: Vec<String>,
    /// The trip in figures.
    trip: Value,
    /// For each rider: what the trip demands, and how the bike is loaded without the kit.
    riders: Vec<Value>,
}

/// Checks a trip. Faults are the refusal.
pub(crate) fn check(host: &Host, trip: &Trip) -> Result<String, Refused> {
    let loaded = trip.load(host)?;
    let scenario = &loaded.scenario;
    let riders = scenario.riders.iter().map(|rider| rider_told(&loaded, rider)).collect::<Result<_, _>>()?;
    let checked = Checked {
        faults: [],
        warnings: warnings(host, trip.name(), &loaded),
        notes: loaded.notes.clone(),
        trip: trip_told(scenario),
        riders,
    };
    Ok(serde_json::to_string(&checked)?)
}

/// Oddities of the trip; those of the shipped catalogue are not the rider's.
fn warnings(host: &Host, name: &str, loaded: &Loaded) -> Vec<Warning> {
    let known = lint::catalogue(host.catalogue());
    let told = |doubt: &lint::Doubt| known.iter().any(|old| old.id == doubt.id && old.what == doubt.what);
    let own = lint::catalogue(&loaded.catalogue).into_iter().filter(|doubt| !told(doubt));
    let own = own.chain(lint::scenario(&loaded.scenario)).chain(lint::trip(&loaded.catalogue, &loaded.scenario));
    own.map(|doubt| Warning::new(doubt, name, None)).collect()
}

fn km<'a>(legs: impl Iterator<Item = &'a Leg>, surface: Surface) -> f64 {
    legs.map(|leg| leg.km.on(surface)).sum::<Distance>().km()
}

fn trip_told(scenario: &Scenario) -> Value {
    let legs = || scenario.trip.legs.iter();
    let km: serde_json::Map<String, Value> =
        Surface::ALL.iter().map(|surface| (surface.word().to_owned(), km(legs(), *surface).into())).collect();
    let furthest = legs().map(|leg| leg.hours_to_help.get()).fold(0.0, f64::max);
    let lowest = legs().map(|leg| leg.lowest.celsius()).fold(f64::INFINITY, f64::min);
    let highest = legs().map(|leg| leg.highest.celsius()).fold(f64::NEG_INFINITY, f64::max);
    json!({
        "name": scenario.name,
        "style": scenario.trip.style,
        "days": legs().map(|leg| leg.days).sum::<f64>(),
        "nights": legs().map(|leg| leg.nights).sum::<u32>(),
        "km": km,
        "hours_to_help": furthest,
        "lowest_c": lowest,
        "highest_c": highest,
    })
}

fn rider_told(loaded: &Loaded, rider: &Rider) -> Result<Value, Refused> {
    let catalogue = loaded.catalogue.as_weighed_by(rider);
    let instance = resolve(&catalogue, &loaded.scenario.as_ridden_by(rider), rider)
        .ok_or_else(|| Refused::Defect(say!("no bike `{}`", rider.bike)))?;
    Ok(json!({
        "rider": rider.name,
        "needs": needs(&instance),
        "loads": instance.mounts.iter().map(load).collect::<Vec<_>>(),
        "room_ml": instance.usable_volume().millilitres(),
        "warnings": instance.warnings.iter().cloned().chain(terminal::range_notes(&instance)).collect::<Vec<String>>(),
    }))
}

fn needs(instance: &Instance) -> Vec<Value> {
    let each = instance.demands.iter();
    each.map(|demand| {
        json!({
            "id": demand.id,
            "name": demand.name,
            "demanded": demand.amount,
            "unit": demand.unit,
            "working": demand.working,
        })
    })
    .collect()
}

/// The bike with rider and empty bags: what its wheels bear, and what is spare for the kit.
pub(crate) fn load(mount: &Mount) -> Value {
    let scales: Vec<Value> = Scale::ALL
        .iter()
        .map(|scale| {
            let limit: Option<Limit> = mount.limit(*scale);
            json!({
                "scale": scale,
                "ridden_kg": mount.ridden(*scale),
                "bagged_kg": mount.before(*scale),
                "limit_kg": limit.map(|limit| limit.mass.kilograms()),
                "set_by": limit.map(|limit| limit.setter),
                "spare_kg": mount.spare(*scale),
            })
        })
        .collect();
    json!({
        "bike": mount.bike,
        "bike_g": mount.bike_mass.grams(),
        "people_g": mount.people.iter().map(|(mass, _)| *mass).sum::<Mass>().grams(),
        "bags_g": mount.empty_bags.iter().map(|(mass, _)| *mass).sum::<Mass>().grams(),
        "lean_to_left_kg_m": mount.empty_lean,
        "scales": scales,
    })
}
