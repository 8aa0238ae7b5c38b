//! The answer of `split`: the group first, then a card for each rider, then what is left when somebody leaves.

use super::table::{Set, table};
use super::{Look, heading, kit, load, needs, notes, open, strong, wrapped};
use crate::answer::split::{AloneKit, Card, Carried, Floor, GroupProof, SplitAnswer};
use crate::report::words::{at_least, counted, list, percent, plural};
use crate::units::{Hours, Mass, Money};

/// So many single copies and doubles are named; the JSON has all.
const SHOWN: usize = 12;

/// The whole answer. Styled; the stream it is printed to strips styles where they do not belong.
#[must_use]
pub fn split(answer: &SplitAnswer, look: &Look) -> String {
    let mut parts = vec![headline(answer, look), shares(answer, look)];
    parts.extend(answer.cards.iter().map(|card| self::card(answer, card, look)));
    parts.push(moved(answer));
    parts.push(leaving(answer, look));
    parts.push(carriers(answer, look));
    parts.push(open::risks(&answer.risks, look));
    parts.push(needs::table_of(&answer.needs, look));
    parts.push(alone(answer, look));
    parts.push(notes::buying(&answer.purchases, answer.totals.currency));
    parts.push(notes::closing(&answer.warnings, &answer.kinds, look));
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
}

/// One rider's card by itself, to print and take along.
#[must_use]
pub fn rider_card(answer: &SplitAnswer, card: &Card, look: &Look) -> String {
    let mut text = heading(&answer.scenario);
    text.push('\n');
    text += &self::card(answer, card, look);
    text.push('\n');
    text + &notes::closing(&[], &answer.kinds, look)
}

fn headline(answer: &SplitAnswer, look: &Look) -> String {
    let (trip, totals, figures) = (&answer.trip, &answer.totals, &answer.figures);
    let mut text = heading(&answer.scenario);
    let apart = if trip.splits { "; on some legs the group rides apart" } else { "" };
    let who = format!(
        "{} with one kit: {}, {}, help up to {} away{apart}.",
        plural(riders(answer.cards.len()), "rider", "riders"),
        plural(trip.days, "day", "days"),
        look.show(trip.distance),
        look.show(trip.furthest),
    );
    text += &wrapped(&who, look, "");
    text.push('\n');
    let money = if totals.to_buy == Money::ZERO {
        "nothing to buy".to_owned()
    } else {
        let of = totals.budget.map_or_else(String::new, |budget| format!(" of {:.0}", budget.units()));
        format!("{:.0}{of} {} to buy between you", totals.to_buy.units(), totals.currency)
    };
    let carry = format!("{} {} things, {} in all, {money}.", strong("Carry"), totals.units, look.show(totals.mass));
    text += &wrapped(&carry, look, "  ");
    let worth = format!(
        "{} With nothing aboard the group would lose {} to breakdowns (rider-hours; {:.1} things break). This kit saves {} of that ({}); its weight costs {} in falls.",
        strong("Worth"),
        look.show(figures.hours_empty),
        figures.failures,
        look.show(figures.hours_saved),
        percent(figures.coverage),
        look.show(figures.handling),
    );
    text += &wrapped(&worth, look, "  ");
    if let Some(chance) = figures.self_recovery {
        let home =
            format!("{} Chance that no breakdown leaves anybody stranded: {}.", strong("Home"), at_least(chance));
        text += &wrapped(&home, look, "  ");
    }
    text += &wrapped(&proof(&answer.proof, look), look, "  ");
    if let Some(floor) = &answer.floor {
        text += &wrapped(&kept(floor, look), look, "  ");
    }
    text
}

