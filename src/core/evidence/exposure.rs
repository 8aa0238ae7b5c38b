//! What a source would have counted by the typed-in rates.

use super::cell::{Cell, shape_within};
use crate::domain::{BySurface, Catalogue, EventGroup, EvidenceSource, Failure, Family, Reading, SourceKind, Surface};

/// Reads the sources of a catalogue.
#[derive(Clone, Copy)]
pub struct Reader<'a> {
    /// The catalogue.
    pub catalogue: &'a Catalogue,
    /// How sources are read where they do not say.
    pub reading: &'a Reading,
}

impl Reader<'_> {
    /// Share of the bikes that stand for those of the sources which can have a failure.
    #[must_use]
    pub fn reach(&self, failure: &Failure) -> f64 {
        let bikes = self.reading.bikes.iter().filter_map(|id| self.catalogue.bikes.get(id));
        let (all, able) = bikes.fold((0.0, 0.0), |(all, able), bike| {
            (all + 1.0, able + if bike.matches(&failure.applies) { 1.0 } else { 0.0 })
        });
        if all > 0.0 { able / all } else { 0.0 }
    }

    /// Failures of a group.
    pub fn failures<'b>(&'b self, group: &'b EventGroup) -> impl Iterator<Item = &'b Failure> {
        group.failures.iter().filter_map(|id| self.catalogue.failures.get(id))
    }

    /// What a source says about a group, for what it counts with its own exposure; `None`: nothing.
    #[must_use]
    pub fn cell(&self, source: &EvidenceSource, group: &EventGroup) -> Option<Cell> {
        let seen = Self::seen(source, group)?;
        let expected = self.expected(source, group)? * source.bias.get(&group.id).copied().unwrap_or(1.0);
        (expected > 0.0).then(|| Cell {
            source: source.id.clone(),
            seen,
            expected,
            shape: source.within.map(shape_within),
            life: source.kind == SourceKind::LifeTest,
        })
    }

    /// Occurrences of a group that a source counts.
    fn seen(source: &EvidenceSource, group: &EventGroup) -> Option<f64> {
        let keys = || std::iter::once(&group.id).chain(group.failures.iter().filter(|id| **id != group.id));
        let told = keys().any(|key| source.counts.contains_key(key));
        let whole = source.whole && !group.seldom_told && !source.silent_on.contains(&group.id);
        let bears = source.kind != SourceKind::Survey && (told || whole);
        bears.then(|| keys().filter_map(|key| source.counts.get(key)).fold(0.0, |all, own| all + own))
    }

    /// Occurrences of a group expected by the typed-in rates; `None`: it happens in falls, which were not counted.
    fn expected(&self, source: &EvidenceSource, group: &EventGroup) -> Option<f64> {
        let km = self.km(source);
        match group.family {
            Family::Falls => Some(on_road(self.catalogue.model.typed_falls(), km)),
            Family::Crash => {
                let falls = self.falls(source)?;
                Some(self.failures(group).map(|own| self.reach(own) * own.typed_in().per_fall * falls).sum())
            }
            Family::Survey | Family::Memory => {
                let days = source.days.unwrap_or(source.km / self.reading.km_per_day);
                let of = |own: &Failure| on_road(own.typed_in().per_1000_km, km) + own.typed_in().per_day * days;
                Some(self.failures(group).map(|own| self.reach(own) * of(own)).sum())
            }
        }
    }

    fn km(&self, source: &EvidenceSource) -> BySurface<f64> {
        source.mix.unwrap_or(self.reading.mix).map(|share| share * source.km)
    }

    /// Falls that a source counted.
    fn falls(&self, source: &EvidenceSource) -> Option<f64> {
        let mut groups = self.catalogue.evidence.groups.values();
        let falls = groups.find(|group| group.family == Family::Falls)?;
        source.counts.get(&falls.id).copied()
    }

    /// Times in 1000 km of the usual mix, by rates on each surface.
    #[must_use]
    pub fn on_the_mix(&self, per_1000_km: BySurface<f64>) -> f64 {
        on_road(per_1000_km, self.reading.mix.map(|share| share * 1000.0))
    }
}

fn on_road(per_1000_km: BySurface<f64>, km: BySurface<f64>) -> f64 {
    Surface::ALL.iter().map(|surface| per_1000_km.on(*surface) * km.on(*surface) / 1000.0).sum()
}
