//! What is counted over the trips: whole numbers throughout, so that the order of adding up does not matter.

use super::party::{Microhours, Party};
use super::spread::Spread;

/// What happened on all trips.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tally {
    /// Trips ridden.
    pub trips: u64,
    /// Trips on which nothing broke.
    pub untroubled: u64,
    /// Breakdowns of any sort.
    pub breakdowns: u64,
    /// Falls.
    pub falls: u64,
    /// Hours lost on each trip.
    pub hours: Spread,
    /// Hours lost on all trips.
    pub lost: u128,
    /// Sum of their squares.
    pub lost_squared: u128,
    /// Trips with a stop that could not be repaired.
    pub stranded: u64,
    /// Nights out on all trips.
    pub nights_out: u64,
    /// Sum of the squares of nights out on a trip.
    pub nights_out_squared: u128,
    /// Trips with a night out.
    pub with_night_out: u64,
    /// By trouble.
    pub troubles: Vec<TroubleTally>,
    /// By item.
    pub items: Vec<ItemTally>,
    /// By stock.
    pub stocks: Vec<StockTally>,
    /// What trips that were ridden in the same world came to together; no world where all trips were ridden in one.
    pub worlds: Worlds,
}

/// Sums of squares over worlds, for standard errors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Worlds {
    /// How many.
    pub count: u64,
    /// Squares of the hours lost in each.
    pub lost: u128,
    /// Squares of the trips with a stop that could not be repaired.
    pub stranded: u128,
    /// Squares of the nights out.
    pub nights_out: u128,
    /// Squares of the trips with a night out.
    pub with_night_out: u128,
    /// Squares of the trips on which nothing broke.
    pub untroubled: u128,
}

impl Worlds {
    const fn and(self, other: Self) -> Self {
        Self {
            count: self.count + other.count,
            lost: self.lost.saturating_add(other.lost),
            stranded: self.stranded.saturating_add(other.stranded),
            nights_out: self.nights_out.saturating_add(other.nights_out),
            with_night_out: self.with_night_out.saturating_add(other.with_night_out),
            untroubled: self.untroubled.saturating_add(other.untroubled),
        }
    }
}

/// What one failure did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TroubleTally {
    /// Occurrences.
    pub times: u64,
    /// Occurrences that were repaired.
    pub repaired: u64,
    /// Stops that no repair was left for.
    pub strandings: u64,
    /// Hours lost to it.
    pub lost: u128,
}

/// How often an item was used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ItemTally {
    /// Repairs.
    pub repairs: u64,
    /// Trips.
    pub trips: u64,
}

/// How far a stock reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct StockTally {
    /// Units used up.
    pub used: u64,
    /// Trips on which a better repair was missed for want of it.
    pub short: u64,
}

/// What came of a trip.
#[derive(Debug, Default)]
pub(super) struct Outcome {
    pub lost: Microhours,
    pub breakdowns: u32,
    pub stranded: bool,
    pub nights: u64,
}

impl Tally {
    pub(super) fn new(party: &Party) -> Self {
        Self {
            trips: 0,
            untroubled: 0,
            breakdowns: 0,
            falls: 0,
            hours: Spread::default(),
            lost: 0,
            lost_squared: 0,
            stranded: 0,
            nights_out: 0,
            nights_out_squared: 0,
            with_night_out: 0,
            troubles: vec![TroubleTally::default(); party.troubles.len()],
            items: vec![ItemTally::default(); party.items.len()],
            stocks: vec![StockTally::default(); party.stocks.len()],
            worlds: Worlds::default(),
        }
    }

    /// Closes so many trips with the same outcome.
    pub(super) fn trip(&mut self, outcome: &Outcome, times: u64) {
        let (lost, nights) = (u128::from(outcome.lost), outcome.nights);
        self.trips += times;
        self.untroubled += if outcome.breakdowns == 0 { times } else { 0 };
        self.breakdowns += u64::from(outcome.breakdowns) * times;
        self.hours.add(outcome.lost, times);
        self.lost += lost * u128::from(times);
        self.add_squares((lost * lost).saturating_mul(u128::from(times)));
        self.stranded += u64::from(outcome.stranded) * times;
        self.nights_out += nights * times;
        self.nights_out_squared += u128::from(nights) * u128::from(nights) * u128::from(times);
        self.with_night_out += if nights > 0 { times } else { 0 };
    }

    /// Trips of centuries are only bounded from below: a sum that saturates is the same in whatever order it is made.
    fn add_squares(&mut self, more: u128) {
        self.lost_squared = self.lost_squared.saturating_add(more);
    }

    /// Adds what another tally of the same party has counted.
    #[must_use]
    pub(super) fn and(mut self, other: &Self) -> Self {
        self.trips += other.trips;
        self.untroubled += other.untroubled;
        self.breakdowns += other.breakdowns;
        self.falls += other.falls;
        self.hours.merge(&other.hours);
        self.lost += other.lost;
        self.add_squares(other.lost_squared);
        self.stranded += other.stranded;
        self.nights_out += other.nights_out;
        self.nights_out_squared += other.nights_out_squared;
        self.with_night_out += other.with_night_out;
        for (own, more) in self.troubles.iter_mut().zip(&other.troubles) {
            own.times += more.times;
            own.repaired += more.repaired;
            own.strandings += more.strandings;
            own.lost += more.lost;
        }
        for (own, more) in self.items.iter_mut().zip(&other.items) {
            own.repairs += more.repairs;
            own.trips += more.trips;
        }
        for (own, more) in self.stocks.iter_mut().zip(&other.stocks) {
            own.used += more.used;
            own.short += more.short;
        }
        self.worlds = self.worlds.and(other.worlds);
        self
    }

    /// The same, all trips having been ridden in one world of several.
    #[must_use]
    pub(super) fn into_one_world(mut self) -> Self {
        let square = |count: u64| u128::from(count) * u128::from(count);
        self.worlds = Worlds {
            count: 1,
            lost: self.lost.saturating_mul(self.lost),
            stranded: square(self.stranded),
            nights_out: square(self.nights_out),
            with_night_out: square(self.with_night_out),
            untroubled: square(self.untroubled),
        };
        self
    }
}
