//! Names with holes in repairs: on each bike the failure happens to, they lead to something declared.

use crate::diagnostic::{Code, nearest, quoted};
use crate::domain::template::{self, TemplateError};
use crate::domain::{Bike, Failure, Map};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use fardel_words::say;

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
            let expected = say!("braces around the name of an attribute");
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

/// What is the same on several bikes is told once, with the bikes named. Where the repair can be told on other bikes, the
/// attribute of the odd one is to blame, and the fault stands there.
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
        let found = say!("no attribute `{attribute}` on {}", listed(&bikes));
        let expected =
            say!("that attribute on every bike with `{}`, or an `applies` that leaves them out", asked.failure.id);
        findings.add(Code::RepairUnresolved, &asked.place, found, expected, None);
    }
    for (name, odd) in undeclared {
        if bikes.len() > odd.len() && told_at_the_bikes(asked, &odd, bikes, draft, findings) {
            continue;
        }
        // Another size is not what was meant.
        let near = draft
            .names
            .nearest(asked.section, &name, &asked.place, findings)
            .filter(|near| digits(near) == digits(&name));
        let found = say!("{} on {}", quoted(&name), listed(&odd));
        let expected = say!("the name of {} in the section `{}`", asked.section.noun(), asked.section.key());
        findings.add(Code::RepairUnresolved, &asked.place, found, expected, near);
    }
}

/// Tells of an attribute whose value leads to nothing, at the bike, with the values that do. `false` if the name has
/// several attributes in it, or none of the other bikes' values is of use.
fn told_at_the_bikes(asked: &Asked<'_>, odd: &[&str], bikes: &[&Bike], draft: &Draft, findings: &mut Findings) -> bool {
    let Some(attribute) = only_hole(asked.name) else { return false };
    let sizes = sizes(asked, attribute, bikes, draft);
    if sizes.is_empty() {
        return false;
    }
    for id in odd {
        let Some(value) = draft.catalogue.bikes.get(*id).and_then(|bike| bike.attributes.get(attribute)) else {
            continue;
        };
        let place = draft.place(Section::Bikes, id).key("attributes").key(attribute);
        let named = asked.name.replace(&format!("{{{attribute}}}"), value);
        let expected = say!(
            "one of {}, or {} `{named}` of your own in the section `{}`",
            sizes.iter().map(|size| quoted(size)).collect::<Vec<_>>().join(", "),
            asked.section.noun(),
            asked.section.key()
        );
        let near = nearest(value, sizes.iter().map(String::as_str)).or_else(|| same_size(value, &sizes));
        findings.add(Code::RepairUnresolved, &place, quoted(value), expected, near);
    }
    true
}

/// The attribute in a name with one hole.
fn only_hole(name: &str) -> Option<&str> {
    match template::holes(name).ok()?.as_slice() {
        [attribute] => Some(attribute),
        _ => None,
    }
}

/// Values of an attribute with which the name is that of something declared: those of other bikes, and what differs from
/// one of these in its size only.
fn sizes(asked: &Asked<'_>, attribute: &str, bikes: &[&Bike], draft: &Draft) -> Vec<String> {
    let named = |value: &str| asked.name.replace(&format!("{{{attribute}}}"), value);
    let used: Vec<&String> = bikes.iter().filter_map(|bike| bike.attributes.get(attribute)).collect();
    let sound: Vec<&String> = used.into_iter().filter(|value| draft.names.has(asked.section, &named(value))).collect();
    let shapes: Vec<String> = sound.iter().map(|value| shape(value)).collect();
    let (before, after) = asked
        .name
        .split_once('{')
        .map_or((asked.name, ""), |(before, rest)| (before, rest.split_once('}').map_or("", |(_, after)| after)));
    let declared = draft.names.all(asked.section);
    let values = declared.filter_map(|name| name.strip_prefix(before)?.strip_suffix(after));
    let mut sizes: Vec<String> = values.filter(|value| shapes.contains(&shape(value))).map(str::to_owned).collect();
    sizes.dedup();
    sizes
}

/// `24 mm` means `hex 24 mm`, if there is that.
fn same_size(value: &str, sizes: &[String]) -> Option<String> {
    let value = value.trim();
    let ends = |size: &&String| !value.is_empty() && size.ends_with(value);
    sizes.iter().filter(ends).min_by_key(|size| size.len()).cloned()
}

/// A value with its size left out: `hex # mm`.
pub(crate) fn shape(value: &str) -> String {
    let mut shape = String::new();
    for c in value.chars() {
        match (c.is_ascii_digit(), shape.ends_with('#')) {
            (true, true) => {}
            (true, false) => shape.push('#'),
            (false, _) => shape.push(c),
        }
    }
    shape
}

fn digits(name: &str) -> String {
    name.chars().filter(char::is_ascii_digit).collect()
}

/// `a`, `b`, `c` and 4 more.
fn listed(bikes: &[&str]) -> String {
    let shown: Vec<String> = bikes.iter().take(3).map(|bike| quoted(bike)).collect();
    let more = bikes.len().saturating_sub(3);
    if more == 0 { shown.join(", ") } else { say!("{} and {more} more", shown.join(", ")) }
}
