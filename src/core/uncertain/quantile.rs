//! Quantiles of the Gamma distribution at a normal score.

use statrs::distribution::{Continuous, ContinuousCDF, Gamma, Normal};
use statrs::function::gamma::ln_gamma;

/// From this shape on the cube root of the value is as good as normal, and distribution functions lose their lower tail.
const LARGE: f64 = 500.0;
/// Steps of Newton's method; from a start that is near it needs three to six.
const STEPS: u32 = 40;
/// Scores further out than this are drawn once in 10^15 times.
const FURTHEST: f64 = 8.0;
/// Below this, shape times value, the first term of the series is all that a number can tell.
const FIRST_TERM: f64 = 1e-8;
/// Relative change of the value at which it is near enough.
const NEAR: f64 = 1e-10;

/// The value of a Gamma distribution of this shape and mean 1 that lies where `score` lies in the standard normal one.
///
/// Newton's method on the logarithm of the value, which the distribution function is smooth in even for small shapes. It
/// starts from the first term of the series of the distribution function, `(shape x value)^shape / Gamma(shape + 1)`, which is
/// all there is to it for small values, or from the cube root of Wilson & Hilferty (Proceedings of the National Academy of
/// Sciences 17, 1931, 684-688).
#[must_use]
pub fn gamma(shape: f64, score: f64) -> f64 {
    let score = score.clamp(-FURTHEST, FURTHEST);
    let ninth = 1.0 / (9.0 * shape);
    let by_cube_root = (1.0 - ninth + score * ninth.sqrt()).max(0.0).powi(3);
    if shape >= LARGE {
        return by_cube_root;
    }
    let Ok(law) = Gamma::new(shape, shape) else { return 1.0 };
    let below = Normal::standard().cdf(score);
    let by_first_term = (below.ln() + ln_gamma(shape + 1.0)) / shape - shape.ln();
    if by_first_term + shape.ln() < FIRST_TERM.ln() {
        return by_first_term.exp();
    }
    let start = if by_cube_root.ln().is_finite() && by_first_term > -1.0 { by_cube_root.ln() } else { by_first_term };
    let above = score > 0.0;
    let mut at = start;
    for _ in 0..STEPS {
        let value = at.exp();
        // The smaller of both tails keeps its digits.
        let missed = if above { Normal::standard().sf(score) - law.sf(value) } else { law.cdf(value) - below };
        let slope = law.pdf(value) * value;
        if slope <= 0.0 {
            break;
        }
        let step = (missed / slope).clamp(-1.0, 1.0);
        at -= step;
        if step.abs() < NEAR {
            break;
        }
    }
    at.exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Chi-square with one, four and ten degrees of freedom, in the table of every statistics textbook (e.g. Devore,
    /// Probability and Statistics, table A.7): twice Gamma(freedom / 2, 1).
    #[test]
    fn chi_square_table() {
        let fifth = 1.644_853_627;
        for (freedom, score, printed, rounding) in [
            (1.0, fifth, 3.841, 6e-4),
            (1.0, -fifth, 0.00393, 6e-6),
            (4.0, fifth, 9.488, 6e-4),
            (4.0, -fifth, 0.711, 6e-4),
            (10.0, fifth, 18.307, 6e-4),
            (10.0, -fifth, 3.940, 6e-4),
        ] {
            let found = gamma(freedom / 2.0, score) * freedom;
            assert!((found - printed).abs() < rounding, "{freedom} {score}: {found} against {printed}");
        }
    }

    /// A sum of many: nearly normal with mean 1 and variance 1 / shape.
    #[test]
    fn large_shapes_are_nearly_normal() {
        for score in [-4.0, -1.0, 0.0, 1.0, 4.0] {
            let value = gamma(4000.0, score);
            assert!((value - (1.0 + score / 4000.0_f64.sqrt())).abs() < 2e-3, "{score}: {value}");
        }
    }

    /// The distribution function of what is found is the probability asked for, over all shapes that occur.
    #[test]
    fn comes_back_to_the_score() {
        for shape in [0.3, 0.5, 1.0, 2.0, 7.5, 60.0] {
            for score in [-4.0, -2.5, -1.0, -0.1, 0.0, 0.3, 1.0, 2.0, 3.0, 4.5] {
                let value = gamma(shape, score);
                let law = Gamma::new(shape, shape).unwrap();
                let tiny = shape * value < FIRST_TERM;
                let first_term = ((shape * value).ln() * shape - ln_gamma(shape + 1.0)).exp();
                let (found, asked) = if tiny {
                    (first_term, Normal::standard().cdf(score))
                } else if score > 0.0 {
                    (law.sf(value), Normal::standard().sf(score))
                } else {
                    (law.cdf(value), Normal::standard().cdf(score))
                };
                assert!(
                    (found / asked - 1.0).abs() < 1e-6,
                    "shape {shape} score {score}: {value}, {found} against {asked}"
                );
            }
        }
    }

    #[test]
    fn rises_with_the_score_and_stays_finite() {
        for shape in [1e-3, 0.3, 3.0, 9.9e4, 1.1e5] {
            let values: Vec<f64> = (-20..=20).map(|tenths| gamma(shape, f64::from(tenths) / 2.0)).collect();
            assert!(values.iter().all(|value| value.is_finite() && *value >= 0.0), "{shape}: {values:?}");
            assert!(values.windows(2).all(|pair| pair[0] <= pair[1]), "{shape}: {values:?}");
        }
    }
}
