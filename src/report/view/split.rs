//! A group's kit in words: who carries what, and what is left when somebody leaves.

use super::fuel;
use super::headline::price_text;
use super::load::{parted, together};
use crate::Look;
use crate::told::Line;
use crate::words::{counted, counted_words, home, list, percent, plural};
use fardel_core::answer::SetsOnBikes;
use fardel_core::answer::split::{AloneKit, ApartLine, Card, Carried, Floor, GroupProof, Move, SplitAnswer};
use fardel_core::units::{Hours, Mass, Money};

/// So many single copies and doubles are named; the JSON has all.
pub(crate) const SHOWN: usize = 12;

/// How many, how far.
pub(crate) fn who(answer: &SplitAnswer, look: &Look) -> String {
    let trip = &answer.trip;
    let apart = if trip.splits { "; on some legs the group rides apart" } else { "" };
    format!(
        "{} with one kit: {}, {}, help up to {} away{apart}.",
        plural(riders(answer.cards.len()), "rider", "riders"),
        plural(trip.days, "day", "days"),
        look.show(trip.distance),
        look.show(trip.furthest),
    )
}

/// What matters first, each with its opening word.
pub(crate) fn lines(answer: &SplitAnswer, look: &Look) -> Vec<Line> {
    let (totals, figures) = (&answer.totals, &answer.figures);
    let money = if totals.to_buy == Money::ZERO {
        "nothing to buy".to_owned()
    } else {
        let of = totals.budget.map_or_else(String::new, |budget| format!(" of {:.0}", budget.units()));
        format!("{:.0}{of} {} to buy between you", totals.to_buy.units(), totals.currency)
    };
    let carry = format!(
        "{}, {} in all, {money}.",
        counted_words(totals.units as usize, "thing", "things"),
        look.show(totals.mass)
    );
    let worth = format!(
        "With nothing aboard the group would lose {} to breakdowns (rider-hours; {:.1} things break). This kit saves {} of that ({}).",
        look.show(figures.hours_empty),
        figures.failures,
        look.show(figures.hours_saved),
        percent(figures.coverage),
    );
    let mut lines = fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look);
    lines.extend(answer.apart.iter().filter_map(lacking).map(|text| Line::new("Apart", text)));
    lines.extend([Line::new("Carry", carry), Line::new("Worth", worth)]);
    if let Some(chance) = &figures.home {
        let text = format!("Chance that no breakdown leaves anybody stranded: {}.", home(chance));
        lines.push(Line::new("Home", text));
    }
    if answer.prices.any() {
        lines.push(Line::new("Price", price_text(&answer.prices, &figures.terms, totals.currency, look)));
    }
    lines.push(proof(&answer.proof, look));
    lines.extend(answer.floor.as_ref().map(|floor| kept(floor, look)));
    lines.extend(together_apart(answer));
    lines.extend(sets(answer));
    lines
}

/// How many sets of shared things ride on one bike.
fn sets(answer: &SplitAnswer) -> Option<Line> {
    let SetsOnBikes { whole, of, split } = &answer.sets;
    let split = parted(split.iter().map(|set| (&set.name, &set.riders)));
    together((*whole, *of), ("is on one bike", "are on one bike each"), &split).map(|text| Line::new("Sets", text))
}

/// What riders do not have with them on legs that they ride without the others; `None` where they have everything.
pub(crate) fn lacking(apart: &ApartLine) -> Option<String> {
    let one = |(need, with): &(String, Vec<String>)| match with.as_slice() {
        [] => format!("{need} (no one of the others has enough of it)"),
        with => format!("{need} (with {})", list(with)),
    };
    let things: Vec<String> = apart.lacking.iter().map(one).collect();
    let ride = if apart.riders.len() == 1 { "rides alone" } else { "ride without the others" };
    let text = format!("{} {ride} on {} WITHOUT: {}.", list(&apart.riders), legs(apart), things.join("; "));
    (!things.is_empty()).then_some(text)
}

fn legs(apart: &ApartLine) -> String {
    list(&apart.legs.iter().map(|leg| format!("\"{leg}\"")).collect::<Vec<_>>())
}

