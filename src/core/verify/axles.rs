//! The wheels carry what the answer says they carry, and no more than bike and tyres bear.
//!
//! Reckoned about the front contact patch here (the rear load is the sum of the moments over the wheelbase, the front
//! one what is left), from names alone.

use super::{Evidence, Violation, differs};
use crate::domain::{Bag, PreparationType, tyre_load};
use crate::units::{Length, Mass, Volume};

/// Petrol that fills the last tenth of the tank, in kilograms a litre of tank (EN 228:2012, the middle).
const LAST_TENTH: f64 = 0.1 * 0.7475;

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let (front, rear) = wheels(e);
    let mut found = Vec::new();
    found.extend(differs("axles", "front wheel, kg", e.claim.front_kg, front));
    found.extend(differs("axles", "rear wheel, kg", e.claim.rear_kg, rear));
    let bike = e.bike;
    let limits = [
        ("everything together", front + rear, Some(bike.max_mass)),
        ("the front axle", front, bike.front_axle_limit),
        ("the front tyre", front, tyre_load(bike.front_load_index)),
        ("the rear axle", rear, bike.rear_axle_limit),
        ("the rear tyre", rear, tyre_load(bike.rear_load_index)),
    ];
    for (what, carried, limit) in limits {
        let over = limit.map_or(0.0, |limit| carried - limit.kilograms());
        if over > super::TOLERANCE {
            found.push(Violation { rule: "axles", what: format!("{what} overloaded, kg"), by: over });
        }
    }
    found
}

/// Kilograms on the front and on the rear wheel.
fn wheels(e: &Evidence<'_>) -> (f64, f64) {
    let wheelbase = e.bike.wheelbase.metres();
    let behind_front = |ahead: Length| wheelbase - ahead.metres();
    let (bike, bags) = (ready(e), bags_and_contents(e));
    let mut total = bike + e.rider.mass.kilograms();
    let mut moment = bike * (1.0 - e.bike.front_share) * wheelbase;
    moment += e.rider.mass.kilograms() * behind_front(e.bike.rider_ahead);
    if let Some(passenger) = e.rider.passenger {
        total += passenger.kilograms();
        moment += passenger.kilograms() * behind_front(e.bike.passenger_ahead);
    }
    for (bag, mass) in bags {
        total += mass.kilograms();
        moment += mass.kilograms() * behind_front(bag.ahead);
    }
    let rear = moment / wheelbase;
    (total - rear, rear)
}

/// The bike with a full tank and the parts fitted for the trip, to the gram as the answer has it.
fn ready(e: &Evidence<'_>) -> f64 {
    let fill = (e.bike.energy.tank().map_or(0.0, Volume::litres) * LAST_TENTH * 1000.0).round() / 1000.0;
    let mut mass = e.bike.mass.kilograms() + fill;
    for id in &e.scenario.done {
        let Some(part) = e.catalogue.preparations.get(id) else { continue };
        let new = part.kind == PreparationType::Fitted && !e.bike.fitted.contains(id);
        if new && e.bike.matches(&part.applies) {
            mass += part.mass.kilograms();
        }
    }
    mass
}

/// Each bag on the bike with what it and its contents weigh; the bag itself is in the bike's mass if it is part of it.
fn bags_and_contents<'a>(e: &Evidence<'a>) -> Vec<(&'a Bag, Mass)> {
    let mut all = Vec::new();
    for (own, id) in e.bike.bags.iter().map(|id| (false, id)).chain(e.rider.bags.iter().map(|id| (true, id))) {
        let Some(bag) = e.catalogue.bags.get(id) else { continue };
        let units = e.stowage.get(id).into_iter().flatten();
        let inside: Mass = units.filter_map(|(item, n)| Some(e.catalogue.items.get(item)?.mass * *n)).sum();
        all.push((bag, if own { bag.mass + inside } else { inside }));
    }
    all
}
