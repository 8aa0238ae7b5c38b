//! `pack --uncertain`: the kit against numbers that are not known well.
//!
//! Everything uncertain is drawn from its distribution (`src/core/uncertain`), and the best kit for that draw is found; so
//! many times. How often an item is in such kits says how far it depends on those numbers. Each kit is then judged
//! under all draws: the best on average, and the best in the worst tenth (sample average approximation: Kleywegt, Shapiro
//! & Homem-de-Mello, SIAM Journal on Optimization 12, 2002, 479-502). What wins is told as it does under fresh draws, and
//! as it is ridden, since the draws that chose it flatter it. The same kits say what it is worth to know each number.
//!
//! Candidates are the kits found for single draws, so a kit that is best for no draw is not considered. Hours are
//! linear in the rates up to the stock ladders, so the plan for the mean rates is nearly always the best on average.

use super::candidates::{Candidates, by_kit, losses};
use super::measure::{self, Measure, measure};
use super::pack::PackError;
use super::ready::resolved;
use super::rehearse::{in_many_worlds, too_much};
use super::shapes::NamedCount;
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::rehearse::{self, Estimate, Load, Party, Plan};
use crate::resolve::Instance;
use crate::risk;
use crate::serial::{KitList, Listed, Number};
use crate::uncertain::Uncertain;
use crate::units::Hours;
use fardel_milp::SolveOptions;
use schemars::JsonSchema;
use serde::Serialize;

/// Fresh draws under which the winners are judged.
const FRESH: u64 = 200;
/// Streams of fresh draws begin here, beyond any draw that chooses.
const FRESH_FROM: u64 = 1 << 32;
/// Trips on which the winners are ridden.
const TRIPS: u64 = 64_000;
/// One draw in this many is among the worst: a tenth of them.
const WORST: usize = 10;

/// What became of the kit when all that is uncertain was drawn.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Robust {
    /// Draws for which a kit was found.
    pub draws: u64,
    /// Draws for which there was no time to find one.
    #[serde(rename = "draws_unsolved")]
    pub unsolved: u64,
    /// Different kits among the best ones.
    #[serde(rename = "different_kits")]
    pub kits: usize,
    /// Every item of the packed kit or of any of those, with its share of them; most frequent first.
    pub items: Vec<ItemShare>,
    /// The packed kit.
    pub packed: Trial,
    /// The kit that loses least on average over the draws; the packed one unless this one is better under fresh draws too.
    #[serde(rename = "best_on_average")]
    pub best_mean: Trial,
    /// The same for the average over the worst tenth of the draws.
    #[serde(rename = "best_in_worst_tenth")]
    pub best_worst: Trial,
    /// What it is worth to know each number better.
    #[serde(rename = "measure_first", serialize_with = "measure::serialize")]
    #[schemars(with = "measure::MeasureFirst")]
    pub measure: Measure,
}

/// How often an item is in the best kit.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ItemShare {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Share of the kits that it is in.
    #[serde(rename = "share_of_kits")]
    pub share: f64,
    /// Is it in the packed kit?
    #[serde(rename = "in_packed_kit")]
    pub packed: bool,
}

/// A kit under fresh draws.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Trial {
    /// The kit.
    #[serde(rename = "items", with = "KitList")]
    pub kit: Kit,
    /// Reckoned hours lost, averaged over the draws.
    #[serde(rename = "hours_lost_mean", with = "Number")]
    pub mean: Hours,
    /// The same over the worst tenth of them.
    #[serde(rename = "hours_lost_worst_tenth", with = "Number")]
    pub worst: Hours,
    /// Hours lost on trips ridden in many worlds.
    #[serde(rename = "hours_lost_ridden")]
    pub ridden: Estimate,
    /// What it has more than the packed kit: name and how many.
    #[serde(with = "Listed::<NamedCount>")]
    pub more: Vec<(String, u32)>,
    /// What it has less.
    #[serde(with = "Listed::<NamedCount>")]
    pub fewer: Vec<(String, u32)>,
}

/// Draws all that is uncertain so many times and compares the packed kit with the best ones.
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
    let instance = resolved(catalogue, scenario, rider)?;
    let uncertain = Uncertain::new(catalogue, scenario, &instance);
    let own = instance.counts(packed);
    let judged = Judged { uncertain: &uncertain, instance: &instance, own: &own, rider, seed };
    let party = judged.party(&own);
    if too_much(&party, TRIPS) {
        return Err(PackError::TooMuch(party.happenings()));
    }
    let candidates = Candidates::find(&uncertain, &own, (draws, seed), options, done)?;
    let Candidates { solved, kits, losses: trials } = &candidates;
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
        items: shares(&instance, &own, solved),
        packed,
        best_mean,
        best_worst,
        measure: measure(catalogue, &uncertain, rider, &candidates, (measure::DRAWS, seed)),
    })
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
    uncertain: &'a Uncertain<'a>,
    instance: &'a Instance,
    own: &'a [u32],
    rider: &'a Rider,
    seed: u64,
}

impl Judged<'_> {
    fn trials(&self, kits: [&Vec<u32>; 3]) -> [Trial; 3] {
        let kits = kits.map(Clone::clone);
        let fresh = losses(self.uncertain, &kits, self.seed, FRESH_FROM..FRESH_FROM + FRESH);
        let losses = by_kit(&fresh, kits.len());
        [0, 1, 2].map(|at| self.trial(&kits[at], &losses[at]))
    }

    fn load(&self, counts: &[u32]) -> [Load; 1] {
        [Load { rider: self.rider.name.clone(), mass: risk::value::mass(self.instance, counts) }]
    }

    fn party(&self, counts: &[u32]) -> Party {
        rehearse::party(self.instance, counts, &self.load(counts))
    }

    fn ridden(&self, counts: &[u32]) -> Estimate {
        let plan = Plan { trips: TRIPS, seed: self.seed.wrapping_add(1), ..Plan::default() };
        let like = self.party(counts);
        in_many_worlds(self.uncertain, counts, &self.load(counts), (&like, &plan), &|_| ()).hours_lost()
    }

    fn trial(&self, counts: &[u32], losses: &[f64]) -> Trial {
        let items = || self.instance.items.iter().zip(counts.iter().zip(self.own));
        let differing = |more: fn(u32, u32) -> u32| {
            let each = items().map(|(item, (count, own))| (item.name.clone(), more(*count, *own)));
            each.filter(|(_, n)| *n > 0).collect()
        };
        Trial {
            kit: Kit::new(items().map(|(item, (count, _))| (item.id.clone(), *count))),
            mean: Hours::new(mean(losses)),
            worst: Hours::new(worst(losses)),
            ridden: self.ridden(counts),
            more: differing(u32::saturating_sub),
            fewer: differing(|count, own| own.saturating_sub(count)),
        }
    }
}
