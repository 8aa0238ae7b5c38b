//! One source about one group: how many were seen where how many were expected, and how far that can be trusted.
//!
//! With typed-in rates `E` are expected. The true rates of the group are a factor `theta` times those, the source counts
//! `bias` for each one that shows under way, and its own riders, bikes and ways of counting differ by a factor that is
//! Gamma with mean 1 and shape `a`. So the count is negative binomial (Greenwood & Yule 1920, J. Royal Statistical Society
//! 83, 255-279) with mean `theta bias E` and shape `a`; without a shape it is Poisson.

use statrs::function::gamma::ln_gamma;

/// What one source says about one group.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Key of the source.
    pub source: String,
    /// Occurrences seen.
    pub seen: f64,
    /// Expected by the typed-in rates, bias included.
    pub expected: f64,
    /// Shape of the source's own factor; `None`: that of its family, to be estimated.
    pub shape: Option<f64>,
    /// A length of life instead of a count: the seen and expected of one life.
    pub life: bool,
}

impl Cell {
    /// Logarithm of the likelihood of a factor, but for a constant; `shape` is that of the family.
    #[must_use]
    pub fn log_likelihood(&self, factor: f64, shape: f64) -> f64 {
        let shape = self.shape.unwrap_or(shape);
        let mean = factor * self.expected;
        if self.life {
            // The mean rate is one in a life, known as well as `shape` lives would tell it.
            return shape * (self.seen * mean.ln() - mean);
        }
        log_count(self.seen, mean, shape)
    }
}

/// Logarithm of the negative binomial probability of a count, but for the factorial of the count.
#[must_use]
pub fn log_count(seen: f64, mean: f64, shape: f64) -> f64 {
    let hits = if seen > 0.0 { seen * mean.ln() } else { 0.0 };
    if shape.is_infinite() {
        return hits - mean;
    }
    ln_gamma(seen + shape) - ln_gamma(shape) + shape * shape.ln() + hits - (seen + shape) * (shape + mean).ln()
}

/// The shape of a factor with mean 1 that is between `1 / within` and `within` in nine cases out of ten, roughly: the
/// logarithm of a Gamma factor has a variance near 1 / shape, and 1.645 deviations hold nine tenths of a normal one.
#[must_use]
pub fn shape_within(within: f64) -> f64 {
    let deviation = within.ln() / 1.645;
    (deviation * deviation).recip()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Probabilities of all counts add up to one, and their mean is the mean.
    #[test]
    fn counts_are_negative_binomial() {
        let probability = |seen: f64| (log_count(seen, 3.0, 0.7) - ln_gamma(seen + 1.0)).exp();
        let counts: Vec<f64> = (0..400).map(f64::from).collect();
        assert!((counts.iter().map(|n| probability(*n)).sum::<f64>() - 1.0).abs() < 1e-9);
        assert!((counts.iter().map(|n| n * probability(*n)).sum::<f64>() - 3.0).abs() < 1e-6);
    }

    /// Without scatter of its own the count is Poisson.
    #[test]
    fn without_scatter_it_is_poisson() {
        assert!((log_count(4.0, 2.5, f64::INFINITY) - log_count(4.0, 2.5, 1e7)).abs() < 1e-5);
    }
}
