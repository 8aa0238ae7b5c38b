//! How far logs differ from each other beyond chance.

use super::cell::Cell;
use super::grid;

/// Smallest shape that is tried, as a logarithm.
const FROM: f64 = -2.0;
/// Step of that logarithm.
const STEP: f64 = 0.25;
/// How many shapes are tried.
const POINTS: u32 = 21;
/// How far groups differ in the logarithm of their shape (one standard deviation; from memory, as of factor two).
const APART: f64 = 0.7;

/// The shape of the factor by which logs differ, for each group.
///
/// The marginal likelihood of a shape is the negative binomial likelihood of a group's logs, integrated over the group's
/// factor with a flat prior of its logarithm. The logarithms of the groups' shapes are normal around a common centre
/// with a standard deviation of 0.7; the centre, between about 1/7 and 20, is estimated from all groups, then each group's own.
/// This is the usual empirical Bayes step (Gelman et al., Bayesian Data Analysis, 3rd ed., chapter 5), by quadrature.
#[must_use]
pub fn shapes(groups: &[&[Cell]]) -> Vec<f64> {
    let logarithms: Vec<f64> = (0..POINTS).map(|at| FROM + STEP * f64::from(at)).collect();
    let factors = grid::values();
    let own: Vec<Vec<f64>> = groups.iter().map(|cells| likelihoods(cells, &logarithms, &factors)).collect();
    let around = |group: &Vec<f64>, centre: f64| -> Vec<f64> {
        let prior = logarithms.iter().map(|at| -0.5 * ((at - centre) / APART).powi(2)).collect::<Vec<f64>>();
        let all = grid::log_sum(&prior);
        group.iter().zip(prior).map(|(own, prior)| own + prior - all).collect()
    };
    let marginal = |centre: &f64| own.iter().map(|group| grid::log_sum(&around(group, *centre))).sum::<f64>();
    let centre = mean(&logarithms, &logarithms.iter().map(marginal).collect::<Vec<f64>>());
    own.iter().map(|group| mean(&logarithms, &around(group, centre)).exp()).collect()
}

/// Mean of the logarithm of the shape by log-likelihoods.
fn mean(logarithms: &[f64], likelihoods: &[f64]) -> f64 {
    logarithms.iter().zip(grid::weights(likelihoods)).map(|(own, weight)| own * weight).sum()
}

/// Logarithm of the marginal likelihood of each shape.
fn likelihoods(cells: &[Cell], logarithms: &[f64], factors: &[f64]) -> Vec<f64> {
    let logs: Vec<&Cell> = cells.iter().filter(|cell| cell.shape.is_none()).collect();
    // A group that never came says nothing about scatter, and its integral does not end.
    if logs.iter().all(|cell| cell.seen <= 0.0) {
        return vec![0.0; logarithms.len()];
    }
    let at = |shape: f64| -> f64 {
        let of = |factor: &f64| logs.iter().map(|cell| cell.log_likelihood(*factor, shape)).sum::<f64>();
        grid::log_sum(&factors.iter().map(of).collect::<Vec<f64>>())
    };
    logarithms.iter().map(|logarithm| at(logarithm.exp())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(counts: &[f64]) -> Vec<Cell> {
        let cell = |seen: &f64| Cell { source: String::new(), seen: *seen, expected: 10.0, shape: None, life: false };
        counts.iter().map(cell).collect()
    }

    /// Logs that agree as well as chance lets them have a large shape, wild ones a small one; beside each other they lean
    /// towards each other.
    #[test]
    fn wild_logs_have_a_small_shape() {
        let calm = cells(&[9.0, 11.0, 12.0, 8.0, 10.0, 10.0, 13.0, 7.0]);
        let wild = cells(&[0.0, 90.0, 1.0, 0.0, 30.0, 2.0, 0.0, 4.0]);
        let (alone, other) = (shapes(&[&calm])[0], shapes(&[&wild])[0]);
        assert!(alone > 3.0 && other < 0.7, "{alone} {other}");
        let both = shapes(&[&calm, &wild]);
        assert!(both[0] < alone && both[1] < both[0], "{both:?}");
    }
}
