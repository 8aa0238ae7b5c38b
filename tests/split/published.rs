//! Handing out fairly is scheduling on identical machines, stowing is bin packing, and several riders with limits of
//! their own are several knapsacks: small instances with known optima.

use super::{Rider, group, plain, split_with};
use crate::support::{Failure, Item, Repair, World};
use fardel::answer::PackError;
use fardel::answer::split::Demands;
use fardel::milp::Engine;

const NAMES: [&str; 6] = ["Ada", "Bo", "Cleo", "Dag", "Edda", "Finn"];

fn riders<'a>(count: usize, bags: &'a [&'a str]) -> Vec<Rider<'a>> {
    NAMES[..count].iter().map(|name| (*name, bags, None)).collect()
}

/// A world in which all of these must be carried, each weighing so many grams.
fn all_of(sizes: &[u32]) -> World {
    let mut world = World::new();
    for (at, size) in sizes.iter().enumerate() {
        let id = format!("job-{at}");
        world.always.push((id.clone(), 1));
        world.items.push(Item { id, mass_g: *size, at_most: 1, ..Item::default() });
    }
    world
}

/// The first four: Graham, SIAM J. Applied Mathematics 17, 1969, 416-429 (the family where longest-first does worst, from
/// memory; optima recomputed). Then França et al., Computers & Operations Research 21, 1994, 205-210 and Frangioni,
/// Necciari & Scutellà, J. Combinatorial Optimization 8, 2004, 195-220, where the mean load is no bound to go by. Last,
/// partitions into equal halves from J. Burkardt's test output for the partition problem.
#[test]
fn the_largest_load_is_the_published_one() {
    let cases: [(&[u32], usize, u32); 8] = [
        (&[3, 3, 2, 2, 2], 2, 6),
        (&[5, 5, 4, 4, 3, 3, 3], 3, 9),
        (&[7, 7, 6, 6, 5, 5, 4, 4, 4], 4, 12),
        (&[9, 9, 8, 8, 7, 7, 6, 6, 5, 5, 5], 5, 15),
        (&[62, 97, 42, 44, 58, 85, 40, 78, 3, 68], 5, 125),
        (&[9098, 9469, 9578, 9798, 9793, 9436, 9255, 9534, 9629, 855], 5, 19014),
        (&[19, 17, 13, 9, 6], 2, 32),
        (&[484, 114, 205, 288, 506, 503, 201, 127, 410], 2, 1419),
    ];
    for (sizes, count, optimum) in cases {
        let loaded = group(&all_of(sizes), &riders(count, &["bag"]), "");
        for engine in Engine::ALL {
            let answer = plain(&loaded, *engine);
            let largest = answer.cards.iter().map(|card| card.mass.grams()).fold(0.0, f64::max);
            assert!((largest - f64::from(optimum)).abs() < 1e-6, "{sizes:?}: {largest} against {optimum}");
            assert!(answer.proof.fairest);
        }
    }
}

/// Martello & Toth, Knapsack Problems, 1990 (code MTP), as printed in J. Burkardt's distribution: three bins of 100 have
/// the volume, four are needed.
#[test]
fn bags_are_bins() {
    let mut world = all_of(&[1; 9]);
    for (item, size) in world.items.iter_mut().zip([70, 60, 50, 33, 33, 33, 11, 7, 3]) {
        item.volume_ml = size;
    }
    world.bags = vec![("bin".to_owned(), 100, 1_000_000, "")];
    for engine in Engine::ALL {
        let three = split_with(&group(&world, &riders(3, &["bin"]), ""), &Demands::default(), *engine);
        assert!(matches!(three, Err(PackError::Infeasible { .. })), "three bins do not do");
        plain(&group(&world, &riders(4, &["bin"]), ""), *engine);
    }
}

/// Martello & Toth, Algorithm 632, ACM TOMS 11, 1985, 135-140 (sample driver): 333 for the first capacities, printed in
/// J. Burkardt's output too; the second recomputed.
#[test]
fn riders_are_knapsacks() {
    let profits = [92, 57, 49, 68, 60, 43, 67, 84, 87, 72];
    let weights = [23, 31, 29, 44, 53, 38, 63, 85, 89, 82];
    let mut world = World::new();
    for (j, (profit, weight)) in profits.into_iter().zip(weights).enumerate() {
        let function = format!("function {j}");
        let provides = vec![(function.clone(), 1)];
        world.items.push(Item { id: format!("item-{j}"), mass_g: weight, at_most: 1, provides, ..Item::default() });
        let repairs = vec![Repair { needs: vec![(function, 1)], restores: 1.0, ..Repair::default() }];
        world.failures.push(Failure {
            id: format!("failure-{j}"),
            mean: 1.0,
            nags_h: Some(f64::from(profit)),
            repairs,
            ..Failure::default()
        });
    }
    for (capacities, optimum) in [(vec![70, 127], 333.0), (vec![50, 81, 120], 376.0)] {
        let limits: Vec<Rider<'_>> =
            NAMES.iter().zip(&capacities).map(|(name, limit)| (*name, &["bag"][..], Some(*limit))).collect();
        let loaded = group(&world, &limits, "");
        for engine in Engine::ALL {
            // Every rider suffers every failure, so each profit counts once a rider.
            let saved = plain(&loaded, *engine).figures.hours_saved.get();
            let expected = optimum * f64::from(u32::try_from(capacities.len()).unwrap());
            assert!((saved - expected).abs() < 1e-6, "{capacities:?}: {saved} against {expected}");
        }
    }
}
