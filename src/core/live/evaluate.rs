//! What a kit does, takes and breaks: arithmetic, for any kit whatever.

use super::Live;
use crate::answer::{Wheels, wheels};
use crate::domain::Kit;
use crate::resolve::Measure;
use crate::risk::{self, Terms, value};
use crate::select::{self, relax::Shortfall};
use crate::serial::{Listed, Number, parts};
use crate::stow::{self, Placement};
use crate::units::{Hours, Mass, Money, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What a kit does, takes and breaks.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Evaluation {
    /// Mass of the kit.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Packed volume.
    #[serde(rename = "volume_ml", with = "Number")]
    pub volume: Volume,
    /// Money for what is not owned.
    #[serde(with = "Number")]
    pub to_buy: Money,
    /// Number of things.
    pub units: u32,
    /// Expected hours lost with nothing aboard.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Expected hours lost with this kit, its weight included.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_lost: Hours,
    /// What it saves and costs, term by term.
    pub terms: Terms,
    /// What kits are compared by: hours saved less all that the kit costs.
    #[serde(rename = "objective_h")]
    pub objective: f64,
    /// The chance of getting home without a stop that cannot be repaired, at least.
    #[serde(rename = "self_recovery_at_least")]
    pub self_recovery: f64,
    /// Kilograms on the wheels, with a place for everything; `None`: no place for everything was found at once.
    #[serde(with = "Listed::<OnWheels>")]
    pub wheels: Vec<Wheels>,
    /// Limits and needs that it breaks; empty: none.
    #[serde(with = "Listed::<Breaks>")]
    pub breaks: Vec<Shortfall>,
    /// Things that are of no use on this trip, by key; they count in mass, volume, money and number.
    pub idle: Vec<String>,
}

parts! {
    /// Kilograms on the wheels of a bike.
    OnWheels(wheels => Wheels) {
        /// On the front wheel.
        front_kg: f64 = crate::serial::six_places(wheels.front),
        /// On the rear wheel.
        rear_kg: f64 = crate::serial::six_places(wheels.rear),
    }
    /// A limit or need that a kit breaks.
    Breaks(short => Shortfall) {
        /// `mass`, `volume`, `budget`, `stranded`, `always`, `require`, `room` or `bears` (of bags), `load` (of a wheel), `need`, or
        /// `stow`: no place for everything was found at once.
        family: &'static str = short.family,
        /// What it is about, in keys of the catalogue.
        key: String = short.key.clone(),
        /// By how much, in the unit of the limit; of a need, the share that is missing.
        by: f64 = short.by,
        /// The limit.
        limit: f64 = short.limit,
    }
}

impl Evaluation {
    /// Does it keep all limits and needs?
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.breaks.is_empty()
    }
}

/// Any kit.
pub(super) fn evaluate(live: &Live, kit: &Kit) -> Evaluation {
    let counts = live.instance.counts(kit);
    let placement = stow::at_once(&live.instance, &counts);
    let mut own = of_counts(live, &counts, placement.as_ref());
    let idle = kit.iter().filter(|(id, _)| live.instance.items.iter().all(|item| item.id != *id));
    for (id, count) in idle {
        own.idle.push(id.to_owned());
        let Some(item) = live.catalogue.items.get(id) else { continue };
        let owned = live.rider().owns.get(id).copied().unwrap_or(0);
        let heavier = live.risk_model.handling_per_kg(None) * (item.mass * count).kilograms();
        own.mass += item.mass * count;
        own.volume += item.volume * count;
        own.to_buy += item.price * count.saturating_sub(owned);
        own.units += count;
        own.hours_lost += Hours::new(heavier);
        own.objective -= heavier;
    }
    if !own.idle.is_empty() {
        over_with_all(live, &mut own);
    }
    own
}

/// The limits of the kit by all that is in it, what is of no use included; they come first.
fn over_with_all(live: &Live, own: &mut Evaluation) {
    let over = select::over(&live.instance, |measure| match measure {
        Measure::Mass => own.mass.milligrams(),
        Measure::Volume => own.volume.microlitres(),
        Measure::Money => own.to_buy.cents(),
    });
    own.breaks.retain(|known| over.iter().all(|new| new.key != known.key));
    own.breaks.splice(0..0, over);
}

/// Counts of the case, with a place for everything where there is one.
pub(super) fn of_counts(live: &Live, counts: &[u32], placement: Option<&Placement>) -> Evaluation {
    let (instance, risk_model) = (&*live.instance, &*live.risk_model);
    let value = risk::value(instance, risk_model, counts);
    let mut breaks = live.breaks(counts);
    if placement.is_none() {
        breaks.push(unstowed());
    }
    let empty = risk_model.hours_empty();
    Evaluation {
        mass: value::mass(instance, counts),
        volume: instance.volume(counts),
        to_buy: instance.to_buy(counts),
        units: counts.iter().sum(),
        hours_empty: Hours::new(empty),
        hours_lost: Hours::new(empty - value.hours_saved() + value.terms.handling()),
        objective: value.objective(),
        terms: value.terms,
        self_recovery: risk::recovery::bound(instance, counts),
        wheels: placement.map(|placement| wheels(instance, placement)).unwrap_or_default(),
        breaks,
        idle: Vec::new(),
    }
}

/// No place for everything was found at once.
pub(super) fn unstowed() -> Shortfall {
    Shortfall { family: "stow", key: "bags".to_owned(), by: 0.0, limit: 0.0 }
}

impl Live {
    /// What counts of the case break.
    pub(super) fn breaks(&self, counts: &[u32]) -> Vec<Shortfall> {
        select::broken(&self.instance, &self.risk_model, counts)
    }
}
