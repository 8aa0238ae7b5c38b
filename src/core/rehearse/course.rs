//! A party made ready for riding: chances as tables, repairs in the order in which they are tried.

use super::chances::Scatter;
use super::event::Event;
use super::party::{Fault, Member, Mending, Microhours, Party};
use super::sets;
use std::ops::Range;

/// A party made ready.
#[derive(Debug)]
pub(super) struct Course<'a> {
    pub party: &'a Party,
    /// What comes to something, at the mean rates.
    pub telling: Scatter<Happening>,
    /// Expected number of the other falls, which are counted and no more.
    pub harmless: f64,
    /// For each member, how falls go.
    pub falls: Vec<Falls>,
    /// What happens when fault x strikes member m on leg l; see [`Course::situation`].
    pub situations: Vec<Situation>,
    /// What can be done in all situations, one after the other.
    pub choices: Vec<Choice>,
    /// All repairs of all faults.
    repairs: Vec<&'a Mending>,
    /// For each repair, the set of items that it takes: so many words, a bit for each item.
    items: Vec<u64>,
    /// Number of the first situation of each member.
    first: Vec<u32>,
}

/// One of the things that can come to something.
#[derive(Debug, Clone, Copy)]
pub(super) enum Happening {
    /// Just one thing breaks, in a `fall` that is not owed to the kit's weight or without one; or a fall that is owed to it
    /// breaks nothing.
    One { event: Event, fall: bool },
    /// A fall that breaks two things or more, or one or more and is owed to the kit's weight.
    BadFall { member: u32, leg: u32 },
}

/// How a member falls.
#[derive(Debug)]
pub(super) struct Falls {
    /// By leg.
    pub legs: Scatter<u32>,
    /// Breakages in one fall, by fault.
    pub breakage: Scatter<u32>,
    /// Share of bad falls that are owed to the kit's weight.
    pub bad_owed: f64,
}

/// A fault of a member on a leg.
#[derive(Debug)]
pub(super) struct Situation {
    pub member: u32,
    pub leg: u32,
    pub trouble: u32,
    pub stops: bool,
    pub unrepaired: Microhours,
    /// The first of its choices, and the first of the next situation.
    choices: (u32, u32),
}

impl Situation {
    /// Numbers of its choices, the one that leaves least to lose first.
    pub const fn choices(&self) -> Range<usize> {
        self.choices.0 as usize..self.choices.1 as usize
    }
}

/// A repair as it counts on one leg.
#[derive(Debug)]
pub(super) struct Choice {
    pub cost: Microhours,
    /// Does it save more than it takes?
    pub worth: bool,
    /// Number of the repair.
    pub repair: u32,
}

impl<'a> Course<'a> {
    pub fn new(party: &'a Party) -> Self {
        let mut course = Self {
            party,
            telling: Scatter::new([]),
            harmless: 0.0,
            falls: party.members.iter().map(falls).collect(),
            situations: Vec::new(),
            choices: Vec::new(),
            repairs: Vec::new(),
            items: Vec::new(),
            first: Vec::new(),
        };
        for (at, member) in (0_u32..).zip(&party.members) {
            course.first.push(number(course.situations.len()));
            for fault in &member.faults {
                let first = number(course.repairs.len());
                fault.repairs.iter().for_each(|mending| course.add_repair(mending));
                (0..party.days.len()).for_each(|leg| course.add_situation(at, fault, first, leg));
            }
        }
        course.tell_apart();
        course
    }

    /// A fault on a leg; its repairs are numbered from `first` on.
    fn add_situation(&mut self, member: u32, fault: &Fault, first: u32, leg: usize) {
        let before = self.choices.len();
        let choices = (first..).zip(&fault.repairs);
        self.choices.extend(choices.filter_map(|(repair, mending)| {
            Some(Choice { cost: mending.costs[leg]?, worth: mending.worth[leg], repair })
        }));
        // Of two that cost the same, the one listed first: the sort is stable.
        self.choices[before..].sort_by_key(|choice| choice.cost);
        self.situations.push(Situation {
            member,
            leg: number(leg),
            trouble: number(fault.trouble),
            stops: self.party.troubles[fault.trouble].stops,
            unrepaired: fault.unrepaired[leg],
            choices: (number(before), number(self.choices.len())),
        });
    }

