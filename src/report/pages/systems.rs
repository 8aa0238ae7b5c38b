//! What the kit covers and what it does not, by system of the bike.

use super::bags::share;
use crate::Look;
use crate::view::risks::{remedy, rows};
use crate::words::{chance, percent, sentence};
use fardel_core::answer::RiskLine;
use fardel_core::units::Hours;
use indexmap::IndexMap;
use serde::Serialize;

/// A system: tyres, brakes, cooling ...
#[derive(Serialize)]
pub(super) struct System {
    name: String,
    /// Failures that something aboard mends.
    mended: Vec<Mended>,
    /// Failures that nothing aboard mends.
    open: Vec<Open>,
    /// Expected hours lost with nothing aboard.
    before: String,
    /// Expected hours lost with the kit.
    after: String,
    /// Share of the hours saved.
    saved: f64,
    saved_text: String,
}

#[derive(Serialize)]
struct Mended {
    name: String,
    likely: String,
    /// Repairs with the share of occurrences that each meets.
    by: Vec<String>,
}

#[derive(Serialize)]
struct Open {
    name: String,
    likely: String,
    lost: String,
    remedy: String,
}

/// A trouble that still costs hours.
#[derive(Serialize)]
pub(super) struct Trouble {
    name: String,
    likely: String,
    lost: String,
    remedy: String,
}

/// The troubles that still cost most, whatever their system.
pub(super) fn open_troubles(risks: &[RiskLine], look: &Look) -> Vec<Trouble> {
    let trouble = |row: Vec<String>| {
        let mut cells = row.into_iter();
        let mut next = || cells.next().unwrap_or_default();
        Trouble { name: sentence(&next()), likely: next(), lost: next(), remedy: next() }
    };
    rows(risks, look).into_iter().map(trouble).collect()
}

/// Systems, the one that threatens most hours first.
pub(super) fn systems(risks: &[RiskLine], look: &Look) -> Vec<System> {
    let mut groups: IndexMap<&str, Vec<&RiskLine>> = IndexMap::new();
    for risk in risks {
        groups.entry(&risk.system).or_default().push(risk);
    }
    let empty = |group: &[&RiskLine]| group.iter().map(|risk| risk.hours_empty.get()).sum::<f64>();
    let mut groups: Vec<(&str, Vec<&RiskLine>)> = groups.into_iter().collect();
    groups.sort_by(|a, b| empty(&b.1).total_cmp(&empty(&a.1)));
    groups.into_iter().map(|(name, group)| system(name, group, look)).collect()
}

fn system(name: &str, mut group: Vec<&RiskLine>, look: &Look) -> System {
    group.sort_by(|a, b| b.hours_empty.get().total_cmp(&a.hours_empty.get()));
    let hours = |of: fn(&RiskLine) -> Hours| -> Hours { group.iter().map(|r| of(r)).sum() };
    let (before, after) = (hours(|risk| risk.hours_empty), hours(|risk| risk.hours_left));
    let saved = share(before.get() - after.get(), before.get());
    let (mended, open): (Vec<&RiskLine>, Vec<&RiskLine>) = group.iter().partition(|risk| !risk.repairs.is_empty());
    System {
        name: sentence(name),
        before: small(before, look),
        after: small(after, look),
        saved,
        saved_text: percent(saved),
        mended: mended.into_iter().map(self::mended).collect(),
        open: open.into_iter().map(|risk| self::open(risk, look)).collect(),
    }
}

/// Hours that never show as none while there are some.
fn small(hours: Hours, look: &Look) -> String {
    let minutes = hours.get() * 60.0;
    if minutes > 0.0 && minutes < 1.0 { "< 1 min".to_owned() } else { look.show(hours) }
}

fn mended(risk: &RiskLine) -> Mended {
    let by = risk.repairs.iter().map(|(repair, share)| format!("{repair} ({})", percent(*share)));
    Mended { name: risk.name.clone(), likely: chance(risk.mean), by: by.collect() }
}

fn open(risk: &RiskLine, look: &Look) -> Open {
    Open {
        name: risk.name.clone(),
        likely: chance(risk.mean),
        lost: small(risk.hours_left, look),
        remedy: remedy(risk, look),
    }
}
