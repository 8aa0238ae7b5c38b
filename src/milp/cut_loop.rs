//! Cutting planes before the search, for engines that have none of their own: solve the relaxation, round what it
//! breaks, and again. Single rows first, then sums of rows that single out a fractional column.

use crate::checked::checked;
use crate::deadline::Deadline;
use crate::mir_cuts::Inequality;
use crate::rows::{Model, Row};
use crate::search::{self, Tight};
use crate::{EngineError, SolveOptions, tableau};

/// Rounds of solving the relaxation and adding what it breaks.
const MOST_ROUNDS: usize = 12;
/// A round that lowers the bound by less than this share is the last.
const LEAST_GAIN: f64 = 2e-5;
/// A round that closes less than this share of the distance to an answer at hand is the last.
const LEAST_SHARE: f64 = 0.05;
/// Cuts taken in a round, the deepest first.
const MOST_CUTS: usize = 40;
/// One more round may take this share of the time that is left.
const CUT_SHARE: f64 = 0.2;
/// A cut over more columns than this share of all slows the search more than it helps.
const DENSEST: f64 = 0.4;

/// The model with cuts added (the same whole points, a smaller relaxation), and the optimum of that relaxation. Rows
/// from `own_rows` on are cuts already, which may go again. With an answer at hand, closing in on it counts. Cuts with
/// which the relaxation fails, or which come too late, are left out: none of them is needed.
pub(super) fn tightened(
    model: &Model,
    own_rows: usize,
    at_hand: Option<f64>,
    options: &SolveOptions,
) -> Result<Tight, EngineError> {
    let deadline = Deadline::new(options);
    let mut tight = relaxation(model.clone(), options)?;
    for _ in 0..MOST_ROUNDS {
        let cuts = cuts(&tight.model, own_rows, &tight.point);
        drop_slack_cuts(&mut tight.model, own_rows, &tight.point);
        let Ok(left) = deadline.share(CUT_SHARE) else { break };
        if cuts.is_empty() {
            break;
        }
        let mut next = tight.model.clone();
        next.rows.extend(cuts);
        let Ok(next) = relaxation(next, &left) else { break };
        let least = LEAST_GAIN * next.bound.abs().max(1e-6);
        let least = at_hand.map_or(least, |at_hand| least.max(LEAST_SHARE * (next.bound - at_hand)));
        let gained = tight.bound - next.bound;
        tight = next;
        if gained < least {
            break;
        }
    }
    drop_slack_cuts(&mut tight.model, own_rows, &tight.point);
    Ok(tight)
}

/// A model with the optimum of its relaxation.
fn relaxation(model: Model, options: &SolveOptions) -> Result<Tight, EngineError> {
    let relaxed = model.relaxed();
    let quick = SolveOptions { gap: 0.0, ..*options };
    let (answer, ()) = checked(&relaxed, &quick, || search::solve_plain(&relaxed, &quick, None).map(|a| (a, ())))?;
    Ok(Tight { model, point: answer.values, bound: answer.objective })
}

/// The deepest cuts at a point, different enough from each other.
fn cuts(model: &Model, own_rows: usize, point: &[f64]) -> Vec<Row> {
    let single =
        model.rows[..own_rows].iter().filter_map(|row| Inequality::of_row(model, row, point)?.round(model, point));
    let mut all: Vec<(f64, Row)> =
        single.chain(tableau::cuts(model, point)).map(|row| (depth(&row, point), row)).collect();
    #[allow(clippy::cast_precision_loss, reason = "a few hundred columns")]
    let most_terms = (model.columns.len() as f64 * DENSEST).max(40.0);
    #[allow(clippy::cast_precision_loss, reason = "a few hundred columns")]
    all.retain(|(_, row)| row.terms.len() as f64 <= most_terms);
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut taken: Vec<Row> = Vec::new();
    for (_, row) in all {
        if taken.len() < MOST_CUTS && taken.iter().all(|other| !parallel(&row, other)) {
            taken.push(row);
        }
    }
    taken
}

/// Distance by which a point lies outside a cut.
fn depth(row: &Row, point: &[f64]) -> f64 {
    (row.sum(point) - row.bound) / norm(row)
}

fn norm(row: &Row) -> f64 {
    row.terms.iter().map(|(_, a)| a * a).sum::<f64>().sqrt().max(1e-9)
}

/// Nearly the same direction.
fn parallel(a: &Row, b: &Row) -> bool {
    let (mut i, mut j, mut dot) = (0, 0, 0.0);
    while let (Some(x), Some(y)) = (a.terms.get(i), b.terms.get(j)) {
        match x.0.cmp(&y.0) {
            std::cmp::Ordering::Less => i += 1,
            std::cmp::Ordering::Greater => j += 1,
            std::cmp::Ordering::Equal => {
                dot += x.1 * y.1;
                (i, j) = (i + 1, j + 1);
            }
        }
    }
    dot > 0.95 * norm(a) * norm(b)
}

/// Cuts that the relaxation does not touch only slow the search down.
fn drop_slack_cuts(model: &mut Model, own_rows: usize, point: &[f64]) {
    let mut at = 0;
    model.rows.retain(|row| {
        at += 1;
        at <= own_rows || row.bound - row.sum(point) < 1e-6
    });
}
