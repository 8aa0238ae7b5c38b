//! A group: who is named is there, roles that are pinned are held, shares are stated for everybody.

use crate::diagnostic::{Code, quoted};
use crate::domain::{Fair, Role, Scenario};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use fardel_words::say;

/// Checks `riders` of the legs and the section `group`.
pub(super) fn check(scenario: &Scenario, root: &Place, draft: &Draft, findings: &mut Findings) {
    let legs = root.key("trip").key("legs");
    for (at, leg) in scenario.trip.legs.iter().enumerate() {
        for (nth, name) in leg.riders.iter().enumerate() {
            is_rider(scenario, name, &legs.index(at).key("riders").index(nth), findings);
        }
    }
    for (at, rider) in scenario.riders.iter().enumerate() {
        let rides = scenario.trip.legs.iter().any(|leg| leg.is_ridden_by(&rider.name));
        let place = root.key("riders").index(at);
        if !rides && !scenario.trip.legs.is_empty() && findings.sound(&place, &["name"]) {
            let found = say!("{} on no leg", quoted(&rider.name));
            findings.add(Code::NothingThere, &place, found, say!("a rider who rides at least one leg"), None);
        }
    }
    shares(scenario, &root.key("group"), findings);
    pins(scenario, &root.key("group").key("pins"), draft, findings);
}

fn is_rider(scenario: &Scenario, name: &str, place: &Place, findings: &mut Findings) {
    let names = || scenario.riders.iter().map(|rider| rider.name.as_str());
    if !names().any(|known| known == name) && !findings.blind() {
        let expected = say!("the name of a rider under `riders`");
        let near = findings.nearest(place, name, names());
        findings.add(Code::UnknownName, place, quoted(name), expected, near);
    }
}

fn shares(scenario: &Scenario, place: &Place, findings: &mut Findings) {
    let group = &scenario.group;
    for name in group.shares.keys() {
        is_rider(scenario, name, &place.key("shares").key(name), findings);
    }
    match group.fair {
        Fair::Stated => {
            let without =
                |rider: &&crate::domain::Rider| group.shares.get(&rider.name).is_none_or(|share| *share <= 0.0);
            for rider in scenario.riders.iter().filter(without) {
                let found = say!("no share above 0 for {}", quoted(&rider.name));
                let expected = say!("a share for every rider, on any scale");
                findings.add(Code::MissingKey, &place.key("shares"), found, expected, None);
            }
        }
        Fair::Equal | Fair::SparePayload if !group.shares.is_empty() => {
            let found = say!("`shares`, with `fair: {}`", group.fair.word());
            let expected = say!("`shares` together with `fair: stated`");
            findings.add(Code::Contradiction, &place.key("fair"), found, expected, None);
        }
        Fair::Equal | Fair::SparePayload => {}
    }
}

fn pins(scenario: &Scenario, place: &Place, draft: &Draft, findings: &mut Findings) {
    for (role, names) in &scenario.group.pins {
        let held = scenario.riders.iter().any(|rider| Role::from_word(role).is_some_and(|r| rider.roles.contains(&r)));
        if !held {
            let found = say!("nobody whose `roles` name `{role}`");
            let expected = say!("a rider with this role");
            findings.add(Code::Contradiction, &place.key(role), found, expected, None);
        }
        for (at, name) in names.iter().enumerate() {
            let sections = [Section::Functions, Section::Stocks, Section::Needs];
            if !findings.blind() && !sections.iter().any(|section| draft.names.has(*section, name)) {
                let place = place.key(role).index(at);
                let near = sections.iter().find_map(|section| draft.names.nearest(*section, name, &place, findings));
                let expected = say!("the name of a function, a stock or a need");
                findings.add(Code::UnknownName, &place, quoted(name), expected, near);
            }
        }
    }
}
