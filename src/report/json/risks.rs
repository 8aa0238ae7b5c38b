//! What can go wrong, what the kit does about it, and what it would have taken.

use fardel_core::answer::{Remedy, RiskLine};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Risk<'a> {
    id: &'a str,
    name: &'a str,
    system: &'a str,
    outcome: &'static str,
    expected_occurrences: f64,
    hours_lost_empty: f64,
    hours_lost_with_kit: f64,
    repairs: Vec<Repair<'a>>,
    remedy: Option<Take<'a>>,
    skill_wanted: Option<&'static str>,
}

#[derive(Serialize)]
struct Repair<'a> {
    name: &'a str,
    share_of_occurrences: f64,
}

#[derive(Serialize)]
struct Take<'a> {
    repair: &'a str,
    items: Vec<Counted<'a>>,
    mass_g: f64,
}

#[derive(Serialize)]
struct Counted<'a> {
    name: &'a str,
    count: u32,
}

pub(super) fn risk(risk: &RiskLine) -> Risk<'_> {
    let (remedy, skill_wanted) = match &risk.remedy {
        Remedy::Take { repair, items, mass } => {
            let items = items.iter().map(|extra| Counted { name: &extra.name, count: extra.count }).collect();
            (Some(Take { repair, items, mass_g: mass.grams() }), None)
        }
        Remedy::Skill(skill) => (None, Some(*skill)),
        Remedy::NothingMore => (None, None),
    };
    Risk {
        id: &risk.id,
        name: &risk.name,
        system: &risk.system,
        outcome: risk.outcome,
        expected_occurrences: risk.mean,
        hours_lost_empty: risk.hours_empty.get(),
        hours_lost_with_kit: risk.hours_left.get(),
        repairs: risk.repairs.iter().map(|(name, share)| Repair { name, share_of_occurrences: *share }).collect(),
        remedy,
        skill_wanted,
    }
}
