//! Numbers at the edge: each case ends in a verified kit, which is the best by a reckoning of its own, or in a clear
//! error. `pack` verifies every kit that it gives out.

use crate::support::{Failure, Item, Repair, World, close, fardel, load, pack_with};
use fardel::answer::{PackAnswer, PackError};
use fardel::milp::Engine;
use std::fmt::Write as _;
use std::time::{Duration, Instant};

/// Hours that each failure of a [`knapsack`] costs if it is not mended: it stops the bike, and help takes so long.
const HOURS: f64 = 9.0;

/// One failure for each item, which alone mends it: the best kit is the best knapsack.
fn knapsack(masses: &[u32], means: &[f64], kit_mass_g: u32) -> World {
    let mut world = World { kit_mass_g: Some(kit_mass_g), hours_to_help: HOURS, ..World::new() };
    for (at, (mass_g, mean)) in masses.iter().zip(means).enumerate() {
        let tool = vec![(format!("tool-{at}"), 1)];
        let (id, mass_g) = (format!("item-{at}"), *mass_g);
        world.items.push(Item {
            id,
            mass_g,
            volume_ml: 1,
            price: 1,
            at_most: 1,
            provides: tool.clone(),
            ..Item::default()
        });
        let repair = Repair { needs: tool, restores: 1.0, ..Repair::default() };
        world.failures.push(Failure { id: format!("f{at}"), mean: *mean, repairs: vec![repair], ..Failure::default() });
    }
    world
}

/// Bellman's recursion over whole grams.
fn best_knapsack(masses: &[u32], values: &[f64], most: u32) -> f64 {
    let mut best = vec![0.0_f64; most as usize + 1];
    for (mass, value) in masses.iter().map(|mass| *mass as usize).zip(values) {
        for room in (mass..best.len()).rev() {
            best[room] = best[room].max(best[room - mass] + value);
        }
    }
    best[most as usize]
}

fn drawn(n: usize, seed: u64) -> (Vec<u32>, Vec<f64>) {
    let mut random = fastrand::Rng::with_seed(seed);
    (0..n).map(|_| (random.u32(100..900), 0.01 + random.f64())).unzip()
}

fn packed(world: &World, engine: Engine) -> PackAnswer {
    let answer = pack_with(&load(world), engine).unwrap_or_else(|error| panic!("{}: {error}", engine.word()));
    assert!(answer.warnings.iter().all(|warning| !warning.contains("solver")), "{:?}", answer.warnings);
    answer
}

/// From a thing that breaks once in a million trips to one that breaks a million times on each: solvers, whose tolerances
/// are absolute, must not take the tiny ones for nothing.
#[test]
fn the_best_kit_does_not_depend_on_the_size_of_the_rates() {
    for scale in [1e-8, 1e-7, 1e-6, 1e-5, 1e-3, 1.0, 1e3, 1e6] {
        for (n, seed) in [(14, 1), (60, 3), (60, 4)] {
            let (masses, means) = drawn(n, seed);
            let means: Vec<f64> = means.iter().map(|mean| mean * scale).collect();
            let best = best_knapsack(&masses, &means, 3000) * HOURS;
            for engine in Engine::ALL {
                let found = packed(&knapsack(&masses, &means, 3000), *engine).proof.objective;
                // Kits closer than 1e-10 h are told apart by mass, so a few such steps may be lost.
                let slack = 1e-6 * best + 1e-9;
                assert!((found - best).abs() <= slack, "{} {n} {scale}: {found} for {best}", engine.word());
            }
        }
    }
}

/// Fifteen orders of magnitude in one trip.
#[test]
fn rare_and_frequent_failures_side_by_side() {
    for seed in 0..6 {
        let (masses, spread) = drawn(40, seed);
        let means: Vec<f64> = spread.iter().map(|share| 10_f64.powf(15.0 * (share - 0.01) - 12.0)).collect();
        let best = best_knapsack(&masses, &means, 3000) * HOURS;
        for engine in Engine::ALL {
            close(packed(&knapsack(&masses, &means, 3000), *engine).proof.objective, best, 1e-6);
        }
    }
}

#[test]
fn nothing_ever_breaks() {
    let (masses, _) = drawn(10, 1);
    for mean in [0.0, 1e-12, 1e-300] {
        for engine in Engine::ALL {
            let answer = packed(&knapsack(&masses, &[mean; 10], 3000), *engine);
            assert!(answer.proof.proven && answer.proof.objective.abs() < 1e-9, "{mean}");
        }
    }
}

#[test]
fn limits_of_nothing() {
    let (masses, means) = drawn(10, 1);
    for (kit_mass, budget) in [(Some(0), None), (None, Some(0)), (Some(0), Some(0))] {
        let mut world = World { kit_mass_g: kit_mass, budget, ..knapsack(&masses, &means, 0) };
        for engine in Engine::ALL {
            let answer = packed(&world, *engine);
            assert!(answer.proof.proven);
            close(answer.totals.mass.grams(), 0.0, 1e-12);
        }
        world.always = vec![("item-0".to_owned(), 1)];
        for engine in Engine::ALL {
            match pack_with(&load(&world), *engine) {
                Err(PackError::Infeasible { shortfalls, .. }) => assert!(!shortfalls.is_empty()),
                other => panic!("too little to carry what must come, not {other:?}"),
            }
        }
    }
}

