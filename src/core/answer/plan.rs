//! The answer of `pack` as plain data: what is carried, where, why, and what stays open.

use super::departure::Chore;
use super::firm::Firm;
use super::fuel::FuelShort;
use super::loading::Loading;
use super::remedy::Remedy;
use super::solve::Way;
use crate::domain::{Check, Kind, Kit, Stowage};
use crate::rehearse::Estimate;
use crate::resolve::{Range, Reason};
use crate::risk::{PerKilogram, Terms};
use crate::units::{Currency, Distance, Hours, Mass, Money, Volume};

/// What to carry, and everything needed to explain it.
#[derive(Debug, Clone)]
pub struct PackAnswer {
    /// Where and who.
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
    pub fuel: Option<FuelShort>,
    /// Each rider's leg that asks most of the tank, where the trip says how far pumps are apart.
    pub ranges: Vec<(String, Range)>,
    /// What is looked at before leaving, in the order of the catalogue.
    pub checks: Vec<Check>,
    /// What can still be done to the bike, free things first; only `pack` looks for it.
    pub chores: Vec<Chore>,
    /// How firm the kit is; only `pack` looks for it.
    pub firm: Option<Firm>,
    /// How many items were dropped before choosing, by reason.
    pub dropped: Vec<(Reason, usize)>,
    /// Items considered after that.
    pub considered: usize,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit, which decide the cautions.
    pub kinds: Vec<Kind>,
    /// The kit by item key.
    pub kit: Kit,
    /// The stowage by bag and item key.
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
#[derive(Debug, Clone)]
pub struct Totals {
    /// Mass of the kit.
    pub mass: Mass,
    /// The rider's limit.
    pub mass_limit: Option<Mass>,
    /// Packed volume.
    pub volume: Volume,
    /// Usable room in all bags.
    pub room: Volume,
    /// Money for what is not owned.
    pub to_buy: Money,
    /// The rider's budget.
    pub budget: Option<Money>,
    /// Currency of both.
    pub currency: Currency,
    /// Number of things.
    pub units: u32,
}

/// Hours and chances.
#[derive(Debug, Clone)]
pub struct Figures {
    /// Expected number of failures of any sort on the trip.
    pub failures: f64,
    /// Expected hours lost with an empty kit.
    pub hours_empty: Hours,
    /// Expected hours saved by repairs with this kit.
    pub hours_saved: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// Share of the hours that the kit saves.
    pub coverage: f64,
    /// Chance of ending the trip without a stop that could not be repaired.
    pub home: Home,
    /// A bound on the same with an empty kit.
    pub self_recovery_empty: f64,
}

impl Figures {
    /// Hours that the kit's weight costs.
    #[must_use]
    pub fn handling(&self) -> Hours {
        Hours::new(self.terms.handling())
    }
}

/// Chance of ending the trip without a stop that could not be repaired.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Home {
    /// From trips ridden event by event, with its standard error; `None` where too much happens to be ridden.
    pub ridden: Option<Estimate>,
    /// What a rider who keeps for each stop what it needs gets at least.
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriceTags {
    /// A kilogram, through riding and falls; for a group the mean over its riders.
    pub kilogram: PerKilogram,
    /// What an hour is worth; zero: money costs nothing.
    pub hour: Money,
    /// One thing.
    pub thing: Hours,
    /// A stop that is left, where help is nearest and where it is furthest.
    pub fetched: (Hours, Hours),
    /// What is charged to it beside that, where help is furthest.
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
#[derive(Debug, Clone)]
pub struct Proof {
    /// Name of the engine.
    pub engine: &'static str,
    /// Proven optimal?
    pub proven: bool,
    /// Relative distance to the best bound; 0 when proven.
    pub gap: f64,
    /// What was maximised: hours saved less handling.
    pub objective: f64,
    /// No kit does better than this.
    pub bound: f64,
    /// Kits that were chosen but could not be stowed.
    pub rounds: usize,
    /// How the kit was settled.
    pub way: Way,
}

/// A bag and what is in it.
#[derive(Debug, Clone)]
pub struct PackedBag {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Volume filled.
    pub filled: Volume,
    /// Volume that can be filled.
    pub usable: Volume,
    /// The empty bag.
    pub own_mass: Mass,
    /// Part of the bike, so that it cannot be left at home.
    pub built_in: bool,
    /// Mass of the contents.
    pub mass: Mass,
    /// What it may carry.
    pub max_load: Mass,
    /// The contents, by kind, heaviest first.
    pub items: Vec<PackedItem>,
}

/// Some units of an item in a bag.
#[derive(Debug, Clone)]
pub struct PackedItem {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Units in this bag.
    pub count: u32,
    /// Their mass.
    pub mass: Mass,
    /// Their volume.
    pub volume: Volume,
    /// Tool, spare, food ...
    pub kind: Kind,
    /// Why it is there, beside what it saves.
    pub standing: Standing,
    /// Units of this item, in the whole kit, that must be bought.
    pub to_buy: u32,
    /// Units of this item, in the whole kit, that come from the bike's toolkit.
    pub from_toolkit: u32,
    /// What it is for, the most valuable first.
    pub purposes: Vec<String>,
    /// Expected hours lost more if all units of it stayed at home and nothing else changed, dread among them.
    pub worth: Hours,
    /// What all units of it cost.
    pub costs: ItemCosts,
}

/// What carrying, packing and buying a thing costs, in hours of the trip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ItemCosts {
    /// Its weight, through riding and falls.
    pub weight: Hours,
    /// To find, stow and put it back.
    pub packing: Hours,
    /// The share of its price that this trip bears.
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
#[derive(Debug, Clone)]
pub struct Purchase {
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// What they cost together.
    pub price: Money,
}

/// Why an item is in the kit at all, beside what it saves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It earns its place by the hours it saves.
    Earns,
    /// The trip demands it, or something that the trip demands is useless without it.
    Needed,
    /// It is on the always list.
    Asked,
}

/// Units of the bike's own toolkit that stay at home.
#[derive(Debug, Clone)]
pub struct ToolkitLeft {
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Their mass.
    pub mass: Mass,
}

/// A failure, what it threatens, and what the kit does about it.
#[derive(Debug, Clone)]
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
    pub mean: f64,
    /// Expected hours lost to it with an empty kit.
    pub hours_empty: Hours,
    /// Expected hours lost to it with this kit.
    pub hours_left: Hours,
    /// Repairs that the kit allows, with the share of occurrences each meets.
    pub repairs: Vec<(String, f64)>,
    /// What more it would take.
    pub remedy: Remedy,
}

/// A need of the trip.
#[derive(Debug, Clone)]
pub struct NeedLine {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Amount demanded.
    pub demanded: f64,
    /// Amount carried.
    pub carried: f64,
    /// What the things that meet it weigh together.
    pub mass: Mass,
    /// Unit of both.
    pub unit: String,
    /// The formula with the trip's numbers in it.
    pub working: String,
}
