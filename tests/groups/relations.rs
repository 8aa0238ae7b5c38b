//! What must not change an answer, and what must not worsen it.

use super::draw::{Drawn, drawn};
use super::{load_drawn, solve};
use fardel::milp::Engine;
use rayon::prelude::*;
use serde_json::{Map, Value, json};

/// Seeds that are tried with every change.
const SEEDS: u64 = 20;

/// What the group saves in all, net of what it costs; nothing where that is not proven.
fn objective(drawn: &Drawn) -> Option<f64> {
    let answer = solve(&load_drawn(drawn).ok()?, Engine::Microlp, None).ok()?;
    answer.proof.proven.then_some(answer.proof.objective)
}

/// Objectives before and after a change, for all seeds where both are proven.
fn compared(change: impl Fn(&mut Drawn) + Sync) -> Vec<(u64, f64, f64)> {
    let both: Vec<_> = (0..SEEDS)
        .into_par_iter()
        .filter_map(|seed| {
            let before = drawn(seed);
            let mut after = before.clone();
            change(&mut after);
            Some((seed, objective(&before)?, objective(&after)?))
        })
        .collect();
    assert!(both.len() as u64 * 3 > SEEDS, "too few seeds are proven to say anything: {}", both.len());
    both
}

fn unchanged(change: impl Fn(&mut Drawn) + Sync) {
    for (seed, before, after) in compared(change) {
        assert!((before - after).abs() <= 1e-5 * before.abs().max(1.0), "seed {seed}: {before} became {after}");
    }
}

fn never_worse(change: impl Fn(&mut Drawn) + Sync) {
    for (seed, before, after) in compared(change) {
        assert!(after >= before - 1e-5 * before.abs().max(1.0), "seed {seed}: {before} became {after}");
    }
}

/// All entries of all sections the other way round.
fn reversed(value: &Value) -> Value {
    match value {
        Value::Object(map) => {
            map.iter().rev().map(|(key, value)| (key.clone(), value.clone())).collect::<Map<_, _>>().into()
        }
        other => other.clone(),
    }
}

#[test]
fn the_order_of_entries_changes_nothing() {
    unchanged(|drawn| {
        let Value::Object(sections) = &mut drawn.catalogue else { unreachable!() };
        for section in ["items", "failures", "bags", "bikes", "functions", "stocks", "needs"] {
            sections[section] = reversed(&sections[section]);
        }
    });
}

/// Ids with spaces and with the very words that the program itself puts between them.
#[test]
fn other_ids_change_nothing() {
    unchanged(|drawn| {
        for text in [&mut drawn.catalogue, &mut drawn.scenario] {
            let mut written = text.to_string();
            for prefix in ["it", "st", "fn"] {
                for at in 0..20 {
                    written = written.replace(&format!("\"{prefix}{at}\""), &format!("\"{prefix} of bk{at}\""));
                }
            }
            *text = serde_json::from_str(&written).unwrap();
        }
    });
}

/// Half as often on twice as far is the same trip; fuel is left out, which goes by distance.
#[test]
fn half_the_rates_on_twice_the_distance_change_nothing() {
    let twice = |value: &mut Value, by: f64| {
        value.as_object_mut().unwrap().values_mut().for_each(|number| *number = json!(number.as_f64().unwrap() * by));
    };
    let no_fuel = |drawn: &mut Drawn| {
        for leg in drawn.scenario["trip"]["legs"].as_array_mut().unwrap() {
            leg.as_object_mut().unwrap().remove("fuel_every");
        }
    };
    for seed in 0..SEEDS {
        let mut before = drawn(seed);
        no_fuel(&mut before);
        let mut after = before.clone();
        for leg in after.scenario["trip"]["legs"].as_array_mut().unwrap() {
            twice(&mut leg["km"], 2.0);
        }
        for failure in after.catalogue["failures"].as_object_mut().unwrap().values_mut() {
            twice(&mut failure["rate"]["per_1000_km"], 0.5);
        }
        twice(&mut after.catalogue["model"]["falls_per_1000_km"], 0.5);
        if let (Some(before), Some(after)) = (objective(&before), objective(&after)) {
            assert!((before - after).abs() <= 1e-5 * before.abs().max(1.0), "seed {seed}: {before} became {after}");
        }
    }
}

