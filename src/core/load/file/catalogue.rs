//! A catalogue file and its smaller sections.

use super::{
    BagShape, BikeShape, CheckShape, EventGroupShape, EvidenceShape, FailureShape, ItemShape, PreparationShape,
    RateShape, ReadingShape, Surfaces, Text,
};
use crate::domain::{Basis, Kind, Map, NeedRule};
use crate::load::numbers::{Amount, Events, Factor};
use crate::load::quantity::Price;
use crate::units::Hours;
use schemars::JsonSchema;
use serde::Deserialize;

/// A whole catalogue file; any file may hold any section.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct CatalogueFile {
    /// What a bike can be asked.
    pub attributes: Map<AttributeShape>,
    /// What items let you do.
    pub functions: Map<FunctionShape>,
    /// What is used up.
    pub stocks: Map<StockShape>,
    /// What the trip demands whatever breaks.
    pub needs: Map<NeedShape>,
    /// Parts of a bike with their rates on sealed roads.
    pub systems: Map<SystemShape>,
    /// Factors on the sealed rate.
    pub ladders: Map<LadderShape>,
    /// Things to carry, by id.
    pub items: Map<ItemShape>,
    /// Bikes, by id.
    pub bikes: Map<BikeShape>,
    /// Bags, cases and holders, by id.
    pub bags: Map<BagShape>,
    /// What can go wrong, by id.
    pub failures: Map<FailureShape>,
    /// What can be done before leaving, by id.
    pub preparations: Map<PreparationShape>,
    /// What is looked at before every trip, by id.
    pub checks: Map<CheckShape>,
    /// Things that are used together, by id.
    pub sets: Map<SetShape>,
    /// Falls and weight; once in all files. Without it nobody falls.
    pub model: Option<ModelShape>,
    /// What weight, money, packing and being fetched cost; once in all files.
    pub prices: Option<PricesShape>,
    /// What was seen on trips, by the roadside and at inspections, by id.
    pub evidence: Map<EvidenceShape>,
    /// Failures that people count as one sort of event, by id.
    pub event_groups: Map<EventGroupShape>,
    /// How evidence is read where it does not say; once in all files.
    pub evidence_reading: Option<ReadingShape>,
    /// Rates worked out from evidence, by id of the failure: they take the place of those typed in there.
    pub rates: Map<RateShape>,
    /// Falls worked out from evidence or learnt from rides, in place of those of the model; once in all files.
    pub fall_rate: Option<FallRateShape>,
    /// Words and phrases that mean the same, a line each; the first is the one that the catalogue uses.
    pub synonyms: Vec<Vec<String>>,
}

/// Something a bike can be asked about.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct AttributeShape {
    /// In a rider's words.
    pub name: Option<String>,
    /// Closes the list of values.
    pub values: Option<Vec<Text>>,
    /// Where it comes from.
    pub basis: Option<Basis>,
}

/// A function or a family of them.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct FunctionShape {
    /// In a rider's words; `{size}` is filled in.
    pub name: Option<String>,
    /// Makes a family, one function each.
    pub sizes: Option<Vec<Text>>,
    /// Functions that together do the same; any line will do, a line needs all of its own.
    pub also_from: Option<Vec<Vec<String>>>,
    /// Where it comes from.
    pub basis: Option<Basis>,
}

/// A stock or a family of them.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct StockShape {
    /// In a rider's words; `{size}` is filled in.
    pub name: Option<String>,
    /// One of it, in a word.
    pub unit: Option<String>,
    /// Fits only the sort of bike that it was bought for.
    pub one_bike: Option<bool>,
    /// Makes a family, one stock each.
    pub sizes: Option<Vec<Text>>,
    /// Where it comes from.
    pub basis: Option<Basis>,
}

/// A need of the trip.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct NeedShape {
    /// In a rider's words.
    pub name: Option<String>,
    /// One of it, in a word.
    pub unit: Option<String>,
    /// The formula that tells how much.
    pub rule: Option<NeedRule>,
    /// Where it comes from.
    pub basis: Option<Basis>,
}

