//! What it is worth to know a number before choosing: the expected value of partial perfect information.
//!
//! With kits `d`, hours lost `L[d]` that hang on all numbers, and one number (or a sum of several) `x`:
//!
//! ```text
//! gain(x) = min over d of E[L[d]]  -  E over x of ( min over d of E[L[d] | x] )
//! ```
//!
//! The inner mean is a regression of the hours lost on `x`, over draws of all numbers at once (Strong, Oakley & Brennan 2014,
//! Estimating multiparameter partial expected value of perfect information from a probabilistic sensitivity analysis sample,
//! Medical Decision Making 34, 311-326). Theirs is a spline; here it is linear in `x` and cubic in its normal score, which
//! suits hours that are nearly linear in a rate or a time.
//!
//! A fit flatters itself: where hundreds of numbers are tried, the luckiest fits come first. So no draw judges a fit that it
//! took part in. The draws are dealt into [`PARTS`] parts; for each part the kits are chosen by what the others say, with
//! and without `x`, and the gain is what the choices lose on the draws of this part (as in cross-fitting: Chernozhukov et
//! al. 2018, Econometrics Journal 21, C1-C68). It is what somebody who knew `x` and chose by the fit would gain, no more than
//! the gain of choosing perfectly, and unbiased. Its standard error is that of a mean over draws. Kits that were not tried
//! can only raise it: the true gain is at least what is estimated, but for chance.

use statrs::distribution::{ContinuousCDF, Normal};

/// Parts that the draws are dealt into.
pub const PARTS: usize = 5;
/// Functions of a value that hours are fitted by.
const TERMS: usize = 5;
/// What is added to the diagonal, relative to it, so that values which hardly vary can be fitted too.
const RIDGE: f64 = 1e-9;

/// What knowing something is worth, in hours of the trip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Gain {
    /// The estimate; by chance it can be below nothing.
    pub hours: f64,
    /// Its standard error.
    pub error: f64,
}

impl Gain {
    /// So many standard errors above nothing?
    #[must_use]
    pub fn is_sure(&self, errors: f64) -> bool {
        self.hours > 0.0 && self.hours > errors * self.error
    }

    #[allow(clippy::cast_precision_loss, reason = "a count of draws")]
    fn of(gains: &[f64]) -> Self {
        let n = gains.len() as f64;
        if gains.len() < 2 {
            return Self::default();
        }
        let mean = gains.iter().sum::<f64>() / n;
        let squares: f64 = gains.iter().map(|gain| (gain - mean) * (gain - mean)).sum();
        Self { hours: mean, error: (squares / (n - 1.0) / n).sqrt() }
    }
}

/// Hours lost by kit and draw, with the sums that all questions share.
#[derive(Debug, Clone)]
pub struct Losses {
    /// By draw: hours lost with each kit, less those with the first.
    draws: Vec<Vec<f64>>,
    kits: usize,
    /// For each part, the kit that is best on the draws of the others.
    best: [usize; PARTS],
}

impl Losses {
    /// From the hours lost under each draw with each kit.
    #[must_use]
    pub fn new(by_draw: Vec<Vec<f64>>) -> Self {
        let kits = by_draw.first().map_or(0, Vec::len);
        let differences = |losses: Vec<f64>| {
            let first = losses.first().copied().unwrap_or(0.0);
            losses.into_iter().map(|loss| loss - first).collect::<Vec<f64>>()
        };
        let draws: Vec<Vec<f64>> = by_draw.into_iter().map(differences).collect();
        let best = std::array::from_fn(|part| {
            let mut sums = vec![0.0; kits];
            others(&draws, part).for_each(|(_, draw)| sums.iter_mut().zip(draw).for_each(|(sum, loss)| *sum += loss));
            least(&sums)
        });
        Self { draws, kits, best }
    }

    /// What it is worth to know everything: for each draw, what the kit chosen without knowledge loses more than the best
    /// of all. The choice is made on other draws, so only the luck of the best kit is in it, which is what is asked.
    #[must_use]
    pub fn perfect(&self) -> Gain {
        let gains = self.draws.iter().enumerate().map(|(at, draw)| draw[self.best[at % PARTS]] - draw[least(draw)]);
        Gain::of(&gains.collect::<Vec<f64>>())
    }

