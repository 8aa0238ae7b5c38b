//! An invented season: departures on invented routes, with riders, bikes and garages drawn from a seed. Each departure has
//! a stream of random numbers of its own, so that a longer season begins with the shorter one.

use super::routes::{ROUTES, Route};
use crate::domain::{Bike, Catalogue, Map, RepairSkill, RidingSkill};
use crate::starter::{DAY_BAGS, OwnedSet, TRIP_BAGS};
use rand::rngs::ChaCha8Rng;
use rand::seq::{IndexedRandom as _, SliceRandom as _};
use rand::{RngExt as _, SeedableRng};

/// What riders are called; one is not there twice on a departure.
const NAMES: [&str; 24] = [
    "Aske", "Bea", "Corin", "Dunja", "Emeric", "Fenna", "Gesa", "Hauke", "Ilja", "Jorun", "Keno", "Linde", "Mattis",
    "Nele", "Oona", "Pelle", "Quirin", "Runa", "Silke", "Tove", "Ulla", "Veit", "Wanja", "Ylva",
];
/// Riders on one departure.
const RIDERS: std::ops::RangeInclusive<usize> = 4..=10;
/// Lowest and highest by month, April to October, °C in the valley.
const MONTHS: [(i32, i32); 7] = [(4, 18), (7, 23), (10, 27), (12, 30), (12, 30), (8, 24), (4, 18)];

/// Lines of jobs: `command` for each rider of each departure.
///
/// With `most_days`, only routes that take no longer. Bikes, bags and things are those of the catalogue.
pub fn draw<'a>(
    catalogue: &'a Catalogue,
    seed: u64,
    most_days: Option<u32>,
    command: &'a str,
) -> impl Iterator<Item = String> + use<'a> {
    let routes: Vec<&Route> = ROUTES.iter().filter(|route| most_days.is_none_or(|most| route.days() <= most)).collect();
    let bikes: Vec<&Bike> = catalogue.bikes.values().collect();
    let departures = if routes.is_empty() || bikes.is_empty() { 0 } else { u64::MAX };
    (0..departures).flat_map(move |departure| {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(departure);
        jobs(&mut rng, (departure, command), catalogue, (&routes, &bikes))
    })
}

fn jobs(
    rng: &mut ChaCha8Rng,
    (departure, command): (u64, &str),
    catalogue: &Catalogue,
    (routes, bikes): (&[&Route], &[&Bike]),
) -> Vec<String> {
    let Some(route) = routes.choose(rng) else { return Vec::new() };
    let mut names = NAMES;
    names.shuffle(rng);
    let names = &names[..rng.random_range(RIDERS)];
    let mut text = trip(rng, route);
    for (at, name) in names.iter().enumerate() {
        let Some(bike) = bikes.choose(rng) else { continue };
        text += &rider(rng, catalogue, (name, bike, route), at == 0);
    }
    text += &limits(rng, route, catalogue);
    let job = |name: &&str| {
        let id = format!("{departure:05}-{}", name.to_lowercase());
        serde_json::json!({"id": id, "command": command, "rider": name, "scenario_text": text}).to_string()
    };
    names.iter().map(job).collect()
}

fn trip(rng: &mut ChaCha8Rng, route: &Route) -> String {
    let (lowest, highest) = MONTHS.choose(rng).copied().unwrap_or(MONTHS[0]);
    let (lowest, highest) = (lowest - route.colder + rng.random_range(-2..=2), highest - route.colder);
    let mut text = format!("name: {}\ntrip:\n  style: {}\n  legs:\n", route.name, route.style);
    let mut left = if route.style == "none" { 0 } else { route.days() - 1 };
    for stretch in route.stretches {
        let nights = stretch.days.min(left);
        left -= nights;
        let [sealed, gravel, track, rough] = stretch.km;
        // What is said of help is a guess in the first place, and differs from year to year.
        let help = stretch.hours_to_help * rng.random_range(8..=13) / 10;
        text += &format!(
            "    - name: {}\n      days: {}\n      nights: {nights}\n      km: {{ sealed: {sealed}, gravel: {gravel}, track: {track}, \
             rough: {rough} }}\n      hours_to_help: {} h\n      lowest: {lowest} °C\n      highest: {highest} °C\n      \
             water_every: 0.5 days\n      food_every: 1 day\n      fuel_every: {} km\n",
            stretch.name,
            stretch.days,
            help.max(1),
            stretch.fuel_every
        );
    }
    text + "riders:\n"
}

