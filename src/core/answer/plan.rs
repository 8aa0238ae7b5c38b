//! The answer of `pack` as plain data: what is carried, where, why, and what stays open.

use super::charge::ChargeShort;
use super::demand::NeedLine;
use super::departure::Chore;
use super::firm::Firm;
use super::fuel::FuelShort;
use super::loading::Loading;
use super::remedy::Remedy;
use super::shapes::{
    BatteryRange, Cautions, Dropped, FetchedPrice, FuelRange, JointModel, KilogramPrice, RemedyParts, RepairShare,
    TripParts,
};
use super::solve::Way;
use crate::domain::{Check, Kind, Kit, Stowage};
use crate::rehearse::Estimate;
use crate::resolve::{ChargeRange, Range, Reason};
use crate::risk::{PerKilogram, Terms};
use crate::serial::{Listed, Number, OrNull, Shown};
use crate::units::{Currency, Distance, Hours, Mass, Money, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What to carry, and everything needed to explain it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PackAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// Mass, volume, money.
    pub totals: Totals,
    /// Hours and chances.
    pub figures: Figures,
    /// What the kit was chosen by.
    pub prices: PriceTags,
    /// How sure it is that no kit is better.
    pub proof: Proof,
    /// The kit by bag; empty bags are kept.
    pub bags: Vec<PackedBag>,
    /// What has to be bought, the dearest first.
    pub purchases: Vec<Purchase>,
    /// The bike with everything on it; one for each bike.
    pub loads: Vec<Loading>,
    /// Items of the bike's own toolkit that stay at home.
    pub toolkit_left: Vec<ToolkitLeft>,
    /// Every failure that can happen, the costliest left over first.
    pub risks: Vec<RiskLine>,
    /// What the trip demands and what is carried for it.
    pub needs: Vec<NeedLine>,
    /// Where the petrol does not reach the next pump.
    #[serde(rename = "fuel_short")]
    pub fuel: Option<FuelShort>,
    /// Where a battery does not reach the next place to charge; left out where all do.
    #[serde(rename = "charge_short", skip_serializing_if = "Option::is_none")]
    pub charge: Option<ChargeShort>,
    /// Each rider's leg that asks most of the tank, where the trip says how far pumps are apart.
    #[serde(rename = "fuel_ranges", with = "Listed::<FuelRange>")]
    pub ranges: Vec<(String, Range)>,
    /// Each rider's leg that asks most of the battery, likewise; left out where no bike has one.
    #[serde(rename = "charge_ranges", with = "Listed::<BatteryRange>", skip_serializing_if = "Vec::is_empty")]
    pub charges: Vec<(String, ChargeRange)>,
    /// What is looked at before leaving, in the order of the catalogue.
    pub checks: Vec<Check>,
    /// What can still be done to the bike, free things first; only `pack` looks for it.
    #[serde(rename = "before_you_leave")]
    pub chores: Vec<Chore>,
    /// How firm the kit is; only `pack` looks for it.
    pub firm: Option<Firm>,
    /// How many items were dropped before choosing, by reason.
    #[serde(rename = "items_dropped", with = "Listed::<Dropped>")]
    pub dropped: Vec<(Reason, usize)>,
    /// Items considered after that.
    #[serde(rename = "items_considered")]
    pub considered: usize,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
    /// The kit by item key.
    #[serde(skip)]
    pub kit: Kit,
    /// The stowage by bag and item key.
    #[serde(skip)]
    pub stowage: Stowage,
}

/// Where and who.
#[derive(Debug, Clone)]
pub struct TripSummary {
    /// Title of the scenario.
    pub scenario: String,
    /// Rider's name.
    pub rider: String,
    /// Name of the bike.
    pub bike: String,
    /// Days under way.
    pub days: f64,
    /// Nights.
    pub nights: u32,
    /// Whole distance.
    pub distance: Distance,
    /// Part of it off sealed and gravel roads.
    pub off_road: Distance,
    /// The longest hours to help of any leg.
    pub furthest: Hours,
}