#[test]
fn one_item_for_one_failure() {
    for engine in Engine::ALL {
        let answer = packed(&knapsack(&[100], &[0.25], 100), *engine);
        close(answer.proof.objective, 0.25 * HOURS, 1e-9);
        close(answer.totals.mass.grams(), 100.0, 1e-12);
    }
}

/// 900 punctures are expected: with no limit, patches for all that can be seen to come, and each mended.
#[test]
fn thousands_of_units_of_one_stock() {
    for (each, held) in [(1, 1), (3, 2), (1, 1000), (4, 1)] {
        let patches = |units| vec![("patch".to_owned(), units)];
        let repair = Repair { uses: patches(each), restores: 1.0, ..Repair::default() };
        let item = |id: &str, holds| Item {
            id: id.to_owned(),
            mass_g: 2,
            volume_ml: 1,
            at_most: 90_000,
            holds: patches(holds),
            ..Item::default()
        };
        let failure = Failure { id: "puncture".to_owned(), mean: 900.0, repairs: vec![repair], ..Failure::default() };
        let world =
            World { items: vec![item("one", held), item("nine", 9 * held)], failures: vec![failure], ..World::new() };
        for engine in Engine::ALL {
            let started = Instant::now();
            let answer = packed(&world, *engine);
            close(answer.proof.objective, 900.0, 1e-5);
            let units: u32 = [("one", held), ("nine", 9 * held)].iter().map(|(id, n)| n * answer.kit.count(id)).sum();
            // Poisson: the mean is 900, its standard deviation 30.
            assert!(units >= (900 + 2 * 30) * each, "{units} units at {each} each");
            assert!(started.elapsed() < Duration::from_secs(60));
        }
    }
}

/// A milligram beside a hundred kilograms, a cent beside a fortune, and limits that fit to the milligram and the cent or
/// miss by one: against enumeration.
#[test]
fn tiny_and_huge_masses_and_prices() {
    for seed in 0..12 {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut spread = |low: f64, high: f64| 10_f64.powf(low + (high - low) * random.f64());
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below 1e9")]
        let things: Vec<(u64, u64, f64)> =
            (0..9).map(|_| (spread(0.0, 8.0) as u64, spread(0.0, 7.0) as u64, spread(-6.0, 2.0))).collect();
        let some = || things.iter().skip(2).take(4);
        let (most_mg, most_cents) =
            (some().map(|t| t.0).sum::<u64>() - seed % 2, some().map(|t| t.1).sum::<u64>() - seed % 3 / 2);
        let means: Vec<f64> = things.iter().map(|thing| thing.2).collect();
        let world = World { kit_mass_g: Some(7_000_001), budget: Some(7_000_002), ..knapsack(&[1; 9], &means, 0) };
        let best = (0_u32..1 << 9)
            .map(|set| things.iter().enumerate().filter(move |(at, _)| set >> at & 1 == 1).map(|(_, thing)| thing))
            .filter(|kit| {
                kit.clone().map(|t| t.0).sum::<u64>() <= most_mg && kit.clone().map(|t| t.1).sum::<u64>() <= most_cents
            })
            .map(|kit| kit.map(|t| t.2).sum::<f64>() * HOURS)
            .fold(0.0, f64::max);
        let folder = tempfile::tempdir().unwrap();
        written(&world, &things, (most_mg, most_cents), folder.path());
        for engine in Engine::ALL {
            let own = ["pack", "trip.yaml", "--catalogues", "catalogue", "--format", "json", "--engine", engine.word()];
            let json = fardel(folder.path(), &own).json();
            close(json["proof"]["objective_h"].as_f64().unwrap(), best, 1e-6);
        }
    }
}

/// The world with these masses in milligrams and prices in cents, and these limits, for its own.
fn written(world: &World, things: &[(u64, u64, f64)], (most_mg, most_cents): (u64, u64), folder: &std::path::Path) {
    world.write(folder);
    let thousandths = |n: u64| format!("{}.{:03}", n / 1000, n % 1000);
    let hundredths = |n: u64| format!("{}.{:02}", n / 100, n % 100);
    let mut catalogue = world.catalogue();
    for (at, (mg, cents, _)) in things.iter().enumerate() {
        let (before, rest) = catalogue.split_once(&format!("  item-{at}:\n")).unwrap();
        let rest = rest.replacen("mass: 1 g", &format!("mass: {} g", thousandths(*mg)), 1);
        let rest = rest.replacen("price: 1 USD", &format!("price: {} USD", hundredths(*cents)), 1);
        catalogue = format!("{before}  item-{at}:\n{rest}");
    }
    let catalogue = catalogue.replace("max_mass: 300 kg", "max_mass: 2000 kg");
    let scenario = world.scenario().replace("7000001 g", &format!("{} g", thousandths(most_mg)));
    let scenario = scenario.replace("7000002 USD", &format!("{} USD", hundredths(most_cents)));
    std::fs::write(folder.join("catalogue/world.yaml"), catalogue).unwrap();
    std::fs::write(folder.join("trip.yaml"), scenario).unwrap();
}

