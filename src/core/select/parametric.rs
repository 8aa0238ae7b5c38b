//! The same case under one limit after another, the loosest first.

use super::least::{add, limited};
use super::{Choice, Columns, choice, model, ties};
use crate::resolve::{Amount, Instance, Measure};
use crate::risk::{RiskModel, value_in_model};
use fardel_milp::timing::timed;
use fardel_milp::{Carried, EngineError, Known, Model, SolveOptions};

/// A case prepared for many limits.
#[derive(Debug, Clone)]
pub struct Series {
    measure: Measure,
    model: Model,
    columns: Columns,
    row: usize,
    engine: Option<fardel_milp::Series>,
}

/// Kits chosen at neighbouring limits.
#[derive(Debug, Clone, Copy, Default)]
pub struct Neighbours<'a> {
    /// At a tighter limit.
    pub below: Option<&'a [u32]>,
    /// At a looser one, under which it is the best.
    pub above: Option<&'a [u32]>,
}

impl Series {
    /// Prepares a case at its loosest limit; `least` is what the needs alone take, if that is known. `None` if there is
    /// no limit.
    #[must_use]
    pub fn new(
        instance: &Instance,
        risk_model: &RiskModel,
        measure: Measure,
        least: Option<Amount>,
        options: &SolveOptions,
    ) -> Option<Self> {
        let (mut model, columns) = model(instance, risk_model, &[]);
        let row = limited(&model, measure)?;
        if let Some(least) = least {
            add(&mut model, &columns, instance, measure, measure.in_row(least));
        }
        let engine = fardel_milp::Series::new(&model, row, options);
        Some(Self { measure, model, columns, row, engine })
    }

    /// The model at the loosest limit.
    #[must_use]
    pub const fn model(&self) -> &Model {
        &self.model
    }

    /// What the loosest limit hands on.
    #[must_use]
    pub fn carried(&self) -> Carried {
        self.engine.as_ref().map_or_else(Carried::default, |series| series.carried().clone())
    }

    /// Chooses the kit that saves most under a limit not above the loosest. `instance` must have that limit.
    ///
    /// # Errors
    /// As [`super::select`].
    pub fn select(
        &self,
        instance: &Instance,
        risk_model: &RiskModel,
        (limit, carried): (Amount, &Carried),
        neighbours: Neighbours<'_>,
        options: &SolveOptions,
    ) -> Result<(Choice, Carried), EngineError> {
        let cap = self.measure.in_row(limit);
        let mut model = self.model.clone();
        model.rows[self.row].bound = cap;
        let (answer, handed) = match &self.engine {
            Some(series) => {
                let point = |counts: &[u32]| self.columns.point(instance, counts, model.columns.len());
                let (floor, ceiling) = (neighbours.below.map(point), neighbours.above.map(point));
                let known = Known { floor: floor.as_deref(), ceiling: ceiling.as_deref() };
                let solve = || series.solve(&model, cap, carried, known, options);
                match timed("choose the kit", solve) {
                    // What was carried over may be to blame: from scratch, with all that can be tried then.
                    Err(EngineError::Fault(_)) => (fardel_milp::solve(&model, options)?, Carried::default()),
                    solved => solved?,
                }
            }
            None => (timed("choose the kit", || fardel_milp::solve(&model, options))?, Carried::default()),
        };
        let limits = ties::Limits::new(instance, risk_model, &self.columns, &[]);
        let hold = |counts: &[u32]| limits.hold(counts);
        let mut counts = ties::settle(instance, risk_model, &self.columns, &hold, self.columns.counts(&answer));
        // A kit that is allowed under a tighter limit is allowed here: rounding must not make the curve fall.
        if let Some(below) = neighbours.below
            && value_in_model(instance, risk_model, below).objective()
                > value_in_model(instance, risk_model, &counts).objective()
        {
            counts = below.to_vec();
        }
        Ok((choice(&answer, counts, risk_model), handed))
    }
}
