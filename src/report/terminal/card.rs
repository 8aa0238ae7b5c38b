//! The card for the pocket on the terminal.

use super::{Look, checks, heading, strong, wrapped};
use crate::view::fuel;
use crate::words::{chance, sentence};
use fardel_core::answer::{CardAnswer, CardFailure, CardRepair, CardThing};
use fardel_core::domain::RepairSkill;
use fardel_words::{say, several, word};

/// The whole answer of `card`.
#[must_use]
pub fn card_of_failures(answer: &CardAnswer, look: &Look) -> String {
    let mut text = super::titled(&answer.trip.scenario, look);
    text += &wrapped(&say!("Field card of {} on a {}.", answer.trip.rider, answer.trip.bike), look, "");
    text.push('\n');
    for line in fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look) {
        text += &wrapped(&format!("- {} {}", strong(line.opening()), line.text), look, "  ");
    }
    let before = checks::in_full(&answer.checks, look);
    if !before.is_empty() {
        text += &before;
        text.push('\n');
    }
    for line in &answer.before_any_repair {
        text += &wrapped(&format!("- {line}"), look, "  ");
    }
    answer.failures.iter().for_each(|own| text += &failure(own, look));
    text.push('\n');
    text += &closing(answer, look);
    text
}

fn failure(own: &CardFailure, look: &Look) -> String {
    let does = match own.outcome {
        "stops" => word!("stops the bike"),
        "limps" => word!("leaves it limping"),
        _ => word!("a nuisance"),
    };
    let mut text = format!("\n{}", super::titled(&sentence(&own.name), look));
    text += &wrapped(&format!("  {}; {does}.", sentence(&chance(own.mean))), look, "  ");
    for (at, one) in own.repairs.iter().enumerate() {
        text += &repair(one, at == 0, look);
    }
    text
}

fn repair(own: &CardRepair, first: bool, look: &Look) -> String {
    let opening = if first { word!("Do") } else { word!("Failing that") };
    let result =
        if own.restores >= 0.995 { word!("as good as before") } else { word!("to get on with, not as good as before") };
    let line = say!(
        "  {} {}: about {}, {}, {result}.",
        strong(opening),
        own.name,
        look.show(own.time),
        skill(own.skill) + &company(own.riders)
    );
    let mut text = wrapped(&line, look, "    ");
    if !own.tools.is_empty() {
        text += &wrapped(&say!("    With: {}.", things(&own.tools)), look, "      ");
    }
    if !own.used_up.is_empty() {
        text += &wrapped(&say!("    Uses up: {}.", things(&own.used_up)), look, "      ");
    }
    for (at, step) in own.steps.iter().enumerate() {
        text += &wrapped(&format!("    {:>2}. {step}", at + 1), look, "        ");
    }
    for check in &own.check_after {
        text += &wrapped(&format!("    [ ] {check}"), look, "        ");
    }
    text
}

/// How many it takes.
fn company(riders: u32) -> String {
    if riders > 1 { say!(", takes {riders} riders") } else { String::new() }
}

/// Who can do it.
fn skill(skill: RepairSkill) -> String {
    if skill == RepairSkill::Anyone { say!("anyone can") } else { say!("for somebody {word}", word = skill.shown()) }
}

fn things(things: &[CardThing]) -> String {
    let one = |thing: &CardThing| match thing.bags.as_slice() {
        [] => thing.name.clone(),
        bags => format!("{} [{}]", thing.name, bags.join(", ")),
    };
    things.iter().map(one).collect::<Vec<_>>().join("; ")
}

fn closing(answer: &CardAnswer, look: &Look) -> String {
    let mut lines = Vec::new();
    if !answer.stowed {
        lines.push(say!("Where each thing is packed is not in the file; write it beside the card."));
    }
    if answer.more > 0 {
        let more = several!(answer.more, "{n} less likely failure", "{n} less likely failures");
        lines.push(say!("The kit also mends {more} (--top shows more)."));
    }
    if !answer.open.is_empty() {
        let names: Vec<String> = answer.open.iter().map(|(name, mean)| format!("{name} ({})", chance(*mean))).collect();
        lines.push(say!("As likely, and the kit does nothing about it: {}.", names.join("; ")));
    }
    lines.extend(answer.warnings.iter().cloned());
    lines.push(say!("Chances and times are estimates, most of them from memory."));
    heading(word!("Take care"))
        + &lines.iter().map(|line| wrapped(&format!("- {line}"), look, "  ")).collect::<String>()
}
