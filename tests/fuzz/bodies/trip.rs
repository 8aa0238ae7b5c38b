//! A scenario from text to a packed kit: refused with faults, impossible for a reason, or answered with a kit that keeps
//! every limit by a reckoning of its own.

use super::{WORLD, faults, source, text};
use fardel::answer::split::{Demands, split};
use fardel::answer::{PackAnswer, PackError, pack};
use fardel::domain::{Map, Rider};
use fardel::load::{self, Loaded, Unreadable};
use fardel::milp::{Engine, EngineError, SolveOptions};
use fardel::report::{Look, json, terminal};
use fardel::units::{Mass, UnitSystem};
use std::time::Duration;

/// Longest that the search for a kit may take; what was found by then is checked all the same.
const SEARCH: Duration = Duration::from_millis(400);
/// Larger groups pack one rider after another, which says the same of each.
const MOST_RIDERS: usize = 3;

pub fn scenario(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let gear = source("gear.csv", "id,name,mass,volume\npump,,210 g,\n,paper diary,240 g,400 mL\n");
    let missing = |name: &str| Unreadable { name: name.to_owned(), reason: "no such file".to_owned() };
    let find = |name: &str| if name == gear.name { Ok(gear.clone()) } else { Err(missing(name)) };
    match load::load_texts(&[source("world.yaml", WORLD)], source("trip.yaml", text), &find) {
        Ok(loaded) => ridden(&loaded),
        Err(faults) => {
            faults::are_told(&faults, &[("trip.yaml", text), ("world.yaml", WORLD), ("gear.csv", &gear.text)]);
        }
    }
}

fn ridden(loaded: &Loaded) {
    let Loaded { catalogue, scenario, .. } = loaded;
    fardel::lint::scenario(scenario).iter().for_each(|doubt| assert!(!doubt.what.is_empty(), "{doubt:?}"));
    let options = SolveOptions { engine: Engine::Microlp, time_limit: Some(SEARCH), gap: 0.0 };
    let look = Look { units: UnitSystem::Metric, width: 80 };
    for rider in scenario.riders.iter().take(MOST_RIDERS) {
        match pack(catalogue, scenario, rider, &options) {
            Ok(answer) => {
                keeps_the_limits(&answer, loaded, rider);
                is_shown_whole(&answer, loaded, rider, &look);
            }
            Err(error) => is_a_reason(&error, loaded, &look),
        }
    }
    let group = 2..=MOST_RIDERS;
    if group.contains(&scenario.riders.len()) {
        match split(catalogue, scenario, &Demands::default(), None, &options) {
            Ok(answer) => shown(&terminal::split(&answer, &look)),
            Err(error) => is_a_reason(&error, loaded, &look),
        }
    }
}

fn is_a_reason(error: &PackError, loaded: &Loaded, look: &Look) {
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            shown(&terminal::infeasible(&loaded.catalogue, shortfalls, ways, look));
        }
        PackError::OutOfTime | PackError::TooMuch(_) | PackError::Engine(EngineError::NoAnswerInTime) => {}
        PackError::Engine(fault) => panic!("the solver failed: {fault}"),
        PackError::Unverified { violations, dump } => panic!("{violations:?}\n{dump}"),
    }
}

/// Counts, masses and bags added up again from the answer and the files alone.
fn keeps_the_limits(answer: &PackAnswer, loaded: &Loaded, rider: &Rider) {
    let (catalogue, scenario) = (loaded.catalogue.as_weighed_by(rider), &loaded.scenario);
    let mut stowed: Map<u32> = Map::new();
    for (bag, things) in &answer.stowage {
        let limit = &catalogue.bags[bag];
        let mass: Mass = things.iter().map(|(id, count)| catalogue.items[id].mass * *count).sum();
        let volume = things.iter().map(|(id, count)| catalogue.items[id].volume * *count).sum();
        assert!(mass <= limit.max_load && limit.volume.share(limit.packing) >= volume, "{bag}: {things:?}");
        things.iter().for_each(|(id, count)| *stowed.entry(id.clone()).or_default() += count);
    }
    assert!(answer.kit.iter().all(|(id, count)| stowed.get(id) == Some(&count)), "{:?} {stowed:?}", answer.kit);
    assert_eq!(stowed.values().filter(|count| **count > 0).count(), answer.kit.len(), "{stowed:?}");
    assert_eq!(answer.kit.mass(&catalogue), answer.totals.mass);
    let most = rider.kit_mass.or(scenario.limits.kit_mass);
    assert!(most.is_none_or(|most| answer.totals.mass <= most), "{:?} with {most:?}", answer.totals);
    assert!(scenario.limits.kit_volume.is_none_or(|most| answer.totals.volume <= most), "{:?}", answer.totals);
    assert!(scenario.limits.budget.is_none_or(|most| answer.totals.to_buy <= most), "{:?}", answer.totals);
    assert!(answer.kit.iter().all(|(id, _)| !scenario.never.iter().any(|other| other == id)), "{:?}", answer.kit);
    let numbers = [answer.proof.objective, answer.proof.bound, answer.figures.hours_saved.get()];
    assert!(numbers.iter().all(|number| number.is_finite()), "{numbers:?}");
}

/// As text without anything odd in it, and as JSON from which the kit is read again.
fn is_shown_whole(answer: &PackAnswer, loaded: &Loaded, rider: &Rider, look: &Look) {
    shown(&terminal::pack(answer, look));
    let text = json::pack(answer, None).unwrap_or_else(|error| panic!("{error}"));
    let catalogue = loaded.catalogue.as_weighed_by(rider);
    match load::kit_text(source("kit.json", &text), &catalogue) {
        Ok(load::PackedKit { kit, stowage, .. }) => {
            let filled = answer.stowage.iter().filter(|(_, things)| !things.is_empty());
            let filled: Map<Map<u32>> = filled.map(|(bag, things)| (bag.clone(), things.clone())).collect();
            assert!(kit.is_empty() || stowage.as_ref() == Some(&filled), "{stowage:?}, not {filled:?}");
            let same = kit.len() == answer.kit.len() && kit.iter().all(|(id, count)| answer.kit.count(id) == count);
            assert!(same, "{kit:?} {:?}", answer.kit);
        }
        Err(faults) => assert!(answer.kit.is_empty(), "{text}\n{faults}"),
    }
}

/// Styles aside, nothing but letters; no number that is none.
fn shown(text: &str) {
    let plain = anstream::adapter::strip_str(text).to_string();
    faults::is_harmless(&plain);
    assert!(!plain.contains("NaN") && !plain.contains(" inf"), "{plain}");
}
