//! How the pure-Rust engine is led to a proof: presolve, cutting planes, a good kit early, and whatever cannot be in a
//! better one left out. Engines with presolve, cuts and heuristics of their own need none of this.

use crate::checked::empty;
use crate::cut_loop::tightened;
use crate::deadline::Deadline;
use crate::presolve::reduced;
use crate::rows::{Model, Sense};
use crate::{Answer, Better, EngineError, Guide, SolveOptions, Stop, microlp, progress};

/// Below this many whole columns the search is quicker than preparing it.
pub(super) const SMALL: usize = 8;
/// The early kit need not be the best one.
const EARLY_GAP: f64 = 5e-4;
/// It may take this share of the time that is left.
const EARLY_SHARE: f64 = 0.6;
/// The prices that show which columns are hopeless may take this share.
const PRICES_SHARE: f64 = 0.2;
/// A kit known from elsewhere and within this share of the bound needs no early kit beside it.
const NEAR: f64 = 6e-3;
/// An early kit further than this share from the bound: the relaxation tells little, and the caller may know better.
const FAR: f64 = 0.05;

/// Solves a model.
pub(super) fn solve(model: &Model, options: &SolveOptions, guide: Guide<'_>) -> Result<Answer, EngineError> {
    if !model.columns.iter().any(|column| column.integer) {
        return microlp::solve(model, options, None);
    }
    let deadline = Deadline::new(options);
    let small = reduced(model).ok_or(EngineError::Infeasible)?;
    let integer = small.model.columns.iter().filter(|column| column.integer).count();
    let values_of = |answer: Answer| -> Answer {
        let values = small.restore(&answer.values);
        let constant = model.objective(&values) - answer.objective;
        Answer { objective: answer.objective + constant, bound: answer.bound + constant, values, ..answer }
    };
    if integer <= SMALL {
        return solve_plain(&small.model, options, None).map(values_of);
    }
    let known = guide.start.map(|point| small.reduce(point));
    let known = known.and_then(|point| between(&small.model, &point, &point, &deadline.left().ok()?));
    let at_hand = known.as_ref().map(|known| known.objective);
    let tight = tightened(&small.model, small.model.rows.len(), at_hand, &deadline.left()?)?;
    let known = known.map(|known| Answer { bound: tight.bound, ..known });
    let near = known.as_ref().is_some_and(|known| is_near(known.objective, tight.bound));
    let mut early = if near { known } else { best_of(known, early_answer(&tight, &deadline.share(EARLY_SHARE)?)) };
    if let (Some(answer), Ok(left)) = (&early, deadline.share(EARLY_SHARE)) {
        let better = |point: &[f64]| (guide.better)(&small.restore(point)).map(|point| small.reduce(&point));
        early = bettered(&tight.model, answer, &better, &left).or(early);
    }
    if let Some(early) = &early {
        progress::found(early.objective, tight.bound);
    }
    let left = deadline.left();
    let last = match (early, left) {
        (Some(early), Ok(left)) => finish(&tight, &early, near, &left)?,
        (Some(early), Err(_)) => early,
        (None, left) => solve_plain(&tight.model, &left?, None)?,
    };
    Ok(values_of(last))
}

/// Is an answer so near the bound that looking for another early one is not worth it?
pub(super) fn is_near(objective: f64, bound: f64) -> bool {
    bound - objective <= NEAR * bound.abs().max(1e-6)
}

