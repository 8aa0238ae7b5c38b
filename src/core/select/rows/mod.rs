//! The constraint families of the kit, one family a file.
//!
//! | family | row | file |
//! | --- | --- | --- |
//! | `function` | `q h[c,q] <= sum of min(p[i,c], q) n[i]`; for q = 1 also `+ sum of way`; one more row adds up the steps where several q are asked for | `function` |
//! | `implies` | `h[c,3] <= h[c,2]`: more implies fewer (only tightens) | `function` |
//! | `combine` | `way <= h[part,1]` for each part | `function` |
//! | `requires` | `n <= most x h`: an item that is useless without a function | `requires` |
//! | `stock` | `sum of z <= sum of units held / step x n` | `stock` |
//! | `fill` | `fill <= sum of share z`, and `fill <= sum of fill(held by one) n` (only tightens) | `stock` |
//! | `enough` | `u enough <= sum of min(held, u) n` | `stock` |
//! | `once` | `sum over r of g[f,r] <= 1` | `repair` |
//! | `with` | `sum of g[f,r] over the repairs that need the function so often <= h`; `g <= enough` | `repair` |
//! | `from` | `sum over the repairs of f that use s of g[f,r] <= fill[s]` for each failure and stock | `repair` |
//! | `need` | `sum of min(1, met / demanded) n >= 1` | `need` |
//! | `without` | what meets a need without a function, or the function, covers it (only tightens) | `need` |
//! | `chance` | `sum over stops of mean x (1 - sum of g) <= -ln(1 - chance)`, where strandings are limited | `chance` |
//! | `cap` | mass, volume and budget: the rider's limits | `cap` |
//! | `buy` | `n - buy <= owned` | `cap` |
//! | `load` | for each bike and scale (both wheels, front, rear): the least that the kit can put there is within what is spare; one row for each level of charge | `load` |
//! | `confined` | what can only go into a set of bags fits into that set; for all such sets and their unions | `confined` |
//! | `reach`, `cut` | not all of these counts at once, from `stow` | `cut` |

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
