//! Integrals over a positive number by the trapezoidal rule on its logarithm.

/// Smallest value, as a logarithm.
const FROM: f64 = -9.0;
/// Step of the logarithm.
pub const STEP: f64 = 0.1;
/// How many values there are.
const POINTS: u32 = 181;

/// The values that are integrated over: from about 1/8000 to 8000, each a tenth above the one before.
#[must_use]
pub fn values() -> Vec<f64> {
    (0..POINTS).map(|at| (FROM + STEP * f64::from(at)).exp()).collect()
}

/// Logarithm of a sum of exponentials, without overflow.
#[must_use]
pub fn log_sum(logarithms: &[f64]) -> f64 {
    let largest = logarithms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if largest == f64::NEG_INFINITY {
        return largest;
    }
    largest + logarithms.iter().map(|own| (own - largest).exp()).sum::<f64>().ln()
}

/// Weights that add up to 1 from their logarithms.
#[must_use]
pub fn weights(logarithms: &[f64]) -> Vec<f64> {
    let all = log_sum(logarithms);
    logarithms.iter().map(|own| (own - all).exp()).collect()
}

/// What is known about a positive number: its mean, and the shape of the Gamma distribution of the same variance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// The mean.
    pub mean: f64,
    /// Mean squared over variance.
    pub shape: f64,
}

impl Moments {
    /// From the mean and the mean of the square.
    #[must_use]
    pub fn of(mean: f64, square: f64) -> Self {
        Self { mean, shape: mean * mean / (square - mean * mean).max(f64::MIN_POSITIVE) }
    }
}

/// Mean and shape of a distribution with these weights on the values.
#[must_use]
pub fn moments(values: &[f64], weights: &[f64]) -> Moments {
    let sum = |of: fn(f64) -> f64| values.iter().zip(weights).map(|(value, weight)| of(*value) * weight).sum::<f64>();
    Moments::of(sum(|value| value), sum(|value| value * value))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A Gamma distribution on the grid has the moments that it has on paper, small shapes included.
    #[test]
    fn moments_of_a_gamma_distribution() {
        let values = values();
        for (shape, rate) in [(0.5, 0.2), (2.0, 1.0), (30.0, 6.0)] {
            let density: Vec<f64> = values.iter().map(|value| shape * value.ln() - rate * value).collect();
            let found = moments(&values, &weights(&density));
            assert!((found.mean * rate / shape - 1.0).abs() < 0.01, "{found:?}");
            assert!((found.shape / shape - 1.0).abs() < 0.01, "{found:?}");
        }
    }
}
