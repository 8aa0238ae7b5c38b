//! A catalogue file and its smaller sections.

use super::{BagShape, BikeShape, FailureShape, ItemShape, PreparationShape, Surfaces, Text};
use crate::domain::{Basis, Map, NeedRule};
use crate::load::numbers::Kilometres;
use crate::load::numbers::{Amount, Factor};
use crate::units::Hours;
use serde::Deserialize;

/// A whole catalogue file; any file may hold any section.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct CatalogueFile {
    pub attributes: Map<AttributeShape>,
    pub functions: Map<FunctionShape>,
    pub stocks: Map<StockShape>,
    pub needs: Map<NeedShape>,
    pub systems: Map<SystemShape>,
    pub ladders: Map<LadderShape>,
    pub items: Map<ItemShape>,
    pub bikes: Map<BikeShape>,
    pub bags: Map<BagShape>,
    pub failures: Map<FailureShape>,
    pub preparations: Map<PreparationShape>,
    pub model: Option<ModelShape>,
}

/// Something a bike can be asked about.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct AttributeShape {
    pub name: Option<String>,
    pub values: Option<Vec<Text>>,
    pub basis: Option<Basis>,
}

/// A function or a family of them.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct FunctionShape {
    pub name: Option<String>,
    pub sizes: Option<Vec<Text>>,
    pub also_from: Option<Vec<Vec<String>>>,
    pub basis: Option<Basis>,
}

/// A stock or a family of them.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct StockShape {
    pub name: Option<String>,
    pub unit: Option<String>,
    pub sizes: Option<Vec<Text>>,
    pub basis: Option<Basis>,
}

/// A need of the trip.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct NeedShape {
    pub name: Option<String>,
    pub unit: Option<String>,
    pub rule: Option<NeedRule>,
    pub basis: Option<Basis>,
}

/// A part of the bike.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct SystemShape {
    pub name: Option<String>,
    pub share: Option<Amount>,
    pub per_1000_km: Option<Amount>,
    pub worth_km: Option<Kilometres>,
    pub basis: Option<Basis>,
}

/// Multipliers on the sealed rate.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LadderShape {
    pub name: Option<String>,
    pub sealed: Option<Factor>,
    pub gravel: Option<Factor>,
    pub track: Option<Factor>,
    pub rough: Option<Factor>,
    pub basis: Option<Basis>,
}

/// Falls and handling.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ModelShape {
    pub falls_per_1000_km: Option<Surfaces<Amount>>,
    pub riding_skill: Option<SkillShape>,
    pub load_sensitivity: Option<Factor>,
    pub hours_per_fall: Option<Hours>,
    pub basis: Option<Basis>,
}

/// Factors on falls by riding skill.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct SkillShape {
    pub novice: Option<Factor>,
    pub intermediate: Option<Factor>,
    pub advanced: Option<Factor>,
    pub expert: Option<Factor>,
}
