//! What it would be worth to know a number better: the hours that a kit packed with that knowledge would save beyond the
//! kit packed without it.
//!
//! For each failure on its own, its rate takes three values that stand for its Gamma distribution, the other rates stay as
//! they are, and the best of a set of kits is taken for each value: the value of partial perfect information, by the
//! extended Pearson-Tukey points (Keefer & Bodily, Management Science 29, 1983, 595-609: the 5th, 50th and 95th
//! percentiles with weights 0.185, 0.63, 0.185). The kits are the packed one and the best in worlds in which everything
//! uncertain is drawn at once; a kit that is best in none of them is not there, so every value is one from below.

use super::candidates::{best_in, different, near};
use super::firm::{Dial, chosen_anew};
use super::pack::PackError;
use super::ready::resolved;
use crate::domain::{Catalogue, Rider, Scenario};
use crate::parallel;
use crate::rehearse;
use crate::resolve::Instance;
use crate::risk;
use crate::uncertain::Uncertain;
use crate::units::Hours;
use fardel_milp::SolveOptions;
use statrs::distribution::{ContinuousCDF, Gamma};

/// Percentiles that stand for a distribution, and their weights.
const POINTS: [(f64, f64); 3] = [(0.05, 0.185), (0.5, 0.63), (0.95, 0.185)];
/// How near the best a kit for one draw need be.
const NEAR: f64 = 0.005;
/// How far a price, the hours to help or the falls are turned, one at a time, either way.
const TURN: f64 = 2.0;

/// What a trip tells of numbers.
#[derive(Debug, Clone)]
pub struct Study {
    /// Title of the scenario, rider, name of the bike.
    pub trip: (String, String, String),
    /// Draws for which a kit was found.
    pub draws: u64,
    /// Different kits that were compared.
    pub kits: usize,
    /// Rates, the most valuable to know first; those worth nothing are left out.
    pub rates: Vec<RateWorth>,
    /// Everything uncertain at once, over the draws.
    pub all_rates: Hours,
    /// Other numbers, turned one at a time.
    pub turned: Vec<Turned>,
}

/// A rate that would be worth knowing.
#[derive(Debug, Clone)]
pub struct RateWorth {
    /// Key of the failure.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// The 5th and 95th percentile of its rate, as factors.
    pub range: (f64, f64),
    /// Hours that knowing it would save on this trip.
    pub hours: Hours,
}

/// What it costs to have packed for a number when it is another.
#[derive(Debug, Clone)]
pub struct Turned {
    /// Which.
    pub dial: Dial,
    /// Times what was said.
    pub factor: f64,
    /// Hours lost against the best kit for the true number.
    pub hours: Hours,
}

/// Looks at the numbers of one rider's trip.
///
/// # Errors
/// [`PackError`] if there is no kit for what is expected; a draw without one is left out.
pub fn study(
    (catalogue, scenario, rider): (&Catalogue, &Scenario, &Rider),
    (draws, seed): (u64, u64),
    options: &SolveOptions,
) -> Result<Study, PackError> {
    let packed = super::pack::pack_briefly(catalogue, scenario, rider, options)?;
    let catalogue = catalogue.as_weighed_by(rider);
    let instance = resolved(&catalogue, &scenario.as_ridden_by(rider), rider)?;
    let own = instance.counts(&packed.kit);
    let near = near(options, NEAR);
    let uncertain = Uncertain::new(&catalogue, scenario, &instance);
    let worlds: Vec<Instance> = (0..draws).map(|draw| uncertain.world(&uncertain.draw(seed, draw))).collect();
    let found = parallel::map(worlds.iter().collect(), |world| best_in(world, &own, &near));
    let found: Vec<Vec<u32>> = found.into_iter().flatten().collect();
    let kits = different(&own, &found);
    let rates = parallel::map((0..instance.failures.len()).collect(), |f| rate(&instance, f, &kits));
    let mut rates: Vec<RateWorth> = rates.into_iter().flatten().collect();
    rates.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()).then_with(|| a.id.cmp(&b.id)));
    #[allow(clippy::cast_precision_loss, reason = "a count of draws")]
    let weight = 1.0 / draws.max(1) as f64;
    let drawn_worth: Vec<(f64, Vec<f64>)> = worlds.iter().map(|world| (weight, savings(world, &kits))).collect();
    Ok(Study {
        trip: (packed.trip.scenario, packed.trip.rider, packed.trip.bike),
        draws: found.len() as u64,
        kits: kits.len(),
        rates,
        all_rates: Hours::new(knowing(&drawn_worth)),
        turned: turned(&instance, &own, &near),
    })
}

