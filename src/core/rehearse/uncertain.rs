//! What happens on a trip whose rates are not known: each is drawn anew, as far as its evidence leaves it open.
//!
//! Most rates are never drawn. A Poisson number with mean `m g`, where `g` has a Gamma distribution of shape `a` and mean 1,
//! is negative binomial, and that is a Poisson number of clusters with mean `a ln(1 + m / a)`, each of a size with `P(k)` in
//! proportion to `p^k / k`, `p = m / (a + m)` (Quenouille, Biometrics 5, 1949, pp. 162-164). So it is one draw for the
//! clusters of all troubles together, and one for each cluster. Once a trouble has come `k` times where `e` were expected,
//! `g` is drawn, with shape `a + k` and rate `a + e` (the Gamma-Poisson rule of `src/core/debrief`), and kept for the trip.

use super::chances::{Scatter, logarithmic, poisson};
use super::course::{Course, number};
use super::event::Event;
use super::party::Member;
use rand::seq::SliceRandom;
use rand::{Rng, RngExt};
use rand_distr::{Distribution, Gamma};

/// Most breakdowns and falls on one trip at drawn rates; what comes beyond is left out.
const MOST: usize = 10_000_000;

/// A course whose rates are not known, and work space for riding it.
pub(super) struct Uncertain<'a> {
    course: &'a Course<'a>,
    rates: Vec<Rate>,
    /// Clusters of a trouble without falls.
    riding: Scatter<u32>,
    /// For each member, clusters of a fault in a first fall.
    falling: Vec<Scatter<u32>>,
    /// Falls of each member on this trip so far, and how often each trouble came.
    falls: Vec<u32>,
    came: Vec<u32>,
    /// Troubles that came, and the factor on the rate of each of which it is known by now.
    which: Vec<usize>,
    factors: Vec<Option<f64>>,
    /// For each member and trouble, the fault that it is on that bike.
    faults: Vec<Vec<Option<u32>>>,
    /// A member's faults whose factor is known, and sums of their means in a fall.
    known: Vec<u32>,
    steps: Vec<f64>,
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
        self.shape.map_or(1, |shape| logarithmic(-growth(shape + before, more), rng))
    }

    /// The factor, if there is one, after it `came` so often where so many were `expected`.
    fn factor(&self, came: u32, expected: f64, rng: &mut impl Rng) -> Option<f64> {
        let shape = self.shape?;
        let gamma = Gamma::new(shape + f64::from(came), 1.0 / (shape + expected)).ok()?;
        Some(gamma.sample(rng))
    }
}

