//! One constraint family, one file.

pub mod cap;
pub mod chance;
pub mod confined;
pub mod cut;
pub mod function;
pub mod load;
pub mod need;
pub mod repair;
pub mod requires;
pub mod stock;

use super::{Columns, Cut};
use crate::resolve::Instance;
use crate::risk::RiskModel;
use fardel_milp::Model;

/// A limit on the counts alone: what one unit of each item takes of it, and the most that all may take together.
#[derive(Debug, Clone, PartialEq)]
pub struct PlainRow {
    /// What is limited, and its unit.
    pub key: String,
    /// For each item of the case.
    pub each: Vec<f64>,
    /// In the same unit.
    pub most: f64,
}

/// What bags, bikes and tyres bear, as limits on the counts alone: every kit that can be stowed keeps them.
#[must_use]
pub fn plain_limits(instance: &Instance) -> Vec<PlainRow> {
    load::rows(instance).into_iter().chain(confined::rows(instance, 1.0)).collect()
}

/// Adds the families that say what a kit does, not what it may be.
pub fn add_doing(model: &mut Model, columns: &Columns, instance: &Instance, risk_model: &RiskModel) {
    function::add(model, columns, instance);
    requires::add(model, columns, instance);
    stock::add(model, columns, instance, risk_model);
    repair::add(model, columns, instance);
}

/// Adds every family; `room` is the share of the bags' room that may be used.
pub fn add_all(
    model: &mut Model,
    columns: &Columns,
    instance: &Instance,
    risk_model: &RiskModel,
    cuts: &[Cut],
    room: f64,
) {
    add_doing(model, columns, instance, risk_model);
    need::add(model, columns, instance);
    cap::add(model, columns, instance);
    chance::add(model, columns, instance, risk_model);
    load::add(model, columns, instance);
    confined::add(model, columns, instance, room);
    cut::add(model, columns, instance, cuts);
}