/// A part of the bike.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct SystemShape {
    /// In a rider's words.
    pub name: Option<String>,
    /// Published share of repairs, in per cent.
    pub share: Option<Amount>,
    /// Failures in 1000 km of sealed road, of which failures take a share.
    pub per_1000_km: Option<Amount>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// Multipliers on the sealed rate.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LadderShape {
    /// In a rider's words.
    pub name: Option<String>,
    /// Factor on sealed roads.
    pub sealed: Option<Factor>,
    /// Factor on gravel roads.
    pub gravel: Option<Factor>,
    /// Factor on tracks.
    pub track: Option<Factor>,
    /// Factor on rough ground.
    pub rough: Option<Factor>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// Things that are used together and kept in one bag.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct SetShape {
    /// In a rider's words.
    pub name: Option<String>,
    /// Systems whose failures are mended with it.
    pub systems: Option<Vec<String>>,
    /// Kinds of things that belong to it unless another set asks for them.
    pub kinds: Option<Vec<Kind>>,
    /// How often a day it is reached for, whatever breaks; 0 if left out.
    pub a_day: Option<Amount>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// Falls and handling.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ModelShape {
    /// Falls of an intermediate rider by surface.
    pub falls_per_1000_km: Option<Surfaces<Amount>>,
    /// How many falls these rates are worth, for one rider; 1 if left out.
    pub falls_worth_events: Option<Events>,
    /// Factors on falls.
    pub riding_skill: Option<SkillShape>,
    /// Relative rise in falls for kit mass over bike mass.
    pub load_sensitivity: Option<Factor>,
    /// Time that a fall costs, whatever breaks.
    pub hours_per_fall: Option<Hours>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// Factors on falls by riding skill.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct SkillShape {
    /// Factor for a novice.
    pub novice: Option<Factor>,
    /// Factor for an intermediate rider, 1.
    pub intermediate: Option<Factor>,
    /// Factor for an advanced rider.
    pub advanced: Option<Factor>,
    /// Factor for an expert.
    pub expert: Option<Factor>,
}

/// What weight, money, packing and being fetched cost.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct PricesShape {
    /// How far hard riding stretches with the mass moved: 1 in proportion, 0 not at all.
    pub weight: Option<Factor>,
    /// Usual speed in km/h, by surface.
    pub speed_kmh: Option<Surfaces<Amount>>,
    /// Share of the riding time that is hard work, by surface.
    pub strain: Option<Surfaces<Amount>>,
    /// What an hour of trouble is worth to the rider; 0: money costs nothing.
    pub hour: Option<Price>,
    /// Factor on what buying is charged with; 1 if left out.
    pub buying: Option<Factor>,
    /// How long a thing serves, by kind; nights for shelter, sleep and cooking. Kinds left out are used up on the trip.
    pub service: Option<ServiceShape>,
    /// To find, stow and put back one thing.
    pub thing: Option<Hours>,
    /// Riding lost on the day on which the bike has to be fetched.
    pub rest_of_day: Option<Hours>,
    /// What being fetched costs.
    pub recovery: Option<Price>,
    /// A night's lodging, where help is far.
    pub night: Option<Price>,
    /// From so many hours to help on.
    pub night_from: Option<Hours>,
    /// Charged to a stranding for each hour to help, beside what is lost.
    pub dread: Option<Factor>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// How long a thing serves, by kind.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ServiceShape {
    /// Days.
    pub tool: Option<Hours>,
    /// Days.
    pub spare: Option<Hours>,
    /// Days.
    pub consumable: Option<Hours>,
    /// Nights, written as days.
    pub shelter: Option<Hours>,
    /// Nights, written as days.
    pub sleep: Option<Hours>,
    /// Nights, written as days.
    pub cooking: Option<Hours>,
    /// Days; left out: eaten.
    pub food: Option<Hours>,
    /// Days.
    pub water: Option<Hours>,
    /// Days.
    pub clothing: Option<Hours>,
    /// Days.
    #[serde(rename = "first aid")]
    pub first_aid: Option<Hours>,
    /// Days.
    pub electronics: Option<Hours>,
    /// Days.
    pub papers: Option<Hours>,
    /// Days; left out: burnt.
    pub fuel: Option<Hours>,
    /// Days.
    pub hygiene: Option<Hours>,
    /// Days.
    pub comfort: Option<Hours>,
}

/// Falls in place of those of the model.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct FallRateShape {
    /// Falls per 1000 km by surface.
    pub per_1000_km: Option<Surfaces<Amount>>,
    /// How many falls these rates are worth, for one rider; at least 0.3.
    pub worth_events: Option<Events>,
    /// Rise in falls per (kit mass / bike mass), in place of that of the model.
    pub load_sensitivity: Option<Factor>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}
