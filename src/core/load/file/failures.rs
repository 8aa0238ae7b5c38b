//! Failures, repairs, preparations and checks as written.

use super::{Counted, OneOrMany, Surfaces, Text};
use crate::domain::{Basis, Grade, Map, PreparationType, RepairSkill, Style};
use crate::load::numbers::{Amount, Events, Factor, Riders, Share};
use crate::load::quantity::Price;
use crate::load::words::OutcomeWord;
use crate::units::{Hours, Mass};
use schemars::JsonSchema;
use serde::Deserialize;

/// Something that can go wrong.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct FailureShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// Takes over from this failure what is not stated.
    pub like: Option<String>,
    /// The part of the bike.
    pub system: Option<String>,
    /// Attributes that must all match; every bike if left out.
    pub applies: Option<Map<OneOrMany>>,
    /// Trips of these styles only, such as `[camping]`; all if left out.
    pub styles: Option<Vec<Style>>,
    /// What it does to the bike: it stops, limps (with `limps_share`) or nags (with `nags_hours`).
    pub outcome: Option<OutcomeWord>,
    /// Share of the hours to help that it costs; with `limps`.
    pub limps_share: Option<Share>,
    /// Hours that it costs; with `nags`.
    pub nags_hours: Option<Hours>,
    /// How often.
    pub rate: Option<RateShape>,
    /// How often by this entry, where `rates` says otherwise.
    #[serde(skip)]
    pub typed: Option<RateShape>,
    /// What can be done about it, by id.
    pub repairs: Option<Map<RepairShape>>,
}

/// Stated numbers, or a part of the system's anchor.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RateShape {
    /// Stated rate by surface; 0 where left out.
    pub per_1000_km: Option<Surfaces<Amount>>,
    /// Stated rate for each day.
    pub per_day: Option<Amount>,
    /// Stated rate for each fall.
    pub per_fall: Option<Amount>,
    /// Share of the rate of its system, instead.
    pub share_of_system: Option<Share>,
    /// With the share: how it rises off the road.
    pub ladder: Option<String>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
    /// How many events the evidence is worth, for one rider's bike; at least 0.3.
    pub worth_events: Option<Events>,
}

/// A way to deal with a failure.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RepairShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// How good a repair it is.
    pub grade: Option<Grade>,
    /// Functions, so many at a time; `{attribute}` is filled in from the bike.
    pub needs: Option<Counted>,
    /// Stocks that are used up.
    pub uses: Option<Counted>,
    /// Time it takes beside the track.
    pub time: Option<Hours>,
    /// 1 is as before; 0.6 leaves 40 % of the hours.
    pub restores: Option<Share>,
    /// Least skill for it.
    pub skill: Option<RepairSkill>,
    /// How many riders, each on a bike of their own, have to be there; 1 if left out.
    pub riders: Option<Riders>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
    /// What is done, in order, in few words each; for the card in the pocket.
    pub steps: Option<Vec<Text>>,
    /// What to look at afterwards, in few words each.
    pub check_after: Option<Vec<Text>>,
}

/// A thing done before leaving.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct PreparationShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// What sort of preparation.
    #[serde(rename = "type")]
    pub kind: Option<PreparationType>,
    /// Attributes that must all match; every bike if left out.
    pub applies: Option<Map<OneOrMany>>,
    /// What it costs.
    pub price: Option<Price>,
    /// What it adds to the bike.
    pub mass: Option<Mass>,
    /// Time it takes at home.
    pub time: Option<Hours>,
    /// Factors on the rates of failures.
    pub effects: Option<Map<Factor>>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// Something looked at before every trip.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct CheckShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// Attributes that must all match; every bike if left out.
    pub applies: Option<Map<OneOrMany>>,
    /// What to look at, and what good looks like.
    pub look: Option<String>,
    /// When the bike is not ridden.
    pub stop: Option<String>,
    /// What the manual decides.
    pub defer: Option<String>,
    /// Where it comes from.
    pub basis: Option<Basis>,
}
