//! Would the rates have foretold a log that they do not know?

use super::cell::Cell;
use super::derive::derive;
use crate::debrief::gamma::Belief;
use crate::domain::{Catalogue, EventGroup, Map, SourceKind};

/// A system's occurrences in all logs against what the other logs foretell for each.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Foretold {
    /// Occurrences in the logs.
    pub seen: f64,
    /// Expected, each log by the others.
    pub expected: f64,
    /// Variance of what is foretold.
    pub variance: f64,
}

impl Foretold {
    /// One in twenty is lower, one in twenty higher: a Gamma distribution of that mean and variance, rounded outwards to
    /// whole counts.
    #[must_use]
    pub fn interval(&self) -> (f64, f64) {
        let belief = Belief::with_moments(self.expected, self.variance);
        (belief.quantile(0.05).floor(), belief.quantile(0.95).ceil())
    }

    /// Is what was seen in the interval?
    #[must_use]
    pub fn holds(&self) -> bool {
        let (low, high) = self.interval();
        (low..=high).contains(&self.seen)
    }
}

/// For each system, every log foretold without it and added up. A log's count of a group has the mean `theta E` and the
/// variance of a Poisson number whose mean has the scatter of logs and the width of `theta`.
#[must_use]
pub fn leave_one_out(catalogue: &Catalogue) -> Map<Foretold> {
    let mut systems: Map<Foretold> = Map::new();
    let whole = derive(catalogue, None);
    let sources = catalogue.evidence.sources.values();
    for log in sources.filter(|source| source.kind == SourceKind::TripLog && !source.held_out) {
        let without = derive(catalogue, Some(&log.id));
        for group in catalogue.evidence.groups.values() {
            let (Some(system), Some(pooled), Some(known)) =
                (system(group), whole.groups.get(&group.id), without.groups.get(&group.id))
            else {
                continue;
            };
            let Some(cell) = pooled.cells.iter().find(|cell| cell.source == log.id) else { continue };
            let sum = systems.entry(system.to_owned()).or_default();
            add(sum, cell, known.factor.mean, (1.0 + known.factor.shape.recip()) * (1.0 + known.scatter.recip()) - 1.0);
        }
    }
    systems
}

fn system(group: &EventGroup) -> Option<&str> {
    group.system.as_deref()
}

fn add(sum: &mut Foretold, cell: &Cell, factor: f64, spread: f64) {
    let mean = factor * cell.expected;
    sum.seen += cell.seen;
    sum.expected += mean;
    sum.variance += mean + mean * mean * spread;
}
