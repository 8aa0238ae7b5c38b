//! Parts of pairs, and figures that follow from others.

use crate::answer::loading::Wheels;
use crate::answer::plan::{Home, TripSummary};
use crate::answer::remedy::{Extra, Remedy};
use crate::rehearse::Estimate;
use crate::risk::PerKilogram;
use crate::serial::{parts, six_places, whole_grams};
use crate::units::{Hours, Temperature};

parts! {
    /// Where and who.
    TripParts(trip => TripSummary) {
        /// Title of the scenario.
        scenario: String = trip.scenario.clone(),
        /// The rider's name.
        rider: String = trip.rider.clone(),
        /// Name of the bike.
        bike: String = trip.bike.clone(),
        /// How long and how far.
        trip: TripLength = crate::serial::Part::of(trip),
    }
    /// How long and how far.
    TripLength(trip => TripSummary) {
        /// Days under way.
        days: f64 = trip.days,
        /// Nights.
        nights: u32 = trip.nights,
        /// Whole distance, in km.
        distance_km: f64 = trip.distance.km(),
        /// Part of it on track and rough, in km.
        track_and_rough_km: f64 = trip.off_road.km(),
        /// Longest hours to help of any leg.
        furthest_help_h: f64 = trip.furthest.get(),
    }
    /// Hours of the trip that a kilogram costs.
    KilogramPrice(price => PerKilogram) {
        /// Hours of the trip that a kilogram costs.
        kilogram_h: f64 = price.hours(),
        /// The part of it through hard riding that takes longer.
        kilogram_riding_h: f64 = price.riding,
        /// The part of it through falls.
        kilogram_falls_h: f64 = price.falls,
    }
    /// What a stop that is left costs.
    FetchedPrice((nearest, furthest) => (Hours, Hours)) {
        /// Hours that a stop which is left costs where help is nearest.
        fetched_nearest_h: f64 = nearest.get(),
        /// The same where help is furthest.
        fetched_furthest_h: f64 = furthest.get(),
    }
    /// Chance that nobody is stranded; null where the group splits.
    HomeTogether(home => Option<Home>) {
        /// Chance that no stop of any bike is left unrepaired, from trips ridden event by event; null where the group
        /// splits, or too much happens to be ridden.
        self_recovery: Option<Estimate> = home.and_then(|home| home.ridden),
        /// What riders who keep for each stop what it needs get at least; null where the group splits.
        self_recovery_at_least: Option<f64> = home.map(|home| home.bound),
    }
    /// How far a number can be turned.
    SameRange((down, up) => (f64, f64)) {
        /// Down to this factor no more than five things of the kit go; 1: not even the nearest that was tried.
        same_from_factor: f64 = *down,
        /// The same upwards.
        same_to_factor: f64 = *up,
    }
    /// Degrees of a need that has one.
    Degrees(degrees => Option<(Temperature, Temperature)>) {
        /// Where what is packed is not warm enough: the degree that the trip asks for, in °C; null elsewhere.
        demanded_down_to_c: Option<f64> = degrees.map(|(wanted, _)| wanted.celsius()),
        /// The degree that what is packed is good for, in °C.
        packed_down_to_c: Option<f64> = degrees.map(|(_, packed)| packed.celsius()),
    }
    /// What the wheels carry.
    LoadedWheels(wheels => Wheels) {
        /// On the front wheel, in whole grams.
        front_g: f64 = whole_grams(wheels.front),
        /// On the rear wheel, in whole grams.
        rear_g: f64 = whole_grams(wheels.rear),
        /// On both, in whole grams.
        total_g: f64 = whole_grams(wheels.total()),
        /// Share of the whole on the front wheel, to six places.
        front_share: f64 = six_places(wheels.front_share()),
    }
    /// What it would take to do better.
    RemedyParts(remedy => Remedy) {
        /// Things that would allow more; null where no more things would help.
        remedy: Option<Take> = take(remedy),
        /// The repair skill that would help, where only that is missing; else null.
        skill_wanted: Option<&'static str> = if let Remedy::Skill(skill) = remedy { Some(skill) } else { None },
    }
}

/// Things that would allow a repair.
#[derive(serde::Serialize, schemars::JsonSchema)]
pub(crate) struct Take {
    /// The repair that they would allow.
    repair: String,
    /// What to take on top, the lightest that will do.
    items: Vec<Extra>,
    /// Their mass, in grams.
    mass_g: f64,
}

fn take(remedy: &Remedy) -> Option<Take> {
    let Remedy::Take { repair, items, mass } = remedy else { return None };
    Some(Take { repair: repair.clone(), items: items.clone(), mass_g: mass.grams() })
}
