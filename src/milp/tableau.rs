//! Sums of rows that single out one fractional column: the rows of the simplex tableau at an optimum of the relaxation.
//!
//! The engine does not show its basis, but the point does: columns strictly between their bounds are basic, rows without
//! slack are not. Solving a small dense system gives the multipliers of the rows that add up to
//! `x + sum over columns at a bound + sum of multiplier x slack = value`, from which rounding makes a deep cut (Gomory's
//! mixed-integer cut, Marchand & Wolsey's form).

use crate::mir_cuts::{Inequality, Source};
use crate::rows::{Model, Row};
use std::collections::BTreeMap;

/// Distance from both its bounds at which a column counts as basic.
const BETWEEN: f64 = 1e-7;
/// A pivot smaller than this makes the sum of rows untrustworthy.
const LEAST_PIVOT: f64 = 1e-6;
/// Multipliers beyond this blow rounding noise up into wrong cuts.
const LARGEST_MULTIPLIER: f64 = 1e4;

/// Cuts from every fractional whole column.
pub(super) fn cuts(model: &Model, point: &[f64]) -> Vec<Row> {
    let Some(system) = System::new(model, point) else { return Vec::new() };
    let fractional = system.basic.iter().enumerate().filter(|(_, column)| {
        let value = point[**column];
        model.columns[**column].integer && (value - value.round()).abs() > 1e-5
    });
    fractional
        .flat_map(|(at, _)| [1.0, -1.0].map(|direction| (at, direction)))
        .filter_map(|(at, direction)| system.inequality(model, point, at, direction)?.round(model, point))
        .collect()
}

/// Basic columns, tight rows, and for each basic column the multipliers of the rows.
struct System {
    basic: Vec<usize>,
    tight: Vec<usize>,
    /// `multipliers[b][r]`: weight of tight row `r` in the sum that singles out basic column `b`.
    multipliers: Vec<Vec<f64>>,
}

impl System {
    /// `None` if the point is not a vertex, or too nearly not one.
    fn new(model: &Model, point: &[f64]) -> Option<Self> {
        let between = |(at, value): (usize, &f64)| {
            let own = &model.columns[at];
            (*value > own.lower + BETWEEN && *value < own.upper - BETWEEN).then_some(at)
        };
        let basic: Vec<usize> = point.iter().enumerate().filter_map(between).collect();
        let tight: Vec<usize> = (0..model.rows.len()).filter(|at| is_tight(&model.rows[*at], point)).collect();
        if basic.len() > tight.len() {
            return None;
        }
        let mut place = vec![usize::MAX; model.columns.len()];
        basic.iter().enumerate().for_each(|(at, column)| place[*column] = at);
        // One line for each basic column: its coefficients in the tight rows, then the unit matrix.
        let (lines, rows) = (basic.len(), tight.len());
        let mut matrix = vec![vec![0.0; rows + lines]; lines];
        for (r, at) in tight.iter().enumerate() {
            let row = &model.rows[*at];
            for (column, a) in &row.terms {
                if place[*column] != usize::MAX {
                    matrix[place[*column]][r] = row.sign() * a;
                }
            }
        }
        (0..lines).for_each(|at| matrix[at][rows + at] = 1.0);
        let pivots = eliminate(&mut matrix, rows)?;
        let multipliers = (0..lines)
            .map(|basic| {
                let mut weights = vec![0.0; rows];
                for (line, pivot) in pivots.iter().enumerate() {
                    weights[*pivot] = matrix[line][rows + basic];
                }
                weights
            })
            .collect();
        Some(Self { basic, tight, multipliers })
    }

    /// The sum of rows that singles out a basic column, or its negative, as an inequality over columns and slacks.
    fn inequality(&self, model: &Model, point: &[f64], basic: usize, direction: f64) -> Option<Inequality> {
        let mut columns: BTreeMap<usize, f64> = BTreeMap::new();
        let mut slacks = Vec::new();
        let mut bound = 0.0;
        for (at, weight) in self.tight.iter().zip(&self.multipliers[basic]) {
            if weight.abs() < 1e-11 {
                continue;
            }
            if weight.abs() > LARGEST_MULTIPLIER {
                return None;
            }
            let row = &model.rows[*at];
            let weight = direction * weight;
            row.terms.iter().for_each(|(c, a)| *columns.entry(*c).or_insert(0.0) += weight * row.sign() * a);
            slacks.push((Source::Slack(*at), weight));
            bound += weight * row.sign() * row.bound;
        }
        let columns = columns.into_iter().map(|(column, a)| (Source::Column(column), a));
        Inequality::new(model, columns.chain(slacks), bound, point)
    }
}

fn is_tight(row: &Row, point: &[f64]) -> bool {
    let scale = row.terms.iter().map(|(_, a)| a.abs()).fold(1.0, f64::max);
    (row.sum(point) - row.bound).abs() <= 1e-8 * scale
}

/// Gauss-Jordan with the largest pivot of each line; gives the pivot of each line, or `None` if a line has none left.
fn eliminate(matrix: &mut [Vec<f64>], rows: usize) -> Option<Vec<usize>> {
    let mut pivots = Vec::with_capacity(matrix.len());
    let mut taken = vec![false; rows];
    for line in 0..matrix.len() {
        let open = (0..rows).filter(|r| !taken[*r]);
        let pivot = open.max_by(|a, b| matrix[line][*a].abs().total_cmp(&matrix[line][*b].abs()).then(b.cmp(a)))?;
        let size = matrix[line][pivot];
        if size.abs() < LEAST_PIVOT {
            return None;
        }
        taken[pivot] = true;
        matrix[line].iter_mut().for_each(|entry| *entry /= size);
        let own = std::mem::take(&mut matrix[line]);
        let filled: Vec<usize> = (0..own.len()).filter(|at| own[*at] != 0.0).collect();
        for other in matrix.iter_mut().filter(|other| !other.is_empty()) {
            let factor = other[pivot];
            if factor != 0.0 {
                filled.iter().for_each(|at| other[*at] -= factor * own[*at]);
            }
        }
        matrix[line] = own;
        pivots.push(pivot);
    }
    Some(pivots)
}