/// Mass, volume and money of the kit.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Totals {
    /// Mass of the kit.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// The rider's limit.
    #[serde(rename = "mass_limit_g", with = "OrNull")]
    pub mass_limit: Option<Mass>,
    /// Packed volume.
    #[serde(rename = "volume_ml", with = "Number")]
    pub volume: Volume,
    /// Usable room in all bags.
    #[serde(rename = "room_ml", with = "Number")]
    pub room: Volume,
    /// Money for what is not owned.
    #[serde(with = "Number")]
    pub to_buy: Money,
    /// The rider's budget.
    #[serde(with = "OrNull")]
    pub budget: Option<Money>,
    /// Currency of both.
    #[serde(with = "Shown")]
    pub currency: Currency,
    /// Number of things.
    pub units: u32,
}

/// Hours and chances.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Figures {
    /// Expected number of failures of any sort on the trip.
    #[serde(rename = "expected_failures")]
    pub failures: f64,
    /// Expected hours lost with an empty kit.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Expected hours saved by repairs with this kit.
    #[serde(with = "Number")]
    pub hours_saved: Hours,
    /// Hours that the kit's weight costs, through riding and falls.
    #[serde(with = "Number")]
    pub hours_handling: Hours,
    /// Expected hours lost with this kit, its weight included.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_lost: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// Share of the hours that the kit saves.
    pub coverage: f64,
    /// Chance of ending the trip without a stop that could not be repaired.
    #[serde(flatten)]
    pub home: Home,
    /// A bound on the same with an empty kit.
    #[serde(rename = "self_recovery_empty_at_least")]
    pub self_recovery_empty: f64,
}

impl Figures {
    /// Hours that the kit's weight costs.
    #[must_use]
    pub const fn handling(&self) -> Hours {
        self.hours_handling
    }
}

/// Chance of ending the trip without a stop that could not be repaired.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Home {
    /// From trips ridden event by event, with its standard error; `None` where too much happens to be ridden.
    #[serde(rename = "self_recovery")]
    pub ridden: Option<Estimate>,
    /// What a rider who keeps for each stop what it needs gets at least.
    #[serde(rename = "self_recovery_at_least")]
    pub bound: f64,
}

impl Home {
    /// The best figure there is.
    #[must_use]
    pub fn chance(&self) -> f64 {
        self.ridden.map_or(self.bound, |ridden| ridden.mean)
    }
}

/// What an hour, a kilogram and a thing cost on this trip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct PriceTags {
    /// A kilogram, through riding and falls; for a group the mean over its riders.
    #[serde(flatten, with = "KilogramPrice")]
    pub kilogram: PerKilogram,
    /// What an hour is worth; zero: money costs nothing.
    #[serde(with = "Number")]
    pub hour: Money,
    /// One thing.
    #[serde(rename = "thing_h", with = "Number")]
    pub thing: Hours,
    /// A stop that is left, where help is nearest and where it is furthest.
    #[serde(flatten, with = "FetchedPrice")]
    pub fetched: (Hours, Hours),
    /// What is charged to it beside that, where help is furthest.
    #[serde(rename = "dread_furthest_h", with = "Number")]
    pub dread: Hours,
}

impl PriceTags {
    /// Is anything priced beside falls?
    #[must_use]
    pub fn any(&self) -> bool {
        self.kilogram.riding > 0.0 || self.hour > Money::ZERO || self.thing > Hours::ZERO
    }
}

/// How sure it is that no kit is better.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Proof {
    /// Name of the engine.
    pub engine: &'static str,
    /// Proven optimal?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    /// Relative distance to the best bound; 0 when proven.
    #[serde(rename = "relative_gap")]
    pub gap: f64,
    /// What was maximised: hours saved less handling.
    #[serde(rename = "objective_h")]
    pub objective: f64,
    /// No kit does better than this.
    #[serde(rename = "bound_h")]
    pub bound: f64,
    /// Kits that were chosen but could not be stowed.
    #[serde(rename = "stow_rounds")]
    pub rounds: usize,
    /// How the kit was settled; written as: did the model decide that takes items and bags together?
    #[serde(rename = "joint_model", with = "JointModel")]
    pub way: Way,
}

