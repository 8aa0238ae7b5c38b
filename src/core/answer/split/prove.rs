//! The split is checked by `verify`, from the names up, before anybody sees it.

use super::describe::Found;
use super::plan::{ApartLine, SplitAnswer};
use crate::allocation;
use crate::answer::PackError;
use crate::resolve::Apart;
use crate::stow;
use crate::verify::{self, ApartClaim, GroupClaim, Part};

/// # Errors
/// [`PackError::Unverified`] with what is wrong.
pub(super) fn prove(found: &Found<'_>, answer: &SplitAnswer) -> Result<(), PackError> {
    let part = |(at, card): (usize, &super::Card)| Part {
        rider: &found.riders[at],
        stowage: stow::stowage(&allocation::part(found.instance, at), &found.solved.allocation.placements[at]),
        front_kg: card.load.loaded.front,
        rear_kg: card.load.loaded.rear,
        sets: crate::answer::claim::in_bags(&card.load.sets),
    };
    let parts: Vec<Part<'_>> = answer.cards.iter().enumerate().map(part).collect();
    let claim = GroupClaim {
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        hours_empty: answer.figures.hours_empty,
        terms: crate::answer::claim::terms(&answer.figures.terms),
        needs: needs(found),
        sets: Some(crate::answer::claim::on_bikes(&answer.sets)),
        apart: apart(found, answer),
        absences: answer.absences.iter().map(|line| (line.rider.clone(), line.with_all, line.left)).collect(),
        floor: found.floor,
        packed: found.preferences.before.is_some(),
    };
    let violations = verify::verify_group(found.catalogue, found.scenario, &parts, &claim);
    if violations.is_empty() {
        return Ok(());
    }
    let dump = format!("parts {parts:?}\nclaim {claim:?}");
    Err(PackError::Unverified { violations, dump })
}

/// Who rides legs without the others, and how much of what they have with them; not what the answer says they lack.
fn apart(found: &Found<'_>, answer: &SplitAnswer) -> Vec<ApartClaim> {
    let part = |(part, line): (&Apart, &ApartLine)| {
        let lacks = |name: &str| line.lacking.iter().any(|(lacking, _)| lacking == name);
        let demands = part.amounts.iter().map(|(at, amount)| (&found.instance.demands[*at], *amount));
        let met =
            demands.filter(|(demand, _)| !lacks(&demand.name)).map(|(demand, amount)| (demand.id.clone(), amount));
        ApartClaim { riders: line.riders.clone(), met: met.collect() }
    };
    found.instance.apart.iter().zip(&answer.apart).map(part).collect()
}

/// Need, whose it is (`None`: the group's), and how much.
fn needs(found: &Found<'_>) -> Vec<(String, Option<String>, f64)> {
    let owner = |at: usize| found.riders[at].name.clone();
    found.instance.demands.iter().map(|demand| (demand.id.clone(), demand.owner.map(owner), demand.amount)).collect()
}
