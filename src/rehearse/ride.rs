//! One trip: what breaks when, what is done about it with what is left, what it costs.

use super::chances::poisson;
use super::course::{Course, Situation};
use super::party::{Microhours, PER_HOUR};
use super::tally::Tally;
use rand::{Rng, RngExt};

/// Work space for trips, used again for each.
pub(super) struct Rider<'a> {
    course: &'a Course<'a>,
    /// Hours in hand each day before a delay becomes a night out.
    in_hand: Microhours,
    events: Vec<Event>,
    /// Units left of each stock, and the stocks that something was taken of.
    left: Vec<u32>,
    taken: Vec<usize>,
    /// Number of the last trip on which an item was used or a stock ran short.
    item_used: Vec<u64>,
    stock_short: Vec<u64>,
    /// For each member, the day of the last loss and the hours lost on it.
    days: Vec<(u32, u32, Microhours)>,
    /// With rates drawn: factor of each trouble, and the sums of means by which events fall on situations.
    factors: Vec<f64>,
    steps: Vec<f64>,
    riding_means: Vec<f64>,
}

/// Something that breaks, or time lost to a fall.
#[derive(Clone, Copy)]
struct Event {
    leg: u32,
    /// Part of the leg ridden.
    part: f64,
    what: What,
}

#[derive(Clone, Copy)]
enum What {
    /// Number of the situation.
    Breaks(usize),
    /// A fall that the weight brought: number of the member.
    Falls(usize),
}

/// What came of a trip.
#[derive(Default)]
struct Outcome {
    lost: Microhours,
    breakdowns: u32,
    stranded: bool,
    nights: u32,
}

impl<'a> Rider<'a> {
    pub fn new(course: &'a Course<'a>, in_hand: Microhours) -> Self {
        let party = course.party;
        Self {
            course,
            in_hand,
            events: Vec::new(),
            left: party.stocks.iter().map(|stock| stock.units).collect(),
            taken: Vec::new(),
            item_used: vec![0; party.items.len()],
            stock_short: vec![0; party.stocks.len()],
            days: vec![(0, 0, 0); party.members.len()],
            factors: vec![1.0; party.troubles.len()],
            steps: Vec::new(),
            riding_means: if course.factors.is_empty() { Vec::new() } else { course.riding_means() },
        }
    }

    /// Rides one trip and counts it.
    pub fn ride(&mut self, rng: &mut impl Rng, tally: &mut Tally) {
        self.events.clear();
        if self.course.factors.is_empty() {
            self.troubles(rng, tally);
        } else {
            self.draw_factors(rng);
            self.drawn_breakdowns(rng);
            self.drawn_falls(rng, tally);
        }
        let outcome = if self.events.is_empty() { Outcome::default() } else { self.live_through(tally) };
        tally.trip(outcome.lost, outcome.breakdowns, outcome.stranded, outcome.nights);
    }

    /// Falls on so many trips that were not counted one by one, for nothing came of them.
    #[allow(clippy::cast_precision_loss, reason = "trips of one block")]
    pub fn harmless_falls(&self, trips: u64, rng: &mut impl Rng) -> u64 {
        let mean = if self.course.factors.is_empty() { self.course.harmless * trips as f64 } else { 0.0 };
        u64::from(poisson(mean, rng))
    }

    /// Breakdowns by kilometres and days, and falls that come to something, at their mean rates.
    fn troubles(&mut self, rng: &mut impl Rng, tally: &mut Tally) {
        for _ in 0..self.course.telling.count(rng) {
            let cell = self.course.telling.cell(rng);
            match cell.checked_sub(self.course.situations.len()) {
                None => self.breaks(cell, rng),
                Some(cell) => self.telling_fall(cell, rng, tally),
            }
        }
    }

