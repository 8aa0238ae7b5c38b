//! A scenario as written.

use super::{CatalogueFile, Counted, Surfaces};
use crate::domain::{Fair, Map, RepairSkill, RidingSkill, Role, Style};
use crate::load::exchange::Day;
use crate::load::numbers::{Amount, Chance, Count, Factor, Kilometres, Rate};
use crate::load::quantity::Price;
use crate::load::words::Spoken;
use crate::units::{Currency, Distance, Hours, Length, Mass, Temperature, Volume};
use schemars::JsonSchema;
use serde::Deserialize;

/// A whole scenario file.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ScenarioFile {
    /// What the trip is called.
    pub name: Option<String>,
    /// Language of the answers, as its code; what `--language` says counts before it.
    pub language: Option<Spoken>,
    /// Catalogue files beside this one that add to and override the catalogue.
    pub catalogues: Vec<String>,
    /// Entries of your own, written as in a catalogue file: a size, a bike, a thing.
    pub catalogue: Option<CatalogueFile>,
    /// Where to, for how long.
    pub trip: Option<TripShape>,
    /// Who rides what.
    pub riders: Option<Vec<RiderShape>>,
    /// What must not be exceeded.
    pub limits: Option<LimitsShape>,
    /// How a group shares one kit.
    pub group: Option<GroupShape>,
    /// In the kit whatever the sums say.
    pub always: Option<Counted>,
    /// Stays at home whatever the sums say.
    pub never: Option<Vec<String>>,
    /// Preparations that are done.
    pub done: Option<Vec<String>>,
    /// Amounts that replace those of the formulas; 0 is none.
    pub needs: Option<Map<Amount>>,
    /// What weight, money, packing and being fetched cost on this trip; 0 switches one off.
    pub prices: Option<OwnPricesShape>,
    /// What currency answers are in, and what others are worth in it; the catalogue's if left out.
    pub money: Option<MoneyShape>,
}

/// A currency, and what others are worth in it.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct MoneyShape {
    /// The currency of all answers, as its code of three letters (ISO 4217).
    #[serde(rename = "in")]
    pub own: Option<Currency>,
    /// What one of each other currency is in this one.
    pub rates: Map<Rate>,
    /// The day of the rates, as in 2026-11-20 (ISO 8601).
    pub day: Option<Day>,
}

/// Nights and legs.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct TripShape {
    /// How the nights are spent.
    pub style: Option<Style>,
    /// Stretches in the order of riding.
    pub legs: Option<Vec<LegShape>>,
}

/// A stretch of the trip.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LegShape {
    /// What the leg is called.
    pub name: Option<String>,
    /// Days under way on it.
    pub days: Option<Amount>,
    /// Nights on it; 0 if left out.
    pub nights: Option<Count>,
    /// Distances by surface.
    pub km: Option<Surfaces<Kilometres>>,
    /// Time from a breakdown until the bike is at a road head or a workshop.
    pub hours_to_help: Option<Hours>,
    /// The coldest hour, riding or sleeping; 10 °C if left out where the style is `none`, else required.
    pub lowest: Option<Temperature>,
    /// The hottest hour; 25 °C if left out where the style is `none`, else required.
    pub highest: Option<Temperature>,
    /// Longest time between places to refill; a day if left out.
    pub water_every: Option<Hours>,
    /// Longest time between shops; the whole leg if left out.
    pub food_every: Option<Hours>,
    /// Longest distance between pumps, for an electric bike between places to charge; not asked if left out.
    pub fuel_every: Option<Distance>,
    /// Height of the camps; 0 if left out.
    pub altitude: Option<Length>,
    /// Who rides it; everybody if left out.
    pub riders: Option<Vec<String>>,
}

/// Who rides what.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RiderShape {
    /// What the rider is called.
    pub name: Option<String>,
    /// Id of the bike.
    pub bike: Option<String>,
    /// How often the rider falls.
    pub riding_skill: Option<RidingSkill>,
    /// What the rider can mend beside the track.
    pub repair_skill: Option<RepairSkill>,
    /// Mass of the rider, dressed to ride.
    pub mass: Option<Mass>,
    /// Mass of the passenger, dressed to ride; eats, drinks and sleeps as well. Left out: nobody.
    pub passenger: Option<Mass>,
    /// Whether the rider takes medicine every day; false if left out.
    pub medicine: Option<bool>,
    /// Bags beside the bike's own.
    pub bags: Option<Vec<String>>,
    /// What is owned already, and costs nothing to take.
    pub owns: Option<Counted>,
    /// A file of what else the rider owns, beside this one: YAML, or a spreadsheet as CSV.
    pub gear: Option<String>,
    /// What the rider does in the group: leads, rides last, looks after the hurt.
    pub roles: Option<Vec<Role>>,
    /// Most that this rider carries, instead of the limit for everybody.
    pub kit_mass: Option<Mass>,
}

/// How a group shares one kit.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct GroupShape {
    /// What a fair share of the load is.
    pub fair: Option<Fair>,
    /// Shares of every rider, on any scale; with `stated`.
    pub shares: Option<Map<Amount>>,
    /// What goes with whom, by role.
    pub pins: Option<PinsShape>,
}

/// What goes with whom, by role.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct PinsShape {
    /// Functions, stocks or needs with whoever rides in front.
    pub leads: Option<Vec<String>>,
    /// Functions, stocks or needs with whoever rides last.
    pub last: Option<Vec<String>>,
    /// Functions, stocks or needs with whoever looks after the hurt.
    pub medic: Option<Vec<String>>,
}

/// What must not be exceeded.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LimitsShape {
    /// Everything carried, without empty bags.
    pub kit_mass: Option<Mass>,
    /// Packed volume of everything carried.
    pub kit_volume: Option<Volume>,
    /// For what is not owned.
    pub budget: Option<Price>,
    /// Most that the chance of a stranding may be, such as 1/500.
    pub stranded_at_most: Option<Chance>,
}

/// Prices of one trip, in place of the catalogue's.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct OwnPricesShape {
    /// How far hard riding stretches with the mass moved: 1 in proportion, 0 not at all.
    pub weight: Option<Factor>,
    /// What an hour of trouble is worth to the rider; 0: money costs nothing.
    pub hour: Option<Price>,
    /// Factor on what buying is charged with; 0: what is bought counts for nothing.
    pub buying: Option<Factor>,
    /// To find, stow and put back one thing.
    pub thing: Option<Hours>,
    /// Riding lost on the day on which the bike has to be fetched.
    pub rest_of_day: Option<Hours>,
    /// What being fetched costs.
    pub recovery: Option<Price>,
    /// A night's lodging, where help is far.
    pub night: Option<Price>,
    /// Charged to a stranding for each hour to help, beside what is lost.
    pub dread: Option<Factor>,
}
