//! Mixed-integer rounding of one inequality (Marchand & Wolsey, Operations Research 49, 2001, 363-371).
//!
//! Complement the variables that sit nearer their upper bound, divide by some coefficient, round. With `f0` the fraction
//! of the right-hand side and `fj` those of the coefficients, `sum of (floor(aj) + max(0, fj - f0) / (1 - f0)) xj` over
//! whole `x >= 0` plus `sum of min(0, as) / (1 - f0) s` over continuous `s >= 0` is at most `floor(b)` at every whole
//! point: no kit is cut off, only the linear relaxation loses what it gained by halving things.

use crate::rows::{Model, Row, Sense};
use std::collections::BTreeMap;

/// Family of the rows made here.
pub(super) const FAMILY: &str = "rounding";
/// A cut must be broken by this much (after scaling its largest coefficient to one) to be worth a row.
const LEAST_VIOLATION: f64 = 1e-3;
/// Fractions of the right-hand side nearer than this to zero or one make numerically poor cuts.
const FRACTION_MARGIN: f64 = 0.01;
/// A cut whose coefficients span more than this is numerically poor as well.
const WIDEST_SPAN: f64 = 1e6;
/// Every cut is loosened by this, relative to its largest coefficient.
const LOOSENED: f64 = 1e-7;
/// Coefficients below this are noise of adding rows up.
const NOISE: f64 = 1e-11;

/// What a term of an inequality stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Source {
    /// A column of the model.
    Column(usize),
    /// What a row (as `AtMost`) leaves of its right-hand side.
    Slack(usize),
}

/// A term after shifting to `0 <= x <= width`.
#[derive(Debug, Clone, Copy)]
struct Term {
    source: Source,
    coefficient: f64,
    value: f64,
    width: f64,
    integer: bool,
    flipped: bool,
}

/// `sum of terms <= bound`, ready for rounding.
#[derive(Debug, Clone)]
pub(super) struct Inequality {
    terms: Vec<Term>,
    bound: f64,
}

impl Inequality {
    /// A row of the model at a point; `None` when a column has no lower bound.
    pub fn of_row(model: &Model, row: &Row, point: &[f64]) -> Option<Self> {
        let sign = row.sign();
        let terms = row.terms.iter().map(|(column, a)| (Source::Column(*column), sign * a));
        Self::new(model, terms, sign * row.bound, point)
    }

    /// Any inequality over columns and slacks that holds for the model, at a point where the slacks named are zero.
    pub fn new(
        model: &Model,
        terms: impl Iterator<Item = (Source, f64)>,
        mut bound: f64,
        point: &[f64],
    ) -> Option<Self> {
        let mut shifted = Vec::new();
        for (source, coefficient) in terms {
            let term = match source {
                Source::Slack(_) => {
                    Term { source, coefficient, value: 0.0, width: f64::INFINITY, integer: false, flipped: false }
                }
                Source::Column(column) => {
                    let own = &model.columns[column];
                    if !own.lower.is_finite() {
                        return None;
                    }
                    bound -= coefficient * own.lower;
                    let (value, width) = (point[column] - own.lower, own.upper - own.lower);
                    Term { source, coefficient, value, width, integer: own.integer, flipped: false }
                }
            };
            if coefficient.abs() >= NOISE {
                shifted.push(term);
            } else if coefficient < 0.0 {
                // Leaving out a negative term is allowed once its largest size is granted to the bound.
                if !term.width.is_finite() {
                    return None;
                }
                bound -= coefficient * term.width;
            }
        }
        Some(Self { terms: shifted, bound })
    }

    /// The deepest rounding found, as a row of the model; `None` if none is worth adding.
    pub fn round(mut self, model: &Model, point: &[f64]) -> Option<Row> {
        if !self.terms.iter().any(|term| term.integer && fractional(term)) {
            return None;
        }
        for at in 0..self.terms.len() {
            let term = &self.terms[at];
            if term.width.is_finite() && term.value > term.width / 2.0 {
                self.flip(at);
            }
        }
        let open = self.terms.iter().filter(|term| term.integer && fractional(term));
        let mut divisors: Vec<f64> = open.map(|term| term.coefficient.abs()).collect();
        divisors.sort_by(f64::total_cmp);
        divisors.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
        let mut best = self.deepest(&divisors)?;
        for share in [2.0, 4.0, 8.0] {
            if let Some(finer) = self.deepest(&[best.1 / share]).filter(|finer| finer.0 > best.0) {
                best = finer;
            }
        }
        self.try_flips(&mut best);
        self.row(model, best.1, point)
    }

