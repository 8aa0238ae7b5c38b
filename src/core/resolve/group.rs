//! What changes when several riders share one kit: needs are added up or had once, limits are added up.

use super::instance::Demand;
use super::member::Member;
use super::needs;
use crate::domain::{Catalogue, NeedRule, Scenario};
use crate::units::{Mass, Money, Volume};
use fardel_words::say;

/// How the amounts of several riders become one.
enum Together {
    /// Everybody's share is added up.
    Sum,
    /// One does for the group.
    Once,
    /// One does for so many people. Common practice, no source.
    OneFor(f64),
}

const fn together(rule: NeedRule) -> Together {
    match rule {
        NeedRule::Navigation | NeedRule::Distress | NeedRule::FirstAid | NeedRule::WaterTreatment => Together::Once,
        NeedRule::CookPot => Together::OneFor(3.0),
        _ => Together::Sum,
    }
}

/// The demands of all riders. A need that is only met by personal things is demanded by each rider; others are demanded
/// once for the group. Where riders ride different legs, everybody's worst leg counts, which is never too little.
pub(super) fn demands(catalogue: &Catalogue, members: &[Member<'_>]) -> Vec<Demand> {
    let own = |member: &Member<'_>| needs::demands(catalogue, &member.scenario, member.rider, members.len());
    pooled(catalogue, &members.iter().map(own).collect::<Vec<_>>())
}

/// Each rider's demands as those of all of them together.
pub(super) fn pooled(catalogue: &Catalogue, each: &[Vec<Demand>]) -> Vec<Demand> {
    let mut all = Vec::new();
    for id in catalogue.needs.keys() {
        let own = each.iter().enumerate().filter_map(|(at, demands)| Some((at, demands.iter().find(|d| d.id == *id)?)));
        let own: Vec<(usize, &Demand)> = own.collect();
        if is_personal(catalogue, id) {
            all.extend(own.into_iter().map(|(at, demand)| Demand { owner: Some(at), ..demand.clone() }));
        } else if let Some(demand) = shared(&own) {
            all.push(demand);
        }
    }
    all
}

/// Is the need met by nothing but personal things?
fn is_personal(catalogue: &Catalogue, need: &str) -> bool {
    let mut meeting = catalogue.items.values().filter(|item| item.meets.contains_key(need)).peekable();
    meeting.peek().is_some() && meeting.all(|item| item.personal)
}

/// One demand for the group.
fn shared(own: &[(usize, &Demand)]) -> Option<Demand> {
    let (_, greatest) = *own.iter().reduce(|best, now| if now.1.amount > best.1.amount { now } else { best })?;
    let sum: f64 = own.iter().map(|(_, demand)| demand.amount).sum();
    let down_to = own.iter().filter_map(|(_, demand)| demand.down_to).reduce(|a, b| if b < a { b } else { a });
    let riders = own.len();
    let (amount, working) = match together(greatest.rule) {
        _ if riders == 1 => (greatest.amount, greatest.working.clone()),
        Together::Sum => (sum, say!("{riders} riders together; one of them: {}", greatest.working)),
        Together::Once => (greatest.amount, say!("one for {riders} riders: {}", greatest.working)),
        Together::OneFor(people) => {
            (sum.min((sum / people).ceil()), say!("one for {people:.0} riders: {}", greatest.working))
        }
    };
    Some(Demand { amount, down_to, working, ..greatest.clone() })
}

/// What all riders together want to carry at most; `None` if somebody sets no limit.
pub(super) fn kit_mass(members: &[Member<'_>]) -> Option<Mass> {
    members.iter().map(Member::kit_mass).sum()
}

/// The room that the kits of all riders together may take.
pub(super) fn kit_volume(scenario: &Scenario, members: &[Member<'_>]) -> Option<Volume> {
    let riders = u32::try_from(members.len()).unwrap_or(u32::MAX);
    scenario.limits.kit_volume.map(|volume| volume * riders)
}

/// What all riders together may spend.
pub(super) fn budget(scenario: &Scenario, members: &[Member<'_>]) -> Option<Money> {
    let riders = u32::try_from(members.len()).unwrap_or(u32::MAX);
    scenario.limits.budget.map(|budget| budget * riders)
}
