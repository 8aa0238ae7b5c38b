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
use crate::resolve::Case;
use crate::risk::Stakes;
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
pub fn plain_limits(case: &Case) -> Vec<PlainRow> {
    load::rows(case).into_iter().chain(confined::rows(case, 1.0)).collect()
}

/// Adds the families that say what a kit does, not what it may be.
pub fn add_doing(model: &mut Model, columns: &Columns, case: &Case, stakes: &Stakes) {
    function::add(model, columns, case);
    requires::add(model, columns, case);
    stock::add(model, columns, case, stakes);
    repair::add(model, columns, case);
}

/// Adds every family; `room` is the share of the bags' room that may be used.
pub fn add_all(model: &mut Model, columns: &Columns, case: &Case, stakes: &Stakes, cuts: &[Cut], room: f64) {
    add_doing(model, columns, case, stakes);
    need::add(model, columns, case);
    cap::add(model, columns, case);
    chance::add(model, columns, case, stakes);
    load::add(model, columns, case);
    confined::add(model, columns, case, room);
    cut::add(model, columns, case, cuts);
}
