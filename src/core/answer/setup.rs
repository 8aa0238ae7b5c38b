//! What a rider sets on the bike for this load before leaving: tyre pressures, preload, the headlamp.
//!
//! The owner's manual and the plate on the bike come first. Where the bike's entry has their pressures, these are given for
//! the sealed road. All else is common practice, no source: a range for each surface, lower on looser ground, for bikes
//! below and above [`HEAVY_KG`]. Where in its range a tyre lies follows from its load index: the share that the loaded wheel
//! uses of what the index allows (UN Regulation 75, Annex 4), from [`LIGHTLY`] at the lower end to [`HEAVILY`] at the upper
//! one. An index holds at the pressure that its maker ties to it, and no free rule says how much less is allowed below it,
//! so a tyre that is used beyond [`HEAVILY`] is not let down at all: it keeps the pressure for the sealed road everywhere.
//!
//! Sag is a third of the travel with rider and kit aboard: common practice, no source.

use super::loading::Loading;
use crate::domain::{Bike, Scenario, Surface, tyre_load};
use crate::resolve::Scale;
use crate::units::{Length, Pressure};
use schemars::JsonSchema;
use serde::Serialize;

/// From this mass on, in kilograms ready to ride, a bike counts as heavy (common practice, no source).
const HEAVY_KG: f64 = 165.0;
/// Share of what a load index allows up to which the lower end of a range will do (common practice, no source).
const LIGHTLY: f64 = 0.4;
/// Share from which on the upper end is right, and a tyre is not let down any more (common practice, no source).
const HEAVILY: f64 = 0.8;
/// Pressures are set in steps of so many kilopascals.
const STEP_KPA: f64 = 5.0;
/// So many kilograms more on a wheel ask for its preload to be looked at (common practice, no source).
const FELT_KG: f64 = 3.0;
/// The part of its travel that a loaded wheel should sink (common practice, no source).
const SAG: f64 = 1.0 / 3.0;

/// A range of cold pressures in kilopascals.
type Range = (f64, f64);

/// Front and rear of light bikes by surface, from sealed to rough (common practice, no source).
const LIGHT: [(Range, Range); 4] = [
    ((150.0, 180.0), (170.0, 210.0)),
    ((135.0, 160.0), (150.0, 180.0)),
    ((115.0, 145.0), (125.0, 155.0)),
    ((110.0, 135.0), (120.0, 145.0)),
];
/// The same for heavy ones. Gravel: second-hand, weak; the rest common practice, no source.
const HEAVY: [(Range, Range); 4] = [
    ((200.0, 230.0), (230.0, 290.0)),
    ((165.0, 180.0), (195.0, 205.0)),
    ((150.0, 170.0), (160.0, 190.0)),
    ((150.0, 170.0), (160.0, 190.0)),
];

/// What is set for a load.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Setup {
    /// The front wheel.
    pub front: WheelSetup,
    /// The rear wheel.
    pub rear: WheelSetup,
    /// How the beam of the headlamp moves with the load, before anything is set.
    pub beam: Beam,
}

/// What is set at a wheel.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WheelSetup {
    /// Share that the loaded wheel uses of what its tyre's load index allows.
    pub tyre_used: Option<f64>,
    /// Cold pressures by surface of the trip, from sealed to rough.
    pub cold: Vec<Cold>,
    /// Its travel, if the bike's entry has it.
    pub travel_mm: Option<f64>,
    /// What it should sink with rider and kit aboard: a third of its travel.
    pub sag_mm: Option<f64>,
    /// What empty bags and kit add to it.
    pub more_kg: f64,
    /// Where its preload goes from the setting for the rider alone.
    pub preload: Preload,
}

/// A cold pressure for a surface.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Cold {
    /// The surface: `sealed`, `gravel`, `track`, `rough`.
    pub surface: &'static str,
    /// What to begin with for this load.
    pub pressure_kpa: f64,
    /// The lower end of the range.
    pub from_kpa: f64,
    /// The upper end.
    pub to_kpa: f64,
    /// Where it comes from.
    pub by: PressureBy,
}

/// Where a pressure comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PressureBy {
    /// The bike's entry, which has it from plate or manual.
    BikesEntry,
    /// Common practice by surface, the bike's mass and the load on the tyre.
    CommonPractice,
    /// The tyre carries too much of what its index allows to be let down.
    TooLoadedToLetDown,
}

/// Where a wheel's preload goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Preload {
    /// More of it.
    More,
    /// As it is for the rider alone.
    AsItIs,
}

/// How the beam of the headlamp moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Beam {
    /// The rear sinks more than the front: it points higher.
    Higher,
    /// The front sinks more: it points lower.
    Lower,
    /// Neither by much.
    AsItIs,
}

