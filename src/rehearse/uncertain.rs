//! What happens on a trip whose rates are not known: each is drawn anew, as far as its evidence leaves it open.
//!
//! No rate is drawn in fact. A Poisson number with mean `m g`, where `g` has a Gamma distribution of shape `a` and mean 1,
//! is negative binomial, and that is a Poisson number of clusters with mean `a ln(1 + m / a)`, each of a size with
//! `P(k)` in proportion to `p^k / k`, `p = m / (a + m)` (Quenouille, Biometrics 5, 1949, pp. 162-164). So it is one draw
//! for the clusters of all troubles together, and one for each cluster. After `k` occurrences where `e` were expected, `g`
//! has shape `a + k` and rate `a + e` (the Gamma-Poisson rule of `src/debrief`): what a fall breaks next follows from it.

use super::chances::{Scatter, logarithmic, poisson};
use super::course::{Course, number};
use super::event::Event;
use super::party::Member;
use rand::seq::SliceRandom;
use rand::{Rng, RngExt};
use rand_distr::{Distribution, Gamma};

/// More than this at once are no trip.
const MOST_AT_ONCE: u32 = 1_000_000;

/// A course whose rates are not known, and work space for riding it.
pub(super) struct Uncertain<'a> {
    course: &'a Course<'a>,
    rates: Vec<Rate>,
    /// Clusters of a trouble without falls.
    riding: Scatter<u32>,
    /// For each member, clusters of a fault in a first fall.
    falling: Vec<Scatter<u32>>,
    /// Falls of each member, and how often each trouble came, on this trip so far; and the troubles that came at all.
    falls: Vec<u32>,
    came: Vec<u32>,
    which: Vec<u32>,
    /// For each member and trouble, the fault that it is.
    faults: Vec<Vec<Option<u32>>>,
    /// Faults that a fall brought, and how often.
    broken: Vec<(u32, u32)>,
}

/// How often a trouble comes, as far as that is known.
struct Rate {
    /// Of its Gamma distribution; none if the mean is all there is to it.
    shape: Option<f64>,
    /// Expected occurrences without falls, and the situations that they fall on.
    mean: f64,
    situations: Scatter<u32>,
}

impl Rate {
    /// Expected clusters where so many `more` occurrences are expected, after none where `before` were.
    fn clusters(&self, before: f64, more: f64) -> f64 {
        self.shape.map_or(more, |shape| shape * growth(shape + before, more))
    }

    /// Size of one of those clusters.
    fn cluster(&self, before: f64, more: f64, rng: &mut impl Rng) -> u32 {
        self.shape.map_or(1, |shape| logarithmic(-growth(shape + before, more), rng).min(MOST_AT_ONCE))
    }

    /// What comes besides, because it `came` so often before.
    fn again(&self, came: u32, before: f64, more: f64, rng: &mut impl Rng) -> u32 {
        let gamma = self.shape.and_then(|shape| Gamma::new(f64::from(came), more / (shape + before)).ok());
        gamma.map_or(0, |gamma| poisson(gamma.sample(rng), rng).min(MOST_AT_ONCE))
    }
}

/// `ln(1 + more / before)`, also where the quotient is too large for a number.
fn growth(before: f64, more: f64) -> f64 {
    let part = more / before;
    if part.is_finite() { part.ln_1p() } else { more.ln() - before.ln() }
}

/// The fault by which each trouble comes to a bike.
fn faults(member: &Member, troubles: usize) -> Vec<Option<u32>> {
    let mut faults = vec![None; troubles];
    (0..).zip(&member.faults).for_each(|(at, fault)| faults[fault.trouble] = Some(at));
    faults
}

impl<'a> Uncertain<'a> {
    pub fn new(course: &'a Course<'a>) -> Self {
        let party = course.party;
        let mut means = vec![Vec::new(); party.troubles.len()];
        for (situation, mean) in course.riding() {
            means[course.situations[situation as usize].trouble as usize].push((situation, mean));
        }
        let rates = party.troubles.iter().zip(means).map(|(trouble, own)| Rate {
            shape: trouble.evidence,
            mean: own.iter().map(|(_, mean)| mean).sum(),
            situations: Scatter::new(own),
        });
        let rates: Vec<Rate> = rates.collect();
        let falling = |member: &Member| {
            let faults = (0..).zip(&member.faults);
            Scatter::new(faults.map(|(at, fault)| {
                let rate = &rates[fault.trouble];
                (at, rate.clusters(rate.mean, fault.per_fall))
            }))
        };
        Self {
            course,
            riding: Scatter::new((0..).zip(rates.iter().map(|rate| rate.clusters(0.0, rate.mean)))),
            falling: party.members.iter().map(falling).collect(),
            falls: vec![0; party.members.len()],
            came: vec![0; rates.len()],
            which: Vec::new(),
            faults: party.members.iter().map(|member| faults(member, rates.len())).collect(),
            broken: Vec::new(),
            rates,
        }
    }

