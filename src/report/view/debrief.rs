//! What the rides taught, as people read it.

use super::{Cell, Section, View};
use crate::Look;
use crate::told::Line;
use crate::view::Next;
use crate::words::{counted, list};
use fardel_core::debrief::{Debrief, Fellow, Learnt, Reach};
use fardel_words::{mark, say, several, word};

/// Failures that did not happen are shown only while so much more was expected; the JSON has all.
const QUIET: usize = 6;
/// Of what happened, a screen shows so much.
const FEW: usize = 14;
/// So many names of a list are shown.
const NAMES: usize = 4;

/// The rides in a sentence.
pub(crate) fn book(debrief: &Debrief, look: &Look) -> String {
    let seen: u32 = debrief.learnt.iter().map(|learnt| learnt.seen).sum();
    let expected: f64 = debrief.learnt.iter().map(|learnt| learnt.expected).sum();
    #[allow(clippy::cast_precision_loss, reason = "a count of rides")]
    let rides = several!(debrief.rides as f64, "{n} ride", "{n} rides");
    say!(
        "{rides}, {}, {}, {}. {} broke where the catalogue expected {expected:.1}.",
        look.show(debrief.distance),
        several!(debrief.days, "{n} day", "{n} days"),
        several!(f64::from(debrief.falls), "{n} fall", "{n} falls"),
        several!(f64::from(seen), "{n} thing", "{n} things"),
    )
}

/// Heads of [`rates`].
pub(crate) const RATES: [&str; 5] =
    [mark!("failure"), mark!("seen"), mark!("expected"), mark!("rate before"), mark!("rate now")];

/// What happened, and what was most expected and did not: a row each. How many more did not happen.
pub(crate) fn rates(debrief: &Debrief) -> (Vec<Vec<String>>, usize) {
    let quiet = || debrief.learnt.iter().filter(|learnt| learnt.seen == 0);
    let shown = debrief.learnt.iter().filter(|learnt| learnt.seen > 0).chain(quiet().take(QUIET));
    let falls = debrief.fallen.iter().map(|fallen| {
        let (seen, expected) = (fallen.seen.to_string(), say!("{:.2}", fallen.expected));
        vec![say!("a fall"), seen, expected, reach(fallen.before), reach(fallen.after)]
    });
    (falls.chain(shown.map(row)).collect(), quiet().count().saturating_sub(QUIET))
}

/// What is said of those that are not shown.
pub(crate) fn quiet(more: usize) -> String {
    let rates = if more == 1 { word!("its rate") } else { word!("their rates") };
    say!("{more} more that did not happen; {rates} went down a little")
}

fn row(learnt: &Learnt) -> Vec<String> {
    vec![
        learnt.name.clone(),
        learnt.seen.to_string(),
        say!("{:.2}", learnt.expected),
        reach(learnt.before),
        reach(learnt.after),
    ]
}

fn reach(reach: Reach) -> String {
    say!("{:.3} ({:.3} to {:.3})", reach.mean, reach.low, reach.high)
}

/// What was missed, what was carried and never used, and what could not be learnt; at most so many names of each.
pub(crate) fn things(debrief: &Debrief, most: usize) -> Vec<Line> {
    let few = |names: Vec<String>| {
        let more = names.len().saturating_sub(most);
        let more = if more > 0 { say!("; {more} more") } else { String::new() };
        format!("{}{more}", list(&names[..names.len().min(most)]))
    };
    let mut lines = Vec::new();
    if !debrief.missed.is_empty() {
        let names = debrief.missed.iter().map(|(name, n)| counted(*n, name)).collect();
        lines.push(Line::new("Missed", format!("{}.", few(names))));
    }
    if !debrief.unused.is_empty() {
        let on = |rides: usize| format!("{rides} {}", if rides == 1 { word!("ride") } else { word!("rides") });
        let names = debrief.unused.iter().map(|(name, rides)| format!("{name} ({})", on(*rides))).collect();
        lines.push(Line::new("Unused", say!("Carried and never used: {}.", few(names))));
    }
    if !debrief.impossible.is_empty() {
        let text = say!(
            "{}: the catalogue says that this cannot happen on such rides, so there is nothing to scale. Give it a rate in \
             a catalogue of your own.",
            few(debrief.impossible.clone())
        );
        lines.push(Line::new("Not learnt", text));
    }
    lines.extend(load(debrief));
    lines
}

/// Heads of [`fellows`].
pub(crate) const FELLOWS: [&str; 6] =
    [mark!("rider"), mark!("rides"), "km", mark!("broke"), mark!("falls"), mark!("falls per 1000 km")];

/// Each rider beside the others; nothing where there is only one.
pub(crate) fn fellows(debrief: &Debrief) -> Vec<Vec<String>> {
    let row = |own: &Fellow| {
        vec![
            own.name.clone().unwrap_or_else(|| say!("you")),
            own.rides.to_string(),
            say!("{:.0}", own.distance.km()),
            own.broke.to_string(),
            own.falls.to_string(),
            own.falls_per_1000_km.map_or_else(|| "-".to_owned(), reach),
        ]
    };
    debrief.riders.iter().map(row).collect()
}

fn beside(debrief: &Debrief) -> Option<Section> {
    let rows = fellows(debrief);
    let rows: Vec<Vec<Cell>> = rows.into_iter().map(|row| row.into_iter().map(Cell::from).collect()).collect();
    let head = [word!("rider"), "#rides", "#km", "#broke", "#falls", "#falls per 1000 km"];
    (!rows.is_empty())
        .then(|| Section::new(word!("The riders"), &head, rows, FEW).with_rest(|left| say!("{left} more")))
}

/// What weight was found to do to falls.
pub(crate) fn load(debrief: &Debrief) -> Option<Line> {
    let own = debrief.fallen.as_ref()?.load_sensitivity?;
    let text = say!(
        "a kit of a tenth of the bike's mass adds {:.0} % to falls, {:.0} % before these rides",
        own.after.mean * 10.0,
        own.before.mean * 10.0
    );
    Some(Line::new("Weight", text))
}

/// The view of `debrief`; `rates_file`: where the rates were written.
#[must_use]
pub fn debrief(debrief: &Debrief, rates_file: &str, look: &Look) -> View {
    let (rows, more) = rates(debrief);
    let rows: Vec<Vec<Cell>> = rows.into_iter().map(|row| row.into_iter().map(Cell::from).collect()).collect();
    let head = [word!("failure"), "#seen", "#expected", "#rate before", "#rate now"];
    let left_out = |left: usize| say!("{} more", left + more);
    let file = super::typed::quoted(rates_file);
    View {
        title: say!("What your rides taught"),
        who: book(debrief, look),
        verdict: things(debrief, NAMES),
        sections: [Some(Section::new("", &head, rows, FEW).with_rest(left_out)), beside(debrief)]
            .into_iter()
            .flatten()
            .collect(),
        remarks: vec![
            Line::new("Rates", word!("per 1000 km; in brackets where a rate lies nine times out of ten")),
            Line::new("To use them", say!("add `catalogues: [{rates_file}]` to your scenario")),
        ],
        next: vec![Next { command: format!("fardel check {file}"), tells: word!("reads the new rates back") }],
        ..View::default()
    }
}
