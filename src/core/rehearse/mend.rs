//! What is done about a breakdown with what is left, and what that takes.

use super::course::{Course, Situation};
use super::party::Microhours;
use super::sets;
use super::tally::Tally;
use std::ops::Range;

/// The kit on one trip after the other, and how often each repair was done with it.
///
/// What follows from how often a repair was done is worked out at the end, in [`Stores::settle`].
pub(super) struct Stores<'a> {
    course: &'a Course<'a>,
    /// Units left of each stock, and the stocks that something was taken of.
    left: Vec<u32>,
    taken: Vec<usize>,
    /// Items used on this trip, and in this repair.
    used: Vec<u64>,
    now: Vec<u64>,
    /// Number of the trip, and of the last one on which a stock ran short.
    trip: u64,
    short_on: Vec<u64>,
    /// How often each choice was taken.
    done: Vec<u64>,
    /// How often a situation was left as it was, and how often it had to be.
    left_alone: Vec<u64>,
    stranded: Vec<u64>,
    /// How often an item was used for what it holds of a stock that has several holders.
    held: Vec<u64>,
    /// How often an item was used in a repair that had been used before on the same trip.
    again: Vec<u64>,
    /// Trips on which a stock ran short.
    short: Vec<u64>,
}

/// What a breakdown came to.
pub(super) struct Mended {
    pub lost: Microhours,
    pub stranded: bool,
}

impl<'a> Stores<'a> {
    pub fn new(course: &'a Course<'a>) -> Self {
        let party = course.party;
        let (stocks, items, situations) = (party.stocks.len(), party.items.len(), course.situations.len());
        Self {
            course,
            left: party.stocks.iter().map(|stock| stock.units).collect(),
            taken: Vec::new(),
            used: vec![0; sets::words(items)],
            now: vec![0; sets::words(items)],
            trip: 0,
            short_on: vec![0; stocks],
            done: vec![0; course.choices.len()],
            left_alone: vec![0; situations],
            stranded: vec![0; situations],
            held: vec![0; items],
            again: vec![0; items],
            short: vec![0; stocks],
        }
    }

    /// Everything is there again.
    pub fn fill(&mut self) {
        self.trip += 1;
        self.used.fill(0);
        for stock in self.taken.drain(..) {
            self.left[stock] = self.course.party.stocks[stock].units;
        }
    }

    /// Does the best repair that is still possible; all that counts so many `times`.
    pub fn mend(&mut self, at: usize, times: u64) -> Mended {
        let course = self.course;
        let situation = &course.situations[at];
        let mut could = false;
        for number in situation.choices() {
            let choice = &course.choices[number];
            let worth_it = choice.worth;
            if let Some((stock, _)) = course.uses(choice).iter().find(|(stock, units)| self.left[*stock] < *units) {
                if worth_it {
                    self.runs_short(*stock, times);
                }
                continue;
            }
            could = true;
            if !worth_it {
                continue;
            }
            self.done[number] += times;
            self.take(course.items(choice), course.uses(choice), times);
            return Mended { lost: choice.cost, stranded: false };
        }
        // Where help is there sooner than a repair would be done, the bike is fetched; nobody is stranded.
        let stranded = situation.stops && !could;
        let count = if stranded { &mut self.stranded } else { &mut self.left_alone };
        count[at] += times;
        Mended { lost: situation.unrepaired, stranded }
    }

    fn runs_short(&mut self, stock: usize, times: u64) {
        if self.short_on[stock] != self.trip {
            self.short_on[stock] = self.trip;
            self.short[stock] += times;
        }
    }

    /// Takes items and units of stocks for a repair.
    fn take(&mut self, items: &[u64], uses: &[(usize, u32)], times: u64) {
        self.now.copy_from_slice(items);
        uses.iter().for_each(|(stock, units)| self.use_up(*stock, *units, times));
        for (word, (used, now)) in self.used.iter_mut().zip(&self.now).enumerate() {
            sets::of_word(word, *used & now).for_each(|item| self.again[item] += times);
            *used |= now;
        }
    }

    /// Takes units of a stock. A single holder is one of the repair's items anyway.
    fn use_up(&mut self, stock: usize, units: u32, times: u64) {
        let of = &self.course.party.stocks[stock];
        let gone = of.units - self.left[stock];
        self.left[stock] -= units;
        self.taken.push(stock);
        if let [_, _, ..] = of.holders[..] {
            self.use_holders(&of.holders, gone..gone + units, times);
        }
    }

    /// Takes these units, from one holder after the other.
    fn use_holders(&mut self, holders: &[(usize, u32)], units: Range<u32>, times: u64) {
        let mut before = 0_u32;
        for (item, held) in holders {
            let after = before.saturating_add(*held);
            if units.start < after && units.end > before {
                for item in std::iter::once(item).chain(&self.course.party.items[*item].with) {
                    if !sets::has(&self.now, *item) {
                        sets::insert(&mut self.now, *item);
                        self.held[*item] += times;
                    }
                }
            }
            before = after;
        }
    }

    /// Adds up what was done on all trips.
    pub fn settle(&self, tally: &mut Tally) {
        for (at, situation) in self.course.situations.iter().enumerate() {
            let unrepaired = self.stranded[at] + self.left_alone[at];
            let own = &mut tally.troubles[situation.trouble as usize];
            own.strandings += self.stranded[at];
            own.times += unrepaired;
            own.lost += u128::from(unrepaired) * u128::from(situation.unrepaired);
            self.settle_repairs(situation, tally);
        }
        for (item, own) in tally.items.iter_mut().enumerate() {
            own.repairs += self.held[item];
            own.trips += own.repairs - self.again[item];
        }
        tally.stocks.iter_mut().zip(&self.short).for_each(|(own, short)| own.short += short);
    }

    fn settle_repairs(&self, situation: &Situation, tally: &mut Tally) {
        for number in situation.choices() {
            let (times, choice) = (self.done[number], &self.course.choices[number]);
            let own = &mut tally.troubles[situation.trouble as usize];
            own.times += times;
            own.repaired += times;
            own.lost += u128::from(times) * u128::from(choice.cost);
            sets::items(self.course.items(choice)).for_each(|item| tally.items[item].repairs += times);
            for (stock, units) in self.course.uses(choice) {
                tally.stocks[*stock].used += times * u64::from(*units);
            }
        }
    }
}
