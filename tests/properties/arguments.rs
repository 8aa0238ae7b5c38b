//! Losses that `why` tells are those of two plans made apart; what `trim` leaves is the best of all that could be left.

use super::brute_force::{has_required, stows, world};
use crate::support::{load, pack_with};
use fardel::answer::{About, Wish, trim, why};
use fardel::domain::Kit;
use fardel::milp::{Engine, SolveOptions};
use fardel::resolve::{Measure, resolve};
use fardel::risk::{assess, value};
use fastrand::Rng;

#[test]
fn losses_are_those_of_two_plans_made_apart() {
    let (mut carried, mut left) = (0, 0);
    for seed in 600..612 {
        let loaded = load(&world(seed));
        let rider = &loaded.scenario.riders[0];
        let best = pack_with(&loaded, Engine::Microlp).unwrap().proof.objective;
        for item in loaded.catalogue.items.keys() {
            let answer = why(&loaded.catalogue, &loaded.scenario, rider, item, &SolveOptions::default()).unwrap();
            let mut changed = load(&world(seed));
            let loss = match answer.about {
                About::Carried(own) => {
                    carried += 1;
                    changed.scenario.never.push(item.clone());
                    own.without.map(|other| other.loss.get())
                }
                About::Left(own) => {
                    left += 1;
                    changed.scenario.always.insert(item.clone(), 1);
                    own.with.map(|other| other.loss.get())
                }
                _ => continue,
            };
            let other = pack_with(&changed, Engine::Microlp).ok().map(|answer| best - answer.proof.objective);
            match (loss, other) {
                (Some(loss), Some(other)) => assert!((loss - other).abs() < 1e-8, "seed {seed}, {item}"),
                (loss, other) => assert_eq!(loss.is_some(), other.is_some(), "seed {seed}, {item}"),
            }
        }
    }
    assert!(carried > 20 && left > 20, "{carried} carried, {left} left");
}

#[test]
fn trimming_agrees_with_enumeration() {
    for seed in 700..740 {
        let mut random = Rng::with_seed(seed);
        let mut loaded = load(&world(seed));
        (loaded.scenario.limits.kit_mass, loaded.scenario.limits.budget) = (None, None);
        let rider = &loaded.scenario.riders[0];
        let instance = resolve(&loaded.catalogue, &loaded.scenario, rider).unwrap();
        let risk_model = assess(&instance);
        let mut packed: Vec<u32> = instance.items.iter().map(|item| random.u32(0..=item.at_most)).collect();
        // Things that are useless without another that is not there are no part of a kit that is weighed.
        while !has_required(&instance, &packed) {
            packed.iter_mut().zip(&instance.items).filter(|(_, i)| !i.requires.is_empty()).for_each(|(n, _)| *n = 0);
        }
        let mass = |kit: &[u32]| Measure::Mass.used(&instance, kit);
        let target = mass(&packed) * 6 / 10;
        let mut kits = vec![Vec::new()];
        for most in &packed {
            let longer = |kit: &Vec<u32>, n| kit.iter().copied().chain([n]).collect::<Vec<u32>>();
            kits = kits.iter().flat_map(|kit| (0..=*most).map(move |n| longer(kit, n))).collect();
        }
        let allowed = kits.into_iter().filter(|kit| mass(kit) <= target && has_required(&instance, kit));
        let mut valued: Vec<(f64, Vec<u32>)> =
            allowed.map(|kit| (value(&instance, &risk_model, &kit).objective(), kit)).collect();
        valued.sort_by(|a, b| b.0.total_cmp(&a.0));
        let best = valued.into_iter().find(|(_, kit)| stows(&instance, kit)).unwrap().0;
        let kit = Kit::new(instance.items.iter().zip(&packed).map(|(item, n)| (item.id.clone(), *n)));
        let wish = Wish { measure: Measure::Mass, target, swap: false, keep: Vec::new() };
        let found = trim(&loaded.catalogue, &loaded.scenario, rider, &kit, &wish, &SolveOptions::default()).unwrap();
        let apart = (found.net_after.get() - best).abs();
        assert!(found.proven && apart < 1e-8, "seed {seed}: trim {:?}, enumeration {best}", found.net_after);
        // What goes in the order told adds up to what is given up.
        let last = found.order.last().map_or(0.0, |going| going.total.get());
        assert!((last - (found.net_before.get() - found.net_after.get())).abs() < 1e-8, "seed {seed}");
        assert!(found.left <= target);
    }
}