    /// A fall that is owed to the weight, or breaks something, or both.
    fn telling_fall(&mut self, cell: usize, rng: &mut impl Rng, tally: &mut Tally) {
        tally.falls += 1;
        let legs = self.course.party.days.len();
        let (member, leg) = (cell / legs, cell % legs);
        let fall = Event { leg: leg_number(leg), part: rng.random(), what: What::Falls(member) };
        let breakage = &self.course.breakage[member];
        let owed = rng.random::<f64>() < self.course.owed[member];
        if owed {
            self.events.push(fall);
        }
        for _ in 0..if owed { breakage.count(rng) } else { breakage.some(rng) } {
            let what = What::Breaks(self.course.situation(member, breakage.cell(rng), leg));
            self.events.push(Event { what, ..fall });
        }
    }

    fn breaks(&mut self, situation: usize, rng: &mut impl Rng) {
        let leg = self.course.situations[situation].leg;
        self.events.push(Event { leg, part: rng.random(), what: What::Breaks(situation) });
    }

    fn draw_factors(&mut self, rng: &mut impl Rng) {
        self.factors.iter_mut().zip(&self.course.factors).for_each(|(own, factor)| *own = factor.draw(rng));
    }

    /// The same at the rates drawn for this trip.
    fn drawn_breakdowns(&mut self, rng: &mut impl Rng) {
        let situations = &self.course.situations;
        let mut sum = 0.0;
        self.steps.clear();
        self.steps.extend(self.riding_means.iter().zip(situations).map(|(mean, situation)| {
            sum += mean * self.factors[situation.trouble as usize];
            sum
        }));
        for _ in 0..poisson(sum, rng) {
            let situation = on_step(&self.steps, rng.random::<f64>() * sum);
            self.breaks(situation, rng);
        }
    }

    /// Falls, and what each of them breaks at the rates drawn.
    fn drawn_falls(&mut self, rng: &mut impl Rng, tally: &mut Tally) {
        let legs = self.course.party.days.len();
        let falls = self.course.falls.count(rng);
        tally.falls += u64::from(falls);
        for _ in 0..falls {
            let cell = self.course.falls.cell(rng);
            let (member, leg) = (cell / legs, cell % legs);
            let before = self.events.len();
            // When it happens, is drawn only if something comes of it.
            let fall = Event { leg: leg_number(leg), part: 0.0, what: What::Falls(member) };
            if rng.random::<f64>() < self.course.party.members[member].owed_to_weight {
                self.events.push(fall);
            }
            self.breakage(member, leg, fall, rng);
            if self.events.len() > before {
                let part = rng.random();
                self.events[before..].iter_mut().for_each(|event| event.part = part);
            }
        }
    }

    fn breakage(&mut self, member: usize, leg: usize, fall: Event, rng: &mut impl Rng) {
        let mut sum = 0.0;
        self.steps.clear();
        self.steps.extend(self.course.party.members[member].faults.iter().map(|fault| {
            sum += fault.per_fall * self.factors[fault.trouble];
            sum
        }));
        for _ in 0..poisson(sum, rng) {
            let fault = on_step(&self.steps, rng.random::<f64>() * sum);
            self.events.push(Event { what: What::Breaks(self.course.situation(member, fault, leg)), ..fall });
        }
    }

    /// Takes the events in order of time.
    fn live_through(&mut self, tally: &mut Tally) -> Outcome {
        // What one fall breaks keeps its order, which is a random one.
        self.events.sort_by(|a, b| a.leg.cmp(&b.leg).then(a.part.total_cmp(&b.part)));
        for stock in self.taken.drain(..) {
            self.left[stock] = self.course.party.stocks[stock].units;
        }
        self.days.fill((u32::MAX, 0, 0));
        let mut outcome = Outcome::default();
        for at in 0..self.events.len() {
            let Event { leg, part, what } = self.events[at];
            let (member, lost) = match what {
                What::Falls(member) => (member, self.course.party.members[member].per_fall),
                What::Breaks(situation) => {
                    let situation = &self.course.situations[situation];
                    outcome.breakdowns += 1;
                    (situation.member as usize, self.mend(situation, &mut outcome, tally))
                }
            };
            outcome.lost += lost;
            outcome.nights += self.day(member, (leg, part), lost);
        }
        outcome.nights += (0..self.days.len()).map(|member| self.nights(self.days[member].2)).sum::<u32>();
        outcome
    }

