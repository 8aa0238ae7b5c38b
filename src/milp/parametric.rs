//! Many models that differ in one right-hand side only, such as the same trip under many limits of mass. What is shown
//! for the loosest limit holds for every tighter one: bounds, written-out columns and cutting planes carry over, since
//! feasible points only go away. Kits known at neighbouring limits narrow the search from below.
//!
//! For mass, volume and money the things that needs call for take at least what the least kit takes; that row (`least`
//! in `select`) is what the relaxation lacks near the lower end. Limits are solved in rounds of halving, each round in
//! parallel. A kit that keeps a tighter limit as well is its answer there without solving.

use crate::checked::checked;
use crate::cut_loop::tightened;
use crate::mir_cuts::FAMILY;
use crate::presolve::{Reduced, reduced};
use crate::rows::{Model, Row};
use crate::scale::{factor, scaled};
use crate::search::{self, Tight};
use crate::{Answer, Engine, EngineError, SolveOptions};

/// The loosest model of a series, prepared once.
#[derive(Debug, Clone)]
pub struct Series {
    reduced: Reduced,
    /// The limited row, in the reduced model.
    row: usize,
    /// Its right-hand side in the model as given.
    cap: f64,
    cuts: Carried,
    /// What its gains are multiplied by.
    factor: f64,
}

/// What one member hands to members with tighter limits.
#[derive(Debug, Clone, Default)]
pub struct Carried(Vec<Row>);

/// Points known to be feasible; only their whole columns count.
#[derive(Debug, Clone, Copy, Default)]
pub struct Known<'a> {
    /// Feasible, so the answer is not worse.
    pub floor: Option<&'a [f64]>,
    /// The answer at a looser limit, itself not feasible.
    pub ceiling: Option<&'a [f64]>,
}

impl Series {
    /// Prepares the loosest model; `row` is the one whose right-hand side will be lowered. `None` where there is nothing
    /// to be gained: other engines prepare models themselves, and small models are solved before they are prepared.
    #[must_use]
    pub fn new(model: &Model, row: usize, options: &SolveOptions) -> Option<Self> {
        if options.engine != Engine::Microlp {
            return None;
        }
        let factor = factor(model);
        let reduced = reduced(&scaled(model, factor))?;
        let own = &model.rows[row];
        let at = reduced.model.rows.iter().position(|row| row.family == own.family && row.key == own.key)?;
        if reduced.model.columns.iter().filter(|column| column.integer).count() <= search::SMALL {
            return None;
        }
        let rows = reduced.model.rows.len();
        let mut tight = tightened(&reduced.model, rows, None, options).ok()?;
        let cuts = Carried(tight.model.rows.split_off(rows));
        Some(Self { reduced, row: at, cap: own.bound, cuts, factor })
    }

    /// The cuts of the loosest model.
    #[must_use]
    pub const fn carried(&self) -> &Carried {
        &self.cuts
    }

    /// Solves the member with this right-hand side, not above that of the loosest; `carried` comes from a member not
    /// tighter. Gives the answer in the columns of the model as given, and what to hand on.
    ///
    /// # Errors
    /// As [`crate::solve`].
    pub fn solve(
        &self,
        model: &Model,
        cap: f64,
        carried: &Carried,
        known: Known<'_>,
        options: &SolveOptions,
    ) -> Result<(Answer, Carried), EngineError> {
        checked(model, options, || self.solve_unchecked(model, cap, carried, known, options))
    }

    fn solve_unchecked(
        &self,
        model: &Model,
        cap: f64,
        carried: &Carried,
        known: Known<'_>,
        options: &SolveOptions,
    ) -> Result<(Answer, Carried), EngineError> {
        let mut member = self.reduced.model.clone();
        member.rows[self.row].bound -= self.cap - cap;
        member.rows.extend(carried.0.iter().cloned());
        let inner = reduced(&member).ok_or(EngineError::Infeasible)?;
        let own = inner.model.rows.iter().filter(|row| row.family != FAMILY).count();
        let inside = |point: &[f64]| inner.reduce(&self.reduced.reduce(point));
        let (floor, ceiling) = (known.floor.map(inside), known.ceiling.map(inside));
        let best = match (floor, ceiling) {
            (Some(floor), Some(ceiling)) => search::between(&inner.model, &floor, &ceiling, options),
            (Some(floor), None) => search::between(&inner.model, &floor, &floor, options),
            _ => None,
        };
        let tight = tightened(&inner.model, own, best.as_ref().map(|b| b.objective), options)?;
        let mut handed: Vec<Row> = tight.model.rows[own..].to_vec();
        handed.iter_mut().for_each(|row| inner.lift(row));
        let answer = conclude(&tight, best, options)?;
        let values = self.reduced.restore(&inner.restore(&answer.values));
        let (found, bound) = (answer.objective / self.factor, answer.bound / self.factor);
        let constant = model.objective(&values) - found;
        let answer = Answer { objective: found + constant, bound: bound + constant, values, ..answer };
        Ok((answer, Carried(handed)))
    }
}

/// From the tightened member and an answer at hand to the proof.
fn conclude(tight: &Tight, at_hand: Option<Answer>, options: &SolveOptions) -> Result<Answer, EngineError> {
    let mut best = at_hand;
    if !best.as_ref().is_some_and(|answer| search::is_near(answer.objective, tight.bound)) {
        best = search::best_of(best, search::early_answer(tight, options));
    }
    match best {
        Some(best) => search::finish(tight, &best, true, options),
        None => search::solve_plain(&tight.model, options, None),
    }
}
