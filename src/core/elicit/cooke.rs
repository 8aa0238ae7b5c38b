//! Cooke's classical model: how well somebody's intervals hold the truth, how narrow they are, and weights by both.
//!
//! ```text
//! calibration = P(chi-square with 3 degrees of freedom >= 2 n I(s, p)),  p = (0.05, 0.45, 0.45, 0.05),
//!               s the shares of the n true values between somebody's quantiles,  I(s, p) = sum of s ln(s / p)
//! information = mean over the questions of  ln(range) + sum over the four parts of p ln(p / width)
//! weight      in proportion to calibration x information
//! ```
//!
//! The range of a question is the shortest that holds everybody's quantiles and, where it is known, the truth, and a tenth of
//! its length more on either side; between quantiles everybody's distribution is even. Cooke 1991, Experts in Uncertainty,
//! Oxford University Press, chapter 12.

use super::quantiles::Quantiles;
use statrs::distribution::{ChiSquared, ContinuousCDF};

/// Chances of the four parts between quantiles.
pub const PARTS: [f64; 4] = [0.05, 0.45, 0.45, 0.05];
/// Degrees of freedom of the calibration.
const FREEDOM: f64 = 3.0;
/// What the range is longer than the shortest that holds everything, on either side.
pub const OVERSHOOT: f64 = 0.1;
/// Halvings until a quantile is as near as a number can tell.
const HALVINGS: u32 = 100;

/// The range of a question: everybody's quantiles, the truth where it is known, and what is beyond, within `bounds`.
#[must_use]
pub fn range(all: &[Quantiles], truth: Option<f64>, bounds: (f64, f64)) -> (f64, f64) {
    let low = all.iter().map(|own| own.low).chain(truth).fold(f64::INFINITY, f64::min);
    let high = all.iter().map(|own| own.high).chain(truth).fold(f64::NEG_INFINITY, f64::max);
    let beyond = OVERSHOOT * (high - low);
    // Somebody whose quantile is the bound itself needs a little room below it all the same.
    let least = low - beyond / 100.0;
    let most = high + beyond / 100.0;
    ((low - beyond).max(bounds.0).min(least), (high + beyond).min(bounds.1).max(most))
}

/// The p-value at which one would wrongly reject that the true values fall between the quantiles as often as they should.
#[must_use]
#[allow(clippy::cast_precision_loss, reason = "a count of questions")]
pub fn calibration(quantiles: &[Quantiles], truths: &[f64]) -> f64 {
    let mut counts = [0_u32; 4];
    for (own, truth) in quantiles.iter().zip(truths) {
        counts[own.part(*truth)] += 1;
    }
    let n = quantiles.len().min(truths.len()) as f64;
    if n < 1.0 {
        return 1.0;
    }
    let term = |(count, part): (&u32, &f64)| {
        let share = f64::from(*count) / n;
        if share > 0.0 { share * (share / part).ln() } else { 0.0 }
    };
    let information: f64 = counts.iter().zip(&PARTS).map(term).sum();
    ChiSquared::new(FREEDOM).map_or(0.0, |law| law.sf(2.0 * n * information.max(0.0)))
}

/// How much narrower somebody's distribution of one question is than an even one over the range.
#[must_use]
pub fn information(own: &Quantiles, (from, to): (f64, f64)) -> f64 {
    let ends = [from, own.low, own.best, own.high, to];
    let parts = PARTS.iter().zip(ends.windows(2)).map(|(part, ends)| part * (part / (ends[1] - ends[0])).ln());
    (to - from).ln() + parts.sum::<f64>()
}

/// Weights that add up to one, in proportion to calibration and information; equal ones where nobody has any.
#[must_use]
#[allow(clippy::cast_precision_loss, reason = "a count of people")]
pub fn weights(scores: &[(f64, f64)]) -> Vec<f64> {
    let products: Vec<f64> = scores.iter().map(|(calibration, information)| calibration * information).collect();
    let all: f64 = products.iter().sum();
    if all > 0.0 {
        products.iter().map(|product| product / all).collect()
    } else {
        vec![1.0 / (scores.len() as f64).max(1.0); scores.len()]
    }
}

/// Quantiles of the mixture of everybody's distributions with these weights.
#[must_use]
pub fn mixture(all: &[Quantiles], weights: &[f64], range: (f64, f64)) -> Quantiles {
    let below =
        |value: f64| -> f64 { all.iter().zip(weights).map(|(own, weight)| weight * below(own, range, value)).sum() };
    let at = |share: f64| {
        let (mut low, mut high) = range;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if below(middle) < share { low = middle } else { high = middle }
        }
        f64::midpoint(low, high)
    };
    Quantiles { low: at(PARTS[0]), best: at(0.5), high: at(1.0 - PARTS[3]) }
}

/// Chance that somebody gives a value below this one, evenly between the quantiles.
fn below(own: &Quantiles, (from, to): (f64, f64), value: f64) -> f64 {
    let ends = [from, own.low, own.best, own.high, to];
    let mut sum = 0.0;
    for (part, ends) in PARTS.iter().zip(ends.windows(2)) {
        sum += part * ((value - ends[0]) / (ends[1] - ends[0])).clamp(0.0, 1.0);
    }
    sum
}

#[cfg(test)]
mod tests;
