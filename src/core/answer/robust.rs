//! `pack --uncertain`: the kit against rates that are not known well.
//!
//! Every failure's rate is drawn from its Gamma distribution, as in the rehearsal, and the best kit for that draw is
//! found; so many times. How often an item is in such kits says how far it depends on the rates. Each kit is then judged
//! under all draws: the best on average, and the best in the worst tenth (sample average approximation: Kleywegt, Shapiro
//! & Homem-de-Mello, SIAM Journal on Optimization 12, 2002, 479-502). What wins is told as it does under fresh draws, and
//! as it is ridden, since the draws that chose it flatter it.

use super::pack::PackError;
use super::rehearse::too_much;
use super::solve::solve;
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::parallel;
use crate::rehearse::{self, Estimate, Load, Party, Plan};
use crate::resolve::{Instance, resolve};
use crate::risk;
use crate::units::Hours;
use fardel_milp::{EngineError, SolveOptions};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, Gamma};
use std::time::Duration;

/// How near the best a kit for one draw need be: draws differ by far more.
const DRAW_GAP: f64 = 0.002;
/// Longest that one draw may take.
const DRAW_LIMIT: Duration = Duration::from_secs(20);
/// Fresh draws under which the winners are judged.
const FRESH: u64 = 200;
/// Streams of fresh draws begin here, beyond any draw that chooses.
const FRESH_FROM: u64 = 1 << 32;
/// Trips on which they are ridden.
const TRIPS: u64 = 200_000;
/// The worst tenth.
const WORST: usize = 10;

/// What became of the kit when the rates were drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Robust {
    /// Draws for which a kit was found.
    pub draws: u64,
    /// Draws for which there was no time to find one.
    pub unsolved: u64,
    /// Different kits among the best ones.
    pub kits: usize,
    /// Every item of the packed kit or of any of those, with its share of them; most frequent first.
    pub items: Vec<ItemShare>,
    /// The packed kit.
    pub packed: Trial,
    /// The kit that loses least on average over the draws; the packed one unless this one is better under fresh draws too.
    pub best_mean: Trial,
    /// The same for the average over the worst tenth of the draws.
    pub best_worst: Trial,
}

/// How often an item is in the best kit.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemShare {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Share of the kits that it is in.
    pub share: f64,
    /// Is it in the packed kit?
    pub packed: bool,
}

/// A kit under fresh draws.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The kit.
    pub kit: Kit,
    /// Reckoned hours lost, averaged over the draws.
    pub mean: Hours,
    /// The same over the worst tenth of them.
    pub worst: Hours,
    /// Hours lost on trips ridden with rates drawn for each.
    pub ridden: Estimate,
    /// What it has more than the packed kit: name and how many.
    pub more: Vec<(String, u32)>,
    /// What it has less.
    pub fewer: Vec<(String, u32)>,
}

/// Draws rates so many times and compares the packed kit with the best ones.
///
/// # Errors
/// [`PackError`] when no draw could be solved, or so much happens that kits cannot be ridden with.
pub fn robust(
    (catalogue, scenario, rider): (&Catalogue, &Scenario, &Rider),
    packed: &Kit,
    (draws, seed): (u64, u64),
    options: &SolveOptions,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Robust, PackError> {
    let instance = resolve(catalogue, scenario, rider)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(format!("no bike `{}`", rider.bike))))?;
    let own: Vec<u32> = instance.items.iter().map(|item| packed.count(&item.id)).collect();
    let judged = Judged { instance: &instance, own: &own, rider, seed };
    let party = judged.party(&own);
    if too_much(&party, TRIPS) {
        return Err(PackError::TooMuch(party.happenings()));
    }
    let time_limit = Some(options.time_limit.unwrap_or(DRAW_LIMIT).min(DRAW_LIMIT));
    let near = SolveOptions { gap: options.gap.max(DRAW_GAP), time_limit, ..*options };
    let worlds: Vec<Instance> = (0..draws).map(|draw| drawn(&instance, seed, draw)).collect();
    let best = |world: &Instance| {
        let solved = solve(world, &risk::assess(world), &near);
        done(1);
        solved.map(|solved| solved.choice.counts)
    };
    let found: Vec<Result<Vec<u32>, EngineError>> = parallel::map(worlds.iter().collect(), best);
    let solved: Vec<Vec<u32>> = found.into_iter().filter_map(Result::ok).collect();
    if solved.is_empty() {
        return Err(PackError::OutOfTime);
    }
    let mut kits = vec![own.clone()];
    solved.iter().for_each(|kit| {
        if !kits.contains(kit) {
            kits.push(kit.clone());
        }
    });
    let trials = losses(&worlds, &kits);
    let by = |judge: fn(&[f64]) -> f64| {
        (0..kits.len()).min_by(|a, b| judge(&trials[*a]).total_cmp(&judge(&trials[*b]))).unwrap_or(0)
    };
    let [packed, mut best_mean, mut best_worst] = judged.trials([0, by(mean), by(worst)].map(|at| &kits[at]));
    // What wins under the draws that chose it and loses under fresh ones has only been lucky.
    if best_mean.mean >= packed.mean {
        best_mean.clone_from(&packed);
    }
    if best_worst.worst >= packed.worst {
        best_worst.clone_from(&packed);
    }
    Ok(Robust {
        draws: solved.len() as u64,
        unsolved: draws - solved.len() as u64,
        kits: kits.len() - usize::from(!solved.contains(&own)),
        items: shares(&instance, &own, &solved),
        packed,
        best_mean,
        best_worst,
    })
}

