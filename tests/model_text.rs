//! The models as readable text: a change of the formulation is read as a change of these files, without any solver.
//!
//! One world of three items calls for every family of rows there is; a family that is in no snapshot fails the test.

use fardel::answer::joint;
use fardel::load::{Source, load_texts};
use fardel::milp::{Model, SolveOptions, text};
use fardel::resolve::{Instance, Measure, resolve};
use fardel::risk::{RiskModel, assess};
use fardel::{select, stow};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Levers by twos and threes, a socket that is a bolt-turner only with a handle, a kit with fewer patches than a gash
/// takes, water that must be opened and kept from the kit, two side bags, a bike that bears little. Numbers are round so that rows can be read.
const WORLD: &str = r"
functions:
  lever: { name: lever }
  handle: { name: handle }
  socket: { name: socket }
  bolt: { name: turn a bolt, also_from: [[socket, handle]] }
stocks:
  patch: { name: patches, unit: patch }
needs:
  water: { name: water, unit: mL, rule: water }
systems:
  wheels: { name: wheels, basis: from memory }
items:
  lever:
    { name: lever, kind: tool, mass: 200 g, volume: 100 mL, longest: 280 mm, price: 10 USD, at_most: 4, provides: [lever, handle], basis: from memory }
  kit:
    { name: kit, kind: spare, mass: 50 g, volume: 80 mL, longest: 90 mm, price: 8 USD, at_most: 2, provides: [socket], holds: { patch: 3 }, requires: [lever], apart_from: [water], basis: from memory }
  canteen:
    { name: canteen, kind: water, mass: 1 kg, volume: 1 L, longest: 200 mm, price: 5 USD, at_most: 3, meets: { water: 900 }, requires: [handle], basis: from memory }
bags:
  left:
    { name: left, volume: 4 L, packing: 0.75, mass: 1 kg, max_load: 3 kg, longest: 300 mm, access: deep, weatherproof: true, side: left, ahead: 0 mm, out: 300 mm, height: 700 mm, price: 0 USD, basis: from memory }
  right: { name: right, like: left, side: right, longest: 250 mm, ahead: 140 mm }
bikes:
  bike:
    name: bike
    mass: 100 kg
    max_mass: 185 kg
    rear_axle_limit: 105 kg
    front_share: 0.5
    wheelbase: 1400 mm
    front_load_index: 54
    rear_load_index: 65
    tank: 10 L
    consumption: { sealed: 4 L, gravel: 4 L, track: 5 L, rough: 6 L }
    rider_x: 500 mm
    passenger_x: 200 mm
    attributes: {}
    basis: from memory
failures:
  puncture:
    name: puncture
    system: wheels
    outcome: stops
    rate: { per_day: 0.5, worth_events: 0.5, basis: from memory }
    repairs:
      patch: { name: patch, grade: field, needs: { lever: 2, bolt: 1 }, uses: { patch: 1 }, time: 1 h, restores: 1, skill: anyone, basis: from memory }
      stuff: { name: stuff with grass, grade: bodge, needs: { lever: 3 }, time: 2 h, restores: 0.5, skill: anyone, basis: from memory }
  gash:
    name: gash
    system: wheels
    outcome: stops
    rate: { per_day: 0.1, worth_events: 0.5, basis: from memory }
    repairs:
      line: { name: line the gash, grade: bodge, needs: [lever], uses: { patch: 4 }, time: 1 h, restores: 0.8, skill: anyone, basis: from memory }
model:
  falls_per_1000_km: { sealed: 0, gravel: 0, track: 0, rough: 10 }
  riding_skill: { novice: 1, intermediate: 1, advanced: 1, expert: 1 }
  load_sensitivity: 1
  hours_per_fall: 1 h
  basis: from memory
";

const TRIP: &str = "
name: three items
trip:
  style: none
  legs:
    - { name: the leg, days: 1, km: { rough: 100 }, hours_to_help: 10 h, highest: 20 °C, water_every: 8 h }
riders:
  - { name: Rider, bike: bike, riding_skill: intermediate, repair_skill: handy, mass: 80 kg, bags: [left, right], owns: { lever: 1 } }
limits: { kit_mass: 3 kg, budget: 40 USD, stranded_at_most: 1/5 }
";

fn instance() -> (Instance, RiskModel) {
    let source = |name: &str, text: &str| Source { name: name.to_owned(), text: text.to_owned() };
    let loaded = load_texts(&[source("world.yaml", WORLD)], source("trip.yaml", TRIP), &|_| unreachable!("no extras"));
    let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let risk_model = assess(&instance);
    (instance, risk_model)
}

/// Two levers and a canteen, taken as a kit that could not be stowed.
fn cut(instance: &Instance) -> select::Cut {
    let number = |id: &str| instance.items.iter().position(|item| item.id == id).unwrap();
    vec![(number("lever"), 2), (number("canteen"), 1)]
}

/// Name of the snapshot, and the model in it.
fn models() -> Vec<(&'static str, Model)> {
    let (instance, risk_model) = instance();
    let cut = cut(&instance);
    // As if the needs alone came to 1.2 kg.
    let series =
        select::Series::new(&instance, &risk_model, Measure::Mass, Some(1_200_000), &SolveOptions::default()).unwrap();
    vec![
        ("select", select::model(&instance, &risk_model, &[]).0),
        ("select-with-a-cut", select::model(&instance, &risk_model, &[cut]).0),
        ("series", series.model().clone()),
        ("stow", stow::model(&instance, &[3, 1, 1]).0),
        ("joint", joint::model(&instance, &risk_model).0),
    ]
}

#[test]
fn the_models_read_as_they_are_meant() {
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.set_snapshot_path("snapshots/model");
    settings.bind(|| {
        for (name, model) in models() {
            insta::assert_snapshot!(name, text(&model));
        }
    });
}

#[test]
fn every_family_of_rows_is_in_a_snapshot() {
    let shown: BTreeSet<String> =
        models().iter().flat_map(|(_, model)| &model.rows).map(|row| row.family.to_owned()).collect();
    let written = families();
    for (family, place) in &written {
        assert!(
            shown.contains(family),
            "rows of the family `{family}` ({place}) are in no snapshot: let the world in tests/model_text.rs call for them"
        );
    }
    let known: BTreeSet<String> = written.into_iter().map(|(family, _)| family).collect();
    assert_eq!(shown, known, "rows of families that are not written in src/core/select or src/core/stow");
}

/// Families given to `.row(...)` in the sources of select and stow, with the file each stands in.
fn families() -> Vec<(String, String)> {
    let mut found = Vec::new();
    for folder in ["src/core/select", "src/core/select/rows", "src/core/stow"] {
        for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_none_or(|ending| ending != "rs") {
                continue;
            }
            let place = format!("{folder}/{}", path.file_name().unwrap().to_string_lossy());
            let source = fs::read_to_string(&path).unwrap();
            for call in source.split(".row(").skip(1) {
                let literal = call.trim_start().strip_prefix('"').and_then(|rest| rest.split_once('"'));
                let (family, _) = literal.unwrap_or_else(|| panic!("{place}: a family that is not written out"));
                found.push((family.to_owned(), place.clone()));
            }
        }
    }
    assert!(found.len() > 20, "the rows are written in some other way now: {found:?}");
    found
}
