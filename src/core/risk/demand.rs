//! Demand on a shared stock: a compound Poisson number of units, and the ladder of what each further unit is worth.
//!
//! Two punctures on two wheels draw on the same patches, so demand is pooled per stock before it is compared with what
//! is carried. With `U` the units wanted on the whole trip, the k-th unit carried meets the share
//! `phi_k = P(U >= k) / E[U]` of the demand. Poisson arrivals see time averages, so the share of occurrences that find
//! their units is the share of units met. `phi` does not increase with `k` and sums to 1.

/// A rung worth less than this share of the demand counts as nothing: solvers let rows slip by 1e-7, and a kit must not
/// be preferred for what is only slack.
const NEGLIGIBLE_TAIL: f64 = 1e-7;
/// Units more than this many standard deviations above the mean are never wanted ([`CompoundPoisson::reach`]) ...
const DEVIATIONS: f64 = 10.0;
/// ... with this many of the largest single demands on top.
const LARGEST_DEMANDS: f64 = 40.0;
/// A ladder never has more rungs than this, whatever is carried.
const MOST_RUNGS: usize = 4096;

/// A sum of a Poisson number of demands: each source occurs with a mean and takes a fixed number of units.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CompoundPoisson {
    /// `(mean occurrences, units taken each time)`.
    sources: Vec<(f64, u32)>,
}

impl CompoundPoisson {
    /// From sources of `(mean occurrences, units taken each time)`; sources that take nothing are dropped.
    #[must_use]
    pub fn new(sources: impl IntoIterator<Item = (f64, u32)>) -> Self {
        Self { sources: sources.into_iter().filter(|(mean, units)| *mean > 0.0 && *units > 0).collect() }
    }

    /// Expected units wanted.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.sources.iter().map(|(mean, units)| mean * f64::from(*units)).sum()
    }

    /// `P(U = 0), ..., P(U = most)` by Panjer's recursion (ASTIN Bulletin 12, 1981, 22-26), which for Poisson counts is
    /// `f(0) = exp(-lambda)`, `u f(u) = sum over sources of mean x units x f(u - units)`.
    /// Where `exp(-lambda)` would underflow the recursion runs on a scaled start and is normalised by halving: the
    /// distribution of the sum of two independent halves.
    #[must_use]
    pub fn probabilities(&self, most: usize) -> Vec<f64> {
        let mut f = self.within_reach(most.min(self.reach()));
        f.resize(most + 1, 0.0);
        f
    }

    /// More units than this are never wanted: ten standard deviations above the mean, and forty of the largest demands for
    /// what is rare, have a chance far below what a sum of floats can show.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; `as` saturates")]
    fn reach(&self) -> usize {
        let variance: f64 = self.sources.iter().map(|(mean, units)| mean * f64::from(*units).powi(2)).sum();
        let largest = self.sources.iter().map(|(_, units)| *units).max().unwrap_or(0);
        (self.mean() + DEVIATIONS * variance.sqrt() + LARGEST_DEMANDS * f64::from(largest)).ceil() as usize
    }

    /// `P(U = 0), ..., P(U = most)`, worked out one by one.
    fn within_reach(&self, most: usize) -> Vec<f64> {
        let total: f64 = self.sources.iter().map(|(mean, _)| mean).sum();
        if total > 600.0 {
            let half = Self { sources: self.sources.iter().map(|(mean, units)| (mean / 2.0, *units)).collect() };
            let part = half.probabilities(most);
            return convolve(&part, &part, most);
        }
        let mut f = vec![0.0; most + 1];
        f[0] = libm::exp(-total);
        for u in 1..=most {
            let mut sum = 0.0;
            for (mean, units) in &self.sources {
                let units_each = *units as usize;
                if units_each <= u {
                    sum += mean * f64::from(*units) * f[u - units_each];
                }
            }
            #[allow(clippy::cast_precision_loss, reason = "at most a few thousand")]
            let divisor = u as f64;
            f[u] = sum / divisor;
        }
        f
    }

    /// `P(U <= units)`.
    #[must_use]
    pub fn at_most(&self, units: u32) -> f64 {
        self.probabilities(units as usize).iter().sum::<f64>().min(1.0)
    }

    /// Share of the demand met from so many units: `E[min(U, units)] / E[U]`; 1 if nothing is wanted.
    #[must_use]
    pub fn fill(&self, units: u32) -> f64 {
        let mean = self.mean();
        if mean <= 0.0 {
            return 1.0;
        }
        let f = self.probabilities((units.saturating_sub(1) as usize).min(self.reach()));
        let mut tail = 1.0;
        let mut met = 0.0;
        for probability in f.iter().take(units as usize) {
            tail = (tail - probability).max(0.0);
            met += tail;
        }
        (met / mean).min(1.0)
    }

    /// The ladder for up to `most` units, carried in steps of `step` units.
    #[must_use]
    pub fn ladder(&self, most: u32, step: u32) -> Ladder {
        let mean = self.mean();
        let step = step.max(1);
        let rungs_wanted = (most / step) as usize;
        if mean <= 0.0 || rungs_wanted == 0 {
            return Ladder { step, shares: Vec::new() };
        }
        let highest = (rungs_wanted.min(MOST_RUNGS)) * step as usize;
        let f = self.probabilities(highest);
        let mut tail = 1.0;
        let mut shares = Vec::new();
        for rung in f[..highest].chunks(step as usize) {
            let mut share = 0.0;
            for probability in rung {
                tail = (tail - probability).max(0.0);
                share += tail;
            }
            if share / mean < NEGLIGIBLE_TAIL {
                break;
            }
            shares.push(share / mean);
        }
        Ladder { step, shares }
    }
}

