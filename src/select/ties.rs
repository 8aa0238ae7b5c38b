//! Kits that save equally much are told apart by rule: the lighter, then the cheaper, then the earlier in the
//! catalogue. Each rule is one more solve with the earlier results held as rows.

use super::Columns;
use crate::engine::{self, Answer, Effort, Model, Sense, Stop};
use crate::resolve::Case;
use crate::risk::{Stakes, value};

/// Objectives closer than this (relative to their size) are ties.
const TIE: f64 = 1e-9;

/// The counts to settle on. A rule is applied only to a proven optimum: before that, there is no tie to speak of.
/// Whatever a rule proposes is kept only if its value, computed without the model, is not below the first answer's.
pub(super) fn break_ties(
    model: &Model,
    columns: &Columns,
    case: &Case,
    stakes: &Stakes,
    first: &Answer,
    effort: &Effort,
) -> Vec<u32> {
    let mut counts = columns.counts(first);
    if first.stop != Stop::Proven {
        return counts;
    }
    let mut held = model.clone();
    let best = value(case, stakes, &counts).objective();
    let slack = TIE * best.abs().max(1.0);
    let gains = held.columns.iter().enumerate().filter(|(_, c)| c.gain != 0.0).map(|(at, c)| (at, c.gain)).collect();
    held.row("tie", "hours".to_owned(), gains, Sense::AtLeast, first.objective - slack);
    for rule in [Rule::Lighter, Rule::Cheaper, Rule::Earlier] {
        let weights: Vec<f64> = (0..case.items.len()).map(|item| rule.weight(case, item)).collect();
        held.columns.iter_mut().for_each(|column| column.gain = 0.0);
        for (n, weight) in columns.n.iter().zip(&weights) {
            held.columns[*n].gain = -weight;
        }
        let Ok(answer) = engine::solve(&held, effort) else { return counts };
        let proposed = columns.counts(&answer);
        if answer.stop != Stop::Proven || value(case, stakes, &proposed).objective() < best - slack {
            return counts;
        }
        if total(&weights, &proposed) < total(&weights, &counts) {
            counts = proposed;
        }
        if rule == Rule::Lighter && !has_twins(case, &counts) {
            return counts;
        }
        let terms = columns.n.iter().zip(&weights).map(|(n, weight)| (*n, *weight)).collect();
        held.row("tie", format!("{rule:?}"), terms, Sense::AtMost, total(&weights, &counts) + 1e-6);
    }
    counts
}

fn total(weights: &[f64], counts: &[u32]) -> f64 {
    weights.iter().zip(counts).map(|(weight, count)| weight * f64::from(*count)).sum()
}

/// Is there an item outside the kit that weighs exactly as much as one inside? Only then can equal masses hide a
/// cheaper or earlier kit of the same shape.
fn has_twins(case: &Case, counts: &[u32]) -> bool {
    let inside = case.items.iter().zip(counts).filter(|(_, count)| **count > 0);
    inside.into_iter().any(|(item, _)| {
        let spare = case.items.iter().zip(counts).filter(|(other, count)| **count < other.at_most);
        spare.into_iter().any(|(other, _)| other.id != item.id && other.mass == item.mass && alike(item, other))
    })
}

/// Two items that could stand in for each other give something in common.
fn alike(a: &crate::resolve::CaseItem, b: &crate::resolve::CaseItem) -> bool {
    a.provides.iter().any(|(f, _)| b.provides.iter().any(|(g, _)| f == g))
        || a.holds.iter().any(|(f, _)| b.holds.iter().any(|(g, _)| f == g))
        || a.meets.iter().any(|(f, _)| b.meets.iter().any(|(g, _)| f == g))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Rule {
    Lighter,
    Cheaper,
    Earlier,
}

impl Rule {
    #[allow(clippy::cast_precision_loss, reason = "a few hundred items")]
    fn weight(self, case: &Case, item: usize) -> f64 {
        match self {
            Self::Lighter => case.items[item].mass.grams(),
            Self::Cheaper => case.items[item].price.units(),
            Self::Earlier => item as f64 + 1.0,
        }
    }
}
