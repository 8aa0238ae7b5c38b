//! Names with holes in repairs: on each bike the failure happens to, they lead to something declared.

use crate::diagnostic::{Code, quoted};
use crate::domain::template::{self, TemplateError};
use crate::domain::{Bike, Failure, Map};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;

/// A function or stock that a repair asks for.
pub(super) struct Asked<'a> {
    pub failure: &'a Failure,
    pub name: &'a str,
    pub section: Section,
    pub place: Place,
}

/// The bikes a failure happens to, apart from those whose attributes are being complained about already.
pub(super) fn bikes_of<'a>(failure: &Failure, draft: &'a Draft, findings: &Findings) -> Vec<&'a Bike> {
    let sound = |bike: &&Bike| !findings.is_spoilt_below(&draft.place(Section::Bikes, &bike.id).key("attributes"));
    draft.catalogue.bikes.values().filter(|bike| bike.matches(&failure.applies)).filter(sound).collect()
}

/// Checks one name on all bikes.
pub(super) fn check_names(asked: &Asked<'_>, bikes: &[&Bike], draft: &Draft, findings: &mut Findings) {
    let holes = match template::holes(asked.name) {
        Ok(holes) => holes,
        Err(error) => {
            let expected = "braces around the name of an attribute".to_owned();
            findings.add(Code::BrokenTemplate, &asked.place, error.to_string(), expected, None);
            return;
        }
    };
    if holes.is_empty() {
        draft.names.check(asked.section, asked.name, &asked.place, findings);
        return;
    }
    let mut known = true;
    for hole in holes {
        known &= draft.names.check(Section::Attributes, hole, &asked.place, findings);
    }
    if known && !findings.blind() {
        on_bikes(asked, bikes, draft, findings);
    }
}

/// What is the same on several bikes is told once, with the bikes named.
fn on_bikes(asked: &Asked<'_>, bikes: &[&Bike], draft: &Draft, findings: &mut Findings) {
    let mut undeclared: Map<Vec<&str>> = Map::new();
    let mut silent: Map<Vec<&str>> = Map::new();
    for bike in bikes {
        match template::fill(asked.name, &bike.attributes) {
            Ok(name) if draft.names.has(asked.section, &name) => {}
            Ok(name) => undeclared.entry(name).or_default().push(&bike.id),
            Err(TemplateError::Missing(attribute)) => silent.entry(attribute).or_default().push(&bike.id),
            // A value with a ring or a broken brace is told at the bike.
            Err(_) => {}
        }
    }
    for (attribute, bikes) in silent {
        let found = format!("no attribute `{attribute}` on {}", listed(&bikes));
        let expected =
            format!("that attribute on every bike with `{}`, or an `applies` that leaves them out", asked.failure.id);
        findings.add(Code::RepairUnresolved, &asked.place, found, expected, None);
    }
    for (name, bikes) in undeclared {
        // Another size is not what was meant.
        let near = draft
            .names
            .nearest(asked.section, &name, &asked.place, findings)
            .filter(|near| digits(near) == digits(&name));
        let found = format!("{} on {}", quoted(&name), listed(&bikes));
        let expected = format!("the name of {} in the section `{}`", asked.section.noun(), asked.section.key());
        findings.add(Code::RepairUnresolved, &asked.place, found, expected, near);
    }
}

fn digits(name: &str) -> String {
    name.chars().filter(char::is_ascii_digit).collect()
}

/// `a`, `b`, `c` and 4 more.
fn listed(bikes: &[&str]) -> String {
    let shown: Vec<String> = bikes.iter().take(3).map(|bike| quoted(bike)).collect();
    let more = bikes.len().saturating_sub(3);
    if more == 0 { shown.join(", ") } else { format!("{} and {more} more", shown.join(", ")) }
}
