//! What a rate rests on, and the rate that comes of it.

use super::derive::{Derivation, Derived};
use crate::domain::{Basis, BasisKind, Catalogue, Failure, Family, Rate};

/// What one source says about a failure's group.
#[derive(Debug, Clone, PartialEq)]
pub struct Bearing {
    /// Key of the source.
    pub source: String,
    /// What the source is.
    pub name: String,
    /// Occurrences of the group seen.
    pub seen: f64,
    /// Expected by the typed-in rates, bias included.
    pub typed: f64,
    /// Expected by the rates that were worked out.
    pub found: f64,
}

/// What a failure's rate rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Rested {
    /// The group that it is counted in.
    pub group: String,
    /// Factor on the typed-in rates of the group, and on this one.
    pub factors: (f64, f64),
    /// Events that the rate is worth.
    pub worth: f64,
    /// One in twenty is lower than this factor on the mean, one in twenty higher.
    pub width: (f64, f64),
    /// Sources that bear on the group.
    pub bearings: Vec<Bearing>,
}

/// What the rate of a failure rests on; `None`: nothing but what was typed in.
#[must_use]
pub fn rested_on(catalogue: &Catalogue, derivation: &Derivation, failure: &str) -> Option<Rested> {
    let derived = derivation.failures.get(failure)?;
    let pooled = derivation.groups.get(&derived.group)?;
    let bearing = |cell: &super::cell::Cell| Bearing {
        source: cell.source.clone(),
        name: catalogue.evidence.sources.get(&cell.source).map_or_else(String::new, |own| own.name.clone()),
        seen: cell.seen,
        typed: cell.expected,
        found: cell.expected * pooled.factor.mean,
    };
    Some(Rested {
        group: catalogue.evidence.groups.get(&derived.group).map_or_else(String::new, |own| own.name.clone()),
        factors: (pooled.factor.mean, derived.factor),
        worth: derived.worth,
        width: crate::debrief::gamma::width(derived.worth),
        bearings: pooled.cells.iter().map(bearing).collect(),
    })
}

/// The rate of a failure after the evidence, with three figures that count; `None`: no group has it.
#[must_use]
pub fn updated(catalogue: &Catalogue, derivation: &Derivation, failure: &Failure) -> Option<Rate> {
    let derived = derivation.failures.get(&failure.id)?;
    let group = catalogue.evidence.groups.get(&derived.group)?;
    let typed = failure.typed_in();
    let (ridden, fallen) = if group.family == Family::Crash { (1.0, derived.factor) } else { (derived.factor, 1.0) };
    Some(Rate {
        per_1000_km: typed.per_1000_km.map(|rate| rounded(rate * ridden)),
        per_day: rounded(typed.per_day * ridden),
        per_fall: rounded(typed.per_fall * fallen),
        basis: Basis { kind: BasisKind::Evidence, note: note(derivation, derived, &typed.basis) },
        worth_events: rounded(derived.worth),
    })
}

/// What the rate rests on, in a line.
fn note(derivation: &Derivation, derived: &Derived, typed: &Basis) -> String {
    let cells = derivation.groups.get(&derived.group).map_or(&[][..], |own| own.cells.as_slice());
    let (logs, others): (Vec<_>, Vec<_>) = cells.iter().partition(|cell| cell.shape.is_none());
    let seen = logs.iter().fold(0.0, |all, cell| all + cell.seen);
    let beside = if others.is_empty() { String::new() } else { format!(", {} other sources", others.len()) };
    let factor = rounded(derived.factor);
    format!(
        "group {}, {seen} seen in {} trip logs{beside}; {factor} times the typed-in rate ({})",
        derived.group,
        logs.len(),
        typed.kind.opening()
    )
}

/// Three figures that count.
#[must_use]
pub fn rounded(value: f64) -> f64 {
    format!("{value:.2e}").parse().unwrap_or(value)
}

/// A group of events in the overview.
#[derive(Debug, Clone, PartialEq)]
pub struct Overview {
    /// Key of the group.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Where its typed-in rates come from.
    pub family: Family,
    /// Trip logs that bear on it, and other sources.
    pub sources: (usize, usize),
    /// Occurrences in the trip logs.
    pub seen: f64,
    /// Expected in them by the typed-in rates.
    pub typed: f64,
    /// Expected in them by the rates worked out.
    pub found: f64,
    /// Factor on the typed-in rates, with what it lies between nine times out of ten.
    pub factor: (f64, f64, f64),
    /// Shape of the factor by which one log differs from another.
    pub scatter: f64,
}

/// All groups, as they are in the catalogue.
#[must_use]
pub fn overview(catalogue: &Catalogue, derivation: &Derivation) -> Vec<Overview> {
    let one = |(id, pooled): (&String, &super::derive::Pooled)| {
        let group = catalogue.evidence.groups.get(id)?;
        let logs = || pooled.cells.iter().filter(|cell| cell.shape.is_none());
        let typed = logs().fold(0.0, |all, cell| all + cell.expected);
        let mean = pooled.factor.mean;
        let (low, high) = crate::debrief::gamma::width(pooled.factor.shape);
        Some(Overview {
            id: id.clone(),
            name: group.name.clone(),
            family: group.family,
            sources: (logs().count(), pooled.cells.len() - logs().count()),
            seen: logs().fold(0.0, |all, cell| all + cell.seen),
            typed,
            found: typed * mean,
            factor: (mean, mean * low, mean * high),
            scatter: pooled.scatter,
        })
    };
    derivation.groups.iter().filter_map(one).collect()
}

/// Falls on each surface after the evidence; `None`: nothing bears on them.
#[must_use]
pub fn falls(catalogue: &Catalogue, derivation: &Derivation) -> Option<Rate> {
    let derived = derivation.falls.as_ref()?;
    let typed = catalogue.model.typed_falls();
    Some(Rate {
        per_1000_km: typed.map(|rate| rounded(rate * derived.factor)),
        per_day: 0.0,
        per_fall: 0.0,
        basis: Basis { kind: BasisKind::Evidence, note: note(derivation, derived, &catalogue.model.basis) },
        worth_events: rounded(derived.worth),
    })
}
