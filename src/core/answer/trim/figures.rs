//! Amounts of a trim in the unit of what is limited.

use crate::resolve::{Amount, Measure};
use crate::units::Currency;
use schemars::JsonSchema;
use serde::Serialize;

/// What the kit takes before and after, and what it was to come to.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TrimFigures {
    /// Unit of the amounts: `g` or `mL`.
    pub unit: String,
    /// What the packed kit takes.
    pub packed: f64,
    /// What it was to come to.
    pub target: f64,
    /// What the trimmed kit takes.
    pub left: f64,
}

impl TrimFigures {
    pub(super) fn new(measure: Measure, currency: Currency, [packed, target, left]: [Amount; 3]) -> Self {
        let number = |amount| measure.in_row(amount);
        Self { unit: measure.unit(currency), packed: number(packed), target: number(target), left: number(left) }
    }
}

/// What a thing takes, and what the kit takes without it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct GoingFigures {
    /// What they take, in `unit` of the answer.
    pub amount: f64,
    /// What the kit takes after that, in the same; things taken instead are not counted.
    pub left: f64,
}
