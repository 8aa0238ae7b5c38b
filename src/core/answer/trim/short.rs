//! Where a packed kit falls short of the trip, and the nearest to it that is packed.
//!
//! A bag that is not warm enough meets nothing by the trip's own reckoning, and yet it is what there is to sleep in. Where
//! the degree is what a kit misses, no lower one is asked for than the best that is packed are good for.

use crate::answer::shapes::Degrees;
use crate::domain::{Catalogue, Kit, Scenario};
use crate::resolve::Instance;
use crate::units::Temperature;
use schemars::JsonSchema;
use serde::Serialize;

/// A need that the packed kit does not meet; no more is asked of what stays.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Short {
    /// Key of the need.
    #[serde(rename = "need")]
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Unit of the amounts.
    pub unit: String,
    /// What the trip asks for.
    pub demanded: f64,
    /// What is packed of it.
    pub packed: f64,
    /// Where what is packed is not warm enough: the degree that the trip asks for, and the one that it is good for.
    #[serde(flatten, with = "Degrees")]
    pub degrees: Option<(Temperature, Temperature)>,
}

/// A need of which the best that is packed is not good down to the degree that the trip asks for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cold {
    need: String,
    wanted: Temperature,
    packed: Temperature,
}

/// The needs of which the packed things meet too little by their degree: the warmest are taken until there are enough, and
/// the last of them says what the kit is good for.
#[allow(clippy::cast_precision_loss, reason = "counts of things")]
pub(super) fn too_cold(instance: &Instance, catalogue: &Catalogue, scenario: &Scenario, kit: &Kit) -> Vec<Cold> {
    let graded = instance.demands.iter().filter_map(|demand| Some((demand, demand.down_to?)));
    let cold = graded.filter_map(|(demand, wanted)| {
        let meeting = kit.iter().filter(|(id, _)| !scenario.never.iter().any(|never| never == *id));
        let meeting = meeting.filter_map(|(id, count)| {
            let part = catalogue.items.get(id)?.meets.get(&demand.id)?;
            Some((part.down_to?, part.amount * f64::from(count)))
        });
        let mut meeting: Vec<(Temperature, f64)> = meeting.filter(|(_, amount)| *amount > 0.0).collect();
        meeting.sort_by(|a, b| a.0.celsius().total_cmp(&b.0.celsius()));
        let mut met = 0.0;
        let enough = meeting.iter().position(|(_, amount)| {
            met += amount;
            met >= demand.amount * (1.0 - 1e-9)
        });
        let (packed, _) = *enough.map_or_else(|| meeting.last(), |at| meeting.get(at))?;
        (packed.celsius() > wanted.celsius()).then(|| Cold { need: demand.id.clone(), wanted, packed })
    });
    cold.collect()
}

/// The catalogue in which everything that is as warm as what is packed is warm enough.
pub(super) fn as_if_warm(catalogue: &Catalogue, cold: &[Cold]) -> Catalogue {
    let mut lenient = catalogue.clone();
    for item in lenient.items.values_mut() {
        for short in cold {
            let Some(part) = item.meets.get_mut(&short.need) else { continue };
            let near = part.down_to.is_some_and(|good_to| good_to.celsius() <= short.packed.celsius());
            if near && part.down_to.is_some_and(|good_to| good_to.celsius() > short.wanted.celsius()) {
                part.down_to = Some(short.wanted);
            }
        }
    }
    lenient
}

/// What these counts do not meet, in amount or by their degree.
pub(super) fn short(instance: &Instance, counts: &[u32], cold: &[Cold]) -> Vec<Short> {
    let line = |(d, demand): (usize, &crate::resolve::Demand)| {
        let packed = instance.met(d, counts);
        let degrees = cold.iter().find(|cold| cold.need == demand.id).map(|cold| (cold.wanted, cold.packed));
        let lacking = packed < demand.amount * (1.0 - 1e-9);
        (lacking || degrees.is_some()).then(|| Short {
            id: demand.id.clone(),
            name: demand.name.clone(),
            unit: demand.unit.clone(),
            demanded: demand.amount,
            packed: packed.min(demand.amount),
            degrees: degrees.filter(|_| packed > 0.0),
        })
    };
    instance.demands.iter().enumerate().filter_map(line).collect()
}
