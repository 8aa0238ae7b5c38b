//! Amounts of a curve in the unit of what is limited.

use super::curve::Curve;
use crate::resolve::{Amount, Measure};
use crate::units::Currency;
use schemars::JsonSchema;
use serde::Serialize;

/// Where the curve begins and ends, and where it flattens.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CurveFigures {
    /// Unit of the amounts: `g`, `mL` or the currency.
    pub unit: String,
    /// The rider's own limit, or null.
    pub own_limit: Option<f64>,
    /// The least limit under which all needs can be met.
    pub least: f64,
    /// What the best kit without this limit takes: more than that is of no use.
    pub enough: f64,
    /// Limits asked for that are too low for the needs.
    pub too_low: Vec<f64>,
    /// What the best kit without this limit takes by the rider's own prices; null where the measure has no price.
    pub worth_to: Option<f64>,
    /// What a step is: 100 g, a litre, ten units of money.
    pub step: f64,
    /// The used amount from which on a further step saves less than a minute; null if the points do not reach it.
    pub step_saves_less_than_a_minute_from: Option<f64>,
}

impl CurveFigures {
    pub(super) fn new(curve: &Curve, currency: Currency, [own_limit, worth, flat]: [Option<Amount>; 3]) -> Self {
        let measure = curve.measure;
        let number = |amount| measure.in_row(amount);
        Self {
            unit: measure.unit(currency),
            own_limit: own_limit.map(number),
            least: number(curve.least),
            enough: number(curve.enough),
            too_low: curve.too_low.iter().copied().map(number).collect(),
            worth_to: worth.map(number),
            step: number(measure.step()),
            step_saves_less_than_a_minute_from: flat.map(number),
        }
    }
}

/// A limit, and what the best kit takes of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct PointFigures {
    /// The limit, in `unit` of the answer.
    pub limit: f64,
    /// What the kit takes of it, in the same.
    pub used: f64,
}

impl PointFigures {
    pub(super) fn new(measure: Measure, limit: Amount, used: Amount) -> Self {
        Self { limit: measure.in_row(limit), used: measure.in_row(used) }
    }
}