fn convolve(a: &[f64], b: &[f64], most: usize) -> Vec<f64> {
    let mut sum = vec![0.0; most + 1];
    for (i, x) in a.iter().enumerate() {
        for (j, y) in b.iter().take(most + 1 - i).enumerate() {
            sum[i + j] += x * y;
        }
    }
    sum
}

/// What each further step of a stock is worth: shares of the demand, non-increasing, summing to at most 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Ladder {
    /// Units in a step: the largest number that divides what every item holds.
    pub step: u32,
    /// Share of the demand met by the first, second ... step.
    pub shares: Vec<f64>,
}

impl Ladder {
    /// Share of the demand met from this many units.
    #[must_use]
    pub fn fill(&self, units: u32) -> f64 {
        let steps = (units / self.step.max(1)) as usize;
        self.shares.iter().take(steps).sum::<f64>().min(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} against {expected}");
    }

    /// Kaas, Goovaerts, Dhaene & Denuit, Modern Actuarial Risk Theory, 2nd ed., section 3.5 (parameters): rate 4, jumps
    /// 1, 2, 3 with probabilities 1/4, 1/2, 1/4. Values computed twice, by recursion and by convolution.
    #[test]
    fn panjer_matches_the_published_compound_poisson() {
        let demand = CompoundPoisson::new([(1.0, 1), (2.0, 2), (1.0, 3)]);
        let expected = [0.0183, 0.0183, 0.0458, 0.0580, 0.0740, 0.0887, 0.0931, 0.0957, 0.0918, 0.0838, 0.0738];
        for (found, expected) in demand.probabilities(10).iter().zip(expected) {
            close(*found, expected, 5e-5);
        }
        close(demand.probabilities(0)[0], (-4.0_f64).exp(), 1e-15);
        close(demand.mean(), 8.0, 1e-12);
    }

    /// Cachon & Terwiesch, Matching Supply with Demand, statistics tutorial appendix: first-order loss of a Poisson
    /// demand with mean 1.25. With unit demand, `fill(K) = 1 - loss(K) / mean`.
    #[test]
    fn the_ladder_agrees_with_a_printed_loss_table() {
        let loss = [1.25000, 0.53650, 0.18114, 0.04961, 0.01134, 0.00221, 0.00038, 0.00006, 0.00001];
        let ladder = CompoundPoisson::new([(1.25, 1)]).ladder(8, 1);
        for (units, loss) in (0u32..).zip(loss) {
            close(1.25 * (1.0 - ladder.fill(units)), loss, 5e-6);
        }
    }

    /// Devore, Probability and Statistics for Engineering and the Sciences, table A.2 (cumulative Poisson).
    #[test]
    fn tails_agree_with_the_cumulative_poisson_table() {
        let table = [
            (0.5, [0.6065, 0.9098, 0.9856, 0.9982]),
            (1.0, [0.3679, 0.7358, 0.9197, 0.9810]),
            (2.0, [0.1353, 0.4060, 0.6767, 0.8571]),
            (5.0, [0.0067, 0.0404, 0.1247, 0.2650]),
        ];
        for (mean, row) in table {
            for (k, expected) in (0u32..).zip(row) {
                close(CompoundPoisson::new([(mean, 1)]).at_most(k), expected, 5e-5);
            }
        }
    }

    #[test]
    fn a_ladder_is_concave_and_sums_to_one() {
        let ladder = CompoundPoisson::new([(0.7, 1), (0.3, 2), (0.1, 6)]).ladder(200, 1);
        assert!(ladder.shares.windows(2).all(|pair| pair[1] <= pair[0] + 1e-15));
        close(ladder.shares.iter().sum::<f64>(), 1.0, 1e-6);
    }

    #[test]
    fn steps_add_up_to_the_same_fill() {
        let demand = CompoundPoisson::new([(0.7, 1), (0.3, 4)]);
        let (fine, coarse) = (demand.ladder(24, 1), demand.ladder(24, 8));
        for units in [8, 16, 24] {
            close(fine.fill(units), coarse.fill(units), 1e-12);
        }
    }

    #[test]
    fn huge_means_do_not_underflow() {
        let demand = CompoundPoisson::new([(2000.0, 1)]);
        close(demand.at_most(2000), 0.5, 0.02);
        assert!(CompoundPoisson::new([]).ladder(5, 1).shares.is_empty());
    }
}
