//! A smaller model with the same best points: bounds propagated through the rows, columns that always sit on a row
//! written out, fixed columns and idle rows removed.

use crate::aggregate::{WrittenOut, write_out};
use crate::rows::{Model, Row, Sense};

/// Passes over the rows; bounds that creep further are left to the solver.
const MOST_PASSES: usize = 6;
/// A continuous bound is moved only by this much or more, so that rounding noise never accumulates.
const LEAST_MOVE: f64 = 1e-3;
/// Rounding where bounds and rows are compared.
const NOISE: f64 = 1e-9;

/// A reduced model and the way back.
#[derive(Debug, Clone)]
pub(super) struct Reduced {
    /// What is left to decide.
    pub model: Model,
    /// For each column left, its number in the original.
    kept: Vec<usize>,
    /// A value for every original column; those left are overwritten on the way back.
    fixed: Vec<f64>,
    /// Columns written out, in that order.
    written: Vec<WrittenOut>,
}

impl Reduced {
    /// A point of the original as a point of the reduced model.
    pub fn reduce(&self, values: &[f64]) -> Vec<f64> {
        self.kept.iter().map(|column| values[*column]).collect()
    }

    /// A row of the reduced model as a row of the original, which holds for the same points.
    pub fn lift(&self, row: &mut Row) {
        row.terms.iter_mut().for_each(|(column, _)| *column = self.kept[*column]);
    }

    /// A point of the reduced model as a point of the original.
    pub fn restore(&self, values: &[f64]) -> Vec<f64> {
        let mut all = self.fixed.clone();
        for (column, value) in self.kept.iter().zip(values) {
            all[*column] = *value;
        }
        self.written.iter().rev().for_each(|written| written.restore(&mut all));
        all
    }
}

/// Reduces a model; `None` when propagation alone shows that no point satisfies all rows.
pub(super) fn reduced(model: &Model) -> Option<Reduced> {
    let mut tight = model.clone();
    for _ in 0..MOST_PASSES {
        if !propagate(&mut tight)? {
            break;
        }
    }
    let written = write_out(&mut tight);
    let fixed_at = |column: usize| {
        let own = &tight.columns[column];
        (own.upper - own.lower <= NOISE).then_some(own.lower)
    };
    let kept: Vec<usize> = (0..tight.columns.len()).filter(|at| fixed_at(*at).is_none()).collect();
    let mut number = vec![usize::MAX; tight.columns.len()];
    kept.iter().enumerate().for_each(|(new, old)| number[*old] = new);
    let fixed = tight.columns.iter().map(|column| column.lower).collect();
    let mut small = Model { columns: kept.iter().map(|at| tight.columns[*at].clone()).collect(), rows: Vec::new() };
    for row in &tight.rows {
        let settled: f64 = row.terms.iter().filter_map(|(column, a)| Some(a * fixed_at(*column)?)).sum();
        let terms: Vec<(usize, f64)> =
            row.terms.iter().filter(|(c, _)| fixed_at(*c).is_none()).map(|(c, a)| (number[*c], *a)).collect();
        let row = Row { terms, bound: row.bound - settled, ..row.clone() };
        if !idle(&small, &row) {
            small.rows.push(row);
        }
    }
    Some(Reduced { model: small, kept, fixed, written })
}

/// The least and greatest value that the terms of a row can add up to.
fn range(model: &Model, row: &Row) -> (f64, f64) {
    row.terms.iter().fold((0.0, 0.0), |(least, most), (column, a)| {
        let own = &model.columns[*column];
        let (x, y) = (a * own.lower, a * own.upper);
        (least + x.min(y), most + x.max(y))
    })
}

/// Does the row hold whatever the columns do?
fn idle(model: &Model, row: &Row) -> bool {
    let (least, most) = range(model, row);
    match row.sense {
        Sense::AtMost => most <= row.bound,
        Sense::AtLeast => least >= row.bound,
    }
}

/// One pass over all rows; says whether a bound moved, or `None` when a row cannot hold.
fn propagate(model: &mut Model) -> Option<bool> {
    let mut moved = false;
    for at in 0..model.rows.len() {
        let row = &model.rows[at];
        let sign = row.sign();
        let (low, high) = range(model, row);
        let least = if sign > 0.0 { low } else { -high };
        let bound = sign * row.bound;
        let scale = row.terms.iter().map(|(_, a)| a.abs()).fold(bound.abs().max(1.0), f64::max);
        if least > bound + 1e-7 * scale {
            return None;
        }
        if !least.is_finite() || if sign > 0.0 { high } else { -low } <= bound {
            continue;
        }
        let terms = row.terms.clone();
        for (column, a) in terms {
            moved |= squeeze(model, column, sign * a, bound - least);
        }
    }
    Some(moved)
}

/// A term may use up no more than the room that the least values of all terms leave.
fn squeeze(model: &mut Model, column: usize, a: f64, room: f64) -> bool {
    let own = &mut model.columns[column];
    let reach = room.max(0.0) / a.abs();
    if own.integer {
        let reach = (reach + 1e-6).floor();
        if reach >= own.upper - own.lower {
            return false;
        }
        if a > 0.0 {
            own.upper = own.lower + reach;
        } else {
            own.lower = own.upper - reach;
        }
        return true;
    }
    if reach > own.upper - own.lower - LEAST_MOVE {
        return false;
    }
    if a > 0.0 {
        own.upper = (own.lower + reach + NOISE).min(own.upper);
    } else {
        own.lower = (own.upper - reach - NOISE).max(own.lower);
    }
    // A continuous column squeezed to nothing is fixed for good.
    if own.upper - own.lower < 10.0 * NOISE {
        if a > 0.0 {
            own.upper = own.lower;
        } else {
            own.lower = own.upper;
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tool_too_heavy_to_take_takes_its_repairs_along() {
        let mut model = Model::default();
        let heavy = model.column("heavy".to_owned(), (0.0, 1.0), true, 0.0);
        let light = model.column("light".to_owned(), (0.0, 1.0), true, 1.0);
        let share = model.column("share".to_owned(), (0.0, 1.0), false, 5.0);
        model.row("cap", "mass".to_owned(), vec![(heavy, 9.0), (light, 2.0)], Sense::AtMost, 4.0);
        model.row("with", "heavy".to_owned(), vec![(share, 1.0), (heavy, -1.0)], Sense::AtMost, 0.0);
        let reduced = reduced(&model).unwrap();
        assert_eq!(reduced.model.columns.len(), 1, "only the light one is left to decide");
        assert!(reduced.model.rows.is_empty());
        assert_eq!(reduced.restore(&[1.0]), [0.0, 1.0, 0.0]);
    }

    #[test]
    fn a_row_that_cannot_hold_is_seen() {
        let mut model = Model::default();
        let x = model.column("x".to_owned(), (0.0, 1.0), true, 0.0);
        model.row("need", "x".to_owned(), vec![(x, 1.0)], Sense::AtLeast, 2.0);
        assert!(reduced(&model).is_none());
    }
}
