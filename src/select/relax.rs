//! When needs and limits cannot hold together: the smallest changes that would make it feasible.
//!
//! Every limit gets a slack, each counted relative to the limit; their sum is minimised. What is left above zero is
//! what does not hold.

use super::Columns;
use crate::engine::{self, Effort, EngineError, Sense};
use crate::resolve::Case;
use crate::risk::Stakes;

/// A limit or need that cannot hold with the others, and by how much.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfall {
    /// Family of the row: `need`, `cap`, `confined` or `load`.
    pub family: &'static str,
    /// What it is about.
    pub key: String,
    /// By how much, in the row's unit (for a need, a share of the amount).
    pub by: f64,
    /// The limit itself, in the row's unit.
    pub limit: f64,
}

/// The smallest shortfalls in sum; empty if the case is feasible as far as selecting goes.
///
/// # Errors
/// [`EngineError`] when even the relaxed model has no answer.
pub fn shortfalls(case: &Case, stakes: &Stakes, effort: &Effort) -> Result<Vec<Shortfall>, EngineError> {
    let (mut model, _): (_, Columns) = super::model(case, stakes, &[]);
    model.columns.iter_mut().for_each(|column| column.gain = 0.0);
    let mut slacks = Vec::new();
    for at in 0..model.rows.len() {
        if !matches!(model.rows[at].family, "need" | "cap" | "confined" | "load") {
            continue;
        }
        let scale = model.rows[at].bound.abs().max(1.0);
        let slack = model.column(format!("slack[{}]", model.rows[at].key), (0.0, 1e9), false, -1.0);
        let sign = if model.rows[at].sense == Sense::AtMost { -scale } else { scale };
        model.rows[at].terms.push((slack, sign));
        slacks.push((at, slack, scale));
    }
    let answer = engine::solve(&model, effort)?;
    let short = slacks.into_iter().filter(|(_, slack, _)| answer.values[*slack] > 1e-6);
    Ok(short
        .map(|(at, slack, scale)| Shortfall {
            family: model.rows[at].family,
            key: model.rows[at].key.clone(),
            by: answer.values[slack] * scale,
            limit: model.rows[at].bound,
        })
        .collect())
}
