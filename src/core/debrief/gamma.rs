//! What is known about a rate, as a Gamma distribution, and how a ride changes it.
//!
//! A Poisson count in an exposure turns Gamma(shape, rate) into Gamma(shape + count, rate + exposure): see Gelman et al.,
//! Bayesian Data Analysis, 3rd ed., section 2.6.

use statrs::distribution::{ContinuousCDF, Gamma, Normal};

/// Logarithm of the smallest value that is told from zero.
const SMALLEST_LOGARITHM: f64 = -700.0;
/// Halvings until the interval is as small as a number can tell.
const HALVINGS: u32 = 80;
/// From this shape on the cube root of the value is as good as normal, and the series for the Gamma distribution takes long.
const LARGE: f64 = 1e6;

/// What is known about a rate of occurrences per unit of exposure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Belief {
    /// Occurrences that the evidence is worth.
    pub shape: f64,
    /// Exposure that the evidence is worth.
    pub rate: f64,
}

impl Belief {
    /// From a mean and a variance.
    #[must_use]
    pub fn with_moments(mean: f64, variance: f64) -> Self {
        Self { shape: mean * mean / variance, rate: mean / variance }
    }

    /// After so many occurrences in this exposure.
    #[must_use]
    pub fn after(self, count: f64, exposure: f64) -> Self {
        Self { shape: self.shape + count, rate: self.rate + exposure }
    }

    /// The mean.
    #[must_use]
    pub fn mean(self) -> f64 {
        self.shape / self.rate
    }

    /// The standard deviation.
    #[must_use]
    pub fn deviation(self) -> f64 {
        self.shape.sqrt() / self.rate
    }

    /// The value that the rate does not exceed with this probability.
    ///
    /// Found by halving an interval of logarithms: with next to no evidence the lower quantiles are many powers of ten
    /// below the mean, where Newton's method goes astray.
    #[must_use]
    pub fn quantile(self, probability: f64) -> f64 {
        if self.shape >= LARGE {
            let deviations = Normal::standard().inverse_cdf(probability);
            return self.mean() * (1.0 - self.ninth() + deviations * self.ninth().sqrt()).powi(3);
        }
        let Ok(gamma) = Gamma::new(self.shape, 1.0) else { return f64::NAN };
        let (mut low, mut high) = (SMALLEST_LOGARITHM, (self.shape + 40.0 * (1.0 + self.shape.sqrt())).ln());
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if gamma.cdf(middle.exp()) < probability {
                low = middle;
            } else {
                high = middle;
            }
        }
        high.exp() / self.rate
    }

    /// The probability that the rate is above a value.
    #[must_use]
    pub fn above(self, value: f64) -> f64 {
        if self.shape >= LARGE {
            let deviations = ((value / self.mean()).cbrt() - 1.0 + self.ninth()) / self.ninth().sqrt();
            return Normal::standard().sf(deviations);
        }
        Gamma::new(self.shape, self.rate).map_or(f64::NAN, |gamma| gamma.sf(value))
    }

    /// The cube root of a value over the mean is nearly normal, with mean `1 - this` and variance `this`: Wilson &
    /// Hilferty, Proceedings of the National Academy of Sciences 17, 1931, 684-688.
    fn ninth(self) -> f64 {
        1.0 / (9.0 * self.shape)
    }
}

