//! A group's kit as people read it: what each carries, and what is left when somebody leaves.

use super::pack::care;
use super::{Bag, Bar, Figure, Names, Section, Thing, Typed, View, fuel, headline, notes, risks, split};
use crate::Look;
use crate::told::Line;
use crate::words::{home, list, percent, sentence};
use fardel_core::answer::split::{Card, Carried, Floor, SplitAnswer};
use fardel_core::units::Mass;
use fardel_words::{say, word};

/// The view of `split`.
#[must_use]
pub fn group(answer: &SplitAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let mut alarms = fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look);
    alarms.extend(answer.apart.iter().filter_map(split::lacking).map(|text| Line::new("Apart", text)));
    let alone = answer.cards.len() == 1;
    View {
        title: answer.scenario.clone(),
        who: split::who(answer, look),
        lines: split::lines(answer, look),
        alarms,
        verdict: verdict(answer, names, look),
        bars: bars(answer, look),
        things: if alone {
            say!("What is carried")
        } else {
            say!("Who carries what for all, beside things of their own")
        },
        bags: answer.cards.iter().map(|card| load(answer, card, names, look)).collect(),
        sections: sections(answer, names, look),
        remarks: remarks(answer),
        next: vec![
            typed.again("split", "--out cards", word!("a card for each rider")),
            typed.again("split", "--full", word!("each bag, every reason and caution")),
        ],
    }
}

fn verdict(answer: &SplitAnswer, names: &Names, look: &Look) -> Vec<Line> {
    let mut lines = Vec::new();
    if let Some(chance) = &answer.figures.home {
        lines.push(Line::new("Ride home", say!("{} for everybody", home(chance))));
    }
    lines.extend(worst(answer, look));
    lines.extend(only_copies(&answer.once, names));
    lines.extend(answer.floor.as_ref().map(|floor| price(floor, names, look)));
    let proof = &answer.proof;
    let sure = (proof.proven, proof.objective, proof.bound);
    lines.push(headline::sure(sure, |more| say!("another kit might save up to {more} more"), look));
    lines
}

/// The departure that takes most with it.
pub(crate) fn worst(answer: &SplitAnswer, look: &Look) -> Option<Line> {
    if answer.absences.len() < 2 {
        return None;
    }
    let worst = answer.absences.iter().min_by(|a, b| a.share.total_cmp(&b.share))?;
    let (left, all) = (look.show(worst.left), look.show(worst.with_all));
    let text =
        say!("if {} leaves, {left} of {all} saved remain for the others ({})", worst.rider, percent(worst.share));
    Some(Line::new("Worst loss", text))
}

/// So many only copies are named.
const COPIES: usize = 4;

/// What one rider alone carries and all would miss.
fn only_copies(once: &[Carried], names: &Names) -> Option<Line> {
    let missed = || once.iter().filter(|own| own.missed.get() > 1.0 / 60.0);
    let one = |own: &Carried| {
        let with = own.by.first().map_or("", |(rider, _)| rider.as_str());
        format!("{} ({with})", names.short(&own.name))
    };
    let named: Vec<String> = missed().take(COPIES).map(one).collect();
    let more = missed().count().saturating_sub(COPIES);
    let more = if more > 0 { say!("; {more} more") } else { String::new() };
    (!named.is_empty()).then(|| Line::new("Only copies", say!("most missed: {}{more}", named.join("; "))))
}

/// What the floor asks, and what it costs.
fn price(floor: &Floor, names: &Names, look: &Look) -> Line {
    let share = percent(floor.share);
    let kept = say!("whoever leaves, the others keep at least {share}");
    if floor.doubled.is_empty() {
        return Line::new("Floor", say!("{kept}; it costs nothing, no tool has to be there twice"));
    }
    let doubled: Vec<String> = floor.doubled.iter().map(|name| names.short(name).to_owned()).collect();
    let mass =
        if floor.mass > Mass::ZERO { say!("{} more to carry and ", look.show(floor.mass)) } else { String::new() };
    let hours = look.show(floor.hours);
    Line::new("Floor", say!("{kept}; it costs {mass}{hours} of what could be saved; twice there: {}", list(&doubled)))
}

