//! What to leave at home, in words.

use super::{Cell, Names, Section, Typed, View, needs};
use crate::Look;
use crate::amount::{amount, money};
use crate::told::Line;
use crate::words::{counted, minutes, percent, sentence};
use fardel_core::answer::{Change, Going, Short, TrimAnswer};
use fardel_core::resolve::Amount;
use fardel_core::units::Hours;
use fardel_words::{mark, say, several, word};

/// Failures named beside a thing that goes; the JSON has all.
const NAMED: usize = 2;

/// An amount of what is trimmed.
pub(crate) fn show(answer: &TrimAnswer, value: Amount, look: &Look) -> String {
    amount(answer.measure, value, answer.currency, look)
}

/// Hours in words, and less than a minute as what it is.
fn few_minutes(hours: f64, look: &Look) -> String {
    if hours > 0.0 && hours < 1.0 / 60.0 { say!("less than a minute") } else { look.show(Hours::new(hours)) }
}

/// What matters first, each with its opening word.
pub(crate) fn lines(answer: &TrimAnswer, look: &Look) -> Vec<Line> {
    let (packed, target) = (show(answer, answer.packed, look), show(answer, answer.target, look));
    let mut lines = Vec::new();
    if answer.order.is_empty() {
        lines.push(Line::new("Packed", say!("{packed}, within {target}: nothing has to go.")));
    } else {
        let left = match answer.left {
            0 => say!("nothing remains"),
            left => say!("{} remain", show(answer, left, look)),
        };
        let text = say!("{packed}. Without what is listed below {left}; {target} is what you asked for.");
        lines.push(Line::new("Packed", text));
        let lost = answer.net_before.get() - answer.net_after.get();
        let lost = if lost < 0.0 {
            say!("Nothing: these things cost {} more by their weight than they save", few_minutes(-lost, look))
        } else {
            say!("The trip is expected to lose {} more", few_minutes(lost, look))
        };
        let text = say!(
            "{lost}. Chance that no breakdown leaves you stranded, at least: {} before, {} after.",
            percent(answer.recovery_before),
            percent(answer.recovery_after)
        );
        lines.push(Line::new("What that costs", text));
        lines.push(if answer.proven {
            Line::new("Proven", word!("No other choice of things to leave costs less."))
        } else {
            Line::new("Not proven", word!("Another choice of things to leave might cost less."))
        });
    }
    if !answer.short.is_empty() {
        let short: Vec<String> = answer.short.iter().map(|short| lacking(short, look)).collect();
        let text = say!("before you trim: {}. What there is of it stays, for want of better.", short.join("; "));
        lines.push(Line::new("Already short", text));
    }
    lines
}

/// What the trip asks for, and what is packed of it.
fn lacking(short: &Short, look: &Look) -> String {
    let mut parts = Vec::new();
    if let Some((wanted, packed)) = short.degrees {
        parts.push(say!("the trip asks for {}, what is packed is for {}", look.show(wanted), look.show(packed)));
    }
    if short.packed <= 0.0 {
        parts.push(say!("nothing packed will do"));
    } else if short.packed < short.demanded {
        let show = |value| needs::amount(value, &short.unit, look);
        parts.push(say!("{} wanted, {} packed", show(short.demanded), show(short.packed)));
    }
    format!("{} ({})", short.name, parts.join("; "))
}

/// What the star means.
pub(crate) const STARRED: &str = mark!(
    "*: at this weight another choice of the packed things would be better by so \
much, but it is not on the way to the best one at the target."
);

/// Place, what goes, what it takes, what the kit comes to then, what is given up, that in all, remarks.
pub(crate) fn row(answer: &TrimAnswer, at: usize, going: &Going, look: &Look) -> Vec<String> {
    let mut marks = Vec::new();
    if let Some(better) = going.best_is_better_by {
        marks.push(format!("* {}", minutes(better)));
    }
    if !going.unrepairable.is_empty() {
        let more = going.unrepairable.len().saturating_sub(NAMED);
        let more = if more > 0 { say!("; {more} more") } else { String::new() };
        let named = going.unrepairable.iter().take(NAMED).cloned().collect::<Vec<_>>().join("; ");
        marks.push(say!("leaves open {named}{more}"));
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

/// What leaving something comes to on average: `costs 2.5 min`, `gains 0.6 min`, `nothing`.
pub(crate) fn signed(hours: Hours) -> String {
    let minutes = hours.get().abs() * 60.0;
    let amount = match minutes {
        m if m < 0.05 => return say!("nothing"),
        m if m < 9.95 => say!("{minutes:.1} min"),
        m if m < 59.5 => say!("{minutes:.0} min"),
        _ => say!("{:.1} h", hours.get().abs()),
    };
    format!("{} {amount}", if hours.get() < 0.0 { word!("gains") } else { word!("costs") })
}

/// With its price.
pub(crate) fn priced(answer: &TrimAnswer, change: &Change) -> String {
    let price = if change.price.cents() == 0 { say!("yours") } else { money(change.price, answer.currency) };
    format!("{} ({price})", counted(change.count, &change.name))
}

/// So many of the things that go are shown.
const FEW: usize = 24;

/// The view of `trim`.
#[must_use]
pub fn trim(answer: &TrimAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let mut view = View {
        title: answer.trip.scenario.clone(),
        who: say!("{} on a {}", answer.trip.rider, answer.trip.bike),
        verdict: lines(answer, look),
        ..View::default()
    };
    let amount = |value: Amount| -> Cell { show(answer, value, look).into() };
    if !answer.order.is_empty() && answer.entering.is_empty() {
        let row = |going: &Going| -> Vec<Cell> {
            let open = match going.unrepairable.len() {
                0 => String::new(),
                n => say!("{} no longer mended", several!(n, "{n} failure", "{n} failures")),
            };
            vec![
                counted(going.count, names.short(&going.name)).into(),
                amount(going.amount),
                amount(going.left),
                signed(going.hours).into(),
                open.into(),
            ]
        };
        let rows = answer.order.iter().map(row).collect();
        let head = [word!("leave at home, first to go first"), "#takes", "#kit then", "#on average", ""];
        view.sections.push(Section::new("", &head, rows, FEW).with_rest(|more| say!("{more} more")));
    } else {
        let going = answer.order.iter().map(|going| vec![counted(going.count, names.short(&going.name)).into()]);
        let coming = answer.entering.iter().map(|change| vec![priced_in_short(answer, change, names).into()]);
        for (title, rows) in
            [(word!("Leave at home"), going.collect::<Vec<Vec<Cell>>>()), (word!("Take instead"), coming.collect())]
        {
            if !rows.is_empty() {
                view.sections
                    .push(Section::new(title, &[""], rows, FEW).run_on().with_rest(|more| say!("{more} more")));
            }
        }
    }
    view.remarks = answer.warnings.iter().map(|warning| Line::new("Note", sentence(warning))).collect();
    view.remarks.push(super::pack::care());
    let first =
        answer.order.first().map(|going| typed.next(&format!("why {}", going.id), word!("what it was good for")));
    view.next = first
        .into_iter()
        .chain([typed.again("trim", "--full", word!("what each leaves open, and every caution"))])
        .collect();
    view
}

fn priced_in_short(answer: &TrimAnswer, change: &Change, names: &Names) -> String {
    let price = if change.price.cents() == 0 { say!("yours") } else { money(change.price, answer.currency) };
    format!("{} ({price})", counted(change.count, names.short(&change.name)))
}