/// A bag and what is in it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PackedBag {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Volume filled.
    #[serde(rename = "filled_ml", with = "Number")]
    pub filled: Volume,
    /// Volume that can be filled.
    #[serde(rename = "usable_ml", with = "Number")]
    pub usable: Volume,
    /// The empty bag.
    #[serde(rename = "empty_g", with = "Number")]
    pub own_mass: Mass,
    /// Part of the bike, so that it cannot be left at home.
    #[serde(rename = "part_of_bike")]
    pub built_in: bool,
    /// Mass of the contents.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// What it may carry.
    #[serde(rename = "max_load_g", with = "Number")]
    pub max_load: Mass,
    /// The contents, by kind, heaviest first.
    pub items: Vec<PackedItem>,
}

/// Some units of an item in a bag.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PackedItem {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Units in this bag.
    pub count: u32,
    /// Their mass.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Their volume.
    #[serde(rename = "volume_ml", with = "Number")]
    pub volume: Volume,
    /// Tool, spare, food ...
    pub kind: Kind,
    /// Why it is there, beside what it saves.
    pub standing: Standing,
    /// Units of this item, in the whole kit, that must be bought.
    #[serde(rename = "to_buy_in_kit")]
    pub to_buy: u32,
    /// Units of this item, in the whole kit, that come from the bike's toolkit.
    #[serde(rename = "from_toolkit_in_kit")]
    pub from_toolkit: u32,
    /// What it is for, the most valuable first.
    pub purposes: Vec<String>,
    /// Expected hours lost more if all units of it stayed at home and nothing else changed, dread among them.
    #[serde(rename = "hours_lost_without", with = "Number")]
    pub worth: Hours,
    /// What all units of it cost.
    pub costs: ItemCosts,
}

/// What carrying, packing and buying a thing costs, in hours of the trip.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, JsonSchema)]
pub struct ItemCosts {
    /// Its weight, through riding and falls.
    #[serde(rename = "weight_h", with = "Number")]
    pub weight: Hours,
    /// To find, stow and put it back.
    #[serde(rename = "packing_h", with = "Number")]
    pub packing: Hours,
    /// The share of its price that this trip bears.
    #[serde(rename = "money_h", with = "Number")]
    pub money: Hours,
}

impl ItemCosts {
    /// All together.
    #[must_use]
    pub fn hours(&self) -> Hours {
        self.weight + self.packing + self.money
    }
}

/// Something that has to be bought.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Purchase {
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// What they cost together.
    #[serde(with = "Number")]
    pub price: Money,
}

/// Why an item is in the kit at all, beside what it saves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Standing {
    /// It earns its place by the hours it saves.
    Earns,
    /// The trip demands it, or something that the trip demands is useless without it.
    Needed,
    /// It is on the always list.
    Asked,
}

/// Units of the bike's own toolkit that stay at home.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ToolkitLeft {
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Their mass.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
}

/// A failure, what it threatens, and what the kit does about it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RiskLine {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Name of the system.
    pub system: String,
    /// `stops`, `limps` or `nags`.
    pub outcome: &'static str,
    /// Expected occurrences on the trip.
    #[serde(rename = "expected_occurrences")]
    pub mean: f64,
    /// Expected hours lost to it with an empty kit.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Expected hours lost to it with this kit.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_left: Hours,
    /// Repairs that the kit allows, with the share of occurrences each meets.
    #[serde(with = "Listed::<RepairShare>")]
    pub repairs: Vec<(String, f64)>,
    /// What more it would take.
    #[serde(flatten, with = "RemedyParts")]
    pub remedy: Remedy,
}
