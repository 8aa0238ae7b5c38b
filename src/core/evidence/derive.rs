//! From sources to rates.
//!
//! Typed-in rates say how a failure rises from sealed roads to rough ground and how it stands to the others of its group;
//! sources say how often the group as a whole comes. For each group a factor on its typed-in rates is worked out:
//!
//! 1. what each source says about each group ([`super::exposure`]),
//! 2. how far logs differ beyond chance, for each group and its family ([`super::scatter`]),
//! 3. the factor of each group, together with the others of its family ([`super::hierarchy`]): a group that few sources
//!    bear on leans on what is found for rates that were typed in on the same ground,
//! 4. sources without an exposure of their own, such as call-outs, by the group that they are relative to,
//! 5. shares within the group ([`super::shares`]).
//!
//! What is known about *one* rider's bike is less than what is known about the mean of all: its factor has the variance of
//! the mean factor, of the share, and of the scatter between logs. With squared coefficients of variation `1/s` and `1/a`
//! and `v`, `worth = 1 / ((1 + 1/s) (1 + 1/a) (1 + v) - 1)` is the shape of a Gamma distribution of the same mean and
//! variance; it is never taken to be less than [`LEAST`].

use super::cell::Cell;
use super::exposure::Reader;
use super::grid::{self, Moments};
use super::{hierarchy, scatter, shares};
use crate::domain::{Catalogue, EventGroup, EvidenceSource, Family, Map};

/// What any rate is worth at least, in events: with less, a single event would multiply it by more than four.
pub const LEAST: f64 = 0.3;

/// What is known about a group of events.
#[derive(Debug, Clone, PartialEq)]
pub struct Pooled {
    /// What each source says.
    pub cells: Vec<Cell>,
    /// Factor on the typed-in rates.
    pub factor: Moments,
    /// Shape of the factor by which logs differ.
    pub scatter: f64,
}

/// What is known about a failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// Key of its group.
    pub group: String,
    /// Factor on its typed-in rate.
    pub factor: f64,
    /// Events that the rate is worth.
    pub worth: f64,
}

/// What comes of all the evidence.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Derivation {
    /// By key of the group.
    pub groups: Map<Pooled>,
    /// By key of the failure.
    pub failures: Map<Derived>,
    /// Falls.
    pub falls: Option<Derived>,
}

/// Works the rates out; without [`crate::domain::Reading`], nothing. `left_out` is the key of a source to do without.
#[must_use]
pub fn derive(catalogue: &Catalogue, left_out: Option<&str>) -> Derivation {
    let Some(reading) = &catalogue.evidence.reading else { return Derivation::default() };
    let reader = Reader { catalogue, reading };
    let usable = |source: &&EvidenceSource| !source.held_out && left_out != Some(source.id.as_str());
    let sources: Vec<&EvidenceSource> = catalogue.evidence.sources.values().filter(usable).collect();
    let (relative, direct): (Vec<_>, Vec<_>) = sources.into_iter().partition(|source| source.relative_to.is_some());
    let cells = |group: &EventGroup| direct.iter().filter_map(|source| reader.cell(source, group)).collect();
    let mut all: Map<Vec<Cell>> =
        catalogue.evidence.groups.values().map(|group| (group.id.clone(), cells(group))).collect();
    let first = pooled(catalogue, &all);
    for source in relative {
        add_relative(&reader, source, &first, &mut all);
    }
    let groups = pooled(catalogue, &all);
    let mut failures = Map::new();
    let mut falls = None;
    for group in catalogue.evidence.groups.values() {
        let Some(own) = groups.get(&group.id) else { continue };
        if group.family == Family::Falls {
            falls = Some(Derived {
                group: group.id.clone(),
                factor: own.factor.mean,
                worth: worth(own.factor.shape, own.scatter, 0.0),
            });
        }
        failures.extend(of_group(&reader, group, own, &direct));
    }
    Derivation { groups, failures, falls }
}

/// What a source says of groups whose exposure follows from one that is known.
fn add_relative(reader: &Reader<'_>, source: &EvidenceSource, known: &Map<Pooled>, all: &mut Map<Vec<Cell>>) {
    let groups = &reader.catalogue.evidence.groups;
    let cell = |id: &str| reader.cell(source, groups.get(id)?);
    let Some(by) = source.relative_to.as_deref() else { return };
    let (Some(own), Some(factor)) = (cell(by), known.get(by)) else { return };
    let scale = own.seen / (own.expected * factor.factor.mean);
    for (id, cells) in all.iter_mut().filter(|(id, _)| id.as_str() != by) {
        if let Some(cell) = cell(id) {
            cells.push(Cell { expected: cell.expected * scale, ..cell });
        }
    }
}