    /// Adds all that comes to something on a trip to the events, and gives the number of falls.
    pub fn draw(&mut self, rng: &mut impl Rng, events: &mut Vec<Event>) -> u64 {
        self.falls.fill(0);
        self.which.drain(..).for_each(|trouble| self.came[trouble as usize] = 0);
        for _ in 0..self.riding.count().draw(rng) {
            self.breaks(self.riding.cell(rng), rng, events);
        }
        for member in 0..number(self.falls.len()) {
            for _ in 0..self.course.falls[member as usize].legs.count().draw(rng) {
                self.fall(member, rng, events);
            }
        }
        self.falls.iter().map(|falls| u64::from(*falls)).sum()
    }

    /// A cluster of a trouble that comes without falls.
    fn breaks(&mut self, trouble: u32, rng: &mut impl Rng, events: &mut Vec<Event>) {
        let rate = &self.rates[trouble as usize];
        let size = rate.cluster(0.0, rate.mean, rng);
        for _ in 0..size {
            let situation = rate.situations.cell(rng);
            events.push(Event::breaks(situation, self.course.situations[situation as usize].leg).at(rng.random()));
        }
        self.note(trouble as usize, size);
    }

    fn note(&mut self, trouble: usize, times: u32) {
        if self.came[trouble] == 0 && times > 0 {
            self.which.push(number(trouble));
        }
        self.came[trouble] = self.came[trouble].saturating_add(times);
    }

    /// A member's fall, and what it breaks.
    fn fall(&mut self, member: u32, rng: &mut impl Rng, events: &mut Vec<Event>) {
        let at = member as usize;
        let (leg, part) = (self.course.falls[at].legs.cell(rng), rng.random());
        if rng.random::<f64>() < self.course.party.members[at].owed_to_weight {
            events.push(Event::falls(member, leg).at(part));
        }
        self.break_again(at, rng);
        self.break_first(at, rng);
        self.falls[at] += 1;
        let before = events.len();
        for at in 0..self.broken.len() {
            let (fault, times) = self.broken[at];
            let breaks = Event::breaks(self.course.situation(member, fault, leg), leg).at(part);
            events.extend((0..times).map(|_| breaks));
            self.note(self.course.party.members[member as usize].faults[fault as usize].trouble, times);
        }
        self.broken.clear();
        events[before..].shuffle(rng);
    }

    /// What came before on this trip is likely to come again.
    fn break_again(&mut self, member: usize, rng: &mut impl Rng) {
        for trouble in &self.which {
            if let Some((fault, each)) = self.breakage(member, *trouble) {
                let (rate, came) = (&self.rates[*trouble as usize], self.came[*trouble as usize]);
                self.broken.push((fault, rate.again(came, self.expected(*trouble), each, rng)));
            }
        }
    }

    /// Clusters are drawn as for a first fall. After falls that did not break a thing it is less likely to break.
    fn break_first(&mut self, member: usize, rng: &mut impl Rng) {
        for _ in 0..self.falling[member].count().draw(rng) {
            let fault = self.falling[member].cell(rng);
            let own = &self.course.party.members[member].faults[fault as usize];
            let (rate, expected) = (&self.rates[own.trouble], self.expected(number(own.trouble)));
            let share = rate.clusters(expected, own.per_fall) / rate.clusters(rate.mean, own.per_fall);
            if rng.random::<f64>() < share {
                self.broken.push((fault, rate.cluster(expected, own.per_fall, rng)));
            }
        }
    }

    /// Occurrences of a trouble that were expected on this trip so far.
    fn expected(&self, trouble: u32) -> f64 {
        let by_falls = (0..self.falls.len())
            .map(|member| self.breakage(member, trouble).map_or(0.0, |(_, each)| each * f64::from(self.falls[member])));
        self.rates[trouble as usize].mean + by_falls.sum::<f64>()
    }

    /// The fault by which a trouble comes to a member's bike, and its expected occurrences in a fall.
    fn breakage(&self, member: usize, trouble: u32) -> Option<(u32, f64)> {
        let fault = self.faults[member][trouble as usize]?;
        let each = self.course.party.members[member].faults[fault as usize].per_fall;
        Some((fault, each)).filter(|_| each > 0.0)
    }
}
