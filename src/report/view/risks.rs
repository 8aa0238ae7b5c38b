//! What can still cost hours with a kit, and what it would have taken.

use super::{Cell, Figure, Names, Section};
use crate::Look;
use crate::words::{chance, counted, list};
use fardel_core::answer::{Extra, Remedy, RiskLine};
use fardel_words::{mark, say, several, translated, word};

/// The title of the list.
pub(crate) const TITLE: &str = mark!("What can still cost you hours");

/// Troubles that still cost minutes: name, how likely, expected hours, what it would have taken.
pub(crate) fn rows(risks: &[RiskLine], look: &Look) -> Vec<Vec<String>> {
    open(risks).map(|risk| row(risk, look)).collect()
}

/// Less is not worth a line: three minutes of expected loss.
const LEAST_HOURS: f64 = 0.05;

fn open(risks: &[RiskLine]) -> impl Iterator<Item = &RiskLine> {
    risks.iter().filter(|risk| risk.hours_left.get() > LEAST_HOURS)
}

fn row(risk: &RiskLine, look: &Look) -> Vec<String> {
    vec![risk.name.clone(), chance(risk.mean), look.show(risk.hours_left), remedy(risk, look)]
}

/// What it would have taken.
pub(crate) fn remedy(risk: &RiskLine, look: &Look) -> String {
    match &risk.remedy {
        Remedy::Take { repair, items, mass } => {
            let items: Vec<String> = items.iter().map(|extra| more(extra, &extra.name)).collect();
            say!("{} ({}), to {repair}", list(&items), look.show(*mass))
        }
        Remedy::Skill(skill) => say!("somebody {skill} at repairs", skill = translated(skill)),
        Remedy::NothingMore if risk.repairs.is_empty() => say!("no repair on the road"),
        Remedy::NothingMore => {
            let best = risk.repairs.iter().max_by(|a, b| a.1.total_cmp(&b.1)).map_or("", |(name, _)| name.as_str());
            say!("no more gear helps: this is the time it takes to {best}")
        }
    }
}

/// The same in few words.
fn remedy_in_short(risk: &RiskLine, names: &Names, look: &Look) -> String {
    match &risk.remedy {
        Remedy::Take { items, mass, .. } => {
            let items: Vec<String> = items.iter().map(|extra| more(extra, names.short(&extra.name))).collect();
            format!("{}, {}", list(&items), look.show(*mass))
        }
        Remedy::NothingMore if !risk.repairs.is_empty() => say!("no more gear helps: mending takes this long"),
        _ => remedy(risk, look),
    }
}

/// `another rear tube`, `another 2 x rear tube`; without "another" where there is none yet.
fn more(extra: &Extra, name: &str) -> String {
    let things = counted(extra.count, name);
    if extra.one_aboard { say!("another {things}") } else { things }
}

/// So many a screen shows.
const FEW: usize = 4;

/// The troubles that still cost most, a line each.
pub(crate) fn section(risks: &[RiskLine], names: &Names, look: &Look) -> Section {
    let row = |risk: &RiskLine| -> Vec<Cell> {
        vec![
            Figure::hours(risk.hours_left, look).into(),
            format!("{}, {}", risk.name, chance(risk.mean)).into(),
            remedy_in_short(risk, names, look).into(),
        ]
    };
    let rows = open(risks).map(row).collect();
    let rest = |more| several!(more, "{n} smaller trouble", "{n} smaller troubles");
    Section::new(word!("What can still cost hours, and what it would have taken"), &["#", "", ""], rows, FEW)
        .with_rest(rest)
}
