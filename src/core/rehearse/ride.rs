//! One trip after the other: what happens, when, and what it costs.

use super::chances::poisson;
use super::course::{Course, Happening};
use super::event::{Event, What};
use super::mend::Stores;
use super::party::{Microhours, PER_HOUR};
use super::tally::{Outcome, Tally};
use super::uncertain::Uncertain;
use rand::{Rng, RngExt};

/// Work space for trips, used again for each, and what has been counted.
///
/// At the mean rates, trips on which nothing comes to anything, and trips on which just one and the same thing does, are all
/// alike: they are counted, and lived through once for all at the end.
pub(super) struct Rider<'a> {
    course: &'a Course<'a>,
    /// Hours in hand each day before a delay becomes a night out.
    in_hand: Microhours,
    uncertain: Option<Uncertain<'a>>,
    events: Vec<Event>,
    /// For each event, the member that it happened to and the hours that it cost.
    losses: Vec<(u32, Microhours)>,
    stores: Stores<'a>,
    /// For each member, leg and day of the last loss and the hours lost on it.
    days: Vec<((u32, u32), Microhours)>,
    /// Trips on which just one thing happened, by its place in the scatter of what comes to something.
    alone: Vec<u64>,
    /// Trips on which nothing did.
    quiet: u64,
    tally: Tally,
}

impl<'a> Rider<'a> {
    pub fn new(course: &'a Course<'a>, in_hand: Microhours, uncertain: bool) -> Self {
        Self {
            course,
            in_hand,
            uncertain: uncertain.then(|| Uncertain::new(course)),
            events: Vec::new(),
            losses: Vec::new(),
            stores: Stores::new(course),
            days: vec![((0, 0), 0); course.party.members.len()],
            alone: vec![0; course.telling.cells().len()],
            quiet: 0,
            tally: Tally::new(course.party),
        }
    }

    /// Rides so many trips.
    pub fn ride(&mut self, trips: u64, rng: &mut impl Rng) {
        if self.uncertain.is_some() {
            (0..trips).for_each(|_| self.uncertain_trip(rng));
        } else {
            (0..trips).for_each(|_| self.trip(rng));
            #[allow(clippy::cast_precision_loss, reason = "trips of one block")]
            let harmless = poisson(self.course.harmless * trips as f64, rng);
            self.tally.falls += u64::from(harmless);
        }
    }

    /// All that was counted.
    pub fn into_tally(mut self) -> Tally {
        self.tally.trip(&Outcome::default(), self.quiet);
        for (happening, times) in self.course.telling.cells().iter().zip(std::mem::take(&mut self.alone)) {
            if let (Happening::One { event, fall }, 1..) = (happening, times) {
                self.tally.falls += u64::from(*fall) * times;
                self.events.clear();
                self.events.push(*event);
                self.live_through(times);
            }
        }
        self.stores.settle(&mut self.tally);
        self.tally
    }

    /// A trip at the mean rates.
    fn trip(&mut self, rng: &mut impl Rng) {
        let telling = &self.course.telling;
        match telling.count().draw(rng) {
            0 => self.quiet += 1,
            1 => {
                let place = telling.place(rng);
                match telling.cells()[place] {
                    Happening::One { .. } => self.alone[place] += 1,
                    Happening::BadFall { member, leg } => {
                        self.events.clear();
                        self.bad_fall(member, leg, rng);
                        self.live_through(1);
                    }
                }
            }
            count => {
                self.events.clear();
                (0..count).for_each(|_| self.happens(telling.cell(rng), rng));
                self.live_through(1);
            }
        }
    }

    /// A trip at rates drawn for it.
    fn uncertain_trip(&mut self, rng: &mut impl Rng) {
        self.events.clear();
        if let Some(uncertain) = &mut self.uncertain {
            self.tally.falls += uncertain.draw(rng, &mut self.events);
        }
        if self.events.is_empty() {
            self.quiet += 1;
        } else {
            self.live_through(1);
        }
    }

    fn happens(&mut self, happening: Happening, rng: &mut impl Rng) {
        match happening {
            Happening::One { event, fall } => {
                self.tally.falls += u64::from(fall);
                self.events.push(event.at(rng.random()));
            }
            Happening::BadFall { member, leg } => self.bad_fall(member, leg, rng),
        }
    }

    /// A fall that breaks two things or more, or one or more and costs time of its own.
    fn bad_fall(&mut self, member: u32, leg: u32, rng: &mut impl Rng) {
        self.tally.falls += 1;
        let falls = &self.course.falls[member as usize];
        let part = rng.random();
        let owed = rng.random::<f64>() < falls.bad_owed;
        if owed {
            self.events.push(Event::falls(member, leg).at(part));
        }
        for _ in 0..falls.breakage.count().draw_from(if owed { 1 } else { 2 }, rng) {
            let situation = self.course.situation(member, falls.breakage.cell(rng), leg);
            self.events.push(Event::breaks(situation, leg).at(part));
        }
    }

    /// Takes the events in order of time; all that comes of them counts so many `times`.
    fn live_through(&mut self, times: u64) {
        // What one fall breaks keeps its order, which is a random one.
        self.events.sort_by_key(|event| event.moment);
        self.stores.fill();
        self.losses.clear();
        let mut outcome = Outcome::default();
        for event in &self.events {
            let (member, lost) = match event.what {
                What::Falls(member) => (member, self.course.party.members[member as usize].per_fall),
                What::Breaks(situation) => {
                    let mended = self.stores.mend(situation as usize, times);
                    outcome.breakdowns += 1;
                    outcome.stranded |= mended.stranded;
                    (self.course.situations[situation as usize].member, mended.lost)
                }
            };
            outcome.lost = outcome.lost.saturating_add(lost);
            self.losses.push((member, lost));
        }
        // Where all of it is no more than may be lost in a day, it does not matter when it was.
        if outcome.lost > self.in_hand {
            outcome.nights = self.nights_out();
        }
        self.tally.trip(&outcome, times);
    }

    /// Nights out for the losses of each member's days.
    fn nights_out(&mut self) -> u64 {
        self.days.fill(((u32::MAX, 0), 0));
        let mut out = 0;
        for (event, (member, lost)) in self.events.iter().zip(&self.losses) {
            let leg = event.moment.leg();
            let today = (leg, event.moment.day(self.course.party.days[leg as usize]));
            let (day, hours) = &mut self.days[*member as usize];
            if *day == today {
                *hours = hours.saturating_add(*lost);
            } else {
                out += nights(*hours, self.in_hand);
                (*day, *hours) = (today, *lost);
            }
        }
        out + self.days.iter().map(|(_, hours)| nights(*hours, self.in_hand)).sum::<u64>()
    }
}

/// A night out for hours beyond those in hand, and one more for every further day.
fn nights(lost: Microhours, in_hand: Microhours) -> u64 {
    /// A day in microhours: the time after a night out until the next.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a positive constant")]
    const DAY: Microhours = (24.0 * PER_HOUR) as Microhours;
    match lost.checked_sub(in_hand) {
        None | Some(0) => 0,
        Some(over) => (over - 1) / DAY + 1,
    }
}
