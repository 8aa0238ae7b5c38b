//! What happens how often: counts are Poisson, and given the count, each event falls on a cell by weight.
//!
//! Independent Poisson sources add up to one, and each event of the sum belongs to a source with a chance in proportion
//! to its mean. So a trip takes one draw for how many, and one for each event that happens, not one for each source.

use rand::Rng;
use rand_distr::weighted::WeightedAliasIndex;
use rand_distr::{Distribution, Gamma, Poisson};

/// A Poisson number of events; nothing ever where the mean is 0.
#[derive(Debug, Clone, Copy)]
pub(super) struct Count(Option<Poisson<f64>>);

impl Count {
    pub fn new(mean: f64) -> Self {
        Self((mean > 0.0).then(|| Poisson::new(mean).ok()).flatten())
    }

    pub fn draw(&self, rng: &mut impl Rng) -> u32 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count; `as` saturates")]
        let count = self.0.map_or(0.0, |poisson| poisson.sample(rng)) as u32;
        count
    }
}

/// Events that fall on one of several cells.
#[derive(Debug, Clone)]
pub(super) struct Scatter {
    count: Count,
    /// Cell numbers with a weight above 0, and the weights made ready.
    cells: Option<(Vec<u32>, WeightedAliasIndex<f64>)>,
}

impl Scatter {
    /// Cell `i` has mean `means[i]`.
    pub fn new(means: &[f64]) -> Self {
        let live: Vec<(u32, f64)> = (0_u32..).zip(means.iter().copied()).filter(|(_, mean)| *mean > 0.0).collect();
        let total: f64 = live.iter().map(|(_, mean)| mean).sum();
        let (cells, weights): (Vec<u32>, Vec<f64>) = live.into_iter().unzip();
        let cells = WeightedAliasIndex::new(weights).ok().map(|alias| (cells, alias));
        Self { count: Count::new(if cells.is_some() { total } else { 0.0 }), cells }
    }

    pub fn count(&self, rng: &mut impl Rng) -> u32 {
        self.count.draw(rng)
    }

    /// The cell of one event; never asked of a scatter without cells, whose count is 0.
    pub fn cell(&self, rng: &mut impl Rng) -> usize {
        self.cells.as_ref().map_or(0, |(cells, alias)| cells[alias.sample(rng)] as usize)
    }
}

/// The distribution of a rate, as a factor on its mean: Gamma with mean 1, or no distribution at all.
#[derive(Debug, Clone, Copy)]
pub(super) struct Factor(Option<Gamma<f64>>);

impl Factor {
    /// With evidence worth so many occurrences.
    pub fn new(evidence: Option<f64>) -> Self {
        Self(evidence.and_then(|shape| Gamma::new(shape, 1.0 / shape).ok()))
    }

    pub fn draw(&self, rng: &mut impl Rng) -> f64 {
        self.0.map_or(1.0, |gamma| gamma.sample(rng))
    }
}
