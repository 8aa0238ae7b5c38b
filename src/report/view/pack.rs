//! A kit as people read it.

use super::load::name;
use super::{Bar, Figure, Names, Typed, View, bags, departure, fuel, headline, notes, risks};
use crate::Look;
use crate::told::Line;
use crate::words::{finely, home, percent, sentence};
use fardel_core::answer::{Allowance, By, Figures, Loading, PackAnswer, Proof, Totals};
use fardel_core::resolve::Scale;
use fardel_words::{say, several, word};

/// The view of `pack`.
#[must_use]
pub fn pack(answer: &PackAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let mut bars = lost(&answer.figures, look);
    bars.extend(limits(&answer.totals, answer.loads.first(), look));
    let to_buy = if answer.purchases.is_empty() { "" } else { word!(" (* to buy)") };
    let units = answer.totals.units;
    View {
        title: answer.trip.scenario.clone(),
        who: headline::who(answer, look),
        lines: headline::lines(answer, look),
        alarms: fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look),
        verdict: verdict(answer, look),
        bars,
        things: say!("{} by bag{to_buy}", several!(units as usize, "{n} thing", "{n} things")),
        bags: bags::bags(&answer.bags, names, look),
        sections: [
            notes::buying(&answer.purchases, answer.totals.currency, names),
            risks::section(&answer.risks, names, look),
        ]
        .into_iter()
        .filter(|section| !section.rows.is_empty())
        .collect(),
        remarks: remarks(answer, look),
        next: next(answer, typed),
    }
}

fn verdict(answer: &PackAnswer, look: &Look) -> Vec<Line> {
    let figures = &answer.figures;
    let nothing = finely(figures.self_recovery_empty);
    let ride = say!("{}; {nothing} with nothing aboard", home(&figures.home));
    let mut lines = vec![Line::new("Ride home", ride), proof(&answer.proof, look)];
    lines.extend(answer.firm.as_ref().and_then(crate::firm::in_short).map(|text| Line::new("Firm", text)));
    lines
}

/// How sure it is that no kit is better, in a line.
pub(super) fn proof(proof: &Proof, look: &Look) -> Line {
    let sure = (proof.proven, proof.objective, proof.bound);
    headline::sure(sure, |more| say!("another kit within your limits might save up to {more} more"), look)
}

/// Hours lost with this kit and without.
fn lost(figures: &Figures, look: &Look) -> Vec<Bar> {
    let empty = Figure::hours(figures.hours_empty, look);
    let left = Figure::hours(headline::hours_left(figures.hours_empty, figures.hours_saved), look);
    let (with, without) = (say!("{left} with this kit"), say!("{empty} with nothing aboard"));
    vec![
        Bar::new(word!("Lost to breakdowns"), left, empty.clone()).saying(with),
        Bar::new("", empty.clone(), empty).saying(without),
    ]
}

/// What is used of mass, room and money.
fn limits(totals: &Totals, load: Option<&Loading>, look: &Look) -> Vec<Bar> {
    let mut bars = Vec::new();
    let mass = Figure::mass(totals.mass, look);
    match (load.and_then(|load| load.allowances.first()), totals.mass_limit) {
        (Some(Allowance { by: by @ (By::Bike(_) | By::Bags), mass: limit }), _) => {
            let bar = Bar::new(word!("Mass"), mass, Figure::mass(*limit, look));
            let text = say!("{}, by {}", bar.text, name(*by));
            bars.push(bar.saying(text));
        }
        (_, Some(limit)) => bars.push(Bar::new(word!("Mass"), mass, Figure::mass(limit, look))),
        (_, None) => {}
    }
    bars.push(Bar::new(word!("Room"), Figure::volume(totals.volume, look), Figure::volume(totals.room, look)));
    if let Some(budget) = totals.budget {
        let money = |money| Figure::money(money, totals.currency);
        bars.push(Bar::new(word!("Money"), money(totals.to_buy), money(budget)));
    }
    bars
}

/// What the wheels carry of what they may.
pub(super) fn wheels(load: &Loading) -> Option<Line> {
    let used = |scale: Scale, what: &str| load.used(scale).map(|share| format!("{what} {}", percent(share)));
    let parts = [(Scale::Front, word!("front")), (Scale::Rear, word!("rear")), (Scale::Gross, word!("whole bike"))];
    let parts: Vec<String> = parts.into_iter().filter_map(|(scale, what)| used(scale, what)).collect();
    (!parts.is_empty()).then(|| Line::new("Wheels", say!("{} of what they may carry", parts.join(", "))))
}

fn remarks(answer: &PackAnswer, look: &Look) -> Vec<Line> {
    let mut lines: Vec<Line> = departure::first(answer, look).into_iter().collect();
    if !answer.checks.is_empty() {
        let checks = several!(answer.checks.len(), "{n} check", "{n} checks");
        lines.push(Line::new("Then", say!("{checks} of the bike before you leave: --full lists them")));
    }
    lines.extend(answer.loads.iter().filter_map(wheels));
    lines.extend(answer.loads.iter().filter_map(super::load::sets_in_short).map(|text| Line::new("Sets", text)));
    lines.extend(answer.warnings.iter().map(|warning| Line::new("Note", sentence(warning))));
    lines.push(care());
    lines
}

/// The cautions in a line; all of them stand in the full answer.
pub(super) fn care() -> Line {
    Line::new("Care", word!("the manual, the tyre sidewall and the law come before this plan"))
}

/// A thing worth asking about: the least certain, or else the first that is there for what it saves.
fn asked(answer: &PackAnswer) -> Option<&str> {
    let items = || answer.bags.iter().flat_map(|bag| &bag.items);
    let least = answer.firm.as_ref().and_then(|firm| firm.least_certain.first());
    let least = least.and_then(|name| items().find(|item| item.name == *name));
    least.or_else(|| items().max_by(|a, b| a.worth.get().total_cmp(&b.worth.get()))).map(|item| item.id.as_str())
}

fn next(answer: &PackAnswer, typed: &Typed) -> Vec<super::Next> {
    let why = asked(answer).map(|id| typed.next(&format!("why {id}"), word!("is it worth its weight?")));
    why.into_iter().chain([typed.again("pack", "--full", word!("every reason, check and caution"))]).collect()
}
