//! The least mass, volume or money that the needs take, whatever else is left at home.

use super::{Choice, Columns, Cut, choice, model};
use crate::resolve::{Instance, Measure};
use crate::risk::RiskModel;
use fardel_milp::timing::timed;
use fardel_milp::{EngineError, Model, Sense, SolveOptions};

/// Chooses the kit that takes least of a measure and still meets every need. The case must have a limit of it; the
/// choice's objective is what it takes, in the unit of the limit's row, counted negative.
///
/// # Errors
/// As [`super::select`].
pub fn least(
    instance: &Instance,
    risk_model: &RiskModel,
    measure: Measure,
    cuts: &[Cut],
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    let (mut model, columns) = model(instance, risk_model, cuts);
    model.columns.iter_mut().for_each(|column| column.gain = 0.0);
    let row = limited(&model, measure).ok_or_else(|| EngineError::Fault("no limit to lower".to_owned()))?;
    for (column, amount) in model.rows[row].terms.clone() {
        model.columns[column].gain = -amount;
    }
    let answer = timed("find the least kit that will do", || fardel_milp::solve(&model, options))?;
    Ok(choice(&answer, columns.counts(&answer), risk_model))
}

/// The number of the row that limits a measure.
pub(super) fn limited(model: &Model, measure: Measure) -> Option<usize> {
    model.rows.iter().position(|row| row.family == "cap" && row.key == measure.key())
}

/// Adds what the least kit shows: the things that needs can call for take at least so much together. Leaving all others
/// out of any kit leaves a kit that meets the needs. Near the least limit this is what the relaxation lacks.
pub(super) fn add(model: &mut Model, columns: &Columns, instance: &Instance, measure: Measure, least: f64) {
    let Some(row) = limited(model, measure) else { return };
    let called: Vec<usize> =
        called_for(instance).into_iter().flat_map(|i| [Some(columns.n[i]), columns.buy[i]]).flatten().collect();
    let terms: Vec<(usize, f64)> =
        model.rows[row].terms.iter().copied().filter(|(column, _)| called.contains(column)).collect();
    // A hair below, so that rounding never makes the least kit itself impossible.
    model.row("least", measure.key().to_owned(), terms, Sense::AtLeast, least - 1e-6 * least.abs().max(1.0));
}

/// Items that meet a need, are on the always list, or can give such items what they require.
fn called_for(instance: &Instance) -> Vec<usize> {
    let mut called: Vec<bool> = instance.items.iter().map(|item| !item.meets.is_empty() || item.at_least > 0).collect();
    let mut wanted = vec![false; instance.functions.len()];
    loop {
        let before = (called.clone(), wanted.clone());
        for (item, _) in instance.items.iter().zip(&called).filter(|(_, called)| **called) {
            item.requires.iter().for_each(|(function, _)| wanted[*function] = true);
        }
        for at in 0..wanted.len() {
            if wanted[at] {
                instance.functions[at].also_from.iter().flatten().for_each(|part| wanted[*part] = true);
            }
        }
        for (item, called) in instance.items.iter().zip(&mut called) {
            *called |= item.provides.iter().any(|(function, _)| wanted[*function]);
        }
        if before == (called.clone(), wanted.clone()) {
            return (0..called.len()).filter(|i| called[*i]).collect();
        }
    }
}
