//! The loaded bikes for machines.

use fardel_core::answer::{By, Loading, Wheels};
use fardel_core::resolve::{Limit, Scale};
use serde::Serialize;

/// One loaded bike.
#[derive(Serialize)]
pub(super) struct Load<'a> {
    rider: &'a str,
    bike: &'a str,
    bike_g: f64,
    people_g: f64,
    bags_g: f64,
    kit_g: f64,
    total_g: f64,
    stages: Vec<Stage>,
    limits: Vec<Used>,
    left_g: f64,
    right_g: f64,
    lean_to_left_kg_m: f64,
    kit_allowed: Vec<Allowed>,
}

#[derive(Serialize)]
struct Stage {
    with: &'static str,
    front_g: f64,
    rear_g: f64,
    front_share: f64,
}

#[derive(Serialize)]
struct Used {
    scale: &'static str,
    set_by: &'static str,
    limit_g: f64,
    loaded_g: f64,
    used: f64,
}

#[derive(Serialize)]
struct Allowed {
    by: &'static str,
    mass_g: f64,
}

/// The shape of one loaded bike.
pub(super) fn load(load: &Loading) -> Load<'_> {
    let stages = [("people", load.ridden), ("empty bags", load.bagged), ("kit", load.loaded)];
    Load {
        rider: &load.rider,
        bike: &load.bike_name,
        bike_g: load.bike.grams(),
        people_g: load.people.grams(),
        bags_g: load.bags.grams(),
        kit_g: load.kit.grams(),
        total_g: grams(load.loaded.total()),
        stages: stages.map(|(with, wheels)| stage(with, wheels)).into(),
        limits: load.limits.iter().map(|limit| used(load, limit)).collect(),
        left_g: load.left.grams(),
        right_g: load.right.grams(),
        lean_to_left_kg_m: rounded(load.lean),
        kit_allowed: load
            .allowances
            .iter()
            .map(|allowance| Allowed { by: by(allowance.by), mass_g: grams(allowance.mass.kilograms()) })
            .collect(),
    }
}

fn stage(with: &'static str, wheels: Wheels) -> Stage {
    let (front_g, rear_g) = (grams(wheels.front), grams(wheels.rear));
    Stage { with, front_g, rear_g, front_share: rounded(wheels.front_share()) }
}

fn used(load: &Loading, limit: &Limit) -> Used {
    Used {
        scale: limit.scale.word(),
        set_by: limit.setter.word(),
        limit_g: limit.mass.grams(),
        loaded_g: grams(load.loaded.on(limit.scale)),
        used: rounded(load.used(limit.scale).unwrap_or(0.0)),
    }
}

const fn by(by: By) -> &'static str {
    match by {
        By::Wish => "wish",
        By::Bags => "bags",
        By::Bike(Limit { scale: Scale::Gross, .. }) => "gross",
        By::Bike(Limit { scale: Scale::Front, .. }) => "front",
        By::Bike(Limit { scale: Scale::Rear, .. }) => "rear",
    }
}

/// Whole grams: levers are known no better.
fn grams(kilograms: f64) -> f64 {
    (kilograms * 1000.0).round()
}

/// Six places: enough for shares and moments, and the same on every machine.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