/// What cannot be ridden is refused at once; choosing a kit for it is no trouble.
#[test]
fn more_breakdowns_than_can_be_ridden() {
    let folder = tempfile::tempdir().unwrap();
    let world = knapsack(&[100, 200], &[1e9, 1e6], 3000);
    world.write(folder.path());
    let own = ["trip.yaml", "--catalogues", "catalogue"];
    assert_eq!(fardel(folder.path(), &[&["pack"], &own[..]].concat()).code, 0);
    let told = fardel(folder.path(), &[&["rehearse"], &own[..]].concat());
    assert!(told.refused(2).contains("things would break or fall on each of 100000 trips"), "{}", told.err);
    let told = fardel(folder.path(), &[&["pack", "--uncertain", "2"], &own[..]].concat());
    assert!(told.refused(2).contains("more than can be ridden to judge kits"), "{}", told.err);
    assert_eq!(fardel(folder.path(), &[&["tradeoff"], &own[..]].concat()).code, 0);
}

/// A catalogue of 5,000 things, forty functions and twenty stocks.
fn five_thousand() -> (String, String) {
    let mut random = fastrand::Rng::with_seed(1);
    let world = World { kit_mass_g: Some(9000), hours_to_help: HOURS, ..knapsack(&[], &[], 0) };
    let world = World { bags: vec![("bag".to_owned(), 60_000, 20_000, "")], kit_mass_g: Some(9000), ..world };
    let text = world.catalogue();
    let (head, rest) = text.split_once("functions:\n").unwrap();
    let bags = &rest[rest.find("bags:\n").unwrap()..];
    let mut text = format!("{head}functions:\n");
    (0..40).for_each(|at| _ = writeln!(text, "  f{at}: {{ name: f{at} }}"));
    text += "stocks:\n";
    (0..20).for_each(|at| _ = writeln!(text, "  s{at}: {{ name: s{at}, unit: piece }}"));
    text += "items:\n";
    for at in 0..5000 {
        let mut own = String::new();
        if random.f64() < 0.7 {
            let _ = write!(own, "provides: {{ f{}: 1 }}, ", random.u32(0..40));
        }
        if random.f64() < 0.5 {
            let _ = write!(own, "holds: {{ s{}: {} }}, ", random.u32(0..20), random.u32(1..12));
        }
        let (mass, volume, price) = (random.u32(10..900), random.u32(10..900), random.u32(1..90));
        let _ = writeln!(
            text,
            "  i{at}: {{ name: i{at}, kind: tool, mass: {mass} g, volume: {volume} mL, longest: 10 mm, price: {price} USD, \
             at_most: 3, {own}basis: from memory }}"
        );
    }
    text += "failures:\n";
    for at in 0..60 {
        let first = random.u32(0..40);
        let (second, rate) = ((first + random.u32(1..40)) % 40, 0.001 + 0.3 * random.f64());
        let _ = writeln!(
            text,
            "  x{at}:\n    name: x{at}\n    system: all\n    outcome: stops\n    rate: {{ per_day: {rate}, worth_events: 0.5, \
             basis: from memory }}\n    repairs:\n      r: {{ name: r, grade: field, needs: {{ f{first}: 1, f{second}: 1 }}, \
             uses: {{ s{}: {} }}, time: 10 min, restores: 1, skill: anyone, basis: from memory }}",
            random.u32(0..20),
            random.u32(1..5),
        );
    }
    (text + bags, world.scenario())
}

#[test]
#[ignore = "half a minute"]
fn five_thousand_items() {
    let (catalogue, scenario) = five_thousand();
    let source = |name: &str, text| fardel::load::Source { name: name.to_owned(), text };
    let loaded = fardel::load::load_texts(&[source("world.yaml", catalogue)], source("trip.yaml", scenario), &|_| {
        unreachable!("no extras")
    });
    let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
    for engine in Engine::ALL {
        let started = Instant::now();
        let options = fardel::milp::SolveOptions {
            engine: *engine,
            time_limit: Some(Duration::from_secs(120)),
            ..fardel::milp::SolveOptions::default()
        };
        let rider = &loaded.scenario.riders[0];
        let answer = fardel::answer::pack(&loaded.catalogue, &loaded.scenario, rider, &options).unwrap();
        println!("{}: {:?}, proven: {}", engine.word(), started.elapsed(), answer.proof.proven);
        assert!(answer.proof.gap < 0.01, "{}", answer.proof.gap);
        assert!(started.elapsed() < Duration::from_secs(300));
    }
}
