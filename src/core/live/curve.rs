//! The best kit at one limit after another, nearest first.

use super::{Budget, Change, Live, Standing};
use crate::answer::PackError;
use crate::resolve::{Amount, Measure};
use fardel_milp::control::{self, Cancel};
use schemars::JsonSchema;
use serde::Serialize;
use std::ops::ControlFlow;

/// The kit at one limit.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LivePoint {
    /// The limit: milligrams, microlitres, hundredths of money.
    pub limit: Amount,
    /// The kit; `None`: needs and this limit cannot hold together, or no kit was found within the budget.
    pub standing: Option<Standing>,
}

/// Whoever hears of the points, in the order in which they are done.
pub type HearPoint<'a> = &'a mut dyn FnMut(&LivePoint) -> ControlFlow<()>;

impl Live {
    /// The best kits at these limits, those nearest to the present one first; each within the budget. The plan itself stays as
    /// it is. Points that were done when it was cancelled are kept, by rising limit.
    ///
    /// # Errors
    /// [`PackError`] as of [`Self::patch`].
    pub fn curve(
        &self,
        measure: Measure,
        limits: &[Amount],
        budget: Budget,
        cancel: &Cancel,
        hear: HearPoint<'_>,
    ) -> Result<Vec<LivePoint>, PackError> {
        let here = self.standing().map_or(0, |standing| measure.used(&self.instance, standing.counts()));
        let here = measure.limit(&self.instance).unwrap_or(here);
        let mut order = limits.to_vec();
        order.sort_unstable();
        order.dedup();
        order.sort_by_key(|limit| ((limit - here).abs(), *limit));
        let mut points: Vec<LivePoint> = Vec::new();
        for limit in order {
            if cancel.is_cancelled() {
                break;
            }
            let mut own = self.clone();
            own.patch(Change::Limit(measure, Some(limit)))?;
            for known in points.iter().filter_map(|point| point.standing.as_ref()) {
                own.consider(known.counts());
            }
            let standing = match own.improve(budget, cancel, &mut |_| ControlFlow::Continue(())) {
                Ok(standing) => Some(standing.clone()),
                Err(PackError::Infeasible { .. } | PackError::OutOfTime) => None,
                Err(error) => return Err(error),
            };
            let point = LivePoint { limit, standing };
            let stop = control::under(cancel, || hear(&point)).is_break();
            points.push(point);
            if stop {
                break;
            }
        }
        points.sort_by_key(|point| point.limit);
        Ok(points)
    }

    /// Takes a kit in hand that was found under other limits, if it keeps these and is better.
    fn consider(&mut self, counts: &[u32]) {
        if let Some(standing) = self.placed(counts) {
            self.offer(standing);
        }
    }
}