/// What is set on this bike for this load on this trip.
#[must_use]
pub fn setup(bike: &Bike, scenario: &Scenario, load: &Loading) -> Setup {
    let surfaces: Vec<Surface> = Surface::ALL
        .iter()
        .copied()
        .filter(|surface| scenario.trip.legs.iter().any(|leg| leg.km.on(*surface).km() > 0.0))
        .collect();
    let heavy = bike.mass.kilograms() >= HEAVY_KG;
    let ranges = if heavy { HEAVY } else { LIGHT };
    let wheel = |scale: Scale| {
        let front = scale == Scale::Front;
        let (index, entry, travel) = if front {
            (bike.front_load_index, bike.front_pressure, bike.front_travel)
        } else {
            (bike.rear_load_index, bike.rear_pressure, bike.rear_travel)
        };
        let used = tyre_load(index).map(|allowed| load.loaded.on(scale) / allowed.kilograms());
        let range = |surface: Surface| {
            let (of_front, of_rear) = ranges[surface as usize];
            if front { of_front } else { of_rear }
        };
        let entry = entry.map(Pressure::kilopascals);
        let cold = |surface: &Surface| cold(*surface, &range, entry, used.unwrap_or(1.0));
        let more = load.loaded.on(scale) - load.ridden.on(scale);
        WheelSetup {
            tyre_used: used.map(|used| (used * 1e6).round() / 1e6),
            cold: surfaces.iter().map(cold).collect(),
            travel_mm: travel.map(Length::millimetres),
            sag_mm: travel.map(|travel| (travel.millimetres() * SAG).round()),
            more_kg: (more * 10.0).round() / 10.0 + 0.0,
            preload: if more > FELT_KG { Preload::More } else { Preload::AsItIs },
        }
    };
    let (front, rear) = (wheel(Scale::Front), wheel(Scale::Rear));
    let beam = match rear.more_kg - front.more_kg {
        more if more > FELT_KG => Beam::Higher,
        more if more < -FELT_KG => Beam::Lower,
        _ => Beam::AsItIs,
    };
    Setup { front, rear, beam }
}

/// The pressure for a surface: never more on loose ground than on the sealed road.
fn cold(surface: Surface, range: &dyn Fn(Surface) -> Range, entry: Option<f64>, used: f64) -> Cold {
    let place = ((used - LIGHTLY) / (HEAVILY - LIGHTLY)).clamp(0.0, 1.0);
    let within = |(from, to): Range| (((from + (to - from) * place) / STEP_KPA).round() * STEP_KPA).clamp(from, to);
    let sealed = entry.unwrap_or_else(|| within(range(Surface::Sealed)));
    let (from, to) = range(surface);
    let most = entry.unwrap_or(f64::INFINITY);
    let word = surface.word();
    if used > HEAVILY && surface != Surface::Sealed {
        let by = PressureBy::TooLoadedToLetDown;
        return Cold { surface: word, pressure_kpa: sealed, from_kpa: sealed, to_kpa: sealed, by };
    }
    match entry {
        Some(own) if surface == Surface::Sealed => {
            Cold { surface: word, pressure_kpa: own, from_kpa: own, to_kpa: own, by: PressureBy::BikesEntry }
        }
        _ => Cold {
            surface: word,
            pressure_kpa: within((from, to)).min(sealed),
            from_kpa: from.min(most),
            to_kpa: to.min(most),
            by: PressureBy::CommonPractice,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heavy_rear(surface: Surface) -> Range {
        HEAVY[surface as usize].1
    }

    #[test]
    fn the_place_in_the_range_follows_the_share_of_the_load_index() {
        let at = |used| cold(Surface::Sealed, &heavy_rear, None, used).pressure_kpa;
        assert_eq!((at(0.2), at(0.4), at(0.6), at(0.8), at(1.0)), (230.0, 230.0, 260.0, 290.0, 290.0));
    }

    #[test]
    fn the_range_is_whole_wherever_the_pressure_lies_in_it() {
        let sealed = cold(Surface::Sealed, &heavy_rear, None, 0.45);
        assert_eq!((sealed.pressure_kpa, sealed.from_kpa, sealed.to_kpa), (240.0, 230.0, 290.0));
    }

    #[test]
    fn the_bikes_entry_comes_first_and_caps_what_loose_ground_gets() {
        let sealed = cold(Surface::Sealed, &heavy_rear, Some(180.0), 0.5);
        assert_eq!((sealed.pressure_kpa, sealed.by), (180.0, PressureBy::BikesEntry));
        let gravel = cold(Surface::Gravel, &heavy_rear, Some(180.0), 0.5);
        assert_eq!((gravel.pressure_kpa, gravel.to_kpa), (180.0, 180.0), "no more than the entry");
    }

    #[test]
    fn a_heavily_loaded_tyre_is_not_let_down() {
        let rough = cold(Surface::Rough, &heavy_rear, None, 0.85);
        assert_eq!((rough.pressure_kpa, rough.by), (290.0, PressureBy::TooLoadedToLetDown));
        assert!(cold(Surface::Rough, &heavy_rear, None, 0.5).pressure_kpa < 200.0);
    }

    /// Looser ground never gets more, on either sort of bike and at either wheel.
    #[test]
    fn ranges_fall_from_sealed_to_rough() {
        for table in [LIGHT, HEAVY] {
            for pair in table.windows(2) {
                let falls = |a: Range, b: Range| b.0 <= a.0 && b.1 <= a.1 && a.0 < a.1;
                assert!(falls(pair[0].0, pair[1].0) && falls(pair[0].1, pair[1].1), "{pair:?}");
            }
        }
    }
}
