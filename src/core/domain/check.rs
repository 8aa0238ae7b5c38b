//! What is looked at on the bike before every trip, whatever the numbers say.

use super::{Applies, Basis, Bike, Catalogue};
use crate::serial::Shown;
use schemars::JsonSchema;
use serde::Serialize;

/// Something to look at before leaving. It has no minutes and no price: it is never ranked and never left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Check {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// The bikes that it is about.
    #[serde(skip)]
    pub applies: Applies,
    /// What to look at, and what good looks like.
    pub look: String,
    /// When the bike is not ridden.
    pub stop: String,
    /// What the manual decides.
    pub defer: String,
    /// Where it comes from.
    #[serde(with = "Shown")]
    pub basis: Basis,
}

impl Catalogue {
    /// All checks that are about a bike, in the order of the files.
    pub fn checks_of<'a>(&'a self, bike: &'a Bike) -> impl Iterator<Item = &'a Check> {
        self.checks.values().filter(|check| bike.matches(&check.applies))
    }
}
