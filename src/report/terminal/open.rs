//! What can still cost hours with this kit, and what it would have taken.

use super::table::{Set, table};
use super::{Look, heading};
use crate::words::{chance, counted, list};
use fardel_core::answer::{Extra, PackAnswer, Remedy, RiskLine};

/// So many are shown; the JSON has all.
const SHOWN: usize = 8;

pub(super) fn open(answer: &PackAnswer, look: &Look) -> String {
    risks(&answer.risks, look)
}

/// The troubles that still cost most.
pub(super) fn risks(risks: &[RiskLine], look: &Look) -> String {
    let mut rows = rows(risks, look);
    if rows.is_empty() {
        return String::new();
    }
    let more = rows.len().saturating_sub(SHOWN);
    rows.truncate(SHOWN);
    let mut text = heading("What can still cost you hours");
    text += &table(
        &["trouble", "how likely", "expected", "what it would have taken"],
        &[Set::Left(Some(36)), Set::Left(Some(15)), Set::Right(Some(10)), Set::Left(None)],
        rows,
        look,
    );
    if more > 0 {
        text += &format!("  and {more} smaller ones (all of them with --format json)\n");
    }
    text
}

/// Troubles that still cost minutes: name, how likely, expected hours, what it would have taken.
pub(crate) fn rows(risks: &[RiskLine], look: &Look) -> Vec<Vec<String>> {
    risks.iter().filter(|risk| risk.hours_left.get() > 0.05).map(|risk| row(risk, look)).collect()
}

fn row(risk: &RiskLine, look: &Look) -> Vec<String> {
    vec![risk.name.clone(), chance(risk.mean), look.show(risk.hours_left), remedy(risk, look)]
}

/// What it would have taken.
pub(crate) fn remedy(risk: &RiskLine, look: &Look) -> String {
    match &risk.remedy {
        Remedy::Take { repair, items, mass } => {
            let more = |extra: &Extra| match (extra.count, extra.one_aboard) {
                (1, true) => format!("one more {}", extra.name),
                (count, true) => format!("{count} more {}", extra.name),
                (count, false) => counted(count, &extra.name),
            };
            let items: Vec<String> = items.iter().map(more).collect();
            format!("{} ({}), to {repair}", list(&items), look.show(*mass))
        }
        Remedy::Skill(skill) => format!("somebody {skill} at repairs"),
        Remedy::NothingMore if risk.repairs.is_empty() => "no repair on the road".to_owned(),
        Remedy::NothingMore => {
            let best = risk.repairs.iter().max_by(|a, b| a.1.total_cmp(&b.1)).map_or("", |(name, _)| name.as_str());
            format!("nothing: you can {best}, and this is what that still costs")
        }
    }
}
