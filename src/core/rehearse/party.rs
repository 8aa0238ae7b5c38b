//! Who rides what with which things aboard, as plain numbers: all that a rehearsal needs to know.
//!
//! Members of a party share the items and stocks; each has a bike with faults of its own. Hours are whole microhours
//! here, so that sums come out the same in whatever order they are added up.

use crate::units::Hours;
use serde::Serialize;

/// Time in millionths of an hour, 3.6 ms.
pub type Microhours = u64;

/// Microhours in an hour.
pub const PER_HOUR: f64 = 1e6;

/// The nearest whole number of microhours.
pub(super) fn microhours(hours: Hours) -> Microhours {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "hours are not negative; `as` saturates"
    )]
    let whole = (hours.get().max(0.0) * PER_HOUR).round() as Microhours;
    whole
}

/// A party, its trip and its kit.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Party {
    /// Days of each leg, in riding order.
    pub days: Vec<f64>,
    /// Who rides.
    pub members: Vec<Member>,
    /// What can go wrong. Members whose bikes share a failure share its rate, also where it is drawn.
    pub troubles: Vec<Trouble>,
    /// What is aboard.
    pub items: Vec<Aboard>,
    /// What is aboard to be used up.
    pub stocks: Vec<Stock>,
}

impl Party {
    /// Expected breakdowns and falls on a trip.
    #[must_use]
    pub fn happenings(&self) -> f64 {
        let of_member = |member: &Member| {
            let falls: f64 = member.falls.iter().sum();
            let of_fault = |fault: &Fault| fault.riding.iter().sum::<f64>() + falls * fault.per_fall;
            falls + member.faults.iter().map(of_fault).sum::<f64>()
        };
        self.members.iter().map(of_member).sum()
    }
}

/// A failure of the catalogue.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Does it stop the bike?
    pub stops: bool,
    /// Occurrences that the evidence for its rate is worth: the shape of the Gamma distribution of the rate. `None`:
    /// the rate is taken as known.
    pub evidence: Option<f64>,
}

/// An item in the kit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Aboard {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Carried because the trip demands it, so that it is used whatever breaks.
    pub for_the_trip: bool,
    /// Carried because the rider asked for it.
    pub asked_for: bool,
    /// Items without which this one is useless.
    pub with: Vec<usize>,
}

/// Something that is used up.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stock {
    /// Key in the catalogue.
    pub id: String,
    /// Units aboard.
    pub units: u32,
    /// The items that hold them, in the order in which they are used up, with the units held by all of one item.
    pub holders: Vec<(usize, u32)>,
}

/// One rider with a bike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Member {
    /// What they are called.
    pub name: String,
    /// Expected falls on each leg with this kit aboard.
    pub falls: Vec<f64>,
    /// Share of those falls that the kit's weight brings.
    pub owed_to_weight: f64,
    /// What a fall costs, breakage apart.
    pub per_fall: Microhours,
    /// What can break: one fault at most for each trouble.
    pub faults: Vec<Fault>,
}

/// A failure on one member's bike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fault {
    /// Number of the trouble.
    pub trouble: usize,
    /// Expected occurrences on each leg, falls apart.
    pub riding: Vec<f64>,
    /// Expected occurrences in one fall.
    pub per_fall: f64,
    /// What it costs on each leg if nothing is done.
    pub unrepaired: Vec<Microhours>,
    /// The repairs that the functions aboard allow.
    pub repairs: Vec<Mending>,
}

/// A repair that the functions aboard allow.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Mending {
    /// Stock number and units used up.
    pub uses: Vec<(usize, u32)>,
    /// Items whose functions it takes.
    pub items: Vec<usize>,
    /// What the occurrence costs on each leg with this repair: working time and what it does not restore. `None`: too few
    /// riders are there for it.
    pub costs: Vec<Option<Microhours>>,
    /// By leg: does it save more than it takes, dread of being stranded counted?
    pub worth: Vec<bool>,
}
