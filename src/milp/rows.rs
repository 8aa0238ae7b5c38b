//! A mixed-integer linear program as data: named columns, named rows, one objective to be maximised.

/// A decision variable.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Name in the readable model.
    pub name: String,
    /// Least value.
    pub lower: f64,
    /// Greatest value.
    pub upper: f64,
    /// Whole numbers only?
    pub integer: bool,
    /// Coefficient in the objective.
    pub gain: f64,
}

/// How a row compares with its right-hand side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// Not above.
    AtMost,
    /// Not below.
    AtLeast,
}

/// A linear constraint.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The family it belongs to: `cap`, `need`, `function` ...
    pub family: &'static str,
    /// What it is about, in catalogue keys.
    pub key: String,
    /// Column number and coefficient; each column at most once.
    pub terms: Vec<(usize, f64)>,
    /// Comparison.
    pub sense: Sense,
    /// Right-hand side.
    pub bound: f64,
}

impl Row {
    /// `1` for `AtMost`, `-1` for `AtLeast`: the factor that makes every row `AtMost`.
    #[must_use]
    pub fn sign(&self) -> f64 {
        if self.sense == Sense::AtMost { 1.0 } else { -1.0 }
    }

    /// What the terms add up to at a point; a column that the point lacks counts as zero.
    #[must_use]
    pub fn sum(&self, values: &[f64]) -> f64 {
        self.terms.iter().map(|(column, c)| c * values.get(*column).copied().unwrap_or(0.0)).sum()
    }
}

/// Columns, rows and an objective to be maximised.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Model {
    /// Decision variables.
    pub columns: Vec<Column>,
    /// Constraints.
    pub rows: Vec<Row>,
}

impl Model {
    /// Adds a column and gives its number.
    pub fn column(&mut self, name: String, (lower, upper): (f64, f64), integer: bool, gain: f64) -> usize {
        self.columns.push(Column { name, lower, upper, integer, gain });
        self.columns.len() - 1
    }

    /// Adds a row; terms of the same column are added up, zero terms dropped, order made canonical.
    pub fn row(&mut self, family: &'static str, key: String, terms: Vec<(usize, f64)>, sense: Sense, bound: f64) {
        let mut merged: Vec<(usize, f64)> = Vec::with_capacity(terms.len());
        let mut terms = terms;
        terms.sort_by_key(|(column, _)| *column);
        for (column, coefficient) in terms {
            match merged.last_mut() {
                Some(last) if last.0 == column => last.1 += coefficient,
                _ => merged.push((column, coefficient)),
            }
        }
        merged.retain(|(_, coefficient)| *coefficient != 0.0);
        self.rows.push(Row { family, key, terms: merged, sense, bound });
    }

    /// The same without any whole columns: its linear relaxation.
    #[must_use]
    pub fn relaxed(&self) -> Self {
        let mut relaxed = self.clone();
        relaxed.columns.iter_mut().for_each(|column| column.integer = false);
        relaxed
    }

    /// Objective at a point.
    #[must_use]
    pub fn objective(&self, values: &[f64]) -> f64 {
        self.columns.iter().zip(values).map(|(column, value)| column.gain * value).sum()
    }

    /// The first bound or row that a point breaks by more than `tolerance` (relative to the row's largest term).
    #[must_use]
    pub fn first_violation(&self, values: &[f64], tolerance: f64) -> Option<String> {
        for (column, value) in self.columns.iter().zip(values) {
            let slack = tolerance * column.upper.abs().clamp(1.0, 1e6);
            if !value.is_finite() || *value < column.lower - slack || *value > column.upper + slack {
                return Some(format!("the bounds of {}", column.name));
            }
        }
        for row in &self.rows {
            let sum = row.sum(values);
            let scale = row.terms.iter().map(|(_, c)| c.abs()).fold(row.bound.abs().max(1.0), f64::max);
            let over = match row.sense {
                Sense::AtMost => sum - row.bound,
                Sense::AtLeast => row.bound - sum,
            };
            if over > tolerance * scale {
                return Some(format!("{} `{}` by {over}", row.family, row.key));
            }
        }
        None
    }
}