fn rider(
    rng: &mut ChaCha8Rng,
    catalogue: &Catalogue,
    (name, bike, route): (&str, &Bike, &Route),
    leads: bool,
) -> String {
    let bags = if route.style == "none" { DAY_BAGS } else { TRIP_BAGS };
    let bags: Vec<&str> = bags
        .iter()
        .copied()
        .filter(|bag| catalogue.bags.contains_key(*bag) && !bike.bags.iter().any(|own| own == bag))
        .collect();
    let riding = [RidingSkill::Novice, RidingSkill::Intermediate, RidingSkill::Intermediate, RidingSkill::Advanced];
    let repair = [RepairSkill::Anyone, RepairSkill::Handy, RepairSkill::Handy, RepairSkill::Skilled];
    let riding = riding.choose(rng).map_or("intermediate", |skill| skill.word());
    let repair = repair.choose(rng).map_or("handy", |skill| skill.word());
    let mut text = format!(
        "  - name: {name}\n    bike: {}\n    riding_skill: {riding}\n    repair_skill: {repair}\n    mass: {} kg\n    bags: [{}]\n",
        bike.id,
        rng.random_range(60..=105),
        bags.join(", ")
    );
    if leads {
        text += "    roles: [leads]\n";
    }
    let owned: Vec<String> = owned(rng, catalogue, bike).iter().map(|(id, count)| format!("{id}: {count}")).collect();
    text + &format!("    owns: {{ {} }}\n", owned.join(", "))
}

/// Most of the usual sets, with a thing missing here and there.
fn owned(rng: &mut ChaCha8Rng, catalogue: &Catalogue, bike: &Bike) -> Map<u32> {
    let mut owned = Map::new();
    for set in OwnedSet::ALL {
        let usual = matches!(set, OwnedSet::Basics | OwnedSet::Away | OwnedSet::Sleeping);
        let has_set = rng.random_bool(if usual { 0.95 } else { 0.6 });
        for (id, count) in set.items(catalogue, bike) {
            if has_set && rng.random_bool(0.9) {
                owned.insert(id, count);
            }
        }
    }
    owned
}

fn limits(rng: &mut ChaCha8Rng, route: &Route, catalogue: &Catalogue) -> String {
    let most = match route.style {
        "none" => rng.random_range(8..=12),
        "roofed" => rng.random_range(14..=20),
        _ => rng.random_range(20..=28),
    };
    let budget = if route.style == "none" { rng.random_range(8..=30) } else { rng.random_range(25..=60) } * 20;
    format!("limits:\n  kit_mass: {most} kg\n  budget: {budget} {}\n", catalogue.currency)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::{Shelf, Source, shipped};
    use crate::season::{Job, Written};

    fn catalogue() -> Catalogue {
        crate::load::catalogue(&shipped(), &[]).unwrap()
    }

    #[test]
    fn a_seed_draws_the_same_season_and_a_longer_one_begins_with_it() {
        let catalogue = catalogue();
        let lines = |seed, count| draw(&catalogue, seed, None, "pack").take(count).collect::<Vec<_>>();
        assert_eq!(lines(1, 40), lines(1, 90)[..40]);
        assert_ne!(lines(1, 40), lines(2, 40));
        assert_eq!(draw(&catalogue, 1, Some(0), "pack").next(), None);
    }

    #[test]
    fn every_job_is_one_and_its_scenario_loads() {
        let catalogue = catalogue();
        let shelf = Shelf::new(shipped().into_iter().map(Ok).collect()).unwrap();
        let mut ids = std::collections::BTreeSet::new();
        for line in draw(&catalogue, 7, None, "pack").take(60) {
            let job = Job::from_json(&line).unwrap();
            assert!(ids.insert(job.id.clone()), "{} again", job.id);
            let Written::Text(text) = &job.scenario else { panic!("{line}") };
            let scenario = Source { name: "scenario_text".to_owned(), text: text.clone() };
            let loaded = shelf.load(Ok(scenario), &|_| unreachable!("no other files"));
            let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}\n{text}"));
            assert!(job.patches.apply(&loaded.catalogue, &loaded.scenario).unwrap().rider.is_some());
        }
    }
}