/// The case with rates drawn from their distributions.
pub(super) fn drawn(instance: &Instance, seed: u64, draw: u64) -> Instance {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    rng.set_stream(draw);
    let mut world = instance.clone();
    for (own, failure) in world.failures.iter_mut().zip(&instance.failures) {
        let gamma = rehearse::evidence(instance, failure).and_then(|shape| Gamma::new(shape, 1.0 / shape).ok());
        own.rate = failure.rate.times(gamma.map_or(1.0, |gamma| gamma.sample(&mut rng)));
    }
    world
}

/// Hours lost with each kit under each draw.
fn losses(worlds: &[Instance], kits: &[Vec<u32>]) -> Vec<Vec<f64>> {
    let under = |world: &Instance| -> Vec<f64> {
        let risk_model = risk::assess(world);
        kits.iter().map(|kit| risk_model.hours_empty() - risk::value(world, &risk_model, kit).objective()).collect()
    };
    let by_world: Vec<Vec<f64>> = parallel::map(worlds.iter().collect(), under);
    (0..kits.len()).map(|kit| by_world.iter().map(|losses| losses[kit]).collect()).collect()
}

#[allow(clippy::cast_precision_loss, reason = "a count of draws")]
fn mean(losses: &[f64]) -> f64 {
    losses.iter().sum::<f64>() / (losses.len() as f64).max(1.0)
}

/// Mean of the worst tenth, of one at least.
fn worst(losses: &[f64]) -> f64 {
    let mut sorted = losses.to_vec();
    sorted.sort_by(|a, b| b.total_cmp(a));
    mean(&sorted[..losses.len().div_ceil(WORST)])
}

fn shares(instance: &Instance, own: &[u32], kits: &[Vec<u32>]) -> Vec<ItemShare> {
    #[allow(clippy::cast_precision_loss, reason = "a count of kits")]
    let share = |item: usize| kits.iter().filter(|kit| kit[item] > 0).count() as f64 / kits.len() as f64;
    let each = instance.items.iter().enumerate().map(|(at, item)| ItemShare {
        id: item.id.clone(),
        name: item.name.clone(),
        share: share(at),
        packed: own[at] > 0,
    });
    let mut shares: Vec<ItemShare> = each.filter(|item| item.share > 0.0 || item.packed).collect();
    shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    shares
}

/// What the winners are judged by.
struct Judged<'a> {
    instance: &'a Instance,
    own: &'a [u32],
    rider: &'a Rider,
    seed: u64,
}

impl Judged<'_> {
    fn trials(&self, kits: [&Vec<u32>; 3]) -> [Trial; 3] {
        let fresh: Vec<Instance> = (0..FRESH).map(|draw| drawn(self.instance, self.seed, FRESH_FROM + draw)).collect();
        let losses = losses(&fresh, &kits.map(Clone::clone));
        [0, 1, 2].map(|at| self.trial(kits[at], &losses[at]))
    }

    fn party(&self, counts: &[u32]) -> Party {
        let load = Load { rider: self.rider.name.clone(), mass: risk::value::mass(self.instance, counts) };
        rehearse::party(self.instance, counts, &[load])
    }

    fn trial(&self, counts: &[u32], losses: &[f64]) -> Trial {
        let plan = Plan { trips: TRIPS, seed: self.seed.wrapping_add(1), uncertain: true, ..Plan::default() };
        let items = || self.instance.items.iter().zip(counts.iter().zip(self.own));
        let differing = |more: fn(u32, u32) -> u32| {
            let each = items().map(|(item, (count, own))| (item.name.clone(), more(*count, *own)));
            each.filter(|(_, n)| *n > 0).collect()
        };
        Trial {
            kit: Kit::new(items().map(|(item, (count, _))| (item.id.clone(), *count))),
            mean: Hours::new(mean(losses)),
            worst: Hours::new(worst(losses)),
            ridden: rehearse::rehearse(&self.party(counts), &plan, &|_| ()).hours_lost(),
            more: differing(u32::saturating_sub),
            fewer: differing(|count, own| own.saturating_sub(count)),
        }
    }
}
