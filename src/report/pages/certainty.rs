//! How certain the figures are: where the numbers behind the answer come from, and how far the proof goes.

use crate::told::Rows;
use fardel_core::answer::RiskLine;
use fardel_core::domain::{Basis, BasisKind, Catalogue};
use fardel_words::{say, word};
use std::collections::BTreeSet;

/// How many entries of the catalogue behind an answer rest on what.
pub(super) fn bases<'a>(
    catalogue: &Catalogue,
    items: impl Iterator<Item = &'a str>,
    bags: impl Iterator<Item = &'a str>,
    risks: &[RiskLine],
) -> Rows {
    let items: BTreeSet<&str> = items.collect();
    let bags: BTreeSet<&str> = bags.collect();
    let items: Vec<&Basis> = items.iter().filter_map(|id| Some(&catalogue.items.get(*id)?.basis)).collect();
    let bags: Vec<&Basis> = bags.iter().filter_map(|id| Some(&catalogue.bags.get(*id)?.basis)).collect();
    let risks: Vec<&Basis> =
        risks.iter().filter_map(|risk| Some(&catalogue.failures.get(&risk.id)?.rate.basis)).collect();
    let count = |all: &[&Basis], kind| all.iter().filter(|basis| basis.kind == kind).count();
    let row = |kind: BasisKind| {
        let counts = [count(&items, kind), count(&bags, kind), count(&risks, kind)];
        let cells = std::iter::once(kind.opening().to_owned()).chain(counts.map(|n| n.to_string()));
        (counts.iter().sum::<usize>() > 0).then(|| cells.collect())
    };
    Rows::new(
        &[word!("Basis"), "#things", "#bags", "#failure rates"],
        BasisKind::ALL.into_iter().filter_map(row).collect(),
    )
}

/// How far the proof goes, in figures.
pub(super) fn proof(objective: f64, bound: f64, gap: f64) -> String {
    say!(
        "Saved less what the weight costs: {objective:.3} h; no kit can do better than {:.3} h, a gap of {:.2} %.",
        bound.max(objective),
        gap * 100.0
    )
}