/// Factors of all groups, family by family.
fn pooled(catalogue: &Catalogue, all: &Map<Vec<Cell>>) -> Map<Pooled> {
    let factors = grid::values();
    let scatters = scatters(catalogue, all);
    let mut found = Map::new();
    for family in [Family::Survey, Family::Memory] {
        let akin = catalogue.evidence.groups.values().filter(|group| group.family.is_akin_to(family));
        let groups: Vec<(&EventGroup, &[Cell], f64)> =
            akin.map(|group| (group, cells_of(all, group), scatters.get(&group.id).copied().unwrap_or(1.0))).collect();
        let likelihood = |(_, cells, scatter): &(&EventGroup, &[Cell], f64)| -> Vec<f64> {
            let at = |factor: &f64| cells.iter().map(|cell| cell.log_likelihood(*factor, *scatter)).sum();
            factors.iter().map(at).collect()
        };
        let hierarchy = hierarchy::pooled(&groups.iter().map(likelihood).collect::<Vec<_>>());
        for ((group, cells, scatter), factor) in groups.into_iter().zip(hierarchy.groups) {
            found.insert(group.id.clone(), Pooled { cells: cells.to_vec(), factor, scatter });
        }
    }
    catalogue.evidence.groups.keys().filter_map(|id| found.swap_remove_entry(id)).collect()
}

fn cells_of<'a>(all: &'a Map<Vec<Cell>>, group: &EventGroup) -> &'a [Cell] {
    all.get(&group.id).map_or(&[], Vec::as_slice)
}

/// How far logs differ, by key of the group. Riders differ in falls as they do not in what breaks, so each family is on its own.
fn scatters(catalogue: &Catalogue, all: &Map<Vec<Cell>>) -> Map<f64> {
    let of_family = |family: &Family| {
        let own = catalogue.evidence.groups.values().filter(|group| group.family == *family).collect::<Vec<_>>();
        let cells: Vec<&[Cell]> = own.iter().map(|group| cells_of(all, group)).collect();
        own.into_iter().map(|group| group.id.clone()).zip(scatter::shapes(&cells)).collect::<Vec<_>>()
    };
    Family::ALL.iter().flat_map(of_family).collect()
}

/// What is known about each failure of a group.
fn of_group<'a>(
    reader: &Reader<'_>,
    group: &'a EventGroup,
    pooled: &Pooled,
    sources: &[&EvidenceSource],
) -> Vec<(String, Derived)> {
    let logs = sources.iter().filter(|source| source.within.is_none());
    let counted = |id: &str| logs.clone().filter_map(|source| source.counts.get(id)).sum::<f64>();
    let typed = |id: &'a String| {
        let failure = reader.catalogue.failures.get(id)?;
        let rate = failure.typed_in();
        let typed = match group.family {
            Family::Crash => rate.per_fall,
            _ => reader.on_the_mix(rate.per_1000_km) + rate.per_day * 1000.0 / reader.reading.km_per_day,
        };
        Some((id, typed * reader.reach(failure)))
    };
    let failures: Vec<(&'a String, f64)> = group.failures.iter().filter_map(typed).collect();
    let prior = shares::prior(&failures.iter().map(|(_, typed)| *typed).collect::<Vec<_>>());
    let all: f64 = prior.iter().sum();
    let found = shares::after(&prior, &failures.iter().map(|(id, _)| counted(id)).collect::<Vec<_>>());
    let one = |(((id, _), before), share): (((&String, f64), &f64), &shares::Share)| {
        // What none of the bikes of the sources can have follows its group.
        let moved = if *before > 0.0 { share.mean * all / before } else { 1.0 };
        let worth = worth(pooled.factor.shape, pooled.scatter, share.spread);
        (id.clone(), Derived { group: group.id.clone(), factor: pooled.factor.mean * moved, worth })
    };
    failures.iter().copied().zip(&prior).zip(&found).map(one).collect()
}

/// Events that a factor with this shape, scatter and spread of the share is worth for one rider's bike.
fn worth(shape: f64, scatter: f64, spread: f64) -> f64 {
    let variance = (1.0 + shape.recip()) * (1.0 + scatter.recip()) * (1.0 + spread) - 1.0;
    variance.recip().max(LEAST)
}