    /// With the items whose functions it takes, and what holds its stock if that is the same item all along.
    fn add_repair(&mut self, mending: &'a Mending) {
        let before = self.items.len();
        self.items.resize(before + sets::words(self.party.items.len()), 0);
        let own = &mut self.items[before..];
        mending.items.iter().for_each(|item| sets::insert(own, *item));
        for (stock, _) in &mending.uses {
            if let [(holder, _)] = self.party.stocks[*stock].holders[..] {
                sets::insert(own, holder);
                self.party.items[holder].with.iter().for_each(|item| sets::insert(own, *item));
            }
        }
        self.repairs.push(mending);
    }

    /// Stocks and units that a choice uses up.
    pub fn uses(&self, choice: &Choice) -> &'a [(usize, u32)] {
        &self.repairs[choice.repair as usize].uses
    }

    /// The items that a choice takes, holders of stocks that have several left out.
    pub fn items(&self, choice: &Choice) -> &[u64] {
        let (words, at) = (sets::words(self.party.items.len()), choice.repair as usize);
        &self.items[at * words..(at + 1) * words]
    }

    /// Sorts what can happen by what comes of it: a Poisson number that is told apart event by event is as many
    /// independent ones.
    fn tell_apart(&mut self) {
        let riding = self.riding().map(|(situation, mean)| (self.breaks(situation, false), mean));
        let mut telling: Vec<(Happening, f64)> = riding.collect();
        for (at, member) in (0..).zip(&self.party.members) {
            let (own, owed) = (&mut self.falls[at as usize], member.owed_to_weight);
            let (none, at_most_one) = (own.breakage.count().below(1), own.breakage.count().below(2));
            let (bad_owed, bad_other) = (owed * (1.0 - none), (1.0 - owed) * (1.0 - at_most_one));
            own.bad_owed = if bad_owed > 0.0 { bad_owed / (bad_owed + bad_other) } else { 0.0 };
            self.harmless += member.falls.iter().sum::<f64>() * (1.0 - owed) * none;
            let breaks: f64 = member.faults.iter().map(|fault| fault.per_fall).sum();
            for (leg, falls) in (0..).zip(&member.falls) {
                let time_only = Happening::One { event: Event::falls(at, leg), fall: true };
                telling.push((time_only, falls * owed * none));
                telling.push((Happening::BadFall { member: at, leg }, falls * (bad_owed + bad_other)));
                let breaks_one = falls * (1.0 - owed) * (at_most_one - none) / breaks.max(f64::MIN_POSITIVE);
                telling.extend((0..).zip(&member.faults).map(|(fault, broken)| {
                    (self.breaks(self.situation(at, fault, leg), true), breaks_one * broken.per_fall)
                }));
            }
        }
        self.telling = Scatter::new(telling);
    }

    fn breaks(&self, situation: u32, fall: bool) -> Happening {
        Happening::One { event: Event::breaks(situation, self.situations[situation as usize].leg), fall }
    }

    /// Every situation and how often it is expected without falls.
    pub fn riding(&self) -> impl Iterator<Item = (u32, f64)> {
        let faults = self.party.members.iter().flat_map(|member| &member.faults);
        (0..).zip(faults.flat_map(|fault| fault.riding.iter().copied()))
    }

    /// Number of the situation: fault of a member on a leg.
    pub fn situation(&self, member: u32, fault: u32, leg: u32) -> u32 {
        self.first[member as usize] + fault * number(self.party.days.len()) + leg
    }
}

fn falls(member: &Member) -> Falls {
    Falls {
        legs: Scatter::new((0..).zip(member.falls.iter().copied())),
        breakage: Scatter::new((0..).zip(member.faults.iter().map(|fault| fault.per_fall))),
        bad_owed: 0.0,
    }
}

/// A place in a list as a small number.
pub(super) fn number(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}
