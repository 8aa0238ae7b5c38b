//! Failures, repairs and preparations as written.

use super::{Counted, OneOrMany, Surfaces};
use crate::domain::{Basis, Grade, Map, PreparationType, RepairSkill};
use crate::load::numbers::{Amount, Factor, Kilometres, Share};
use crate::load::quantity::Price;
use crate::load::words::OutcomeWord;
use crate::units::{Hours, Mass};
use serde::Deserialize;

/// Something that can go wrong.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct FailureShape {
    pub name: Option<String>,
    pub like: Option<String>,
    pub system: Option<String>,
    pub applies: Option<Map<OneOrMany>>,
    pub outcome: Option<OutcomeWord>,
    pub limps_share: Option<Share>,
    pub nags_hours: Option<Hours>,
    pub rate: Option<RateShape>,
    pub repairs: Option<Map<RepairShape>>,
}

/// Stated numbers, or a part of the system's anchor.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RateShape {
    pub per_1000_km: Option<Surfaces<Amount>>,
    pub per_day: Option<Amount>,
    pub per_fall: Option<Amount>,
    pub share_of_system: Option<Share>,
    pub ladder: Option<String>,
    pub basis: Option<Basis>,
    pub worth_km: Option<Kilometres>,
}

/// A way to deal with a failure.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RepairShape {
    pub name: Option<String>,
    pub grade: Option<Grade>,
    pub needs: Option<Counted>,
    pub uses: Option<Counted>,
    pub time: Option<Hours>,
    pub restores: Option<Share>,
    pub skill: Option<RepairSkill>,
    pub basis: Option<Basis>,
}

/// A thing done before leaving.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct PreparationShape {
    pub name: Option<String>,
    #[serde(rename = "type")]
    pub kind: Option<PreparationType>,
    pub applies: Option<Map<OneOrMany>>,
    pub price: Option<Price>,
    pub mass: Option<Mass>,
    pub time: Option<Hours>,
    pub effects: Option<Map<Factor>>,
    pub basis: Option<Basis>,
}
