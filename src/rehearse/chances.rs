//! What happens how often: counts are Poisson, and given the count, each event falls on a cell by weight.
//!
//! Independent Poisson sources add up to one, and each event of the sum belongs to a source with a chance in proportion
//! to its mean. So a trip takes one draw for how many, and one for each event that happens, not one for each source.

use rand::{Rng, RngExt};
use rand_distr::weighted::WeightedAliasIndex;
use rand_distr::{Distribution, Gamma, Poisson};

/// Up to this mean a count is looked up in a table: one random number for each.
const TABLED: f64 = 12.0;

/// So many entries lead into the table.
const PARTS: usize = 256;

/// A Poisson number of events; nothing ever where the mean is 0.
#[derive(Debug, Clone)]
pub(super) enum Count {
    /// P(N <= 0), P(N <= 1) ...: as far as a number can tell from 1; and for equal parts of the way from 0 to 1, the
    /// first of them that is not below the part.
    Table(Vec<f64>, Box<[u16; PARTS]>),
    /// Too large for that.
    Large(Poisson<f64>),
}

impl Count {
    pub fn new(mean: f64) -> Self {
        match Poisson::new(mean) {
            Ok(poisson) if mean > TABLED => Self::Large(poisson),
            _ => {
                let table = cumulative(mean.max(0.0));
                let guide = Box::new(std::array::from_fn(|part| first_above(&table, part)));
                Self::Table(table, guide)
            }
        }
    }

    pub fn draw(&self, rng: &mut impl Rng) -> u32 {
        match self {
            Self::Table(table, guide) => on_table(table, guide, rng.random()),
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count; `as` saturates")]
            Self::Large(poisson) => poisson.sample(rng) as u32,
        }
    }

    /// A number that is known not to be 0.
    pub fn draw_some(&self, rng: &mut impl Rng) -> u32 {
        match self {
            Self::Table(table, guide) => {
                let none = self.none();
                on_table(table, guide, none + rng.random::<f64>() * (1.0 - none)).max(1)
            }
            Self::Large(_) => self.draw(rng).max(1),
        }
    }

    /// Chance of no event.
    pub fn none(&self) -> f64 {
        match self {
            Self::Table(table, _) => table.first().copied().unwrap_or(1.0),
            // Beyond the means that are tabled: less than one in a hundred thousand.
            Self::Large(_) => 0.0,
        }
    }
}

/// The first number whose step is above a height.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "small numbers"
)]
fn on_table(table: &[f64], guide: &[u16; PARTS], height: f64) -> u32 {
    let mut count = u32::from(guide[((height * PARTS as f64) as usize).min(PARTS - 1)]);
    while table.get(count as usize).is_some_and(|step| *step <= height) {
        count += 1;
    }
    count
}

#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "a few dozen steps")]
fn first_above(table: &[f64], part: usize) -> u16 {
    table.partition_point(|step| *step <= part as f64 / PARTS as f64) as u16
}

/// A Poisson number whose mean is used only once.
pub(super) fn poisson(mean: f64, rng: &mut impl Rng) -> u32 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count; `as` saturates")]
    let count = Poisson::new(mean).map_or(0.0, |poisson| poisson.sample(rng)) as u32;
    count
}

/// Sums of `exp(-m) m^n / n!` until they no longer grow.
fn cumulative(mean: f64) -> Vec<f64> {
    let (mut chance, mut sum, mut count) = ((-mean).exp(), 0.0, 0.0);
    let mut table = Vec::new();
    while sum + chance > sum {
        sum += chance;
        table.push(sum);
        count += 1.0;
        chance *= mean / count;
    }
    table
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

    /// How many there are if there are any.
    pub fn some(&self, rng: &mut impl Rng) -> u32 {
        self.count.draw_some(rng)
    }

    /// Chance of no event.
    pub fn none(&self) -> f64 {
        self.count.none()
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
