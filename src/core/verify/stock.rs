//! How far a stock reaches, by direct convolution of the Poisson counts.

use std::collections::BTreeSet;

/// Share of the demand met from `units`: `E[min(U, units)] / E[U]`, with `U` the sum over sources of `units each` times
/// a Poisson count of the given mean. One if nothing is demanded.
pub(super) fn fill(sources: &[(f64, u32)], units: u32) -> f64 {
    let mean: f64 = sources.iter().map(|(mean, each)| mean * f64::from(*each)).sum();
    if mean <= 0.0 {
        return 1.0;
    }
    let units = units as usize;
    let mut below = vec![0.0; units];
    if let Some(none) = below.first_mut() {
        *none = 1.0;
    }
    for (mean, each) in sources {
        below = add(&below, *mean, *each as usize);
    }
    // E[min(U, K)] = sum over k = 1..K of P(U >= k) = sum over k = 1..K of (1 - P(U <= k - 1)).
    let (mut cumulative, mut met) = (0.0, 0.0);
    for p in below {
        cumulative += p;
        met += (1.0_f64 - cumulative).max(0.0);
    }
    (met / mean).min(1.0)
}

/// What may be drawn from a stock: expected occurrences with kilometres and days, in one fall, and units each time.
#[derive(Clone, Copy)]
pub(super) struct Draw {
    /// Number of the failure.
    pub failure: usize,
    pub riding: f64,
    pub per_fall: f64,
    pub units: u32,
}

/// Chance that the demand is not above `units`, where what one fall breaks comes together: falls are a Poisson number, and
/// so are the breakages of each sort in one fall.
pub(super) fn enough(draws: &[Draw], falls: f64, units: u32) -> f64 {
    let mut one_fall = vec![0.0; units as usize + 1];
    one_fall[0] = 1.0;
    let mut upto = one_fall.clone();
    for draw in draws {
        one_fall = add(&one_fall, draw.per_fall, draw.units as usize);
        upto = add(&upto, draw.riding, draw.units as usize);
    }
    // The sum over all falls by Panjer's recursion for Poisson counts.
    let mut of_falls = vec![0.0; one_fall.len()];
    of_falls[0] = libm::exp(falls * (one_fall[0] - 1.0));
    for u in 1..of_falls.len() {
        #[allow(clippy::cast_precision_loss, reason = "at most a few thousand")]
        let sum: f64 = (1..=u).map(|j| j as f64 * one_fall[j] * of_falls[u - j]).sum();
        #[allow(clippy::cast_precision_loss, reason = "at most a few thousand")]
        let divisor = u as f64;
        of_falls[u] = falls * sum / divisor;
    }
    let within = |left: usize| of_falls[..=left].iter().sum::<f64>();
    upto.iter().enumerate().map(|(u, p)| p * within(upto.len() - 1 - u)).sum::<f64>().min(1.0)
}

/// Chance that the demand is not above `units`, or that none of these `stops` happens: without them, falls are fewer (those
/// alone that cause none), and the rest may draw what it likes.
pub(super) fn enough_or_idle(draws: &[Draw], stops: &BTreeSet<usize>, falls: f64, units: u32) -> f64 {
    let (hanging, others): (Vec<Draw>, Vec<Draw>) = draws.iter().partition(|draw| stops.contains(&draw.failure));
    let spared = libm::exp(hanging.iter().map(|draw| -draw.per_fall).sum::<f64>());
    let idle = libm::exp(-hanging.iter().map(|draw| draw.riding).sum::<f64>() - falls * (1.0 - spared));
    enough(draws, falls, units) + idle * (1.0 - enough(&others, falls * spared, units))
}

/// The distribution of the sum so far plus `each` times a Poisson count.
fn add(so_far: &[f64], mean: f64, each: usize) -> Vec<f64> {
    if each == 0 {
        return so_far.to_vec();
    }
    let mut sum = vec![0.0; so_far.len()];
    let mut times = 0;
    // In logarithms, so that a large mean does not underflow before its peak.
    let mut log_p = -mean;
    while times * each < so_far.len() {
        let p = libm::exp(log_p);
        for at in times * each..so_far.len() {
            sum[at] += p * so_far[at - times * each];
        }
        times += 1;
        #[allow(clippy::cast_precision_loss, reason = "at most a few thousand")]
        let count = times as f64;
        log_p += libm::log(mean) - libm::log(count);
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::{Draw, enough, enough_or_idle, fill};
    use std::collections::BTreeSet;

    /// By hand: one fall on average, which breaks one thing on average; with one unit, `P(0) + P(1)` of the Neyman type A
    /// distribution: `exp(e^-1 - 1) (1 + e^-1)`.
    #[test]
    fn what_a_fall_breaks_comes_together() {
        let draws = [Draw { failure: 0, riding: 0.0, per_fall: 1.0, units: 1 }];
        let e = (-1.0_f64).exp();
        assert!((enough(&draws, 1.0, 1) - (e - 1.0).exp() * (1.0 + e)).abs() < 1e-12);
        let apart = [Draw { failure: 0, riding: 1.0, per_fall: 0.0, units: 1 }];
        assert!((enough(&apart, 1.0, 1) - 2.0 * e).abs() < 1e-12);
    }

    /// By hand: a stop with mean 0.1 and a nuisance with mean 1 share one unit. The unit suffices for one of both with
    /// `e^-1.1 (1 + 1.1)`; without the stop, more than one nuisance comes with `1 - 2 e^-1`.
    #[test]
    fn what_merely_annoys_may_use_up_what_no_stop_asks_for() {
        let draws = |riding, per_fall| Draw { failure: usize::from(riding < 0.5), riding, per_fall, units: 1 };
        let all = [draws(1.0, 0.0), draws(0.1, 0.0)];
        let expected = 2.1 * (-1.1_f64).exp() + (-0.1_f64).exp() * (1.0 - 2.0 * (-1.0_f64).exp());
        assert!((enough_or_idle(&all, &BTreeSet::from([1]), 3.0, 1) - expected).abs() < 1e-12);
        // With nothing aboard, just the trips without the stop end well, whatever else a fall breaks with it.
        let both = [Draw { failure: 0, ..draws(0.0, 1.0) }, Draw { failure: 1, ..draws(0.0, 0.5) }];
        let found = enough_or_idle(&both, &BTreeSet::from([1]), 2.0, 0);
        let none = |per_fall: f64| (2.0 * ((-per_fall).exp() - 1.0)).exp();
        assert!((found - none(0.5)).abs() < 1e-12, "{found}");
    }

    /// Cachon & Terwiesch, Matching Supply with Demand, statistics tutorial appendix: Poisson mean 1.25, loss at 2.
    #[test]
    fn agrees_with_a_printed_loss() {
        assert!((1.25 * (1.0 - fill(&[(1.25, 1)], 2)) - 0.18114).abs() < 5e-6);
        assert!((fill(&[], 3) - 1.0).abs() < 1e-15);
        assert!(fill(&[(1.0, 1)], 0).abs() < 1e-15);
    }
}