/// Between which factors of its mean a rate worth so many events is in nine cases out of ten.
#[must_use]
pub fn width(events: f64) -> (f64, f64) {
    let belief = Belief { shape: events, rate: events };
    (belief.quantile(0.05), belief.quantile(0.95))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} against {expected}");
    }

    /// Both ways to reckon meet where one takes over from the other.
    #[test]
    fn large_shapes_go_on_where_small_ones_end() {
        let (below, above) =
            (Belief { shape: LARGE * 0.999_999, rate: 3.0 }, Belief { shape: LARGE * 1.000_001, rate: 3.0 });
        for probability in [0.05, 0.5, 0.95] {
            let rise = above.quantile(probability) / below.quantile(probability);
            close(rise, 1.000_002, 1e-8);
            close(below.above(below.quantile(probability)), 1.0 - probability, 1e-6);
            close(above.above(above.quantile(probability)), 1.0 - probability, 1e-6);
        }
    }

    /// Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.6: deaths from asthma. The printed values have two
    /// digits; these are the same, computed with more.
    #[test]
    fn asthma_mortality() {
        let prior = Belief { shape: 3.0, rate: 5.0 };
        let year = prior.after(3.0, 2.0);
        assert_eq!(year, Belief { shape: 6.0, rate: 7.0 });
        close(year.mean(), 0.8571, 5e-5);
        close(year.above(1.0), 0.3007, 5e-5);
        let decade = prior.after(30.0, 20.0);
        close(decade.mean(), 1.32, 1e-12);
        close(decade.above(1.0), 0.9285, 5e-5);
        // Ten years one after the other teach the same as all at once.
        let one_by_one = (0..10).fold(prior, |belief, _| belief.after(3.0, 2.0));
        assert_eq!(one_by_one, decade);
    }

    /// Johnson, Ott & Dogucu, Bayes Rules!, section 5.2: fraudulent calls on four days.
    #[test]
    fn fraud_calls() {
        let prior = Belief { shape: 10.0, rate: 2.0 };
        close(prior.mean(), 5.0, 1e-12);
        close(prior.deviation(), 1.5811, 5e-5);
        let calls = [6.0, 2.0, 2.0, 1.0];
        let after = calls.iter().fold(prior, |belief, count| belief.after(*count, 1.0));
        assert_eq!(after, Belief { shape: 21.0, rate: 6.0 });
        close(after.mean(), 3.5, 1e-12);
        close(after.deviation(), 0.7638, 5e-5);
    }

    /// Course notes to Georgia Tech ISYE 6420, unit 4: marked cells, prior mean 4 and variance 1/4.
    #[test]
    fn marked_cells() {
        let prior = Belief::with_moments(4.0, 0.25);
        assert_eq!(prior, Belief { shape: 64.0, rate: 16.0 });
        let counts = [2.0, 0.0, 1.0, 5.0, 7.0, 1.0];
        let after = counts.iter().fold(prior, |belief, count| belief.after(*count, 1.0));
        assert_eq!(after, Belief { shape: 80.0, rate: 22.0 });
        close(after.mean(), 3.6364, 5e-5);
    }

    /// Chi-square with one and four degrees of freedom is Gamma(1/2, 1/2) and Gamma(2, 1/2): the table in every
    /// statistics textbook, e.g. Devore, Probability and Statistics, table A.7.
    #[test]
    fn quantiles_of_chi_square() {
        for (freedom, probability, value, rounding) in
            [(1.0, 0.95, 3.841, 1e-3), (1.0, 0.05, 0.00393, 5e-6), (4.0, 0.95, 9.488, 1e-3), (4.0, 0.05, 0.711, 1e-3)]
        {
            close(Belief { shape: freedom / 2.0, rate: 0.5 }.quantile(probability), value, rounding);
        }
    }

    #[test]
    fn next_to_no_evidence_gives_a_quantile_all_the_same() {
        for shape in [1e-6, 1e-3, 0.01, 0.1] {
            let belief = Belief { shape, rate: shape };
            let (low, high) = (belief.quantile(0.05), belief.quantile(0.95));
            assert!((0.0..1e-6).contains(&low) && high.is_finite() && high >= low, "{shape}: {low} to {high}");
        }
    }

    /// J. Albert's notes to Bayesian Computation with R: 58 events in exposure 581. He simulates; these are exact.
    #[test]
    fn interval_of_a_simulated_example() {
        let belief = Belief { shape: 58.0, rate: 581.0 };
        close(belief.quantile(0.05), 0.07929, 1e-5);
        close(belief.quantile(0.95), 0.12232, 1e-5);
    }
}
