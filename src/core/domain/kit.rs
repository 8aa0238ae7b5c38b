//! What is decided: which items, how many, in which bag.

use super::{Catalogue, Map};
use crate::units::{Mass, Volume};

/// The chosen items with counts; only counts above zero are kept, in catalogue order.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Kit(Map<u32>);

/// Which bag each unit goes into: bag key, then item key, then count.
pub type Stowage = Map<Map<u32>>;

impl Kit {
    /// From item keys and counts; zero counts are dropped.
    pub fn new(counts: impl IntoIterator<Item = (String, u32)>) -> Self {
        Self(counts.into_iter().filter(|(_, count)| *count > 0).collect())
    }
    /// How many of this item.
    #[must_use]
    pub fn count(&self, item: &str) -> u32 {
        self.0.get(item).copied().unwrap_or(0)
    }
    /// Item keys and counts.
    pub fn iter(&self) -> impl Iterator<Item = (&str, u32)> {
        self.0.iter().map(|(item, count)| (item.as_str(), *count))
    }
    /// Number of different items.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }
    /// Nothing chosen?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// Total mass; items the catalogue lacks weigh nothing.
    #[must_use]
    pub fn mass(&self, catalogue: &Catalogue) -> Mass {
        self.iter().filter_map(|(id, n)| Some(catalogue.items.get(id)?.mass * n)).sum()
    }
    /// Total packed volume; items the catalogue lacks take no room.
    #[must_use]
    pub fn volume(&self, catalogue: &Catalogue) -> Volume {
        self.iter().filter_map(|(id, n)| Some(catalogue.items.get(id)?.volume * n)).sum()
    }
}