/// The better of two answers.
pub(super) fn best_of(a: Option<Answer>, b: Option<Answer>) -> Option<Answer> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.objective > a.objective { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// A better answer from the caller, where the one at hand is so far from its bound that the relaxation cannot have led to
/// a good one.
pub(super) fn bettered(model: &Model, at_hand: &Answer, better: Better<'_>, options: &SolveOptions) -> Option<Answer> {
    let bound = at_hand.bound;
    if bound - at_hand.objective <= FAR * bound.abs().max(1e-6) {
        return None;
    }
    let point = better(&at_hand.values)?;
    let other = between(model, &point, &point, options)?;
    (other.objective > at_hand.objective).then_some(Answer { bound, ..other })
}

pub(super) fn solve_plain(model: &Model, options: &SolveOptions, start: Option<&[f64]>) -> Result<Answer, EngineError> {
    if model.columns.is_empty() {
        return empty(model);
    }
    microlp::solve(model, options, start)
}

/// A model with cuts, and the optimum of its linear relaxation.
#[derive(Debug)]
pub(super) struct Tight {
    pub model: Model,
    pub point: Vec<f64>,
    pub bound: f64,
}

/// A good answer from the columns that the relaxation uses at all; the others stay at their lower bound.
pub(super) fn early_answer(tight: &Tight, options: &SolveOptions) -> Option<Answer> {
    let mut narrow = tight.model.clone();
    for (column, value) in narrow.columns.iter_mut().zip(&tight.point) {
        if column.integer && *value <= column.lower + 1e-9 {
            column.upper = column.lower;
        }
    }
    Some(Answer { bound: tight.bound, ..within(&tight.model, &narrow, options)? })
}

/// A good answer among those that lie between two points in every whole column.
pub(super) fn between(model: &Model, a: &[f64], b: &[f64], options: &SolveOptions) -> Option<Answer> {
    let mut narrow = model.clone();
    for (column, (a, b)) in narrow.columns.iter_mut().zip(a.iter().zip(b)) {
        if column.integer {
            column.lower = column.lower.max(a.min(*b).round().min(column.upper));
            column.upper = column.upper.min(a.max(*b).round().max(column.lower));
        }
    }
    within(model, &narrow, options)
}

/// A good answer of a model among those that a narrower one allows.
fn within(model: &Model, narrow: &Model, options: &SolveOptions) -> Option<Answer> {
    let small = reduced(narrow)?;
    let quick = SolveOptions { gap: options.gap.max(EARLY_GAP), ..*options };
    let own = small.model.rows.len();
    let deadline = Deadline::new(&quick);
    let tight = tightened(&small.model, own, None, &quick).map_or_else(|_| small.model.clone(), |tight| tight.model);
    let answer = solve_plain(&tight, &deadline.left().ok()?, None).ok()?;
    let values = small.restore(&answer.values);
    Some(Answer { objective: model.objective(&values), bound: f64::INFINITY, values, stop: Stop::OutOfTime, ..answer })
}

/// Fixes what no better answer can contain, and searches the rest; `near`: the answer at hand says how much cutting is
/// worth.
pub(super) fn finish(tight: &Tight, early: &Answer, near: bool, options: &SolveOptions) -> Result<Answer, EngineError> {
    let deadline = Deadline::new(options);
    let mut rest = tight.model.clone();
    if let Ok(quick) = deadline.share(PRICES_SHARE) {
        fix_by_reduced_cost(&mut rest, tight, early.objective, &quick);
    }
    let proven = |bound: f64| Answer { bound, stop: Stop::Proven, ..early.clone() };
    let Some(small) = reduced(&rest) else { return Ok(proven(early.objective)) };
    let start = small.reduce(&early.values);
    let at_hand = small.model.objective(&start);
    let Ok(left) = deadline.left() else { return Ok(early.clone()) };
    let small_tight = tightened(&small.model, small.model.rows.len(), near.then_some(at_hand), &left);
    let model = small_tight.as_ref().map_or(&small.model, |tight| &tight.model);
    if let Ok(tight) = &small_tight {
        progress::found(at_hand, tight.bound);
    }
    let Ok(left) = deadline.left() else { return Ok(early.clone()) };
    match solve_plain(model, &left, Some(&start)) {
        Ok(answer) => {
            let values = small.restore(&answer.values);
            let objective = tight.model.objective(&values);
            let bound = (answer.bound + objective - answer.objective).max(early.objective);
            if objective >= early.objective {
                Ok(Answer { values, objective, bound, ..answer })
            } else {
                Ok(Answer { bound, stop: answer.stop, ..early.clone() })
            }
        }
        // The answer at hand is one of those searched.
        Err(EngineError::Infeasible) => Ok(once_more(tight, early, &deadline)),
        Err(EngineError::NoAnswerInTime) => Ok(early.clone()),
        Err(fault) => Err(fault),
    }
}

/// Searches the whole model where the search of the rest lost the answer at hand: a row that it keeps within rounding may
/// not be kept once columns are fixed and rows tightened. Where that finds nothing better, the answer stands without a proof.
fn once_more(tight: &Tight, early: &Answer, deadline: &Deadline) -> Answer {
    let unproven = || Answer { bound: tight.bound.max(early.objective), stop: Stop::WithinGap, ..early.clone() };
    let found = deadline.left().and_then(|left| solve_plain(&tight.model, &left, Some(&early.values)));
    found.ok().filter(|found| found.objective >= early.objective).unwrap_or_else(unproven)
}

/// A whole column that leaves its bound costs at least its reduced cost; where that takes the relaxation below an answer
/// at hand, it stays. Reduced costs come from the dual linear program, which any engine can solve.
fn fix_by_reduced_cost(model: &mut Model, tight: &Tight, at_hand: f64, options: &SolveOptions) {
    let Some(prices) = dual_prices(&tight.model, options) else { return };
    let mut cost: Vec<f64> = tight.model.columns.iter().map(|column| -column.gain).collect();
    let mut bound = 0.0;
    for (row, price) in tight.model.rows.iter().zip(&prices) {
        let sign = row.sign();
        bound += price * sign * row.bound;
        row.terms.iter().for_each(|(column, a)| cost[*column] += price * sign * a);
    }
    // Any non-negative prices give a bound, so an inexact dual solution weakens it but never makes it wrong.
    for (column, cost) in tight.model.columns.iter().zip(&cost) {
        bound -= cost * if *cost > 0.0 { column.lower } else { column.upper };
    }
    let margin = 1e-7 * bound.abs().max(1.0);
    for (column, cost) in model.columns.iter_mut().zip(&cost) {
        let hopeless = column.integer && bound - cost.abs() < at_hand - margin;
        if hopeless && *cost > 0.0 {
            column.upper = column.lower;
        } else if hopeless && *cost < 0.0 {
            column.lower = column.upper;
        }
    }
}

/// Prices of the rows, not negative: `min b'y + sum of what columns earn at their bounds`, as a model of its own.
fn dual_prices(model: &Model, options: &SolveOptions) -> Option<Vec<f64>> {
    let mut dual = Model::default();
    let mut columns: Vec<Vec<(usize, f64)>> = vec![Vec::new(); model.columns.len()];
    let mut shift = vec![0.0; model.rows.len()];
    for (at, row) in model.rows.iter().enumerate() {
        let sign = row.sign();
        for (column, a) in &row.terms {
            columns[*column].push((at, sign * a));
            shift[at] += sign * a * model.columns[*column].lower;
        }
        let cost = sign * row.bound - shift[at];
        dual.column(format!("y{at}"), (0.0, f64::INFINITY), false, -cost);
    }
    for (at, column) in model.columns.iter().enumerate() {
        let width = column.upper - column.lower;
        let mut terms = columns[at].clone();
        if width.is_finite() {
            terms.push((dual.column(format!("w{at}"), (0.0, f64::INFINITY), false, -width), 1.0));
        }
        dual.row("dual", column.name.clone(), terms, Sense::AtLeast, column.gain);
    }
    let answer = microlp::solve(&dual, &SolveOptions { gap: 0.0, ..*options }, None).ok()?;
    Some(answer.values[..model.rows.len()].iter().map(|price| price.max(0.0)).collect())
}
