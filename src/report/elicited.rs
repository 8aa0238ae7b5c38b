//! A catalogue of what riders say together.

use crate::files::{counted, quoted, rate_of_failure, surfaces};
use fardel_core::domain::{Failure, Model, Outcome, Repair, RidingSkill};
use fardel_core::elicit::{Elicited, learn::Changed};

/// The first line of such a catalogue, by which it is known again.
pub const HEAD: &str =
    "# Numbers that riders were asked for, written by `fardel pool`. It writes this file anew each time.";

/// The catalogue file. Everything that was not asked for is as before.
#[must_use]
pub fn catalogue(elicited: &Elicited) -> String {
    let mut text = format!("{HEAD}\n# Name it under `catalogues` in a scenario, after files that change failures.\n");
    if let Some(own) = &elicited.model {
        text += &model(own);
    }
    if !elicited.failures.is_empty() {
        text += "failures:\n";
    }
    for (id, (own, changed)) in &elicited.failures {
        text += &failure(id, own, *changed);
    }
    text
}

fn model(own: &Model) -> String {
    let skills = RidingSkill::WORDS.iter().zip(own.riding_skill);
    let skills: Vec<String> = skills.map(|(word, factor)| format!("{word}: {factor}")).collect();
    format!(
        "model:\n  falls_per_1000_km: {}\n  falls_worth_events: {}\n  riding_skill: {{ {} }}\n  load_sensitivity: {}\n  hours_per_fall: {} h\n  basis: {}\n",
        surfaces(own.falls_per_1000_km),
        own.falls_worth_events,
        skills.join(", "),
        own.load_sensitivity,
        own.hours_per_fall.get(),
        quoted(&own.basis.to_string()),
    )
}

fn failure(id: &str, own: &Failure, changed: Changed) -> String {
    let mut text = format!("  {}:\n    like: {}\n", quoted(id), quoted(id));
    if let (true, Outcome::Limps(share)) = (changed.limps, own.outcome) {
        text += &format!("    limps_share: {share}\n");
    }
    if changed.rate {
        text += &rate_of_failure(&own.rate, &own.rate.basis.to_string());
    }
    if changed.repairs {
        text += "    repairs:\n";
        own.repairs.iter().for_each(|own| text += &repair(own));
    }
    text
}

fn repair(own: &Repair) -> String {
    let mut text = format!("      {}:\n        name: {}\n", quoted(&own.id), quoted(&own.name));
    text += &format!("        grade: {}\n", own.grade.word());
    for (key, counts) in [("needs", &own.needs), ("uses", &own.uses)] {
        if !counts.is_empty() {
            text += &format!("        {key}: {}\n", counted(counts));
        }
    }
    text += &format!("        time: {} h\n        restores: {}\n", own.time.get(), own.restores);
    text += &format!("        skill: {}\n", own.skill.word());
    if own.riders != 1 {
        text += &format!("        riders: {}\n", own.riders);
    }
    text += &format!("        basis: {}\n", quoted(&own.basis.to_string()));
    for (key, lines) in [("steps", &own.steps), ("check_after", &own.check_after)] {
        if !lines.is_empty() {
            let lines: Vec<String> = lines.iter().map(|line| quoted(line)).collect();
            text += &format!("        {key}: [{}]\n", lines.join(", "));
        }
    }
    text
}
