//! Evidence as written: sources, groups of events, how to read them.

use super::{Surfaces, Text};
use crate::domain::{Basis, Family, Map, SourceKind};
use crate::load::numbers::{Amount, Factor, Share};
use schemars::JsonSchema;
use serde::Deserialize;

/// A published count of things that went wrong.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct EvidenceShape {
    /// What it is, in a few words.
    pub name: Option<String>,
    /// What sort of source.
    pub kind: Option<SourceKind>,
    /// Kilometres of all bikes together; of a life test, of one life.
    pub km: Option<Amount>,
    /// Shares of the surfaces, where known.
    pub mix: Option<Surfaces<Share>>,
    /// Days of all bikes together, where told.
    pub days: Option<Amount>,
    /// Bikes, where told.
    pub bikes: Option<Amount>,
    /// Occurrences by group of events or by failure.
    pub counts: Option<Map<Amount>>,
    /// It tells of everything that broke, so that what is not counted did not happen.
    pub whole: Option<bool>,
    /// Groups that it does not tell of although it is whole.
    pub silent_on: Option<Vec<Text>>,
    /// For each group, how many are counted for one that shows under way.
    pub bias: Option<Map<Factor>>,
    /// Its counts are off by less than this factor in nine cases out of ten; left out for trip logs.
    pub within: Option<Factor>,
    /// Group that the exposure is worked out from, where there is none.
    pub relative_to: Option<String>,
    /// What it cannot see.
    pub blind: Option<String>,
    /// Kept for checking: nothing is worked out from it.
    pub held_out: Option<bool>,
    /// Where it was published.
    pub basis: Option<Basis>,
}

/// Failures that people count as one sort of event.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct EventGroupShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// The system that it is counted under; falls have none.
    pub system: Option<String>,
    /// Where the typed-in rates come from.
    pub family: Option<Family>,
    /// Ids of the failures; falls have none.
    pub failures: Option<Vec<Text>>,
    /// Even logs that tell of everything that broke pass over it: only those that name it bear on it.
    pub seldom_told: Option<bool>,
}

/// How evidence is read where it does not say.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ReadingShape {
    /// Ids of bikes that stand for those of the sources.
    pub bikes: Option<Vec<Text>>,
    /// Shares of the surfaces.
    pub mix: Option<Surfaces<Share>>,
    /// Kilometres in a day of travel.
    pub km_per_day: Option<Amount>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}
