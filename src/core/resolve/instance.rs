//! The numbered, self-contained form of "these riders, these bikes, this trip". A single rider is a group of one.

use super::{Exposure, LegExposure, Mount};
use crate::domain::{Bag, Grade, Kind, Kit, NeedRule, Outcome, Pooling, Prices, Rate, RepairSkill};
use crate::units::{Hours, Length, Mass, Money, Temperature, Volume};
use fardel_words::word;

/// Everything that select, stow and report need to know about the trip of one rider, or of a group with one kit.
#[derive(Debug, Clone)]
pub struct Instance {
    /// Items that can matter, in catalogue order.
    pub items: Vec<InstanceItem>,
    /// Functions that can matter: key, with the ways to combine them from others.
    pub functions: Vec<InstanceFunction>,
    /// Stocks that can matter, by key.
    pub stocks: Vec<String>,
    /// Failures that can happen on this bike.
    pub failures: Vec<InstanceFailure>,
    /// What the trip demands, as far as it can be carried.
    pub demands: Vec<Demand>,
    /// What parts of the group need with them on legs that they ride without the others.
    pub apart: Vec<Apart>,
    /// Petrol that the trip demands beyond the tanks, whatever containers hold.
    pub fuel: Option<Demand>,
    /// The bags on the bike, those that are part of it first.
    pub bags: Vec<Bag>,
    /// The loaded bikes before the kit, one for each rider, each with the numbers of its bags.
    pub mounts: Vec<Mount>,
    /// The riders' wish for the kit's mass, all of them together.
    pub kit_mass: Option<Mass>,
    /// Each rider's own wish.
    pub own_kit_mass: Vec<Option<Mass>>,
    /// How many parts of the group may want a function each for themselves; 1: the kit is always all there.
    pub parts: u32,
    /// The rider's wish for the kit's packed volume.
    pub kit_volume: Option<Volume>,
    /// Money for what is not owned.
    pub budget: Option<Money>,
    /// Most that the chance of a stranding may be.
    pub stranded: Option<f64>,
    /// What weight, money, packing and being fetched cost.
    pub prices: Prices,
    /// How stocks are shared between repairs.
    pub pooling: Pooling,
    /// Things that are used together, in the order of the catalogue.
    pub sets: Vec<InstanceSet>,
    /// How much riding of which sort, one for each rider.
    pub exposures: Vec<Exposure>,
    /// Items of the catalogue that were dropped, and why.
    pub left_out: Vec<LeftOut>,
    /// Things the rider should know about how the case was read.
    pub warnings: Vec<String>,
}

/// A function in the case.
#[derive(Debug, Clone)]
pub struct InstanceFunction {
    /// Key in the catalogue.
    pub id: String,
    /// Ways to combine it from other functions of the case.
    pub also_from: Vec<Vec<usize>>,
}

/// An item that can matter.
#[derive(Debug, Clone)]
pub struct InstanceItem {
    /// Key in the catalogue.
    pub id: String,
    /// Key of the thing: that of the catalogue, with the sort of bike where it fits only one of several.
    pub key: String,
    /// As a rider would say it.
    pub name: String,
    /// Tool, spare, food ...
    pub kind: Kind,
    /// Mass of one.
    pub mass: Mass,
    /// Volume of one.
    pub volume: Volume,
    /// Longest side.
    pub longest: Length,
    /// Price of one.
    pub price: Money,
    /// Must be taken at least so often (the always list).
    pub at_least: u32,
    /// May be taken at most so often.
    pub at_most: u32,
    /// Hours that buying one is charged with on this trip.
    pub buying: Hours,
    /// How many cost nothing, being owned or in the bike's toolkit.
    pub owned: u32,
    /// How many of them are in the bike's toolkit.
    pub in_toolkit: u32,
    /// Function number, and how many at a time one unit gives.
    pub provides: Vec<(usize, u32)>,
    /// Stock number, and units held by one.
    pub holds: Vec<(usize, u32)>,
    /// Demand number, and the amount one unit meets.
    pub meets: Vec<(usize, f64)>,
    /// Functions without which it is useless.
    pub requires: Vec<(usize, u32)>,
    /// The rider whom it belongs to (position in `exposures`), if it stays with its owner; `None`: anybody carries it.
    pub owner: Option<usize>,
    /// The riders whose bikes it fits (positions in `exposures`), if it fits only one sort of bike of several.
    pub only_for: Option<Vec<usize>>,
    /// Kinds it must not share a bag with.
    pub apart_from: Vec<Kind>,
    /// For each bag of the case: may it go there?
    pub fits: Vec<bool>,
}

