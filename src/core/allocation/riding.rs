//! Who has what while things change hands: by how much the rows of the program are kept, and what is disliked.

use super::{Columns, Holdings};
use crate::resolve::{Instance, InstanceItem};
use fardel_milp::Model;

/// Dislike of pieces that work only together on different bikes, such as a socket and its handle (from memory: the set
/// without it is as good as not there).
const PER_PARTED_PIECES: f64 = 5.0;
/// Dislike of each thing of a set that is not with most of it (from memory: a word and a few steps at each job).
const PER_THING_ASTRAY: f64 = 1.0;
/// How far a row may be off, in its own largest coefficient: rounding.
pub(super) const OFF: f64 = 1e-6;

/// One unit of an item from one rider to another.
#[derive(Clone, Copy)]
pub(super) struct Step {
    pub item: usize,
    pub from: usize,
    pub to: usize,
}

#[derive(Clone)]
pub(super) struct State<'a> {
    model: &'a Model,
    columns: &'a Columns,
    pub instance: &'a Instance,
    pub holdings: Holdings,
    /// Of each column, the rows that it is in, with its share of the row's largest coefficient, signed so that more is worse.
    rows: Vec<Vec<(usize, f64)>>,
    /// By how much each row is kept (negative) or not.
    excess: Vec<f64>,
    /// Things that may change hands.
    pub free: Vec<usize>,
    /// The set of each of them.
    pub set: Vec<Option<usize>>,
    /// Items that make a function together, where no item of the kit gives it alone.
    pieces: Vec<Vec<Vec<usize>>>,
}

impl<'a> State<'a> {
    pub fn new(model: &'a Model, columns: &'a Columns, instance: &'a Instance, values: Vec<f64>) -> Self {
        let holdings = columns.y.iter().map(|own| own.iter().map(|y| units(values[*y])).collect()).collect();
        let mut whole = values;
        columns.y.iter().flatten().for_each(|y| whole[*y] = f64::from(units(whole[*y])));
        let mut rows = vec![Vec::new(); model.columns.len()];
        let mut excess = Vec::with_capacity(model.rows.len());
        for (number, row) in model.rows.iter().enumerate() {
            let largest = row.terms.iter().map(|(_, c)| c.abs()).fold(f64::MIN_POSITIVE, f64::max);
            let scale = row.sign() / largest;
            let sum: f64 = row.terms.iter().map(|(column, c)| c * whole[*column]).sum();
            excess.push(scale * (sum - row.bound));
            row.terms.iter().for_each(|(column, c)| rows[*column].push((number, scale * c)));
        }
        let mut state = Self {
            model,
            columns,
            instance,
            holdings,
            rows,
            excess,
            free: Vec::new(),
            set: vec![None; instance.items.len()],
            pieces: Vec::new(),
        };
        state.free = (0..instance.items.len()).filter(|item| state.is_free(*item)).collect();
        for (number, set) in instance.sets.iter().enumerate() {
            set.shared(&instance.items)
                .filter(|item| state.free.contains(item))
                .for_each(|i| state.set[i] = Some(number));
        }
        state.pieces = state.pieces();
        state
    }

    fn is_free(&self, item: usize) -> bool {
        self.instance.items[item].owner.is_none() && self.holdings.iter().any(|held| held[item] > 0)
    }

    /// For each function that the kit has only by combining: items by the parts of a way that is all there.
    fn pieces(&self) -> Vec<Vec<Vec<usize>>> {
        let giving = |function: usize| -> Vec<usize> {
            let gives = |item: &&usize| {
                let own: &InstanceItem = &self.instance.items[**item];
                own.provides.iter().any(|(given, _)| *given == function)
            };
            self.free.iter().filter(gives).copied().collect()
        };
        let functions = self.instance.functions.iter().enumerate();
        let only_combined = functions.filter(|(at, _)| giving(*at).is_empty());
        let ways = only_combined.flat_map(|(_, function)| &function.also_from).filter(|way| way.len() > 1);
        let mut all: Vec<Vec<Vec<usize>>> = ways.map(|way| way.iter().map(|part| giving(*part)).collect()).collect();
        all.retain(|way: &Vec<Vec<usize>>| way.iter().all(|part| !part.is_empty()));
        all.sort();
        all.dedup();
        all
    }

    pub fn off(&self) -> f64 {
        self.excess.iter().map(|excess| excess.max(0.0)).sum()
    }

    pub fn apply(&mut self, step: Step) {
        let (from, to) = (self.columns.y[step.from][step.item], self.columns.y[step.to][step.item]);
        for (column, sign) in [(from, -1.0), (to, 1.0)] {
            for (row, share) in &self.rows[column] {
                self.excess[*row] += sign * share;
            }
        }
        self.holdings[step.from][step.item] -= 1;
        self.holdings[step.to][step.item] += 1;
    }

    /// By how much more or less the rows would be off after a step.
    pub fn change_off(&self, step: Step) -> f64 {
        let (from, to) = (self.columns.y[step.from][step.item], self.columns.y[step.to][step.item]);
        let mut touched: Vec<(usize, f64)> = self.rows[from].iter().map(|(row, share)| (*row, -share)).collect();
        for (row, share) in &self.rows[to] {
            match touched.iter_mut().find(|(known, _)| known == row) {
                Some((_, sum)) => *sum += share,
                None => touched.push((*row, *share)),
            }
        }
        touched.iter().map(|(row, d)| (self.excess[*row] + d).max(0.0) - self.excess[*row].max(0.0)).sum()
    }

    /// May the rider have one more of an item?
    pub fn takes(&self, item: usize, rider: usize) -> bool {
        let most = self.model.columns[self.columns.y[rider][item]].upper;
        f64::from(self.holdings[rider][item]) + 1.0 <= most + OFF
    }

    /// How little the handing out is liked.
    pub fn dislike(&self) -> f64 {
        let astray: f64 = (0..self.instance.sets.len()).map(|set| self.astray(set)).sum();
        let together = |way: &&Vec<Vec<usize>>| {
            let has = |held: &Vec<u32>| way.iter().all(|part| part.iter().any(|item| held[*item] > 0));
            self.holdings.iter().any(has)
        };
        let parted = self.pieces.iter().filter(|way| !together(way)).map(|_| PER_PARTED_PIECES).sum::<f64>();
        let liked: f64 = self
            .columns
            .y
            .iter()
            .zip(&self.holdings)
            .flat_map(|(own, held)| self.free.iter().map(|i| self.model.columns[own[*i]].gain * f64::from(held[*i])))
            .sum();
        astray * PER_THING_ASTRAY + parted - liked
    }

    /// Things of a set of which the rider who has most of it has none.
    pub fn astray(&self, set: usize) -> f64 {
        let own: Vec<usize> = self.free.iter().copied().filter(|item| self.set[*item] == Some(set)).collect();
        let has = |held: &Vec<u32>| own.iter().filter(|item| held[**item] > 0).count();
        let most = self.holdings.iter().map(has).max().unwrap_or(0);
        #[allow(clippy::cast_precision_loss, reason = "a handful of things")]
        let astray = (own.len() - most) as f64;
        astray
    }
}

impl Step {
    /// The same the other way.
    pub const fn back(self) -> Self {
        Self { from: self.to, to: self.from, ..self }
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded, bounded by the column")]
fn units(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
