//! The trip ridden many thousand times: event by event, with the kit that is aboard.
//!
//! What breaks and who falls is drawn first; falls rise with the kit's weight, and break things themselves. Whatever breaks
//! is then dealt with in order of time, by the best repair that the functions aboard and the stock
//! left still allow; what is used up is gone. The trip goes on after every breakdown, as in the optimiser's sums; so the
//! two can be compared.
//!
//! **Reproducible.** Trips are ridden in blocks, and every block has a stream of random numbers of its own, numbered
//! like the block. Everything that is added up is a whole number. The result depends on the seed alone, not on threads.
//!
//! # What is drawn
//!
//! Falls of a trip are a Poisson number with the mean of the loaded bike, `falls x (1 + load sensitivity x kit mass /
//! bike mass)`. Each fall breaks a Poisson number of things; kilometres and days break a Poisson number more. Which
//! failure on which leg an event is follows from its share of the mean (superposition of Poisson sources, Walker's
//! alias table); its time within the leg is uniform. Falls are split by what comes of them, since the parts of a
//! Poisson number that is split by chance are independent: at the mean rates, falls without consequence are drawn as
//! one number for a whole block of trips. Trips on which a single thing breaks or falls are all alike for each such
//! thing, so they are counted and ridden once at the end.
//!
//! # What is counted
//!
//! - **Hours lost**: `time + (1 - restores) x hours` for what is repaired, `hours` for what is not, and `hours per
//!   fall` for the share of falls that the kit's weight brings. The optimiser's `empty - saved + handling` approximates
//!   this: it takes each stock's fill for all failures alike, prices weight linearly and at the best repair that any
//!   kit allows. On the shipped scenarios the two lie within 2 %.
//! - **Stranded**: a failure that stops the bike, and no repair that functions and stock still allow. Where help is
//!   there sooner than a repair would be done, that is no stranding.
//! - **Night out**: a day that loses more than the hours in hand, and one more for every further 24 hours. A member's
//!   losses on one day add up.
//! - **Uncertain rates**: each failure's rate is its mean times a Gamma factor of mean 1, drawn for each trip; the
//!   shape is what the rate is worth in events. Riders on like bikes share the
//!   draw. Falls keep their mean. How that is drawn: `uncertain`.
//!
//! # Seeds
//!
//! Trips are ridden in blocks of [`BLOCK`], each with its own stream of the xoshiro256++ generator. Hours are integer
//! microhours and all sums integers. Percentiles come from a table of fixed size with classes 1/128 of the value wide.

mod chances;
mod course;
mod event;
pub mod figures;
mod from_instance;
mod mend;
pub mod party;
mod providers;
mod ride;
mod sets;
pub mod spread;
pub mod tally;
mod uncertain;
mod worlds;

pub use figures::Estimate;
pub use from_instance::{Load, evidence, party};
pub use party::Party;
pub(crate) use providers::Providers;
pub use tally::Tally;
pub use worlds::{TRIPS_IN_A_WORLD, rehearse_worlds};

use crate::parallel;
use crate::serial::Number;
use crate::units::Hours;
use course::Course;
use fardel_milp::timing::timed;
use rand::SeedableRng;
use rand_xoshiro::rand_core::Rng;
use rand_xoshiro::{SplitMix64, Xoshiro256PlusPlus};
use ride::Rider;
use schemars::JsonSchema;
use serde::Serialize;

/// Trips in a block. Part of what a seed means: another number gives other trips.
const BLOCK: u64 = 4096;
/// Hours in hand before dark if nothing else is said: an afternoon's halt, from memory.
pub const IN_HAND: Hours = Hours::new(4.0);

/// How to rehearse.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// Trips to ride.
    pub trips: u64,
    /// What decides all chances.
    pub seed: u64,
    /// Draw each failure's rate anew for each trip, as far as its evidence leaves it open.
    #[serde(rename = "uncertain_rates")]
    pub uncertain: bool,
    /// Hours that may be lost in a day before the night is spent somewhere else than planned. More is a night out, and
    /// every further 24 hours another.
    #[serde(rename = "in_hand_h", with = "Number")]
    pub in_hand: Hours,
}

impl Default for Plan {
    fn default() -> Self {
        Self { trips: 100_000, seed: 1, uncertain: false, in_hand: IN_HAND }
    }
}

/// Rides all trips. `ridden` is told, from any thread, how many more are done.
#[must_use]
pub fn rehearse(party: &Party, plan: &Plan, ridden: &(impl Fn(u64) + Sync)) -> Tally {
    timed("ride", || ridden_out(party, plan, ridden))
}

fn ridden_out(party: &Party, plan: &Plan, ridden: &(impl Fn(u64) + Sync)) -> Tally {
    let course = Course::new(party);
    let in_hand = party::microhours(plan.in_hand);
    parallel::fold(
        plan.trips.div_ceil(BLOCK),
        || Rider::new(&course, in_hand, plan.uncertain),
        |mut rider, block| {
            let trips = BLOCK.min(plan.trips - block * BLOCK);
            rider.ride(trips, &mut stream(plan.seed, block));
            ridden(trips);
            rider
        },
        Rider::into_tally,
        || Tally::new(party),
        |one, other| one.and(&other),
    )
}

/// The random numbers of a block. Seeds that follow each other are scattered twice (Blackman & Vigna, ACM Transactions on
/// Mathematical Software 47, 2021, article 36), so that neither seeds nor blocks have numbers in common.
fn stream(seed: u64, block: u64) -> Xoshiro256PlusPlus {
    let first = SplitMix64::seed_from_u64(seed).next_u64();
    Xoshiro256PlusPlus::seed_from_u64(first.wrapping_add(block))
}
