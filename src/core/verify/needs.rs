//! What the trip demands is met by the items in the kit.
//!
//! The amounts demanded are those the answer shows (their formulas are tested where they stand); what the kit gives is
//! added up here. A stated amount in the scenario must be the one claimed.

use super::{Evidence, Violation, differs};
use crate::domain::{Catalogue, NeedRule, Scenario, Style};

/// Amounts are decimal texts in the files; sums of them may miss by a rounding.
const ROUNDING: f64 = 1e-9;

/// Degrees that the clothes worn in the bag are worth.
const CREDIT: f64 = 2.0;

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    for (id, demanded) in &e.claim.needs {
        let met: f64 =
            e.kit.iter().map(|(item, count)| met_by(e.catalogue, e.scenario, item, id) * f64::from(count)).sum();
        let short = demanded - met;
        if short > ROUNDING * demanded.max(1.0) {
            let what = format!("{id}: {demanded} demanded, {met} carried");
            found.push(Violation { rule: "needs", what, by: short });
        }
    }
    for (id, stated) in e.scenario.needs.iter().filter(|(_, stated)| **stated > 0.0) {
        let fuel = e.catalogue.needs.get(id).is_some_and(|need| need.rule == NeedRule::Fuel);
        let claimed = e.claim.needs.iter().find(|(need, _)| need == id).map_or(0.0, |(_, amount)| *amount);
        // Fuel that no container on the bike can hold is not carried: the answer warns of it, and asks for what they hold.
        if !(fuel && claimed < *stated) {
            found.extend(differs("needs", id, claimed, *stated));
        }
    }
    found
}

/// What one unit of an item does for a need on this trip.
pub(super) fn met_by(catalogue: &Catalogue, scenario: &Scenario, item: &str, need: &str) -> f64 {
    let Some(part) = catalogue.items.get(item).and_then(|item| item.meets.get(need)) else { return 0.0 };
    let graded = catalogue.needs.get(need).is_some_and(|need| need.rule == NeedRule::SleepWarmth);
    let coldest = scenario.trip.legs.iter().map(|leg| leg.lowest.celsius()).fold(f64::INFINITY, f64::min);
    let camping = scenario.trip.style == Style::Camping;
    let nights: u32 = scenario.trip.legs.iter().map(|leg| leg.nights).sum();
    // Dry clothes and a hat in the bag.
    let coldest = if nights >= 2 { coldest + CREDIT } else { coldest };
    match part.down_to {
        Some(good_to) if graded && camping && good_to.celsius() > coldest => 0.0,
        _ => part.amount,
    }
}
