//! A group of one is pack, a group of like riders does no worse than each alone, and tiny groups are tried out whole.

use super::{Rider, group, plain};
use crate::support::{Failure, Item, Repair, World, close, pack_with, shipped};
use fardel::milp::Engine;
use fardel::resolve::{Instance, resolve_group};
use fardel::risk::{assess, value};
use fastrand::Rng;

#[test]
fn one_rider_split_is_pack() {
    for name in ["day-ride.yaml", "two-up-road.yaml", "five-day-loop.yaml"] {
        let loaded = shipped(name);
        for engine in Engine::ALL {
            let (alone, split) = (pack_with(&loaded, *engine).unwrap(), plain(&loaded, *engine));
            close(split.proof.objective, alone.proof.objective, 1e-9);
            close(split.figures.hours_saved.get(), alone.figures.hours_saved.get(), 1e-9);
            assert_eq!(split.proof.proven, alone.proof.proven, "{name}");
        }
    }
}

/// With n identical riders each could pack as alone, so what they share saves at least n times as much.
#[test]
fn like_riders_do_no_worse_together() {
    let mut loaded = shipped("day-ride.yaml");
    let first = loaded.scenario.riders[0].clone();
    for engine in Engine::ALL {
        let alone = pack_with(&loaded, *engine).unwrap().proof.objective;
        for name in ["another", "a third"] {
            loaded.scenario.riders.push(fardel::domain::Rider { name: name.to_owned(), ..first.clone() });
        }
        let together = plain(&loaded, *engine).proof.objective;
        assert!(together >= 3.0 * alone - 1e-9, "{together} against three times {alone}");
        loaded.scenario.riders.truncate(1);
    }
}

fn world(random: &mut Rng) -> World {
    let mut world = World { hours_to_help: 2.0 + random.f64() * 10.0, ..World::new() };
    let name = |kind: &str, at: usize| format!("{kind} {at}");
    for i in 0..random.usize(3..=5) {
        world.items.push(Item {
            id: format!("item-{i}"),
            mass_g: random.u32(100..900),
            volume_ml: random.u32(50..500),
            at_most: 1,
            provides: vec![(name("function", random.usize(0..4)), 1)],
            holds: if random.bool() { vec![(name("stock", random.usize(0..2)), random.u32(1..3))] } else { vec![] },
            ..Item::default()
        });
    }
    for f in 0..random.usize(2..=4) {
        let uses = if random.bool() { vec![(name("stock", random.usize(0..2)), 1)] } else { vec![] };
        let needs = vec![(name("function", random.usize(0..4)), random.u32(1..=2))];
        world.failures.push(Failure {
            id: format!("failure-{f}"),
            mean: 0.05 + random.f64(),
            repairs: vec![Repair { needs, uses, time_min: 20.0, restores: 0.9 }],
            ..Failure::default()
        });
    }
    world.falls = random.f64();
    world.bags = vec![("small".to_owned(), random.u32(200..900), 5000, ""), ("large".to_owned(), 1200, 5000, "")];
    world
}

/// The best kit of all that two riders can carry between them, by trying every one and every way to share it.
fn best(instance: &Instance, limits: [u32; 2]) -> f64 {
    let risk_model = assess(instance);
    let most: Vec<u32> = instance.items.iter().map(|item| item.at_most).collect();
    let mut best = f64::NEG_INFINITY;
    let mut kit = vec![0; most.len()];
    loop {
        let worth = value(instance, &risk_model, &kit).objective();
        if worth > best && can_be_shared(instance, &kit, limits) {
            best = worth;
        }
        let Some(at) = (0..kit.len()).find(|at| kit[*at] < most[*at]) else { return best };
        kit[..at].fill(0);
        kit[at] += 1;
    }
}

fn can_be_shared(instance: &Instance, kit: &[u32], limits: [u32; 2]) -> bool {
    let units: Vec<usize> = kit.iter().enumerate().flat_map(|(i, n)| std::iter::repeat_n(i, *n as usize)).collect();
    (0..1_u32 << units.len()).any(|ways| {
        (0..2).all(|rider| {
            let own = || units.iter().enumerate().filter(|(at, _)| (ways >> at & 1) as usize == rider);
            let sum = |of: fn(&fardel::resolve::InstanceItem) -> f64| {
                own().map(|(_, i)| of(&instance.items[*i])).sum::<f64>()
            };
            let bag = &instance.bags[rider];
            sum(|item| item.volume.millilitres()) <= bag.usable().millilitres()
                && sum(|item| item.mass.grams()) <= bag.max_load.grams().min(f64::from(limits[rider]))
                && own().all(|(_, item)| instance.items[*item].fits[rider])
        })
    })
}

#[test]
fn enumeration_and_split_agree_on_tiny_groups() {
    for seed in 0..60 {
        let mut random = Rng::with_seed(seed);
        let world = world(&mut random);
        let limits = [random.u32(300..1500), random.u32(300..1500)];
        let riders: [Rider<'_>; 2] = [("Ada", &["small"], Some(limits[0])), ("Bo", &["large"], Some(limits[1]))];
        let mut loaded = group(&world, &riders, "");
        loaded.catalogue.model.pooling = fardel::domain::Pooling::EveryRepair;
        let instance = resolve_group(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders).unwrap();
        let expected = best(&instance, limits);
        for engine in Engine::ALL {
            let answer = plain(&loaded, *engine);
            let close = (answer.proof.objective - expected).abs() <= 1e-9 * expected.abs().max(1.0);
            assert!(close, "seed {seed}: split {}, enumeration {expected}", answer.proof.objective);
            assert!(answer.proof.proven, "seed {seed}");
        }
    }
}
