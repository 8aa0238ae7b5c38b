//! One constraint family, one file.

pub mod cap;
pub mod confined;
pub mod cut;
pub mod function;
pub mod load;
pub mod need;
pub mod repair;
pub mod requires;
pub mod stock;

use super::{Columns, Cut};
use crate::engine::Model;
use crate::resolve::Case;
use crate::risk::Stakes;

/// Adds every family; `room` is the share of the bags' room that may be used.
pub fn add_all(model: &mut Model, columns: &Columns, case: &Case, stakes: &Stakes, cuts: &[Cut], room: f64) {
    function::add(model, columns, case);
    requires::add(model, columns, case);
    stock::add(model, columns, case, stakes);
    repair::add(model, columns, case);
    need::add(model, columns, case);
    cap::add(model, columns, case);
    load::add(model, columns, case);
    confined::add(model, columns, case, room);
    cut::add(model, columns, case, cuts);
}
