//! What goes wrong, how often, and what mends it.

use super::{Basis, BySurface, Map, RepairSkill, Style, terms::words};
use crate::units::Hours;

/// Attribute values a bike must have: every attribute must match one of its values. Empty: every bike.
pub type Applies = Map<Vec<String>>;

/// Something that can go wrong on the road.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Part of the bike (key of a system).
    pub system: String,
    /// The bikes it can happen to.
    pub applies: Applies,
    /// The styles of trip that it can happen on; all if there are none.
    pub styles: Vec<Style>,
    /// What it does to the trip if nothing is done.
    pub outcome: Outcome,
    /// How often.
    pub rate: Rate,
    /// How often before evidence was asked, where that differs.
    pub typed: Option<Rate>,
    /// The ways to deal with it.
    pub repairs: Vec<Repair>,
}

impl Failure {
    /// Can it happen on a trip of this style?
    #[must_use]
    pub fn happens_on(&self, style: Style) -> bool {
        self.styles.is_empty() || self.styles.contains(&style)
    }

    /// How often before evidence was asked.
    #[must_use]
    pub fn typed_in(&self) -> &Rate {
        self.typed.as_ref().unwrap_or(&self.rate)
    }
}

/// What an unrepaired failure costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// The bike cannot move: all that being fetched costs.
    Stops,
    /// It moves slowly or unsafely: this share of what being fetched costs.
    Limps(f64),
    /// Comfort, legality, wear: these hours.
    Nags(Hours),
}

impl Outcome {
    /// Hours lost per occurrence when nothing is done, on a leg where being fetched costs so much
    /// ([`Prices::fetched`](super::Prices::fetched)).
    #[must_use]
    pub fn hours_unrepaired(self, fetched: Hours) -> Hours {
        match self {
            Self::Stops => fetched,
            Self::Limps(share) => fetched * share,
            Self::Nags(hours) => hours,
        }
    }
    /// What is charged beside that when nothing is done: only a stop strands.
    #[must_use]
    pub const fn dread(self, dread: Hours) -> Hours {
        match self {
            Self::Stops => dread,
            Self::Limps(_) | Self::Nags(_) => Hours::ZERO,
        }
    }
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stops => "stops",
            Self::Limps(_) => "limps",
            Self::Nags(_) => "nags",
        }
    }
}

/// How often a failure happens: a sum of three parts, each a Poisson mean per exposure.
#[derive(Debug, Clone, PartialEq)]
pub struct Rate {
    /// Expected occurrences per 1000 km, by surface.
    pub per_1000_km: BySurface<f64>,
    /// Expected occurrences per day on the trip.
    pub per_day: f64,
    /// Expected occurrences per fall.
    pub per_fall: f64,
    /// Where the numbers come from.
    pub basis: Basis,
    /// Occurrences that the evidence is worth, for one rider's bike: the shape of a Gamma distribution of the rate.
    pub worth_events: f64,
}

impl Rate {
    /// All parts of it times a factor.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        Self {
            per_1000_km: self.per_1000_km.map(|rate| rate * factor),
            per_day: self.per_day * factor,
            per_fall: self.per_fall * factor,
            ..self.clone()
        }
    }
}

words!(
    /// How good a repair is meant to be.
    Grade { Bodge = "bodge", Field = "field", Full = "full" }
);

/// One way to deal with a failure.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// Key within the failure.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Bodge, field repair or full repair.
    pub grade: Grade,
    /// Functions needed at a time; names may hold `{attribute}`.
    pub needs: Map<u32>,
    /// Stock units used up; names may hold `{attribute}`.
    pub uses: Map<u32>,
    /// Working time.
    pub time: Hours,
    /// 1: as before. 0.6: the bike still costs 40 % of what it would unrepaired.
    pub restores: f64,
    /// The least skill that can do it.
    pub skill: RepairSkill,
    /// How many riders, each on a bike of their own, have to be there; 1: nobody else.
    pub riders: u32,
    /// Where the numbers come from.
    pub basis: Basis,
    /// What is done, in order, in few words each; a reminder, not a manual.
    pub steps: Vec<String>,
    /// What to look at afterwards.
    pub check_after: Vec<String>,
}