fn riders(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

fn proof(proof: &GroupProof, look: &Look) -> String {
    let fair = if proof.fairest { "no handing out is fairer" } else { "a slightly fairer handing out may exist" };
    if proof.proven {
        return format!(
            "{} No other kit within your limits saves more, by these rates ({}); {fair}.",
            strong("Proven"),
            proof.engine
        );
    }
    let more = look.show(Hours::new((proof.bound - proof.objective).max(0.0)));
    format!(
        "{} Another kit might save up to {more} more ({} of this one's; {}); {fair}.",
        strong("Not proven"),
        percent(proof.gap),
        proof.engine
    )
}

fn kept(floor: &Floor, look: &Look) -> String {
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
    format!(
        "{} Whoever leaves, the others keep at least {} of what the whole kit would save them; {what}.",
        strong("Floor"),
        percent(floor.share)
    )
}

/// Who carries how much.
fn shares(answer: &SplitAnswer, look: &Look) -> String {
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
    let head = ["rider", "bike", "role", "carries", "own things", "of a fair share", "limit", "on the front wheel"];
    let right = Set::Right(None);
    let set = [Set::Left(None), Set::Left(Some(30)), Set::Left(None), right, right, right, right, right];
    heading("Who carries how much") + &table(&head, &set, answer.cards.iter().map(row).collect(), look)
}

fn card(answer: &SplitAnswer, card: &Card, look: &Look) -> String {
    let roles: Vec<String> = card.roles.iter().map(|role| role.word().to_owned()).collect();
    let role = if roles.is_empty() { String::new() } else { format!(", {}", list(&roles)) };
    let mut text = heading(&format!("{} on the {}{role}: {}", card.rider, card.bike, look.show(card.mass)));
    let width = answer.cards.iter().flat_map(|card| &card.bags).flat_map(|bag| &bag.items);
    let width = width.map(|item| item.name.chars().count()).max().unwrap_or(10);
    for bag in &card.bags {
        text += &kit::bag(bag, width, look);
    }
    text.push('\n');
    text + &load::one(&card.load, look)
}

fn moved(answer: &SplitAnswer) -> String {
    let Some(moves) = &answer.moves else { return String::new() };
    let mut text = heading("What changes hands");
    if moves.is_empty() {
        text += "  nothing: everything is where it should be\n";
    }
    for change in moves {
        let what = counted(change.count, &change.name);
        text += &match (&change.from, &change.to) {
            (Some(from), Some(to)) => format!("  {from} gives {to}: {what}\n"),
            (Some(from), None) => format!("  {from} leaves at home: {what}\n"),
            (None, Some(to)) => format!("  {to} takes from home: {what}\n"),
            (None, None) => String::new(),
        };
    }
    text
}

/// What is left when somebody leaves.
fn leaving(answer: &SplitAnswer, look: &Look) -> String {
    let row = |line: &crate::answer::split::AbsenceLine| {
        let mut open = line.open.iter().take(3).cloned().collect::<Vec<_>>().join("; ");
        if line.open.len() > 3 {
            open += &format!("; {} more", line.open.len() - 3);
        }
        let open =
            if open.is_empty() { "everything that could be mended before".to_owned() } else { format!("not: {open}") };
        vec![line.rider.clone(), look.show(line.with_all), look.show(line.left), percent(line.share), open]
    };
    if answer.absences.len() < 2 {
        return String::new();
    }
    let head = ["without", "whole kit", "what is left", "kept", "the others can still mend"];
    let right = Set::Right(None);
    let set = [Set::Left(None), right, right, right, Set::Left(None)];
    heading("If one leaves with what is on the bike: hours saved for the others")
        + &table(&head, &set, answer.absences.iter().map(row).collect(), look)
}

/// What is there twice, and the single copies that would be missed most.
fn carriers(answer: &SplitAnswer, look: &Look) -> String {
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
    let set = [Set::Left(Some(44)), Set::Left(None), Set::Right(None), Set::Right(None)];
    let mut text = String::new();
    for (title, all) in
        [("Only copies, the most missed first", &answer.once), ("Carried by two or more", &answer.twice)]
    {
        let told: Vec<&Carried> = all.iter().filter(|carried| carried.missed.get() > 1.0 / 60.0).collect();
        if told.is_empty() {
            continue;
        }
        text += &heading(title);
        let head = ["thing", "with", "mass", "hours lost without"];
        text += &table(&head, &set, told.iter().take(SHOWN).map(|carried| row(carried)).collect(), look);
        if told.len() > SHOWN {
            text += &format!("  and {} less missed (all of them with --format json)\n", told.len() - SHOWN);
        }
    }
    text
}

/// What sharing saves against everybody packing alone.
fn alone(answer: &SplitAnswer, look: &Look) -> String {
    let kits: Vec<&AloneKit> = answer.alone.iter().filter_map(|alone| alone.kit.as_ref()).collect();
    if answer.alone.len() < 2 {
        return String::new();
    }
    let row = |alone: &crate::answer::split::Alone| match &alone.kit {
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
    let buying = format!("to buy, {}", answer.totals.currency);
    let set = [Set::Left(None), Set::Right(None), Set::Right(None), Set::Right(None)];
    heading("Against everybody packing alone") + &table(&["", "kit", "saves", &buying], &set, rows, look)
}
