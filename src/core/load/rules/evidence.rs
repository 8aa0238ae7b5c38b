//! Evidence: names that are known, groups that do not overlap, sources that can be read.

use super::members;
use crate::diagnostic::{Code, quoted};
use crate::domain::{EventGroup, EvidenceSource, Map, SourceKind};
use crate::load::convert::{Draft, whole};
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use fardel_words::{say, word};

/// How far the shares of a mix may be from 1 together.
const ROUNDING: f64 = 0.01;

/// Checks sources, groups and the way to read them.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    groups(draft, findings);
    for (id, source) in &draft.catalogue.evidence.sources {
        let place = draft.place(Section::Evidence, id);
        names(source, &place, draft, findings);
        readable(source, &place, findings);
    }
}

fn groups(draft: &Draft, findings: &mut Findings) {
    let mut taken: Map<&EventGroup> = Map::new();
    for (id, group) in &draft.catalogue.evidence.groups {
        let place = draft.place(Section::EventGroups, id);
        members(&group.failures, Section::Failures, &place.key("failures"), draft, findings);
        if let Some(system) = &group.system
            && findings.sound(&place, &["system"])
        {
            draft.names.check(Section::Systems, system, &place.key("system"), findings);
        }
        for (at, failure) in group.failures.iter().enumerate() {
            if let Some(other) = taken.insert(failure.clone(), group) {
                let found = say!("{}, which `{}` counts as well", quoted(failure), other.id);
                let expected = say!("every failure in one group at most");
                findings.add(Code::Contradiction, &place.key("failures").index(at), found, expected, None);
            }
        }
    }
}

/// Counts are of groups or failures; what it is silent on, its bias and what it is relative to are groups.
fn names(source: &EvidenceSource, place: &Place, draft: &Draft, findings: &mut Findings) {
    for name in source.counts.keys().filter(|name| !draft.names.has(Section::Failures, name)) {
        draft.names.check(Section::EventGroups, name, &place.key("counts").key(name), findings);
    }
    members(&source.silent_on, Section::EventGroups, &place.key("silent_on"), draft, findings);
    for name in source.bias.keys() {
        draft.names.check(Section::EventGroups, name, &place.key("bias").key(name), findings);
    }
    if let Some(name) = &source.relative_to {
        draft.names.check(Section::EventGroups, name, &place.key("relative_to"), findings);
    }
}

fn readable(source: &EvidenceSource, place: &Place, findings: &mut Findings) {
    let mut tell = |key: &str, found: &str, expected: &str| {
        findings.add(Code::Contradiction, &place.key(key), found.to_owned(), expected.to_owned(), None);
    };
    if source.mix.is_some_and(|mix| (whole(mix) - 1.0).abs() > ROUNDING) {
        tell("mix", word!("shares that do not make a whole"), word!("shares of the surfaces that add up to 1"));
    }
    let log = source.kind == SourceKind::TripLog;
    if !log && source.kind != SourceKind::Survey && source.within.is_none_or(|within| within <= 1.0) {
        tell("within", word!("no factor above 1"), word!("`within: 3`: how far off its counts may be"));
    }
    if log && source.within.is_some() {
        tell("within", word!("`within` with a trip log"), word!("no `within`: logs tell by their scatter"));
    }
    if source.km <= 0.0 && source.kind != SourceKind::Survey {
        tell(
            "km",
            word!("no kilometres"),
            word!("`km`, more than 0; where a group gives the scale, kilometres for so many `days`"),
        );
    }
}
