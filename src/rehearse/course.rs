//! A party made ready for riding: chances as tables, repairs in the order in which they are tried.

use super::chances::{Factor, Scatter};
use super::party::{Fault, Member, Mending, Microhours, Party};

/// A party made ready.
#[derive(Debug)]
pub(super) struct Course<'a> {
    pub party: &'a Party,
    /// What tells at the mean rates: breakdowns without a fall, whose cells are situations, and after them falls that break
    /// something or are owed to the kit's weight, whose cells are `member x legs + leg`.
    pub telling: Scatter,
    /// Expected number of the other falls, which are counted and no more.
    pub harmless: f64,
    /// For each member, the share of telling falls that are owed to the kit's weight.
    pub owed: Vec<f64>,
    /// All falls, for rates that are drawn: cells are `member x legs + leg`.
    pub falls: Scatter,
    /// For each member, breakages in one fall: cells are faults.
    pub breakage: Vec<Scatter>,
    /// What happens when fault x strikes member m on leg l; see [`Course::situation`].
    pub situations: Vec<Situation<'a>>,
    /// Number of the first situation of each member.
    first: Vec<usize>,
    /// How far each trouble's rate can be trusted; empty if rates are taken as they are.
    pub factors: Vec<Factor>,
}

/// A fault of a member on a leg.
#[derive(Debug)]
pub(super) struct Situation<'a> {
    pub member: u32,
    pub leg: u32,
    pub trouble: u32,
    pub stops: bool,
    pub unrepaired: Microhours,
    /// Repairs, the one that leaves least to lose first.
    pub choices: Vec<Choice<'a>>,
}

/// A repair as it counts on one leg.
#[derive(Debug)]
pub(super) struct Choice<'a> {
    pub cost: Microhours,
    /// What it takes.
    pub mending: &'a Mending,
}

impl<'a> Course<'a> {
    pub fn new(party: &'a Party, uncertain: bool) -> Self {
        let legs = party.days.len();
        let mut course = Self {
            party,
            telling: Scatter::new(&[]),
            harmless: 0.0,
            owed: Vec::new(),
            falls: Scatter::new(&party.members.iter().flat_map(|m| m.falls.iter().copied()).collect::<Vec<_>>()),
            breakage: party
                .members
                .iter()
                .map(|m| Scatter::new(&m.faults.iter().map(|fault| fault.per_fall).collect::<Vec<_>>()))
                .collect(),
            situations: Vec::new(),
            first: Vec::new(),
            factors: Vec::new(),
        };
        for (at, member) in (0_u32..).zip(&party.members) {
            course.first.push(course.situations.len());
            course.situations.extend(situations(party, at, member, legs));
        }
        course.tell_falls_apart();
        if uncertain {
            course.factors = party.troubles.iter().map(|trouble| Factor::new(trouble.evidence)).collect();
        }
        course
    }

    /// Most falls come to nothing, and a Poisson number that is told apart event by event is two independent ones.
    fn tell_falls_apart(&mut self) {
        let mut means = self.riding_means();
        for (member, breakage) in self.party.members.iter().zip(&self.breakage) {
            let telling = 1.0 - (1.0 - member.owed_to_weight) * breakage.none();
            self.owed.push(if telling > 0.0 { member.owed_to_weight / telling } else { 0.0 });
            self.harmless += member.falls.iter().sum::<f64>() * (1.0 - telling);
            means.extend(member.falls.iter().map(|falls| falls * telling));
        }
        self.telling = Scatter::new(&means);
    }

    /// Expected occurrences of each situation without falls.
    pub fn riding_means(&self) -> Vec<f64> {
        let faults = self.party.members.iter().flat_map(|member| &member.faults);
        faults.flat_map(|fault| fault.riding.iter().copied()).collect()
    }

    /// Number of the situation: fault of a member on a leg.
    pub fn situation(&self, member: usize, fault: usize, leg: usize) -> usize {
        self.first[member] + fault * self.party.days.len() + leg
    }
}

fn situations<'a>(
    party: &'a Party,
    at: u32,
    member: &'a Member,
    legs: usize,
) -> impl Iterator<Item = Situation<'a>> + 'a {
    member.faults.iter().flat_map(move |fault| {
        (0..legs).map(move |leg| Situation {
            member: at,
            leg: u32::try_from(leg).unwrap_or(u32::MAX),
            trouble: u32::try_from(fault.trouble).unwrap_or(u32::MAX),
            stops: party.troubles[fault.trouble].stops,
            unrepaired: fault.unrepaired[leg],
            choices: choices(fault, leg),
        })
    })
}

fn choices(fault: &Fault, leg: usize) -> Vec<Choice<'_>> {
    let every = fault.repairs.iter().map(|mending| Choice { cost: mending.costs[leg], mending });
    let mut choices: Vec<Choice<'_>> = every.collect();
    // Of two that cost the same, the one listed first: the sort is stable.
    choices.sort_by_key(|choice| choice.cost);
    choices
}
