//! Several riders on like bikes: what is common to them, and what is each one's own.
//!
//! A failure's rate on rider i's bike is a factor `theta u[i]` times the catalogue's. The bike model has its share in
//! `theta`, which all riders have in common; how each rides and looks after the bike is in `u[i]`. Both are Gamma with mean 1,
//! and what is not known about the rate of one bike is shared out alike: with a rate worth `w` events,
//! `1 + 1/w = (1 + 1/a)^2`, and `a` is the shape of either (from memory: nobody has published how riders on one model of bike
//! differ). Rider i has seen `n[i]` where `E[i]` were expected:
//!
//! ```text
//! n[i] | theta ~ negative binomial, mean theta E[i], shape a        u[i] | theta, n[i] ~ Gamma(a + n[i], a + theta E[i])
//! ```
//!
//! `theta` is integrated on a grid about the maximum of its density on the scale of logarithms, where it has only one.

use super::riders::Whose;
use crate::evidence::grid::{Moments, log_sum};
use crate::evidence::log_count;

/// Points of the grid to either side of the maximum.
const POINTS: i32 = 120;
/// The grid reaches so many deviations to either side.
const DEVIATIONS: f64 = 9.0;
/// Logarithms between which the maximum is looked for.
const WIDEST: f64 = 40.0;
/// Steps of the search, each of which leaves two thirds.
const STEPS: u32 = 120;

/// What one rider has seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// Occurrences.
    pub seen: f64,
    /// Occurrences expected by the catalogue's rate.
    pub expected: f64,
}

/// What all of them have seen together.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// The factor of a rider like these who has seen nothing yet.
    pub next: Moments,
    /// Each rider's own factor.
    pub riders: Vec<Moments>,
    /// Logarithm of the probability of the counts, but for what does not depend on what was expected.
    pub evidence: f64,
}

impl Together {
    /// The factor of whoever is asked for.
    pub(super) fn of(&self, whose: Whose) -> Moments {
        match whose {
            Whose::Anybody => self.next,
            Whose::Rider(at) => self.riders[at],
        }
    }
}

/// The shape of each half of what is not known about a rate worth so many events.
#[must_use]
pub fn half(worth: f64) -> f64 {
    ((1.0 + worth.recip()).sqrt() - 1.0).recip()
}

/// What riders on like bikes teach about a rate that is worth so many events.
#[must_use]
pub fn together(worth: f64, told: &[Told]) -> Together {
    let shape = half(worth);
    // Where nothing was expected nothing is told.
    let told: Vec<Told> =
        told.iter().map(|own| if own.expected > 0.0 { *own } else { Told { seen: 0.0, expected: 0.0 } }).collect();
    let density = |log: f64| {
        let factor = log.exp();
        let counts: f64 = told.iter().map(|own| log_count(own.seen, factor * own.expected, shape)).sum();
        shape * (log - factor) + counts
    };
    let (factors, logs) = grid(&density);
    let all = log_sum(&logs);
    let weights: Vec<f64> = logs.iter().map(|log| (log - all).exp()).collect();
    let mean =
        |of: &dyn Fn(f64) -> f64| -> f64 { factors.iter().zip(&weights).map(|(at, weight)| of(*at) * weight).sum() };
    let rider = |own: &Told| {
        let mine = |theta: f64| theta * (shape + own.seen) / (shape + theta * own.expected);
        let square = |theta: f64| mine(theta).powi(2) * (shape + own.seen + 1.0) / (shape + own.seen);
        Moments::of(mean(&mine), mean(&square))
    };
    let next = Moments::of(mean(&|theta| theta), mean(&|theta| theta * theta * (1.0 + shape.recip())));
    let step = (factors[1] / factors[0]).ln();
    Together { next, riders: told.iter().map(rider).collect(), evidence: all + step.ln() }
}

