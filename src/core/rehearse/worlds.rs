//! Trips ridden in many worlds: in each, everything that is uncertain has another value.
//!
//! A world is a party of its own. So that making them does not take longer than riding, each is ridden in for
//! [`TRIPS_IN_A_WORLD`] trips. Trips of one world are alike: what they lose together is one observation, and standard errors
//! are those of a mean over worlds (ratio of a mean over clusters of the same size: Cochran, Sampling Techniques, 3rd ed.
//! 1977, chapter 9).

use super::course::Course;
use super::party::{Party, microhours};
use super::ride::Rider;
use super::tally::Tally;
use super::{Plan, stream};
use crate::parallel;
use fardel_milp::timing::timed;

/// Trips ridden in one world.
pub const TRIPS_IN_A_WORLD: u64 = 32;

/// Rides all trips of the plan, each world's in the party that `world` makes of its number. All of them must have the same
/// members, troubles, items and stocks as `like`.
#[must_use]
pub fn rehearse_worlds(
    like: &Party,
    world: &(impl Fn(u64) -> Party + Sync),
    plan: &Plan,
    ridden: &(impl Fn(u64) + Sync),
) -> Tally {
    let in_hand = microhours(plan.in_hand);
    let ride = |tally: Tally, number: u64| {
        let party = world(number);
        let course = Course::new(&party);
        let trips = TRIPS_IN_A_WORLD.min(plan.trips - number * TRIPS_IN_A_WORLD);
        let mut rider = Rider::new(&course, in_hand, false);
        rider.ride(trips, &mut stream(plan.seed, number));
        ridden(trips);
        let own = rider.into_tally();
        tally.and(&own.into_one_world())
    };
    timed("ride in many worlds", || {
        parallel::fold(
            plan.trips.div_ceil(TRIPS_IN_A_WORLD),
            || Tally::new(like),
            ride,
            |tally| tally,
            || Tally::new(like),
            |one, other| one.and(&other),
        )
    })
}