#[test]
fn more_money_is_never_worse() {
    never_worse(|drawn| {
        if let Some(budget) = drawn.scenario["limits"].get_mut("budget") {
            *budget = json!("500 USD");
        }
    });
}

#[test]
fn wider_limits_are_never_worse() {
    never_worse(|drawn| {
        let limits = drawn.scenario["limits"].as_object_mut().unwrap();
        limits.remove("kit_mass");
        limits.remove("kit_volume");
        drawn.scenario["riders"].as_array_mut().unwrap().iter_mut().for_each(|rider| {
            rider.as_object_mut().unwrap().remove("kit_mass");
        });
    });
}

#[test]
fn a_better_mechanic_is_never_worse() {
    never_worse(|drawn| drawn.scenario["riders"][0]["repair_skill"] = json!("expert"));
}

/// A thing that somebody owns already can be taken or left. Left out is what buying is charged with, since what does the
/// same as a thing that is owned is charged whole.
#[test]
fn an_owned_thing_more_is_never_worse() {
    let free = |drawn: &mut Drawn| drawn.scenario["prices"]["buying"] = json!(0);
    for seed in 0..SEEDS {
        let mut before = drawn(seed);
        free(&mut before);
        let mut after = before.clone();
        let owns = after.scenario["riders"][0]["owns"].as_object_mut().unwrap();
        let count = owns.get("it0").and_then(Value::as_u64).unwrap_or(0);
        owns.insert("it0".to_owned(), json!(count + 1));
        if let (Some(before), Some(after)) = (objective(&before), objective(&after)) {
            assert!(after >= before - 1e-5 * before.abs().max(1.0), "seed {seed}: {before} became {after}");
        }
    }
}

/// Whoever rides no leg has no part in the trip: a slip, which is told, and so nothing that could change an answer.
#[test]
fn a_rider_who_rides_no_leg_is_refused() {
    let mut drawn = drawn(0);
    let riders = drawn.scenario["riders"].as_array_mut().unwrap();
    let names: Vec<Value> = riders.iter().map(|rider| rider["name"].clone()).collect();
    let mut idle = riders[0].clone();
    idle["name"] = json!("Zed");
    riders.push(idle);
    for leg in drawn.scenario["trip"]["legs"].as_array_mut().unwrap() {
        leg.as_object_mut().unwrap().entry("riders").or_insert(json!(names));
    }
    let told = load_drawn(&drawn).unwrap_err();
    assert!(told.contains("`Zed` on no leg"), "{told}");
}

/// Where nothing costs anything and nothing is limited, what riders would each take alone is a kit for all of them.
#[test]
fn a_group_is_never_worse_than_its_riders_alone() {
    let mut compared = 0;
    for seed in 0..SEEDS {
        let mut group = drawn(seed);
        group.scenario["limits"] = json!({});
        group.scenario["prices"] = json!({ "weight": 0, "buying": 0, "thing": "0 min" });
        group.catalogue["model"]["load_sensitivity"] = json!(0);
        for leg in group.scenario["trip"]["legs"].as_array_mut().unwrap() {
            leg.as_object_mut().unwrap().remove("riders");
        }
        let Some(together) = objective(&group) else { continue };
        let riders = group.scenario["riders"].as_array().unwrap().clone();
        let alone = |rider: &Value| {
            let mut own = group.clone();
            own.scenario["riders"] = json!([rider]);
            objective(&own)
        };
        let Some(alone) = riders.iter().map(alone).collect::<Option<Vec<f64>>>() else { continue };
        let alone: f64 = alone.iter().sum();
        compared += 1;
        assert!(together >= alone - 1e-5 * alone.abs().max(1.0), "seed {seed}: {alone} alone, {together} together");
    }
    assert!(compared * 3 > SEEDS, "too few seeds are proven to say anything: {compared}");
}