/// A failure that can happen on a bike of the case; identical bikes share one.
#[derive(Debug, Clone)]
pub struct InstanceFailure {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Key of the system.
    pub system: String,
    /// The riders whom it can happen to (positions in `exposures`): those on bikes that are alike.
    pub riders: Vec<usize>,
    /// What it does to the trip.
    pub outcome: Outcome,
    /// Its rate before modifiers.
    pub rate: Rate,
    /// Product of the effects of fitted parts and preparations done.
    pub modifier: f64,
    /// Repairs within somebody's skill that some kit makes possible and that save time on some leg.
    pub repairs: Vec<InstanceRepair>,
    /// The least skill of the repairs that nobody can do, if any.
    pub beyond_skill: Option<RepairSkill>,
}

/// A repair that somebody can do with some kit.
#[derive(Debug, Clone)]
pub struct InstanceRepair {
    /// Key within the failure.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Bodge, field repair or full repair.
    pub grade: Grade,
    /// Function number, and how many at a time.
    pub needs: Vec<(usize, u32)>,
    /// Stock number, and units used up.
    pub uses: Vec<(usize, u32)>,
    /// Working time.
    pub time: Hours,
    /// Share of the unrepaired cost that it takes away.
    pub restores: f64,
    /// What it asks of whoever does it.
    pub skill: RepairSkill,
    /// How many riders have to be there; it counts on legs that so many ride together.
    pub riders: u32,
}

impl InstanceRepair {
    /// Do so many of each function at a time, and so many units of each stock, make it possible, once at least?
    #[must_use]
    pub fn is_possible(&self, functions: &[u32], stocks: &[u32]) -> bool {
        self.needs.iter().all(|(function, count)| functions[*function] >= *count)
            && self.uses.iter().all(|(stock, units)| stocks[*stock] >= *units)
    }
}

impl InstanceFailure {
    /// Expected occurrences on a leg that come with kilometres and days, whether or not anybody falls.
    #[must_use]
    pub fn in_riding(&self, leg: &LegExposure) -> f64 {
        let by_km: f64 = self.rate.per_1000_km.iter().map(|(surface, per)| per * leg.thousand_km.on(surface)).sum();
        self.modifier * (by_km + self.rate.per_day * leg.days)
    }

    /// Expected occurrences in one fall.
    #[must_use]
    pub fn in_a_fall(&self) -> f64 {
        self.modifier * self.rate.per_fall
    }

    /// All expected occurrences on a leg:
    /// `modifier x (sum over surfaces of rate per 1000 km x thousand km + rate per day x days + rate per fall x falls)`.
    #[must_use]
    pub fn on_leg(&self, leg: &LegExposure) -> f64 {
        self.in_riding(leg) + self.in_a_fall() * leg.falls
    }
}

/// Things that are used together, as the riders of a case have them.
#[derive(Debug, Clone, PartialEq)]
pub struct InstanceSet {
    /// As a rider would say it.
    pub name: String,
    /// For each rider, the items that belong to it on that rider's bike.
    pub items: Vec<Vec<usize>>,
    /// For each rider, how often something breaks on the trip that it is reached for.
    pub repairs: Vec<f64>,
    /// For each rider, how often it is reached for whatever breaks.
    pub daily: Vec<f64>,
}

impl InstanceSet {
    /// Its things that a group shares, by the first rider's bike: those that stay with their owner or are kept for one
    /// sort of bike are no part of it.
    pub fn shared<'a>(&'a self, items: &'a [InstanceItem]) -> impl Iterator<Item = usize> + 'a {
        let own = self.items.first().into_iter().flatten().copied();
        own.filter(|item| items[*item].owner.is_none() && items[*item].only_for.is_none())
    }
}

/// An amount that the trip demands.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// The rider whose need it is (position in `exposures`); `None`: it is met for all together.
    pub owner: Option<usize>,
    /// Key of the need.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Unit of the amount.
    pub unit: String,
    /// The formula.
    pub rule: NeedRule,
    /// How much.
    pub amount: f64,
    /// Only items good down to this count.
    pub down_to: Option<Temperature>,
    /// The formula with the trip's numbers in it.
    pub working: String,
}

