//! What happens how often: counts are Poisson, and given the count, each event falls on a cell by weight.
//!
//! Independent Poisson sources add up to one, and each event of the sum belongs to a source with a chance in proportion
//! to its mean. So a trip takes one draw for how many, and one for each event that happens, not one for each source.

use rand::{Rng, RngExt};
use rand_distr::weighted::WeightedAliasIndex;
use rand_distr::{Distribution, Poisson};

/// Up to this mean a count is looked up in a table: one random number for each.
const TABLED: f64 = 32.0;

/// Entries of the index that leads into the table.
const PARTS: usize = 256;

/// A Poisson number of events; nothing ever where the mean is 0.
#[derive(Debug, Clone)]
pub(super) enum Count {
    /// P(N <= 0), P(N <= 1) ...: as far as a number can tell from 1; and for equal parts of the way from 0 to 1, the
    /// first of them that is above the part.
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

    /// A number that is known to be at least so large.
    pub fn draw_from(&self, least: u32, rng: &mut impl Rng) -> u32 {
        match self {
            Self::Table(table, guide) => {
                let below = self.below(least);
                on_table(table, guide, below + rng.random::<f64>() * (1.0 - below)).max(least)
            }
            Self::Large(_) => self.draw(rng).max(least),
        }
    }

    /// Chance of fewer events than this.
    pub fn below(&self, least: u32) -> f64 {
        match (self, least.checked_sub(1)) {
            // Beyond the means that are tabled, only asked for very few events: less than one in a million million.
            (Self::Large(_), _) | (_, None) => 0.0,
            (Self::Table(table, _), Some(most)) => table.get(most as usize).copied().unwrap_or(1.0),
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
pub(super) struct Scatter<T> {
    count: Count,
    /// What has a mean above 0, and the means made ready.
    cells: Vec<T>,
    alias: Option<WeightedAliasIndex<f64>>,
}

impl<T: Copy> Scatter<T> {
    /// Cells and the mean of each.
    pub fn new(cells: impl IntoIterator<Item = (T, f64)>) -> Self {
        let (cells, means): (Vec<T>, Vec<f64>) = cells.into_iter().filter(|(_, mean)| *mean > 0.0).unzip();
        let total: f64 = means.iter().sum();
        match WeightedAliasIndex::new(means) {
            Ok(alias) => Self { count: Count::new(total), cells, alias: Some(alias) },
            Err(_) => Self { count: Count::new(0.0), cells: Vec::new(), alias: None },
        }
    }

    /// How many events there are.
    pub const fn count(&self) -> &Count {
        &self.count
    }

    /// What one event can fall on.
    pub fn cells(&self) -> &[T] {
        &self.cells
    }

    /// Place in `cells` of one event; never asked of a scatter without cells, whose count is 0.
    pub fn place(&self, rng: &mut impl Rng) -> usize {
        self.alias.as_ref().map_or(0, |alias| alias.sample(rng))
    }

    /// What one event falls on.
    pub fn cell(&self, rng: &mut impl Rng) -> T {
        self.cells[self.place(rng)]
    }
}

/// A number of at least 1 with `P(k)` in proportion to `p^k / k`, by inversion in two steps (Kemp, Applied Statistics 30,
/// 1981, pp. 249-253, algorithm LK). `log_rest` is `ln(1 - p)`.
pub(super) fn logarithmic(log_rest: f64, rng: &mut impl Rng) -> u32 {
    let height: f64 = rng.random();
    if height >= -log_rest.exp_m1() {
        return 1;
    }
    let log_q = (-(rng.random::<f64>() * log_rest).exp()).ln_1p();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count; `as` saturates")]
    let count = (height.ln() / log_q) as u32;
    count.saturating_add(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand::SeedableRng;
    use rand_xoshiro::Xoshiro256PlusPlus;

    const DRAWS: u32 = 400_000;

    fn rng() -> Xoshiro256PlusPlus {
        Xoshiro256PlusPlus::seed_from_u64(1)
    }

    /// Within four standard errors of the chance.
    fn as_likely(times: u32, chance: f64) -> bool {
        let share = f64::from(times) / f64::from(DRAWS);
        (share - chance).abs() <= 4.0 * (chance * (1.0 - chance) / f64::from(DRAWS)).sqrt()
    }

    #[test]
    fn the_logarithmic_distribution_has_its_chances() {
        for p in [0.1_f64, 0.6, 0.95] {
            let mut rng = rng();
            let mut times = [0_u32; 8];
            for _ in 0..DRAWS {
                if let Some(own) = times.get_mut(logarithmic((-p).ln_1p(), &mut rng) as usize) {
                    *own += 1;
                }
            }
            assert_eq!(times[0], 0);
            let mut power = 1.0;
            for (size, own) in (1..8).zip(&times[1..]) {
                power *= p;
                assert!(as_likely(*own, power / (f64::from(size) * -(-p).ln_1p())), "p {p}, size {size}: {own}");
            }
        }
        assert_eq!(logarithmic(-0.0, &mut rng()), 1, "nothing is known to come again");
    }

    /// On both sides of the mean up to which numbers are tabled: what is drawn from a number on has the chances that are left.
    #[test]
    fn numbers_known_to_be_large_enough() {
        for mean in [0.3, 4.0, TABLED + 1.0] {
            let count = Count::new(mean);
            for least in 0..4_u32 {
                let mut rng = rng();
                let sum: f64 = (0..DRAWS).map(|_| f64::from(count.draw_from(least, &mut rng))).sum();
                // E[N | N >= k] = m P(N >= k - 1) / P(N >= k)
                let expected = mean * (1.0 - count.below(least.saturating_sub(1))) / (1.0 - count.below(least));
                let error = 4.0 * ((mean + 1.0) / f64::from(DRAWS)).sqrt();
                assert!((sum / f64::from(DRAWS) - expected).abs() < error, "mean {mean}, from {least}");
            }
        }
    }
}
