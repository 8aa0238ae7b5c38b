//! Kits that are best for some draw of all that is uncertain, and what each loses under other draws.

use super::pack::PackError;
use super::solve::solve_near;
use crate::parallel;
use crate::resolve::Instance;
use crate::risk;
use crate::uncertain::Uncertain;
use fardel_milp::SolveOptions;
use std::time::Duration;

/// How near the best a kit for one draw need be: draws differ by far more.
const DRAW_GAP: f64 = 0.002;
/// Longest that one draw may take.
const DRAW_LIMIT: Duration = Duration::from_secs(20);

/// The best kit for each draw.
pub(super) struct Candidates {
    /// The best kit of each draw for which there was time, in order.
    pub solved: Vec<Vec<u32>>,
    /// All that is different, the packed one first.
    pub kits: Vec<Vec<u32>>,
    /// Hours lost with each kit under each draw, those without a kit too.
    pub losses: Vec<Vec<f64>>,
}

impl Candidates {
    /// Finds the best kit for so many draws.
    ///
    /// # Errors
    /// [`PackError::OutOfTime`] where there was no time for any.
    pub fn find(
        uncertain: &Uncertain<'_>,
        packed: &[u32],
        (draws, seed): (u64, u64),
        options: &SolveOptions,
        done: &(dyn Fn(u64) + Sync),
    ) -> Result<Self, PackError> {
        let near = near(options, DRAW_GAP);
        let best = |draw: u64| {
            let kit = best_in(&uncertain.world(&uncertain.draw(seed, draw)), packed, &near);
            done(1);
            kit
        };
        let solved: Vec<Vec<u32>> = parallel::map((0..draws).collect(), best).into_iter().flatten().collect();
        if solved.is_empty() {
            return Err(PackError::OutOfTime);
        }
        let kits = different(packed, &solved);
        let losses = by_kit(&losses(uncertain, &kits, seed, 0..draws), kits.len());
        Ok(Self { solved, kits, losses })
    }

    /// A few kits among which it matters most to choose well: the packed one, then again and again the kit that lowers what
    /// the best of those taken loses, on average over the draws.
    pub fn few(&self, most: usize) -> Vec<Vec<u32>> {
        let mut taken = vec![0];
        let mut lowest = self.losses[0].clone();
        while taken.len() < most.min(self.kits.len()) {
            let gain = |kit: &usize| -> f64 {
                self.losses[*kit].iter().zip(&lowest).map(|(loss, low)| (low - loss).max(0.0)).sum()
            };
            let left = (0..self.kits.len()).filter(|kit| !taken.contains(kit));
            let best = left.map(|kit| (kit, gain(&kit))).max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)));
            let Some((kit, _)) = best.filter(|(_, gain)| *gain > 0.0) else { break };
            lowest.iter_mut().zip(&self.losses[kit]).for_each(|(low, loss)| *low = low.min(*loss));
            taken.push(kit);
        }
        taken.into_iter().map(|kit| self.kits[kit].clone()).collect()
    }
}

/// Near enough to the best for one of many draws, and soon enough.
pub(super) fn near(options: &SolveOptions, gap: f64) -> SolveOptions {
    let time_limit = Some(options.time_limit.unwrap_or(DRAW_LIMIT).min(DRAW_LIMIT));
    SolveOptions { gap: options.gap.max(gap), time_limit, ..*options }
}

/// The best kit in a world that differs from that of a known kit in numbers, if there is time to find one.
pub(super) fn best_in(world: &Instance, known: &[u32], near: &SolveOptions) -> Option<Vec<u32>> {
    solve_near(world, &risk::assess(world), known, near).ok().map(|solved| solved.choice.counts)
}

/// The packed kit and all others, each once.
pub(super) fn different(packed: &[u32], others: &[Vec<u32>]) -> Vec<Vec<u32>> {
    let mut kits = vec![packed.to_vec()];
    for kit in others {
        if !kits.contains(kit) {
            kits.push(kit.clone());
        }
    }
    kits
}

/// Hours lost under each of these draws with each kit.
pub(super) fn losses(
    uncertain: &Uncertain<'_>,
    kits: &[Vec<u32>],
    seed: u64,
    draws: std::ops::Range<u64>,
) -> Vec<Vec<f64>> {
    let under = |draw: u64| lost(&uncertain.world(&uncertain.draw(seed, draw)), kits);
    parallel::map(draws.collect(), under)
}

/// Hours lost in a world with each kit.
pub(super) fn lost(world: &Instance, kits: &[Vec<u32>]) -> Vec<f64> {
    let risk_model = risk::assess(world);
    kits.iter().map(|kit| risk_model.hours_empty() - risk::value(world, &risk_model, kit).objective()).collect()
}

/// The same by kit.
pub(super) fn by_kit(by_draw: &[Vec<f64>], kits: usize) -> Vec<Vec<f64>> {
    (0..kits).map(|kit| by_draw.iter().map(|losses| losses[kit]).collect()).collect()
}
