//! What to leave at home, the first to go first.

use super::table::{Set, table};
use super::{Look, heading, needs, strong, wrapped};
use crate::amount::{amount, money};
use crate::cautions::cautions;
use crate::told::Line;
use crate::words::{counted, percent};
use fardel_core::answer::{Change, Going, Short, TrimAnswer};
use fardel_core::resolve::Amount;
use fardel_core::units::Hours;

/// Failures named beside a thing that goes; the JSON has all.
const NAMED: usize = 2;

/// The whole answer of `trim`.
#[must_use]
pub fn trim(answer: &TrimAnswer, look: &Look) -> String {
    let mut text = super::titled(&answer.trip.scenario, look);
    text += &wrapped(&format!("{} on a {}.", answer.trip.rider, answer.trip.bike), look, "");
    text.push('\n');
    for line in lines(answer, look) {
        text += &wrapped(&format!("  {} {}", strong(line.word), line.text), look, "    ");
    }
    if !answer.order.is_empty() {
        text.push('\n');
        text += &order(answer, look);
    }
    if !answer.entering.is_empty() {
        text.push('\n');
        text += &heading("Take instead");
        answer.entering.iter().for_each(|change| text += &format!("  {}\n", priced(answer, change)));
    }
    text.push('\n');
    text += &heading("Take care");
    for warning in answer.warnings.iter().map(String::as_str).chain(cautions(&answer.kinds)) {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text
}

/// An amount of what is trimmed.
pub(crate) fn show(answer: &TrimAnswer, value: Amount, look: &Look) -> String {
    amount(answer.measure, value, answer.currency, look)
}

/// Hours in words, and less than a minute as what it is.
fn few_minutes(hours: f64, look: &Look) -> String {
    if hours > 0.0 && hours < 1.0 / 60.0 { "less than a minute".to_owned() } else { look.show(Hours::new(hours)) }
}

/// What matters first, each with its opening word.
pub(crate) fn lines(answer: &TrimAnswer, look: &Look) -> Vec<Line> {
    let (packed, target) = (show(answer, answer.packed, look), show(answer, answer.target, look));
    let mut lines = Vec::new();
    if answer.order.is_empty() {
        lines.push(Line::new("Packed", format!("{packed}, within {target}: nothing has to go.")));
    } else {
        let left = match answer.left {
            0 => "nothing stays".to_owned(),
            left => format!("{} stay", show(answer, left, look)),
        };
        let text = format!("{packed}; to come to {target}, leave at home what follows: {left}.");
        lines.push(Line::new("Packed", text));
        let lost = answer.net_before.get() - answer.net_after.get();
        let lost = if lost < 0.0 {
            format!("nothing is given up: the weight cost {} more than it saved", few_minutes(-lost, look))
        } else {
            format!("{} of expected loss on the trip", few_minutes(lost, look))
        };
        let text = format!(
            "{lost}. Chance that no breakdown leaves you stranded, at least: {} before, {} after.",
            percent(answer.recovery_before),
            percent(answer.recovery_after)
        );
        lines.push(Line::new("Given up", text));
        lines.push(if answer.proven {
            Line::new("Proven", "No other choice of things to leave gives up less.")
        } else {
            Line::new("Not proven", "Another choice of things to leave might give up less.")
        });
    }
    if !answer.short.is_empty() {
        let short: Vec<String> = answer.short.iter().map(|short| lacking(short, look)).collect();
        let text = format!("before you trim: {}. What there is of it stays, for want of better.", short.join("; "));
        lines.push(Line::new("Already short", text));
    }
    lines
}

/// What the trip asks for, and what is packed of it.
fn lacking(short: &Short, look: &Look) -> String {
    let mut parts = Vec::new();
    if let Some((wanted, packed)) = short.degrees {
        parts.push(format!("the trip asks for {}, what is packed is for {}", look.show(wanted), look.show(packed)));
    }
    if short.packed <= 0.0 {
        parts.push("nothing packed will do".to_owned());
    } else if short.packed < short.demanded {
        let show = |value| needs::amount(value, &short.unit, look);
        parts.push(format!("{} wanted, {} packed", show(short.demanded), show(short.packed)));
    }
    format!("{} ({})", short.name, parts.join("; "))
}

/// What the star means.
pub(crate) const STARRED: &str = "*: at this weight another choice of the packed things would be better by so \
much, but it is not on the way to the best one at the target.";

fn order(answer: &TrimAnswer, look: &Look) -> String {
    if !answer.entering.is_empty() {
        let line =
            |going: &Going| format!("  {} ({})\n", counted(going.count, &going.name), show(answer, going.amount, look));
        return answer.order.iter().map(line).fold(heading("Leave at home"), |text, line| text + &line);
    }
    let rows = answer.order.iter().enumerate().map(|(at, going)| row(answer, at, going, look)).collect();
    let set = [
        Set::Right(Some(6)),
        Set::Left(Some(40)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Left(None),
    ];
    let mut text = heading("First to go first");
    text += &table(&["", "", "takes", "kit then", "given up", "in all", ""], &set, rows, look);
    if answer.order.iter().any(|going| going.best_is_better_by.is_some()) {
        text += &wrapped(&format!("  {STARRED}"), look, "  ");
    }
    text
}

/// Place, what goes, what it takes, what the kit comes to then, what is given up, that in all, remarks.
pub(crate) fn row(answer: &TrimAnswer, at: usize, going: &Going, look: &Look) -> Vec<String> {
    let mut marks = Vec::new();
    if let Some(better) = going.best_is_better_by {
        marks.push(format!("* {}", signed(better)));
    }
    if !going.unrepairable.is_empty() {
        let more = going.unrepairable.len().saturating_sub(NAMED);
        let more = if more > 0 { format!("; {more} more") } else { String::new() };
        let named = going.unrepairable.iter().take(NAMED).cloned().collect::<Vec<_>>().join("; ");
        marks.push(format!("leaves open {named}{more}"));
    }
    vec![
        (at + 1).to_string(),
        counted(going.count, &going.name),
        show(answer, going.amount, look),
        show(answer, going.left, look),
        signed(going.hours),
        signed(going.total),
        marks.join("; "),
    ]
}

/// Minutes with a tenth below ten; what is gained has a minus.
fn signed(hours: Hours) -> String {
    let minutes = hours.get() * 60.0;
    match minutes.abs() {
        m if m < 0.05 => "0 min".to_owned(),
        m if m < 9.95 => format!("{minutes:.1} min"),
        m if m < 59.5 => format!("{minutes:.0} min"),
        _ => format!("{:.1} h", hours.get()),
    }
}

/// With its price.
pub(crate) fn priced(answer: &TrimAnswer, change: &Change) -> String {
    let price = if change.price.cents() == 0 { "yours".to_owned() } else { money(change.price, answer.currency) };
    format!("{} ({price})", counted(change.count, &change.name))
}
