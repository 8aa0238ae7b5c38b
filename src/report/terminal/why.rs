//! The reasons for one item or failure.

use super::{Look, heading, strong, wrapped};
use crate::amount::money;
use crate::bill::bill;
use crate::cautions::cautions;
use crate::view::why::{gained_or_lost, outcome};
use crate::words::{chance, counted, list, percent, sentence};
use fardel_core::answer::{
    About, Carried, Change, FailureReasons, Left, Other, RepairReasons, Set, Standing, WhyAnswer,
};
use fardel_core::units::{Hours, Money};

/// So many failures are listed; the JSON has all.
const SHOWN: usize = 8;

/// The whole answer of `why`.
#[must_use]
pub fn why(answer: &WhyAnswer, look: &Look) -> String {
    let mut text = super::titled(&sentence(&answer.name), look);
    text += &wrapped(&format!("{}, {} on a {}.", answer.trip.scenario, answer.trip.rider, answer.trip.bike), look, "");
    text.push('\n');
    text += &match &answer.about {
        About::Carried(carried) => self::carried(carried, look),
        About::Left(left) => self::left(answer, left, look),
        About::Dropped(reason) => wrapped(&format!("It was not weighed at all: {}.", reason.words()), look, ""),
        About::Failure(failure) => self::failure(answer, failure, look),
        About::NotOnThisBike => wrapped("It cannot happen on this bike.", look, ""),
    };
    if !answer.proven {
        text += "Not every kit compared here is proven best: the hours may be off by what was left open.\n";
    }
    text.push('\n');
    text += &heading("Take care");
    for warning in answer.warnings.iter().map(String::as_str).chain(cautions(&answer.kinds)) {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text
}

fn carried(own: &Carried, look: &Look) -> String {
    let standing = match own.standing {
        Standing::Needed => "the trip demands it",
        Standing::Asked => "it is on your always list",
        Standing::Earns => "for what it saves",
    };
    let many = if own.count == 1 { "One" } else { &own.count.to_string() };
    let mut text = wrapped(&format!("{many} in the kit ({}): {standing}.", look.show(own.mass)), look, "  ");
    if !own.purposes.is_empty() {
        text += &wrapped(&format!("For: {}.", shortened(&own.purposes)), look, "  ");
    }
    if !own.covers.is_empty() {
        text += &wrapped("What goes at each failure if it stays at home and nothing else changes:", look, "");
        for cover in own.covers.iter().take(SHOWN) {
            let with = if cover.with.is_empty() {
                "it does this alone".to_owned()
            } else {
                format!("together with {}", shortened(&cover.with))
            };
            text += &wrapped(&format!("- {}: {}; {with}", cover.failure, look.show(cover.hours)), look, "  ");
        }
        if own.covers.len() > SHOWN {
            text += &format!("  and {} smaller ones (all of them with --format json)\n", own.covers.len() - SHOWN);
        }
    }
    if own.standing == Standing::Earns {
        let saved = own.alone + own.costs.hours();
        let verdict = if own.alone.get() >= 0.0 { "worth taking" } else { "not worth taking by itself" };
        text += &wrapped(&format!("It {}: {verdict}.", bill(saved, &own.costs)), look, "  ");
    }
    text += &wrapped(&format!("{} {}.", strong("Left at home, nothing else changed:"), alone(own, look)), look, "  ");
    text += &wrapped(&again(own.without.as_ref(), "Left at home, everything packed anew:", look), look, "  ");
    text
}

fn alone(own: &Carried, look: &Look) -> String {
    let hours = gained_or_lost(own.alone, look);
    if own.unmet.is_empty() { hours } else { format!("{hours}, and the trip lacks: {}", list(&own.unmet)) }
}

fn again(other: Option<&Other>, what: &str, look: &Look) -> String {
    let what = strong(what);
    let Some(other) = other else { return format!("{what} no kit meets all needs within all limits.") };
    let mut text = format!("{what} {}", gained_or_lost(other.loss, look));
    let entering = named(&other.entering);
    let leaving = named(&other.leaving);
    text += &match (entering, leaving) {
        (None, None) => String::new(),
        (Some(entering), None) => format!(". In: {entering}"),
        (None, Some(leaving)) => format!(". Out: {leaving}"),
        (Some(entering), Some(leaving)) => format!(". In: {entering}. Out: {leaving}"),
    };
    text + &format!(". That kit: {}, chance of a ride home {}.", look.show(other.mass), percent(other.self_recovery))
}

fn left(answer: &WhyAnswer, own: &Left, look: &Look) -> String {
    let price = if own.price == Money::ZERO {
        "you own it".to_owned()
    } else {
        format!("{} to buy", money(own.price, answer.currency))
    };
    let mut text = wrapped(&format!("Not in the kit. One weighs {}; {price}.", look.show(own.mass)), look, "  ");
    let verdict = if own.on_top.get() > 0.0 { "worth taking, were there room in your limits" } else { "stays at home" };
    let head = strong("On top of the kit, limits aside, one");
    text += &wrapped(&format!("{head} {}: {verdict}.", bill(own.on_top + own.costs.hours(), &own.costs)), look, "  ");
    text +=
        &wrapped(&again(own.with.as_ref(), "Taken along, everything packed anew within the limits:", look), look, "  ");
    let stays = match &own.with {
        Some(other) if other.loss.get() > 1e-6 => "That is why it stays at home.",
        Some(_) => "It makes no difference: the kit without it is the lighter or cheaper of two as good.",
        None => "That is why it stays at home.",
    };
    text + &wrapped(stays, look, "")
}

fn failure(answer: &WhyAnswer, own: &FailureReasons, look: &Look) -> String {
    let outcome = outcome(own.outcome);
    let line = format!(
        "It {outcome}; {}. Expected loss with nothing aboard {}, with this kit {}.",
        chance(own.mean),
        look.show(own.hours_empty),
        look.show(own.hours_left)
    );
    let mut text = wrapped(&line, look, "  ");
    for repair in &own.repairs {
        text += &wrapped(&format!("- {}", self::repair(answer, repair, look)), look, "  ");
    }
    if own.repairs.is_empty() {
        text += "No repair on the road is worth beginning for this rider.\n";
    }
    if let Some(skill) = own.skill_wanted {
        text += &wrapped(&format!("Somebody {skill} at repairs could do more."), look, "  ");
    }
    text
}

fn repair(answer: &WhyAnswer, own: &RepairReasons, look: &Look) -> String {
    let worth = format!("{} (worth {} if it can always be done)", own.name, look.show(own.hours));
    if own.share > 0.0 {
        let uses = if own.uses.is_empty() { String::new() } else { format!(", with {}", list(&own.uses)) };
        return format!("{worth}: the kit does it{uses}; {} of the cases", percent(own.share));
    }
    match (&own.lightest, &own.cheapest) {
        (None, None) => format!("{worth}: possible with the kit, but not the first choice"),
        (Some(lightest), Some(cheapest)) if lightest.items == cheapest.items => {
            format!("{worth}: it would take {}", set(answer, lightest, look))
        }
        (lightest, cheapest) => {
            let sets = [("lightest", lightest), ("cheapest", cheapest)];
            let sets: Vec<String> = sets
                .iter()
                .filter_map(|(word, own)| Some(format!("{word} {}", set(answer, own.as_ref()?, look))))
                .collect();
            format!("{worth}: it would take, {}", sets.join("; "))
        }
    }
}

fn set(answer: &WhyAnswer, own: &Set, look: &Look) -> String {
    let names: Vec<String> = own.items.iter().map(|(name, count)| counted(*count, name)).collect();
    let price = if own.price == Money::ZERO { "nothing to buy".to_owned() } else { money(own.price, answer.currency) };
    format!("{} ({}, {price})", list(&names), look.show(own.mass))
}

fn named(changes: &[Change]) -> Option<String> {
    let names: Vec<String> = changes.iter().map(|change| counted(change.count, &change.name)).collect();
    (!names.is_empty()).then(|| names.join("; "))
}

/// The first few.
fn shortened(names: &[String]) -> String {
    match names.len().saturating_sub(SHOWN) {
        0 => names.join("; "),
        more => format!("{}; {more} more", names[..SHOWN].join("; ")),
    }
}
