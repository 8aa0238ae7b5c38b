//! Every bike on every trip: a kit exists, and every failure can be mended by some kit.

use super::SHIPPED;
use fardel::answer;
use fardel::domain::{Bike, RepairSkill, RidingSkill};
use fardel::lint::{self, Lint};
use fardel::live::{Budget, Cancel, Live};
use fardel::load::{self, Loaded, Source};
use fardel::milp::SolveOptions;
use fardel::starter::{self, Ground, Help, Nights, OwnedSet, Season, Wish};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::{Arc, Mutex};

/// A kit within a quarter of the best is proof enough that there is one.
const EFFORT: f64 = 0.25;

/// What bags and kit of two weigh at least (common practice, no source).
const WITH_PASSENGER_KG: f64 = 50.0;

/// Runs every job on two threads and returns what went wrong, sorted.
fn all<T: Sync>(jobs: &[T], run: impl Fn(&T) -> Result<(), String> + Sync) -> Vec<String> {
    let wrong = Mutex::new(Vec::new());
    let half = jobs.len().div_ceil(2);
    std::thread::scope(|scope| {
        for jobs in jobs.chunks(half.max(1)) {
            scope.spawn(|| {
                let told: Vec<String> = jobs.iter().filter_map(|job| run(job).err()).collect();
                wrong.lock().unwrap().extend(told);
            });
        }
    });
    let mut wrong = wrong.into_inner().unwrap();
    wrong.sort();
    wrong
}

fn loaded(text: &str, folder: &Path) -> Result<Loaded, String> {
    let source = Source { name: "trip.yaml".to_owned(), text: text.to_owned() };
    let loaded = load::load_texts(&load::shipped(), source, &|name| load::source(&folder.join(name)));
    let loaded = loaded.map_err(|faults| faults.to_string())?;
    let doubts = lint::scenario(&loaded.scenario);
    if doubts.is_empty() { Ok(loaded) } else { Err(format!("{doubts:?}")) }
}

fn packs(loaded: &Loaded, bike: &Bike) -> Result<(), String> {
    let mut scenario = loaded.scenario.clone();
    let rider = &mut scenario.riders[0];
    rider.bike.clone_from(&bike.id);
    rider.bags.retain(|bag| !bike.bags.contains(bag));
    // Two people are more than a small bike may carry; the second then stays at home.
    let spare = (bike.max_mass - bike.mass).kilograms() - rider.mass.kilograms();
    rider.passenger = rider.passenger.filter(|passenger| passenger.kilograms() + WITH_PASSENGER_KG <= spare);
    let options = SolveOptions { gap: EFFORT, ..SolveOptions::default() };
    // The whole answer for a day; for longer trips the kit alone, which the second calculation has checked as well.
    let packed = if scenario.trip.legs.iter().map(|leg| leg.days).sum::<f64>() <= 1.0 {
        answer::pack(&loaded.catalogue, &scenario, &scenario.riders[0], &options).map(|_| ())
    } else {
        let catalogue = Arc::new(loaded.catalogue.clone());
        let budget = Budget { gap: EFFORT, ..Budget::default() };
        let kit = |mut plan: Live| plan.improve(budget, &Cancel::new(), &mut |_| ControlFlow::Continue(())).map(|_| ());
        Live::open(catalogue, scenario.clone(), 0, options).and_then(kit)
    };
    packed.map_err(|error| format!("{} on {}: {error:?}", bike.id, scenario.name))
}

#[test]
fn every_bike_packs_for_every_shipped_trip() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut trips: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    trips.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    trips.sort();
    let trips: Vec<Loaded> = trips
        .iter()
        .map(|path| {
            let text = std::fs::read_to_string(path).unwrap();
            let mut trip = loaded(&text, &folder).unwrap_or_else(|wrong| panic!("{}: {wrong}", path.display()));
            // What a group owns and spends together is not for one rider's purse and shoulders.
            if trip.scenario.riders.len() > 1 {
                trip.scenario.limits = fardel::domain::Limits::default();
                trip.scenario.riders.truncate(1);
                trip.scenario.riders[0].kit_mass = None;
            }
            trip
        })
        .collect();
    assert!(trips.len() >= 4 && SHIPPED.bikes.len() >= 12);
    let jobs: Vec<(&Loaded, &Bike)> =
        trips.iter().flat_map(|trip| SHIPPED.bikes.values().map(move |bike| (trip, bike))).collect();
    let wrong = all(&jobs, |(trip, bike)| packs(trip, bike));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What `fardel new` writes is checked as it is, for every bike and every way to spend the nights; one of them, taken in
/// turn, is packed as well.
#[test]
fn every_new_scenario_packs_as_it_is() {
    let preferences = [
        (1, Nights::None, Ground::Road, Help::Near, Season::Mild),
        (3, Nights::Roofed, Ground::Gravel, Help::Hours, Season::Hot),
        (8, Nights::Camping, Ground::Rough, Help::Day, Season::Cold),
    ];
    let bikes: Vec<(usize, &Bike)> = SHIPPED.bikes.values().enumerate().collect();
    let wrong = all(&bikes, |(at, bike)| {
        for (turn, (days, nights, ground, help, season)) in preferences.into_iter().enumerate() {
            let wish = Wish {
                days,
                nights,
                ground,
                help,
                season,
                riding_skill: RidingSkill::Intermediate,
                repair_skill: RepairSkill::Handy,
                owns: OwnedSet::ALL.to_vec(),
                hour: None,
                recovery: None,
            };
            let text = starter::scenario(&SHIPPED, bike, &wish);
            let told = |wrong: String| format!("{}: {wrong}\n{text}", bike.id);
            let loaded = loaded(&text, Path::new("")).map_err(told)?;
            if at % preferences.len() == turn {
                packs(&loaded, bike).map_err(told)?;
            }
        }
        Ok(())
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// No failure is without a kit that mends it, on any bike that can suffer it; nor is there anything else to look at.
#[test]
fn nothing_shipped_is_doubted() {
    let doubts = lint::catalogue(&SHIPPED);
    let told = |lint: Lint| doubts.iter().filter(move |doubt| doubt.lint == lint).collect::<Vec<_>>();
    assert!(told(Lint::NoRepair).is_empty(), "{:?}", told(Lint::NoRepair));
    assert!(doubts.is_empty(), "{doubts:?}");
}