/// What the riders of some legs need with them, the others being away.
#[derive(Debug, Clone, PartialEq)]
pub struct Apart {
    /// For each rider of the case: there?
    pub present: Vec<bool>,
    /// Names of the legs.
    pub legs: Vec<String>,
    /// Demand number, and how much of it; what each rider has of his own is left out.
    pub amounts: Vec<(usize, f64)>,
}

/// An item that was dropped before selecting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// Key in the catalogue.
    pub item: String,
    /// Why.
    pub reason: Reason,
}

/// Why an item was dropped before selecting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// The rider does not want it.
    OnNeverList,
    /// No bag takes it (length, mass, volume or kind).
    FitsNoBag,
    /// Nothing that can happen or is needed on this trip would use it.
    NothingNeedsIt,
}

impl InstanceItem {
    /// May this rider have it: does it fit the bike, and is it nobody else's?
    #[must_use]
    pub fn is_for(&self, rider: usize) -> bool {
        self.only_for.as_ref().is_none_or(|riders| riders.contains(&rider))
            && self.owner.is_none_or(|owner| owner == rider)
    }
}

impl Reason {
    /// In the rider's words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::OnNeverList => word!("on the never list"),
            Self::FitsNoBag => word!("too big or not allowed for every bag on this bike"),
            Self::NothingNeedsIt => word!("of no use on this bike and trip"),
        }
    }
}

impl Instance {
    /// Units of each item in a kit, in the order of the items.
    #[must_use]
    pub fn counts(&self, kit: &Kit) -> Vec<u32> {
        self.items.iter().map(|item| kit.count(&item.id)).collect()
    }

    /// The kit of so many units of each item, in the order of the items.
    #[must_use]
    pub fn kit(&self, counts: &[u32]) -> Kit {
        Kit::new(self.items.iter().zip(counts).map(|(item, n)| (item.id.clone(), *n)))
    }

    /// What has to be paid for these units of each item, beyond those that are owned.
    #[must_use]
    pub fn to_buy(&self, counts: &[u32]) -> Money {
        self.items.iter().zip(counts).map(|(item, n)| item.price * n.saturating_sub(item.owned)).sum()
    }

    /// Packed volume of these units of each item.
    #[must_use]
    pub fn volume(&self, counts: &[u32]) -> Volume {
        self.items.iter().zip(counts).map(|(item, n)| item.volume * *n).sum()
    }

    /// How much of a demand, by number, these units of each item meet.
    #[must_use]
    pub fn met(&self, demand: usize, counts: &[u32]) -> f64 {
        let met = self.items.iter().zip(counts).flat_map(|(item, n)| item.meets.iter().map(move |met| (met, *n)));
        met.filter(|((at, _), _)| *at == demand).map(|((_, amount), n)| amount * f64::from(n)).sum()
    }

    /// What those present need with them on legs that they ride without the others, by number of the demand.
    #[must_use]
    pub fn needed_apart(&self, present: &[bool]) -> &[(usize, f64)] {
        self.apart.iter().find(|part| part.present == present).map_or(&[], |part| part.amounts.as_slice())
    }

    /// Numbers of the failures with a repair that draws on a stock.
    pub fn failures_drawing_on(&self, stock: usize) -> impl Iterator<Item = usize> + '_ {
        let draws = move |repair: &InstanceRepair| repair.uses.iter().any(|(used, _)| *used == stock);
        let all = self.failures.iter().enumerate();
        all.filter(move |(_, failure)| failure.repairs.iter().any(draws)).map(|(f, _)| f)
    }

    /// Room in all bags together.
    #[must_use]
    pub fn usable_volume(&self) -> Volume {
        self.bags.iter().map(Bag::usable).sum()
    }

    /// The stretches on which a failure can happen: every leg of every rider on such a bike.
    pub fn stretches<'a>(&'a self, failure: &'a InstanceFailure) -> impl Iterator<Item = &'a LegExposure> {
        failure.riders.iter().flat_map(|rider| &self.exposures[*rider].legs)
    }
}

/// Units that a list of numbers with amounts has of one number.
#[must_use]
pub fn amount(list: &[(usize, u32)], at: usize) -> u32 {
    list.iter().find(|(number, _)| *number == at).map_or(0, |(_, n)| *n)
}
