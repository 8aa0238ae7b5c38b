//! The chance of getting home that was ridden is not below what is certain.
//!
//! Whatever the rider mends with what, a stop that hangs on a stock is mended if the stock suffices for all that may draw
//! on it; and a stock does not matter on trips without any stop that hangs on it. The product of the chances that one or the
//! other holds, over the stocks that stops hang on, is a lower bound (what is the likelier the less happens is positively
//! associated: Esary, Proschan & Walkup, Annals of Mathematical Statistics 38, 1967, 1466-1474). The chance that was
//! ridden may miss it by chance alone.

use super::value::World;
use super::{Evidence, Violation, stock};
use crate::domain::Outcome;
use std::collections::{BTreeMap, BTreeSet};

/// Standard errors by which a figure from so many trips is never off.
const SURE: f64 = 6.0;

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let Some((ridden, error)) = e.claim.home else { return Vec::new() };
    let bound = bound(&World::new(e));
    let short = bound - ridden - SURE * error.max(LEAST_ERROR);
    let wrong = !(0.0..=1.0).contains(&ridden) || short > 0.0;
    let what = format!("a chance of getting home of {ridden} +- {error} claimed, at least {bound} found");
    wrong.then_some(Violation { rule: "home", what, by: short.max(0.0) }).into_iter().collect()
}

/// Where every trip ended well, the next may not: the error of one in a hundred thousand.
const LEAST_ERROR: f64 = 1e-5;

fn bound(world: &World<'_>) -> f64 {
    let mut chance = 1.0;
    let mut hanging: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
    let enough = |name: &str| stock::enough(&world.most_drawn(name), world.loaded_falls(), world.carried(name));
    for (at, failure) in world.failures.iter().enumerate() {
        if !matches!(failure.outcome, Outcome::Stops) {
            continue;
        }
        let sure = world.possible_ways(at).into_iter().map(|uses| {
            let chance: f64 = uses.iter().map(|(name, _)| enough(name)).product();
            (chance, uses)
        });
        match sure.reduce(|best, now| if now.0 > best.0 { now } else { best }) {
            None => chance *= libm::exp(-world.loaded_mean(failure)),
            Some((_, uses)) => uses.into_iter().for_each(|(name, _)| {
                hanging.entry(name).or_default().insert(at);
            }),
        }
    }
    let harmless = |(name, stops): (&String, &BTreeSet<usize>)| {
        stock::enough_or_idle(&world.most_drawn(name), stops, world.loaded_falls(), world.carried(name))
    };
    chance * hanging.iter().map(harmless).product::<f64>()
}