    /// Replaces `x` by `width - x`.
    fn flip(&mut self, at: usize) {
        let term = &mut self.terms[at];
        self.bound -= term.coefficient * term.width;
        term.coefficient = -term.coefficient;
        term.value = term.width - term.value;
        term.flipped = !term.flipped;
    }

    /// Violation and divisor of the deepest rounding among these divisors.
    fn deepest(&self, divisors: &[f64]) -> Option<(f64, f64)> {
        let depths = divisors.iter().filter(|d| **d > 1e-9).filter_map(|d| Some((self.violation(*d)?, *d)));
        depths.filter(|(violation, _)| *violation > LEAST_VIOLATION).reduce(|a, b| if b.0 > a.0 { b } else { a })
    }

    /// Complements further variables where that makes the cut deeper, those nearest the middle first.
    fn try_flips(&mut self, best: &mut (f64, f64)) {
        let open = |t: &Term| t.integer && t.width.is_finite() && fractional(t);
        let mut order: Vec<usize> = (0..self.terms.len()).filter(|at| open(&self.terms[*at])).collect();
        let off = |t: &Term| (t.value - t.width / 2.0).abs();
        order.sort_by(|a, b| off(&self.terms[*a]).total_cmp(&off(&self.terms[*b])).then(a.cmp(b)));
        for at in order {
            self.flip(at);
            match self.violation(best.1) {
                Some(violation) if violation > best.0 => best.0 = violation,
                _ => self.flip(at),
            }
        }
    }

    /// Coefficients and right-hand side after rounding with this divisor.
    fn rounded(&self, divisor: f64) -> Option<(Vec<f64>, f64)> {
        let scaled = self.bound / divisor;
        let f0 = scaled - scaled.floor();
        if !(FRACTION_MARGIN..=1.0 - FRACTION_MARGIN).contains(&f0) {
            return None;
        }
        let coefficient = |term: &Term| {
            let a = term.coefficient / divisor;
            if !term.integer {
                return a.min(0.0) / (1.0 - f0);
            }
            // Just below a whole number is that number: rounding down there would cut a whole point off by noise.
            let integer = (a + 1e-9).floor();
            integer + ((a - integer).max(0.0) - f0).max(0.0) / (1.0 - f0)
        };
        Some((self.terms.iter().map(coefficient).collect(), scaled.floor()))
    }

    /// How far the point breaks the rounding, relative to its largest coefficient.
    fn violation(&self, divisor: f64) -> Option<f64> {
        let (coefficients, bound) = self.rounded(divisor)?;
        let sum: f64 = self.terms.iter().zip(&coefficients).map(|(term, c)| c * term.value).sum();
        let scale = coefficients.iter().map(|c| c.abs()).fold(1e-9, f64::max);
        Some((sum - bound) / scale)
    }

    /// The rounding in the model's own columns.
    fn row(&self, model: &Model, divisor: f64, point: &[f64]) -> Option<Row> {
        let (coefficients, mut bound) = self.rounded(divisor)?;
        let mut own: BTreeMap<usize, f64> = BTreeMap::new();
        for (term, coefficient) in self.terms.iter().zip(coefficients) {
            let mut coefficient = coefficient;
            if term.flipped {
                bound -= coefficient * term.width;
                coefficient = -coefficient;
            }
            match term.source {
                Source::Column(column) => {
                    bound += coefficient * model.columns[column].lower;
                    *own.entry(column).or_insert(0.0) += coefficient;
                }
                // slack = bound of the row - its terms
                Source::Slack(at) => {
                    let row = &model.rows[at];
                    let sign = row.sign();
                    bound -= coefficient * sign * row.bound;
                    row.terms.iter().for_each(|(c, a)| *own.entry(*c).or_insert(0.0) -= coefficient * sign * a);
                }
            }
        }
        finished(model, own, bound, point)
    }
}

