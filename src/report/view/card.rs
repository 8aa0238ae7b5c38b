//! The card for the pocket, as people read it on a screen: what is likely to break and what to do.

use super::{Cell, Figure, Names, Section, Typed, View, fuel};
use crate::Look;
use crate::told::Line;
use crate::words::{chance, list, sentence};
use fardel_core::answer::{CardAnswer, CardFailure, CardThing};
use fardel_words::{say, several, word};

/// So many failures fit beside the rest.
const FEW: usize = 16;
/// So many tools of a repair are named.
const TOOLS: usize = 2;

/// The view of `card`.
#[must_use]
pub fn card(answer: &CardAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let row = |own: &CardFailure| -> Vec<Cell> {
        let first = own.repairs.first();
        let time = first.map(|repair| Figure::hours(repair.time, look));
        let does = first.map_or_else(String::new, |repair| {
            let tools: Vec<String> = repair.tools.iter().map(|tool| tool_in_bag(tool, names)).collect();
            let more = tools.len().saturating_sub(TOOLS);
            let more = if more > 0 { say!(" and {more} more") } else { String::new() };
            let with = if tools.is_empty() {
                String::new()
            } else {
                say!(", with {}{more}", tools[..tools.len().min(TOOLS)].join(", "))
            };
            format!("{}{with}", repair.name)
        });
        vec![own.name.clone().into(), chance(own.mean).into(), time.map_or_else(|| "".into(), Cell::from), does.into()]
    };
    let rows = answer.failures.iter().map(row).collect();
    let head = [word!("what breaks"), word!("how likely"), "#takes", word!("what to do")];
    let mut verdict = Vec::new();
    verdict.extend(answer.before_any_repair.first().map(|line| Line::new("First", *line)));
    let mut remarks = Vec::new();
    if !answer.open.is_empty() {
        let names: Vec<String> = answer.open.iter().take(3).map(|(name, _)| name.clone()).collect();
        remarks.push(Line::new("No repair", say!("as likely, and the kit does nothing about it: {}", list(&names))));
    }
    if answer.more > 0 {
        let more = several!(answer.more, "{n} less likely failure", "{n} less likely failures");
        remarks.push(Line::new("More", say!("the kit also mends {more} (--top shows more)")));
    }
    if !answer.stowed {
        remarks.push(Line::new(
            "Bags",
            word!("the file does not say where each thing is packed; write it beside the card"),
        ));
    }
    remarks.extend(answer.warnings.iter().map(|warning| Line::new("Note", sentence(warning))));
    View {
        title: answer.trip.scenario.clone(),
        who: say!("Field card of {} on a {}", answer.trip.rider, answer.trip.bike),
        alarms: fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look),
        verdict,
        sections: vec![Section::new("", &head, rows, FEW).with_rest(|more| say!("{more} more"))],
        remarks,
        next: vec![
            typed.again("card", "--full", word!("every step, and what to check before leaving")),
            typed.again("card", "--format html --out card.html", word!("a booklet to print")),
        ],
        ..View::default()
    }
}

fn tool_in_bag(tool: &CardThing, names: &Names) -> String {
    let name = names.short(&tool.name);
    tool.bags.first().map_or_else(|| name.to_owned(), |bag| format!("{name} [{}]", without_size(bag)))
}

/// The name of a bag without its litres at the end.
pub(crate) fn without_size(bag: &str) -> &str {
    match bag.rsplit_once(", ") {
        Some((name, size)) if size.starts_with(|c: char| c.is_ascii_digit()) => name,
        _ => bag,
    }
}