/// Net hours that each kit saves in a world.
fn savings(world: &Instance, kits: &[Vec<u32>]) -> Vec<f64> {
    let risk_model = risk::assess(world);
    kits.iter().map(|kit| risk::value(world, &risk_model, kit).objective()).collect()
}

/// What it is worth to know which of some worlds it is, before packing: each with its weight and what each kit saves there.
fn knowing(worlds: &[(f64, Vec<f64>)]) -> f64 {
    let kits = worlds.first().map_or(0, |(_, savings)| savings.len());
    let best = |values: &mut dyn Iterator<Item = f64>| values.fold(f64::NEG_INFINITY, f64::max);
    let informed: f64 = worlds.iter().map(|(weight, savings)| weight * best(&mut savings.iter().copied())).sum();
    let on_average = |kit: usize| worlds.iter().map(|(weight, savings)| weight * savings[kit]).sum::<f64>();
    let uninformed = best(&mut (0..kits).map(on_average));
    if kits == 0 { 0.0 } else { (informed - uninformed).max(0.0) }
}

fn rate(instance: &Instance, f: usize, kits: &[Vec<u32>]) -> Option<RateWorth> {
    let failure = &instance.failures[f];
    let shape = rehearse::evidence(instance, failure)?;
    let gamma = Gamma::new(shape, shape).ok()?;
    let factors = POINTS.map(|(share, _)| gamma.inverse_cdf(share));
    let world = |factor: f64| {
        let mut own = instance.clone();
        own.failures[f].rate = failure.rate.times(factor);
        savings(&own, kits)
    };
    let worlds: Vec<(f64, Vec<f64>)> = factors.iter().zip(POINTS).map(|(x, (_, weight))| (weight, world(*x))).collect();
    let hours = knowing(&worlds);
    let range = (factors[0], factors[2]);
    (hours > 1e-6).then(|| RateWorth {
        id: failure.id.clone(),
        name: failure.name.clone(),
        range,
        hours: Hours::new(hours),
    })
}

fn turned(instance: &Instance, own: &[u32], options: &SolveOptions) -> Vec<Turned> {
    let turns: Vec<(Dial, f64)> = Dial::ALL
        .into_iter()
        .filter(|dial| dial.matters(instance))
        .flat_map(|dial| [(dial, 1.0 / TURN), (dial, TURN)])
        .collect();
    let look = |(dial, factor): (Dial, f64)| {
        let (world, kit) = chosen_anew(instance, own, dial, factor, options);
        let kits: Vec<Vec<u32>> = std::iter::once(own.to_vec()).chain(kit).collect();
        let savings = savings(&world, &kits);
        let best = savings.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        Turned { dial, factor, hours: Hours::new(best - savings[0]) }
    };
    parallel::map(turns, look)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two worlds, equally likely; a kit that is best in each, and one that is fair in both.
    #[test]
    fn knowing_is_worth_what_the_best_kit_gains_over_the_best_on_average() {
        let worlds = [(0.5, vec![10.0, 0.0, 6.0]), (0.5, vec![0.0, 8.0, 5.0])];
        assert!((knowing(&worlds) - (9.0 - 5.5)).abs() < 1e-12);
        assert!(knowing(&[(1.0, vec![3.0, 4.0])]).abs() < 1e-12, "one world is known already");
        assert!(knowing(&[]).abs() < 1e-12);
    }

    /// Weights make a distribution, and keep the mean of a wide one within a few per cent.
    #[test]
    fn three_points_stand_for_a_gamma_distribution() {
        assert!((POINTS.iter().map(|(_, weight)| weight).sum::<f64>() - 1.0).abs() < 1e-12);
        for shape in [1.0, 2.0, 8.0] {
            let gamma = Gamma::new(shape, shape).unwrap();
            let mean: f64 = POINTS.iter().map(|(share, weight)| weight * gamma.inverse_cdf(*share)).sum();
            assert!((mean - 1.0).abs() < 0.02, "{shape}: {mean}");
        }
    }
}