fn bars(answer: &SplitAnswer, look: &Look) -> Vec<Bar> {
    let figures = &answer.figures;
    let empty = Figure::hours(figures.hours_empty, look);
    let left = Figure::hours(headline::hours_left(figures.hours_empty, figures.hours_saved), look);
    let (with, without) = (say!("{left} with this kit"), say!("{empty} with nothing aboard"));
    let mut bars = vec![
        Bar::new(word!("Lost, all riders"), left, empty.clone()).saying(with),
        Bar::new("", empty.clone(), empty).saying(without),
    ];
    for card in &answer.cards {
        let mass = Figure::mass(card.mass, look);
        bars.extend(card.limit.map(|limit| Bar::new(&card.rider, mass, Figure::mass(limit, look))));
    }
    if let Some(budget) = answer.totals.budget {
        let money = |money| Figure::money(money, answer.totals.currency);
        bars.push(Bar::new(word!("Money"), money(answer.totals.to_buy), money(budget)));
    }
    bars
}

/// What a rider carries for all, as if it were one bag; things of their own are a number.
fn load(answer: &SplitAnswer, card: &Card, names: &Names, look: &Look) -> Bag {
    let shared = answer.once.iter().chain(&answer.twice);
    let held = shared.filter_map(|own| Some((own, own.by.iter().find(|(rider, _)| *rider == card.rider)?.1)));
    let mut things: Vec<Thing> = held.map(|(own, count)| thing(answer, own, count, names, look)).collect();
    things.sort_by(|a, b| b.mass.value.total_cmp(&a.mass.value));
    let own = Figure::mass(card.personal, look);
    let mass = Figure::mass(card.mass, look);
    let volume = |of: fn(&fardel_core::answer::PackedBag) -> fardel_core::units::Volume| {
        Figure::volume(card.bags.iter().map(of).sum(), look)
    };
    let (filled, usable) = (volume(|bag| bag.filled), volume(|bag| bag.usable));
    Bag {
        name: sentence(&card.rider),
        room: filled.of(&usable),
        load: say!("{mass}, own {own}"),
        bears: mass.clone(),
        filled,
        usable,
        mass,
        spare: None,
        things,
    }
}

fn thing(answer: &SplitAnswer, own: &Carried, count: u32, names: &Names, look: &Look) -> Thing {
    let all: u32 = own.by.iter().map(|(_, n)| *n).sum();
    let one = own.mass.grams() / f64::from(all.max(1));
    Thing {
        count: Figure::count(count),
        short: names.short(&own.name).to_owned(),
        name: own.name.clone(),
        mass: Figure::mass(fardel_core::units::Quantity::from_base(one * f64::from(count) * 1000.0), look),
        worth: look.show(own.missed),
        reason: String::new(),
        to_buy: answer.purchases.iter().any(|bought| bought.name == own.name),
    }
}

fn sections(answer: &SplitAnswer, names: &Names, look: &Look) -> Vec<Section> {
    let mut sections = Vec::new();
    if let Some(moves) = split::moves(answer) {
        let rows = moves.into_iter().map(|line| vec![line.into()]).collect();
        sections.push(Section::new(word!("What changes hands"), &[""], rows, 8).with_rest(|more| say!("{more} more")));
    }
    sections.push(notes::buying(&answer.purchases, answer.totals.currency, names));
    sections.push(risks::section(&answer.risks, names, look));
    sections.into_iter().filter(|section| !section.rows.is_empty()).collect()
}

fn remarks(answer: &SplitAnswer) -> Vec<Line> {
    let mut lines = Vec::new();
    if !answer.checks.is_empty() {
        lines.push(Line::new("Before you leave", word!("check every bike: --full lists what to look at")));
    }
    lines.extend(answer.warnings.iter().map(|warning| Line::new("Note", sentence(warning))));
    lines.push(care());
    lines
}
