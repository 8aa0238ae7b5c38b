//! A ride that is over: how far, what broke, what was used.

use super::{BySurface, Map, RidingSkill};
use crate::units::{Distance, Mass};

/// A ride that is over.
#[derive(Debug, Clone, PartialEq)]
pub struct Ride {
    /// What the rider calls it; no two rides have the same name.
    pub name: String,
    /// Who rode; `None`: the owner of the book.
    pub rider: Option<String>,
    /// Key of the bike.
    pub bike: String,
    /// Distance by surface.
    pub km: BySurface<Distance>,
    /// Days under way.
    pub days: f64,
    /// Falls.
    pub falls: u32,
    /// How well the rider rides off the seal, as the scenarios say it.
    pub riding_skill: RidingSkill,
    /// What the kit weighed, where it was weighed.
    pub kit_mass: Option<Mass>,
    /// Preparations done before.
    pub done: Vec<String>,
    /// Failures, with how often each happened.
    pub broke: Map<u32>,
    /// Items carried, with counts.
    pub carried: Map<u32>,
    /// Items used, with how often.
    pub used: Map<u32>,
    /// Items that would have helped and were not there.
    pub missed: Map<u32>,
}

impl Ride {
    /// The whole distance.
    #[must_use]
    pub fn distance(&self) -> Distance {
        self.km.iter().map(|(_, km)| km).sum()
    }
}
