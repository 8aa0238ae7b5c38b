//! Whose rides they are.

use super::falls::fallen;
use super::rates::Reach;
use crate::domain::{Catalogue, Ride};
use crate::serial::Number;
use crate::units::Distance;
use schemars::JsonSchema;
use serde::Serialize;

/// The rides of one rider.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rider<'a> {
    /// As the rides name the rider; `None` for the owner of the book.
    pub name: Option<&'a str>,
    /// The rider's rides.
    pub rides: Vec<&'a Ride>,
}

/// Whose rates are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Whose {
    /// Those of a rider like all of them.
    Anybody,
    /// Those of the rider at this place.
    Rider(usize),
}

/// A rider's falls beside those of the others.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fellow {
    /// As the rides name the rider; `null` for the owner of the book.
    pub name: Option<String>,
    /// Rides of this rider.
    pub rides: usize,
    /// Kilometres of this rider.
    #[serde(rename = "distance_km", with = "Number")]
    pub distance: Distance,
    /// Things that broke on these rides.
    pub broke: u32,
    /// Falls on these rides.
    pub falls: u32,
    /// Falls per 1000 km of riding like that of all, by the rides of all; `null` where none are modelled.
    pub falls_per_1000_km: Option<Reach>,
}

/// The riders, in the order of their first ride.
pub(super) fn riders(rides: &[Ride]) -> Vec<Rider<'_>> {
    let mut riders: Vec<Rider<'_>> = Vec::new();
    for ride in rides {
        match riders.iter_mut().find(|rider| rider.name == ride.rider.as_deref()) {
            Some(rider) => rider.rides.push(ride),
            None => riders.push(Rider { name: ride.rider.as_deref(), rides: vec![ride] }),
        }
    }
    riders
}

/// Each rider beside the others; nothing where there is only one.
pub(super) fn fellows(catalogue: &Catalogue, riders: &[Rider<'_>]) -> Vec<Fellow> {
    if riders.len() < 2 {
        return Vec::new();
    }
    let one = |(at, rider): (usize, &Rider<'_>)| Fellow {
        name: rider.name.map(str::to_owned),
        rides: rider.rides.len(),
        distance: rider.rides.iter().map(|ride| ride.distance()).sum(),
        broke: rider
            .rides
            .iter()
            .flat_map(|ride| ride.broke.values())
            .fold(0, |all: u32, own| all.saturating_add(*own)),
        falls: rider.rides.iter().fold(0, |all: u32, ride| all.saturating_add(ride.falls)),
        falls_per_1000_km: fallen(catalogue, riders, Whose::Rider(at)).map(|own| own.after),
    };
    riders.iter().enumerate().map(one).collect()
}