    /// Does the best repair that is still possible, and gives the hours that the occurrence costs.
    fn mend(&mut self, situation: &Situation<'_>, outcome: &mut Outcome, tally: &mut Tally) -> Microhours {
        let own = &mut tally.troubles[situation.trouble as usize];
        own.times += 1;
        let trip = tally.trips + 1;
        let mut could = false;
        for choice in &situation.choices {
            let mending = choice.mending;
            let worth_it = choice.cost < situation.unrepaired;
            if let Some((stock, _)) = mending.uses.iter().find(|(stock, units)| self.left[*stock] < *units) {
                if worth_it && self.stock_short[*stock] != trip {
                    self.stock_short[*stock] = trip;
                    tally.stocks[*stock].short += 1;
                }
                continue;
            }
            could = true;
            if !worth_it {
                break;
            }
            own.repaired += 1;
            own.lost += u128::from(choice.cost);
            let (items, uses) = (&mending.items, &mending.uses);
            self.use_items(items, trip, tally);
            uses.iter().for_each(|(stock, units)| self.use_up(*stock, *units, trip, tally));
            return choice.cost;
        }
        // Where help is there sooner than a repair would be done, the bike is fetched; nobody is stranded.
        if situation.stops && !could {
            own.strandings += 1;
            outcome.stranded = true;
        }
        own.lost += u128::from(situation.unrepaired);
        situation.unrepaired
    }

    fn use_items(&mut self, items: &[usize], trip: u64, tally: &mut Tally) {
        for item in items {
            tally.items[*item].repairs += 1;
            if self.item_used[*item] != trip {
                self.item_used[*item] = trip;
                tally.items[*item].trips += 1;
            }
        }
    }

    /// Takes units of a stock, from one holder after the other.
    fn use_up(&mut self, stock: usize, units: u32, trip: u64, tally: &mut Tally) {
        let party = self.course.party;
        let gone = party.stocks[stock].units - self.left[stock];
        self.left[stock] -= units;
        self.taken.push(stock);
        tally.stocks[stock].used += u64::from(units);
        let mut before = 0_u32;
        for (item, held) in &party.stocks[stock].holders {
            let after = before.saturating_add(*held);
            if gone < after && gone + units > before {
                self.use_items(std::slice::from_ref(item), trip, tally);
                self.use_items(&party.items[*item].with, trip, tally);
            }
            before = after;
        }
    }

    /// Adds hours lost to the member's day, and gives the nights out of the day before if this is another one.
    fn day(&mut self, member: usize, (leg, part): (u32, f64), lost: Microhours) -> u32 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small and not negative")]
        let day = (part * self.course.party.days[leg as usize]) as u32;
        let (last_leg, last_day, hours) = self.days[member];
        if (leg, day) == (last_leg, last_day) {
            self.days[member].2 = hours + lost;
            return 0;
        }
        self.days[member] = (leg, day, lost);
        self.nights(hours)
    }

    /// A night out for hours beyond those in hand, and one more for every further day.
    fn nights(&self, lost: Microhours) -> u32 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a positive constant")]
        const DAY: Microhours = (24.0 * PER_HOUR) as Microhours;
        match lost.checked_sub(self.in_hand) {
            None | Some(0) => 0,
            Some(over) => u32::try_from((over - 1) / DAY + 1).unwrap_or(u32::MAX),
        }
    }
}

fn leg_number(leg: usize) -> u32 {
    u32::try_from(leg).unwrap_or(u32::MAX)
}

/// The first step above a height; steps of no height are never hit.
fn on_step(steps: &[f64], height: f64) -> usize {
    steps.partition_point(|step| *step <= height).min(steps.len().saturating_sub(1))
}