/// Scales a cut, drops noise, loosens it by a hair, and refuses it if that leaves nothing.
fn finished(model: &Model, own: BTreeMap<usize, f64>, mut bound: f64, point: &[f64]) -> Option<Row> {
    let scale = own.values().map(|c| c.abs()).fold(0.0, f64::max);
    if scale < 1e-9 {
        return None;
    }
    let mut terms = Vec::with_capacity(own.len());
    for (column, coefficient) in own {
        let coefficient = coefficient / scale;
        if coefficient.abs() * WIDEST_SPAN >= 1.0 {
            terms.push((column, coefficient));
        } else {
            // The left out term is granted to the bound at its least value.
            let own = &model.columns[column];
            bound -= scale * (coefficient * own.lower).min(coefficient * own.upper);
        }
    }
    let bound = bound / scale + LOOSENED;
    if !bound.is_finite() {
        return None;
    }
    let broken = terms.iter().map(|(column, c)| c * point[*column]).sum::<f64>() - bound;
    let key = String::new();
    (broken > LEAST_VIOLATION / 10.0).then_some(Row { family: FAMILY, key, terms, sense: Sense::AtMost, bound })
}

fn fractional(term: &Term) -> bool {
    term.value > 1e-6 && term.value < term.width - 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wolsey, Integer Programming, 1998, chapter 8: rounding of a single row; here `2 x + 2 y <= 3` over whole
    /// variables becomes `x + y <= 1` (recomputed by hand).
    #[test]
    fn halves_are_rounded_away() {
        let mut model = Model::default();
        let x = model.column("x".to_owned(), (0.0, 1.0), true, 1.0);
        let y = model.column("y".to_owned(), (0.0, 1.0), true, 1.0);
        model.row("cap", String::new(), vec![(x, 2.0), (y, 2.0)], Sense::AtMost, 3.0);
        let point = [1.0, 0.5];
        let cut = Inequality::of_row(&model, &model.rows[0], &point).unwrap().round(&model, &point).unwrap();
        assert_eq!(cut.terms.len(), 2);
        assert!(cut.terms.iter().all(|(_, c)| (c - 1.0).abs() < 1e-9));
        assert!((cut.bound - 1.0).abs() < 1e-6);
    }

    /// No whole point of a random knapsack with a continuous column is ever cut off.
    #[test]
    fn whole_points_survive() {
        for seed in 0..300 {
            let mut random = fastrand::Rng::with_seed(seed);
            let mut model = Model::default();
            let mut terms = Vec::new();
            for i in 0..5 {
                let upper = f64::from(random.u8(1..4));
                let column = model.column(format!("x{i}"), (0.0, upper), true, 1.0);
                terms.push((column, f64::from(random.i32(-9..20))));
            }
            let s = model.column("s".to_owned(), (0.0, 2.0), false, 1.0);
            terms.push((s, f64::from(random.i32(-5..5))));
            let bound = f64::from(random.i32(1..25));
            model.row("cap", String::new(), terms, Sense::AtMost, bound);
            let point: Vec<f64> = model.columns.iter().map(|c| c.upper * random.f64()).collect();
            let inequality = Inequality::of_row(&model, &model.rows[0], &point).unwrap();
            let Some(cut) = inequality.round(&model, &point) else { continue };
            model.rows.push(cut);
            whole_points(&model, &mut vec![], &mut |values| {
                let held = model.rows[..1].iter().all(|row| holds(row, values));
                assert!(!held || holds(&model.rows[1], values), "seed {seed}: {values:?} cut off");
            });
        }
    }

    fn holds(row: &Row, values: &[f64]) -> bool {
        row.sum(values) <= row.bound + 1e-9
    }

    fn whole_points(model: &Model, so_far: &mut Vec<f64>, see: &mut impl FnMut(&[f64])) {
        let Some(column) = model.columns.get(so_far.len()) else { return see(so_far) };
        let mut value = 0.0;
        while value <= column.upper {
            so_far.push(value);
            whole_points(model, so_far, see);
            so_far.pop();
            value += if column.integer { 1.0 } else { 0.5 };
        }
    }
}
