//! Every bike on every trip: a kit exists, and every failure can be mended by some kit.

use super::SHIPPED;
use fardel::answer;
use fardel::domain::{Bike, Style};
use fardel::engine::Effort;
use fardel::lint::{self, Lint};
use fardel::load::{self, Source, Unreadable};
use fardel::starter::{self, Wish};
use std::path::Path;
use std::sync::Mutex;

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

fn packs(text: &str, folder: &Path, bike: &Bike) -> Result<(), String> {
    let source = Source { name: "trip.yaml".to_owned(), text: text.to_owned() };
    let read = |name: &str| Source::read(&folder.join(name));
    let none = |name: &str| Err(Unreadable { name: name.to_owned(), reason: "not here".to_owned() });
    let found = if folder.as_os_str().is_empty() {
        load::load_texts(&load::shipped(), source, &none)
    } else {
        load::load_texts(&load::shipped(), source, &read)
    };
    let mut loaded = found.map_err(|faults| format!("{}: {faults}", bike.id))?;
    let doubts = lint::scenario(&loaded.scenario);
    if !doubts.is_empty() {
        return Err(format!("{}: {doubts:?}", bike.id));
    }
    let rider = &mut loaded.scenario.riders[0];
    rider.bike.clone_from(&bike.id);
    rider.bags.retain(|bag| !bike.bags.contains(bag));
    // Two people are more than a small bike may carry; the second then stays at home.
    let spare = (bike.max_mass - bike.mass).kilograms() - rider.mass.kilograms();
    rider.passenger = rider.passenger.filter(|passenger| passenger.kilograms() + WITH_PASSENGER_KG <= spare);
    let rider = rider.clone();
    let effort = Effort { gap: EFFORT, ..Effort::default() };
    let name = &loaded.scenario.name;
    let packed = answer::pack(&loaded.catalogue, &loaded.scenario, &rider, &effort);
    packed.map(|_| ()).map_err(|error| format!("{} on {name}: {error:?}", bike.id))
}

#[test]
fn every_bike_packs_for_every_shipped_trip() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut trips: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    trips.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    trips.sort();
    let texts: Vec<String> = trips.iter().map(|path| std::fs::read_to_string(path).unwrap()).collect();
    assert!(texts.len() >= 4 && SHIPPED.bikes.len() >= 12);
    let jobs: Vec<(&String, &Bike)> =
        texts.iter().flat_map(|text| SHIPPED.bikes.values().map(move |bike| (text, bike))).collect();
    let wrong = all(&jobs, |(text, bike)| packs(text, &folder, bike));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What `fardel new` writes is checked and packed as it is, for every bike.
#[test]
fn every_new_scenario_packs_as_it_is() {
    let wishes = [(1, Style::None), (3, Style::Roofed), (8, Style::Camping)];
    let jobs: Vec<(Wish, &Bike)> = wishes
        .into_iter()
        .flat_map(|(days, style)| SHIPPED.bikes.values().map(move |bike| (Wish { days, style }, bike)))
        .collect();
    let wrong = all(&jobs, |(wish, bike)| {
        let text = starter::scenario(&SHIPPED, bike, *wish);
        packs(&text, Path::new(""), bike).map_err(|wrong| format!("{wish:?}: {wrong}\n{text}"))
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