    /// What it is worth to know something that had this value in each draw.
    #[must_use]
    pub fn partial(&self, values: &[f64]) -> Gain {
        if self.kits < 2 || self.draws.len() < 2 * PARTS * TERMS || values.len() != self.draws.len() {
            return Gain::default();
        }
        let terms = terms(values);
        let mut gains = vec![0.0; self.draws.len()];
        for part in 0..PARTS {
            let fit = Fit::new(&terms, others(&self.draws, part), self.kits);
            for at in (part..self.draws.len()).step_by(PARTS) {
                let chosen = least(&fit.at(&terms[at]));
                gains[at] = self.draws[at][self.best[part]] - self.draws[at][chosen];
            }
        }
        Gain::of(&gains)
    }
}

/// Draws that are not in a part, with their numbers.
fn others(draws: &[Vec<f64>], part: usize) -> impl Iterator<Item = (usize, &Vec<f64>)> {
    draws.iter().enumerate().filter(move |(at, _)| at % PARTS != part)
}

/// The first of the least.
fn least(values: &[f64]) -> usize {
    (0..values.len()).min_by(|a, b| values[*a].total_cmp(&values[*b])).unwrap_or(0)
}

/// The functions of each value: one, its normal score to the third power, and itself.
#[allow(clippy::cast_precision_loss, reason = "a count of draws")]
fn terms(values: &[f64]) -> Vec<[f64; TERMS]> {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let deviation = (values.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>() / n).sqrt();
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]).then(a.cmp(b)));
    let normal = Normal::standard();
    let mut terms = vec![[0.0; TERMS]; values.len()];
    let mut before = 0;
    // Equal values share the score in the middle of their ranks.
    for equal in order.chunk_by(|a, b| values[*a].total_cmp(&values[*b]).is_eq()) {
        let score = normal.inverse_cdf((before as f64 + equal.len() as f64 / 2.0) / n);
        before += equal.len();
        for at in equal {
            let own = if deviation > 0.0 { (values[*at] - mean) / deviation } else { 0.0 };
            terms[*at] = [1.0, score, score * score, score * score * score, own];
        }
    }
    terms
}

/// Least squares for the differences of every kit from the first.
struct Fit {
    coefficients: Vec<[f64; TERMS]>,
}

impl Fit {
    fn new<'a>(terms: &[[f64; TERMS]], draws: impl Iterator<Item = (usize, &'a Vec<f64>)>, kits: usize) -> Self {
        let mut square = [[0.0; TERMS]; TERMS];
        let mut sums = vec![[0.0; TERMS]; kits];
        for (at, draw) in draws {
            for (row, own) in square.iter_mut().zip(&terms[at]) {
                row.iter_mut().zip(&terms[at]).for_each(|(cell, other)| *cell += own * other);
            }
            for (sum, loss) in sums.iter_mut().zip(draw) {
                sum.iter_mut().zip(&terms[at]).for_each(|(cell, term)| *cell += term * loss);
            }
        }
        (0..TERMS).for_each(|at| square[at][at] *= 1.0 + RIDGE);
        let root = root(&square);
        Self { coefficients: sums.iter().map(|sum| solve(&root, sum)).collect() }
    }

    /// Fitted differences at these terms.
    fn at(&self, terms: &[f64; TERMS]) -> Vec<f64> {
        self.coefficients.iter().map(|own| own.iter().zip(terms).map(|(a, b)| a * b).sum()).collect()
    }
}

/// The lower triangle whose product with its transpose is the matrix (Cholesky). A direction without length is left out.
fn root(square: &[[f64; TERMS]; TERMS]) -> [[f64; TERMS]; TERMS] {
    let mut root = [[0.0; TERMS]; TERMS];
    for row in 0..TERMS {
        for column in 0..=row {
            let known: f64 = (0..column).map(|at| root[row][at] * root[column][at]).sum();
            let left = square[row][column] - known;
            root[row][column] = if row == column {
                if left > RIDGE * square[row][row] / 10.0 { left.sqrt() } else { 0.0 }
            } else if root[column][column] > 0.0 {
                left / root[column][column]
            } else {
                0.0
            };
        }
    }
    root
}

fn solve(root: &[[f64; TERMS]; TERMS], right: &[f64; TERMS]) -> [f64; TERMS] {
    let mut half = [0.0; TERMS];
    for row in 0..TERMS {
        let known: f64 = (0..row).map(|at| root[row][at] * half[at]).sum();
        half[row] = if root[row][row] > 0.0 { (right[row] - known) / root[row][row] } else { 0.0 };
    }
    let mut found = [0.0; TERMS];
    for row in (0..TERMS).rev() {
        let known: f64 = (row + 1..TERMS).map(|at| root[at][row] * found[at]).sum();
        found[row] = if root[row][row] > 0.0 { (half[row] - known) / root[row][row] } else { 0.0 };
    }
    found
}

#[cfg(test)]
mod tests;
