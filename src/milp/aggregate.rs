//! Columns that always sit on one row: replaced by what that row says.
//!
//! A continuous column that earns, or at least does not cost, and that only one row keeps from rising can be taken to
//! rise until that row is tight. If the row alone keeps it within its bounds, it equals the rest of the row and can be
//! written out of the model: a repair's share becomes the function it needs, a function the only tool that gives it.

use crate::rows::{Model, Row, Sense};

/// Rows longer than this are left alone: writing them into others would fill the model.
const LONGEST_ROW: usize = 3;

/// A column written out: its value is `constant + sum of coefficient x column`.
#[derive(Debug, Clone)]
pub(super) struct WrittenOut {
    column: usize,
    constant: f64,
    terms: Vec<(usize, f64)>,
}

impl WrittenOut {
    /// Puts the column's value back into a point.
    pub fn restore(&self, values: &mut [f64]) {
        values[self.column] = self.constant + self.terms.iter().map(|(c, a)| a * values[*c]).sum::<f64>();
    }
}

/// Writes out all such columns of a model whose rows are all `AtMost` or `AtLeast`; the columns stay in the list, in no
/// row and without gain, fixed at zero. To restore, go through the result backwards.
pub(super) fn write_out(model: &mut Model) -> Vec<WrittenOut> {
    let mut out = Vec::new();
    let mut rows_of = positions(model);
    let mut waiting: Vec<usize> = (0..model.columns.len()).rev().collect();
    while let Some(column) = waiting.pop() {
        let Some((row, written)) = binding(model, &rows_of, column) else { continue };
        let touched = replace(model, &mut rows_of, row, &written);
        model.columns[column].upper = 0.0;
        model.columns[column].lower = 0.0;
        model.columns[column].gain = 0.0;
        out.push(written);
        waiting.extend(touched);
    }
    model.rows.retain(|row| !row.terms.is_empty() || !holds_empty(row));
    out
}

fn holds_empty(row: &Row) -> bool {
    match row.sense {
        Sense::AtMost => row.bound >= 0.0,
        Sense::AtLeast => row.bound <= 0.0,
    }
}

fn positions(model: &Model) -> Vec<Vec<usize>> {
    let mut rows_of = vec![Vec::new(); model.columns.len()];
    for (at, row) in model.rows.iter().enumerate() {
        row.terms.iter().for_each(|(column, _)| rows_of[*column].push(at));
    }
    rows_of
}

fn coefficient(row: &Row, column: usize) -> f64 {
    row.terms.iter().find(|(c, _)| *c == column).map_or(0.0, |(_, a)| *a)
}

/// The one row that keeps the column from rising, and what the column equals on it.
fn binding(model: &Model, rows_of: &[Vec<usize>], column: usize) -> Option<(usize, WrittenOut)> {
    let own = &model.columns[column];
    if own.integer || own.gain < 0.0 || own.upper <= own.lower || own.lower != 0.0 {
        return None;
    }
    let restrains = |at: &&usize| {
        let row = &model.rows[**at];
        (row.sense == Sense::AtMost) == (coefficient(row, column) > 0.0)
    };
    let mut restraining = rows_of[column].iter().filter(restrains);
    let (first, None) = (restraining.next()?, restraining.next()) else { return None };
    let row = &model.rows[*first];
    if row.terms.len() > LONGEST_ROW || row.terms.len() < 2 {
        return None;
    }
    let a = coefficient(row, column);
    let terms: Vec<(usize, f64)> = row.terms.iter().filter(|(c, _)| *c != column).map(|(c, b)| (*c, -b / a)).collect();
    let constant = row.bound / a;
    let (mut least, mut most) = (constant, constant);
    for (other, b) in &terms {
        let other = &model.columns[*other];
        let (x, y) = (b * other.lower, b * other.upper);
        (least, most) = (least + x.min(y), most + x.max(y));
    }
    let within = least >= -1e-12 && most <= own.upper + 1e-12;
    within.then_some((*first, WrittenOut { column, constant, terms }))
}

/// Empties the binding row and puts the expression where the column stood. Gives the columns whose rows changed.
fn replace(model: &mut Model, rows_of: &mut [Vec<usize>], row: usize, written: &WrittenOut) -> Vec<usize> {
    let gain = model.columns[written.column].gain;
    for (other, a) in &written.terms {
        model.columns[*other].gain += gain * a;
    }
    let emptied = std::mem::take(&mut model.rows[row].terms);
    model.rows[row].bound = 0.0;
    emptied.iter().for_each(|(column, _)| rows_of[*column].retain(|at| *at != row));
    for at in std::mem::take(&mut rows_of[written.column]) {
        let target = &mut model.rows[at];
        let a = coefficient(target, written.column);
        target.bound -= a * written.constant;
        target.terms.retain(|(column, _)| *column != written.column);
        for (other, b) in &written.terms {
            if let Some(term) = target.terms.iter_mut().find(|(column, _)| column == other) {
                term.1 += a * b;
            } else {
                target.terms.push((*other, a * b));
                rows_of[*other].push(at);
            }
        }
        let gone: Vec<usize> = target.terms.iter().filter(|(_, c)| c.abs() < 1e-14).map(|(c, _)| *c).collect();
        target.terms.retain(|(_, c)| c.abs() >= 1e-14);
        gone.into_iter().for_each(|column| rows_of[column].retain(|r| *r != at));
        target.terms.sort_by_key(|(column, _)| *column);
    }
    emptied.into_iter().map(|(column, _)| column).filter(|column| *column != written.column).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_becomes_the_only_tool_it_needs() {
        let mut model = Model::default();
        let n = model.column("n".to_owned(), (0.0, 1.0), true, -0.1);
        let h = model.column("h".to_owned(), (0.0, 1.0), false, 0.0);
        let g = model.column("g".to_owned(), (0.0, 1.0), false, 3.0);
        model.row("function", "h".to_owned(), vec![(h, 1.0), (n, -1.0)], Sense::AtMost, 0.0);
        model.row("with", "g".to_owned(), vec![(g, 1.0), (h, -1.0)], Sense::AtMost, 0.0);
        let out = write_out(&mut model);
        assert!(model.rows.is_empty());
        assert!((model.columns[n].gain - 2.9).abs() < 1e-12, "the tool now earns what the repair did");
        let mut values = [1.0, 0.0, 0.0];
        out.iter().rev().for_each(|written| written.restore(&mut values));
        assert!((values[g] - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_function_that_two_tools_give_stays() {
        let mut model = Model::default();
        let a = model.column("a".to_owned(), (0.0, 1.0), true, -0.1);
        let b = model.column("b".to_owned(), (0.0, 1.0), true, -0.1);
        let h = model.column("h".to_owned(), (0.0, 1.0), false, 1.0);
        model.row("function", "h".to_owned(), vec![(h, 1.0), (a, -1.0), (b, -1.0)], Sense::AtMost, 0.0);
        assert!(write_out(&mut model).is_empty(), "two tools would make it two, and it is at most one");
    }
}