/// Who has everything with them on legs without the others.
fn together_apart(answer: &SplitAnswer) -> Option<Line> {
    let sound = answer.apart.iter().filter(|apart| apart.lacking.is_empty());
    let sound: Vec<String> = sound.map(|apart| format!("{} on {}", list(&apart.riders), legs(apart))).collect();
    let text = format!(
        "With the others away, what the leg demands is still there: {}. Water, food and petrol: share them out \
         anew before you part.",
        sound.join("; ")
    );
    (!sound.is_empty()).then(|| Line::new("Apart", text))
}

fn riders(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

fn proof(proof: &GroupProof, look: &Look) -> Line {
    let fair = if proof.fairest { "no handing out is fairer" } else { "a slightly fairer handing out may exist" };
    if proof.proven {
        return Line::new("Proven", format!("No other kit within your limits saves more, by these rates; {fair}."));
    }
    let more = look.show(Hours::new((proof.bound - proof.objective).max(0.0)));
    let share = percent(proof.gap);
    Line::new("Not proven", format!("Another kit might save up to {more} more ({share} of this one's); {fair}."))
}

fn kept(floor: &Floor, look: &Look) -> Line {
    let what = if floor.doubled.is_empty() {
        "nothing has to be there twice for it".to_owned()
    } else {
        let mass =
            if floor.mass > Mass::ZERO { format!(", {} more in all", look.show(floor.mass)) } else { String::new() };
        format!(
            "there twice because of it: {}{mass}; {} of what the kit could save is given up for it",
            list(&floor.doubled),
            look.show(floor.hours)
        )
    };
    let text = format!(
        "Whoever leaves, the others keep at least {} of what the whole kit would save them; {what}.",
        percent(floor.share)
    );
    Line::new("Floor", text)
}

/// Heads of [`share_rows`].
pub(crate) const SHARES: [&str; 8] =
    ["rider", "bike", "role", "carries", "own things", "of a fair share", "limit", "on the front wheel"];

/// A row for each rider.
pub(crate) fn share_rows(answer: &SplitAnswer, look: &Look) -> Vec<Vec<String>> {
    let row = |card: &Card| {
        let roles: Vec<&str> = card.roles.iter().map(|role| role.word()).collect();
        let limit = card.limit.map_or_else(String::new, |limit| look.show(limit));
        let relative = card.mass.kilograms() / card.fair.kilograms().max(1e-9);
        let front = card.load.loaded.front_share();
        vec![
            card.rider.clone(),
            card.bike.clone(),
            roles.join(", "),
            look.show(card.mass),
            look.show(card.personal),
            format!("{:.0} %", relative * 100.0),
            limit,
            percent(front),
        ]
    };
    answer.cards.iter().map(row).collect()
}

/// Who on which bike carries how much.
pub(crate) fn card_title(card: &Card, look: &Look) -> String {
    format!("{} on the {}: {}", card.rider, bike_and_roles(card), look.show(card.mass))
}

/// The bike, and what its rider does for the group.
pub(crate) fn bike_and_roles(card: &Card) -> String {
    let roles: Vec<String> = card.roles.iter().map(|role| role.word().to_owned()).collect();
    if roles.is_empty() { card.bike.clone() } else { format!("{}, {}", card.bike, list(&roles)) }
}

/// What this rider lacks on legs without the others.
pub(crate) fn lacks(answer: &SplitAnswer, card: &Card) -> Vec<String> {
    answer.apart.iter().filter(|apart| apart.riders.contains(&card.rider)).filter_map(lacking).collect()
}

/// What changes hands, where the group has packed already.
pub(crate) fn moves(answer: &SplitAnswer) -> Option<Vec<String>> {
    let moves = answer.moves.as_ref()?;
    if moves.is_empty() {
        return Some(vec!["nothing: everything is where it should be".to_owned()]);
    }
    let line = |change: &Move| {
        let what = counted(change.count, &change.name);
        match (&change.from, &change.to) {
            (Some(from), Some(to)) => Some(format!("{from} gives {to}: {what}")),
            (Some(from), None) => Some(format!("{from} leaves at home: {what}")),
            (None, Some(to)) => Some(format!("{to} takes from home: {what}")),
            (None, None) => None,
        }
    };
    Some(moves.iter().filter_map(line).collect())
}

/// What [`leaving_rows`] are about.
pub(crate) const LEAVING: &str = "If one leaves with what is on the bike";
/// Heads of [`leaving_rows`].
pub(crate) const LEFT: [&str; 5] = ["without", "whole kit", "what is left", "kept", "the others can still mend"];

/// A row for each rider who might leave; none for one rider alone.
pub(crate) fn leaving_rows(answer: &SplitAnswer, look: &Look) -> Vec<Vec<String>> {
    let row = |line: &fardel_core::answer::split::AbsenceLine| {
        let mut open = line.open.iter().take(3).cloned().collect::<Vec<_>>().join("; ");
        if line.open.len() > 3 {
            open += &format!("; {} more", line.open.len() - 3);
        }
        let open =
            if open.is_empty() { "everything that could be mended before".to_owned() } else { format!("not: {open}") };
        vec![line.rider.clone(), look.show(line.with_all), look.show(line.left), percent(line.share), open]
    };
    if answer.absences.len() < 2 {
        return Vec::new();
    }
    answer.absences.iter().map(row).collect()
}

/// Title of what one rider alone carries.
pub(crate) const ONCE: &str = "Only copies, the most missed first";
/// Title of what several carry.
pub(crate) const TWICE: &str = "Carried by two or more";
/// Heads of [`carried_rows`].
pub(crate) const CARRIED: [&str; 4] = ["thing", "with", "mass", "hours lost without"];

/// Shared things that would be missed, with who has them.
pub(crate) fn carried_rows(all: &[Carried], look: &Look) -> Vec<Vec<String>> {
    let by = |carried: &Carried| {
        let each: Vec<String> = carried
            .by
            .iter()
            .map(|(rider, n)| if *n == 1 { rider.clone() } else { format!("{rider} ({n})") })
            .collect();
        list(&each)
    };
    let row =
        |carried: &Carried| vec![carried.name.clone(), by(carried), look.show(carried.mass), look.show(carried.missed)];
    all.iter().filter(|carried| carried.missed.get() > 1.0 / 60.0).map(row).collect()
}

/// Title of [`alone_rows`].
pub(crate) const ALONE: &str = "Against everybody packing alone";

/// Rider, mass, hours saved, money; none for one rider alone.
pub(crate) fn alone_rows(answer: &SplitAnswer, look: &Look) -> Vec<Vec<String>> {
    let kits: Vec<&AloneKit> = answer.alone.iter().filter_map(|alone| alone.kit.as_ref()).collect();
    if answer.alone.len() < 2 {
        return Vec::new();
    }
    let row = |alone: &fardel_core::answer::split::Alone| match &alone.kit {
        Some(kit) => vec![
            alone.rider.clone(),
            look.show(kit.mass),
            look.show(kit.hours_saved),
            format!("{:.0}", kit.to_buy.units()),
        ],
        None => vec![alone.rider.clone(), "no kit within the limits".to_owned(), String::new(), String::new()],
    };
    let mut rows: Vec<Vec<String>> = answer.alone.iter().map(row).collect();
    let mass: Mass = kits.iter().map(|kit| kit.mass).sum();
    let saved = Hours::new(kits.iter().map(|kit| kit.hours_saved.get()).sum());
    let to_buy: Money = kits.iter().map(|kit| kit.to_buy).sum();
    let line = |name: &str, mass: Mass, saved: Hours, to_buy: Money| {
        vec![name.to_owned(), look.show(mass), look.show(saved), format!("{:.0}", to_buy.units())]
    };
    // A sum over some of them would look like a gain of packing alone.
    if kits.len() == answer.alone.len() {
        rows.push(line("all of them", mass, saved, to_buy));
    }
    rows.push(line("together", answer.totals.mass, answer.figures.hours_saved, answer.totals.to_buy));
    rows
}
