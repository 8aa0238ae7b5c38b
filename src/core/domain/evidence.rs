//! What was seen on the road, in workshops and by the roadside: the sources that rates are worked out from.

use super::{Basis, BySurface, Map, terms::words};

words!(
    /// What sort of source it is, which decides how its counts are read.
    SourceKind {
        TripLog = "trip log", CallOuts = "call-outs", Inspections = "inspections", LifeTest = "life test",
        Survey = "survey",
    }
);

words!(
    /// How a group is counted and where its typed-in rates come from: workshop repairs of an owner survey, or memory; damage
    /// is counted by the fall, falls by the distance, both from memory.
    Family { Survey = "survey", Memory = "memory", Crash = "crash", Falls = "falls" }
);

impl Family {
    /// Were the typed-in rates of both written down on the same ground, so that they are likely to be wrong by a like factor?
    #[must_use]
    pub const fn is_akin_to(self, other: Self) -> bool {
        matches!(self, Self::Survey) == matches!(other, Self::Survey)
    }
}

/// A published count of things that went wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidenceSource {
    /// Key in the catalogue.
    pub id: String,
    /// What it is, in a few words.
    pub name: String,
    /// What sort of source.
    pub kind: SourceKind,
    /// Kilometres of all bikes together; of a life test, of one life. 0: not known.
    pub km: f64,
    /// Shares of the surfaces; `None`: not known, so the usual mix.
    pub mix: Option<BySurface<f64>>,
    /// Days of all bikes together, where told.
    pub days: Option<f64>,
    /// Bikes, where told.
    pub bikes: Option<f64>,
    /// Occurrences by group of events or by failure.
    pub counts: Map<f64>,
    /// Does it tell of everything that broke, so that what is not among the counts did not happen?
    pub whole: bool,
    /// Groups that it does not tell of although it is whole.
    pub silent_on: Vec<String>,
    /// For each group, how many are counted for one that shows under way; 1 if left out.
    pub bias: Map<f64>,
    /// Its counts are off by less than this factor in nine cases out of ten; `None`: logs, which tell by their scatter.
    pub within: Option<f64>,
    /// The group that its exposure is worked out from, where it states none.
    pub relative_to: Option<String>,
    /// What it cannot see.
    pub blind: String,
    /// Kept for checking: nothing is worked out from it.
    pub held_out: bool,
    /// Where it was published.
    pub basis: Basis,
}

/// Failures that people count as one sort of event.
#[derive(Debug, Clone, PartialEq)]
pub struct EventGroup {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// The system that it is counted under (key of a system); falls have none.
    pub system: Option<String>,
    /// Where the typed-in rates come from.
    pub family: Family,
    /// Keys of the failures; falls have none.
    pub failures: Vec<String>,
    /// Do logs that tell of everything that broke pass over it, so that only those that name it say something?
    pub seldom_told: bool,
}

/// How sources are read where they do not say.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Bikes that stand for those of the sources (keys of bikes), all alike often.
    pub bikes: Vec<String>,
    /// Shares of the surfaces.
    pub mix: BySurface<f64>,
    /// Kilometres in a day of travel.
    pub km_per_day: f64,
    /// Where the numbers come from.
    pub basis: Basis,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Evidence {
    /// Sources.
    pub sources: Map<EvidenceSource>,
    /// Groups of events.
    pub groups: Map<EventGroup>,
    /// How sources are read where they do not say; without it nothing is worked out.
    pub reading: Option<Reading>,
}