/// `ln(1 + more / before)`, also where the quotient is too large for a number.
fn growth(before: f64, more: f64) -> f64 {
    let part = more / before;
    if part.is_finite() { part.ln_1p() } else { more.ln() - before.ln() }
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
            factors: vec![None; rates.len()],
            faults: party.members.iter().map(|member| faults(member, rates.len())).collect(),
            known: Vec::new(),
            steps: Vec::new(),
            rates,
        }
    }

    /// Adds all that comes to something on a trip to the events, and gives the number of falls.
    pub fn draw(&mut self, rng: &mut impl Rng, events: &mut Vec<Event>) -> u64 {
        self.falls.fill(0);
        for trouble in self.which.drain(..) {
            (self.came[trouble], self.factors[trouble]) = (0, None);
        }
        for _ in 0..self.riding.count().draw(rng) {
            self.breaks(self.riding.cell(rng), rng, events);
        }
        self.learn(0, rng);
        for (member, falls) in (0..).zip(&self.course.falls) {
            let falls = falls.legs.count().draw(rng);
            if falls > 0 {
                self.sum_up(member);
                (0..falls).for_each(|_| self.fall(member, rng, events));
            }
        }
        self.falls.iter().map(|falls| u64::from(*falls)).sum()
    }

    /// A cluster of a trouble that comes without falls.
    fn breaks(&mut self, trouble: u32, rng: &mut impl Rng, events: &mut Vec<Event>) {
        let rate = &self.rates[trouble as usize];
        let size = rate.cluster(0.0, rate.mean, rng).min(room(events));
        for _ in 0..size {
            let situation = rate.situations.cell(rng);
            events.push(Event::breaks(situation, self.course.situations[situation as usize].leg).at(rng.random()));
        }
        self.note(trouble as usize, size);
    }

    fn note(&mut self, trouble: usize, times: u32) {
        if self.came[trouble] == 0 && times > 0 {
            self.which.push(trouble);
        }
        self.came[trouble] = self.came[trouble].saturating_add(times);
    }

    /// Draws the factors of troubles that came since there were so many.
    fn learn(&mut self, before: usize, rng: &mut impl Rng) {
        for trouble in &self.which[before..] {
            let expected = self.expected(*trouble);
            self.factors[*trouble] = self.rates[*trouble].factor(self.came[*trouble], expected, rng);
        }
    }

    /// What is known of the faults on a member's bike.
    fn sum_up(&mut self, member: u32) {
        let mut sum = 0.0;
        self.known.clear();
        self.steps.clear();
        for trouble in &self.which {
            let factor = self.factors[*trouble];
            if let (Some(factor), Some((fault, each))) = (factor, self.breakage(member, *trouble)) {
                sum += factor * each;
                self.known.push(fault);
                self.steps.push(sum);
            }
        }
    }

    /// A member's fall, and what it breaks.
    fn fall(&mut self, member: u32, rng: &mut impl Rng, events: &mut Vec<Event>) {
        let at = member as usize;
        let (leg, part) = (self.course.falls[at].legs.cell(rng), rng.random());
        if rng.random::<f64>() < self.course.party.members[at].owed_to_weight {
            events.push(Event::falls(member, leg).at(part));
        }
        let (happened, came) = (events.len(), self.which.len());
        let mut breaks = |fault: u32, times: u32| {
            let event = Event::breaks(self.course.situation(member, fault, leg), leg).at(part);
            events.extend((0..times.min(room(events))).map(|_| event));
        };
        let sum = self.steps.last().copied().unwrap_or(0.0);
        for _ in 0..poisson(sum, rng).min(number(MOST)) {
            breaks(self.known[on_step(&self.steps, rng.random::<f64>() * sum)], 1);
        }
        for _ in 0..self.falling[at].count().draw(rng) {
            let fault = self.falling[at].cell(rng);
            let (trouble, size) = self.first(at, fault, rng);
            breaks(fault, size);
            self.note(trouble, size);
        }
        events[happened..].shuffle(rng);
        self.falls[at] += 1;
        if self.which.len() > came {
            self.learn(came, rng);
            self.sum_up(member);
        }
    }

    /// The trouble that a cluster drawn as for a first fall is one of, and its size, which is 0 where the trouble came before,
    /// and for some of those that might have come in earlier falls and did not.
    fn first(&self, member: usize, fault: u32, rng: &mut impl Rng) -> (usize, u32) {
        let own = &self.course.party.members[member].faults[fault as usize];
        if self.factors[own.trouble].is_some() {
            return (own.trouble, 0);
        }
        let (rate, expected) = (&self.rates[own.trouble], self.expected(own.trouble));
        let share = rate.clusters(expected, own.per_fall) / rate.clusters(rate.mean, own.per_fall);
        let comes = rng.random::<f64>() < share;
        (own.trouble, if comes { rate.cluster(expected, own.per_fall, rng) } else { 0 })
    }

    /// Occurrences of a trouble that were expected on this trip so far.
    fn expected(&self, trouble: usize) -> f64 {
        let by_falls = (0..)
            .zip(&self.falls)
            .filter(|(_, falls)| **falls > 0)
            .map(|(member, falls)| self.breakage(member, trouble).map_or(0.0, |(_, each)| each * f64::from(*falls)));
        self.rates[trouble].mean + by_falls.sum::<f64>()
    }

    /// The fault by which a trouble comes to a member's bike, and its expected occurrences in a fall.
    fn breakage(&self, member: u32, trouble: usize) -> Option<(u32, f64)> {
        let fault = self.faults[member as usize][trouble]?;
        let each = self.course.party.members[member as usize].faults[fault as usize].per_fall;
        Some((fault, each)).filter(|_| each > 0.0)
    }
}

/// The fault by which each trouble comes to a bike.
fn faults(member: &Member, troubles: usize) -> Vec<Option<u32>> {
    let mut faults = vec![None; troubles];
    (0..).zip(&member.faults).for_each(|(at, fault)| faults[fault.trouble] = Some(at));
    faults
}

/// How much more may happen.
fn room(events: &[Event]) -> u32 {
    number(MOST.saturating_sub(events.len()))
}

/// The first step above a height; steps of no height are never hit.
fn on_step(steps: &[f64], height: f64) -> usize {
    steps.partition_point(|step| *step <= height).min(steps.len().saturating_sub(1))
}