/// Points that the density is spread over, and its logarithm there.
fn grid(density: &dyn Fn(f64) -> f64) -> (Vec<f64>, Vec<f64>) {
    let (mut low, mut high) = (-WIDEST, WIDEST);
    for _ in 0..STEPS {
        let third = (high - low) / 3.0;
        if density(low + third) < density(high - third) {
            low += third;
        } else {
            high -= third;
        }
    }
    let top = f64::midpoint(low, high);
    let best = density(top);
    // How far it is to either side to where the density has fallen as a normal one has after one deviation.
    let fall = |side: f64| {
        let (mut near, mut far) = (0.0, WIDEST);
        for _ in 0..STEPS {
            let middle = f64::midpoint(near, far);
            if best - density(top + side * middle) < 0.5 { near = middle } else { far = middle }
        }
        far
    };
    let widths = [fall(-1.0), fall(1.0)];
    let logs: Vec<f64> = (-POINTS..=POINTS)
        .map(|at| top + DEVIATIONS * widths[0].max(widths[1]) * f64::from(at) / f64::from(POINTS))
        .collect();
    let values = logs.iter().map(|log| density(*log)).collect();
    (logs.into_iter().map(f64::exp).collect(), values)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One rider: the moments by brute force over both factors.
    #[test]
    fn one_rider_by_brute_force() {
        let (worth, own) = (0.7, Told { seen: 3.0, expected: 1.4 });
        let shape = half(worth);
        assert!(((1.0 + 1.0 / shape).powi(2) - (1.0 + 1.0 / worth)).abs() < 1e-12);
        let axis: Vec<f64> = (0..900).map(|at| (-14.0 + f64::from(at) * 0.02_f64).exp()).collect();
        let prior = |value: f64| shape * (value.ln() - value);
        let (mut all, mut first, mut second, mut next) = (0.0, 0.0, 0.0, 0.0);
        for theta in &axis {
            for u in &axis {
                let rate = theta * u * own.expected;
                let weight = (prior(*theta) + prior(*u) + own.seen * rate.ln() - rate).exp();
                all += weight;
                first += weight * theta * u;
                second += weight * (theta * u).powi(2);
                next += weight * theta;
            }
        }
        let mean = first / all;
        let found = together(worth, &[own]);
        assert!((found.riders[0].mean / mean - 1.0).abs() < 1e-4, "{found:?} against {mean}");
        let brute = mean * mean / (second / all - mean * mean);
        assert!((found.riders[0].shape / brute - 1.0).abs() < 1e-3, "{found:?} against {brute}");
        assert!((found.next.mean / (next / all) - 1.0).abs() < 1e-4, "{found:?}");
    }

    /// Ten riders of whom one has seen much: that one's rate is above the others', and all know more than one does alone.
    #[test]
    fn riders_differ_and_share() {
        let quiet = Told { seen: 0.0, expected: 1.0 };
        let mut told = vec![quiet; 9];
        told.push(Told { seen: 6.0, expected: 1.0 });
        let found = together(0.5, &told);
        assert!(found.riders[9].mean > 4.0 * found.riders[0].mean, "{found:?}");
        let alone = together(0.5, &[quiet]);
        assert!(found.next.shape > alone.next.shape, "{} against {}", found.next.shape, alone.next.shape);
        // A quiet rider among noisy ones is thought to be more at risk than a quiet one among the quiet.
        let noisy = together(0.5, &[&[quiet][..], &[Told { seen: 3.0, expected: 1.0 }; 9]].concat());
        assert!(noisy.riders[0].mean > found.riders[0].mean);
    }

    /// With much seen the catalogue's rate no longer matters.
    #[test]
    fn much_riding_decides() {
        let found = together(0.3, &[Told { seen: 400.0, expected: 100.0 }]);
        assert!((found.riders[0].mean - 4.0).abs() < 0.05, "{found:?}");
        assert!((found.riders[0].shape / 400.0 - 1.0).abs() < 0.02, "{found:?}");
    }
}
