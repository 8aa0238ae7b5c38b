//! No kit will do: what stands against what, by how much, and what would help.

use super::{Look, wrapped};
use crate::words::{counted, list, percent};
use fardel_core::answer::{TripChange as Change, TripRemedy};
use fardel_core::domain::{Catalogue, tyre_load};
use fardel_core::select::relax::Shortfall;
use fardel_core::units::{Hours, Mass, Quantity, Show, Volume};
use fardel_words::{say, word};

/// The message of exit code 1.
#[must_use]
pub fn infeasible(catalogue: &Catalogue, shortfalls: &[Shortfall], ways: &[TripRemedy], look: &Look) -> String {
    let mut text = say!("No kit meets all needs within all limits.\n");
    text += &stands_against(catalogue, shortfalls, look);
    if ways.is_empty() {
        text += word!("No single change and no pair of changes that was tried makes this trip possible.\n");
        return text;
    }
    text += if ways.len() == 1 {
        word!("A way out, tried by packing the changed trip:\n")
    } else {
        word!("Ways out, any one of them, each tried by packing the changed trip:\n")
    };
    for (number, way) in ways.iter().enumerate() {
        let changes: Vec<String> = way.changes.iter().map(|change| told(catalogue, change, look)).collect();
        text += &wrapped(&format!("{}. {}.", number + 1, changes.join(word!(", and "))), look, "   ");
    }
    text
}

/// Why a packed kit does not come down as far as is wished. The trip and its limits have no part in it.
#[must_use]
pub fn stuck(catalogue: &Catalogue, shortfalls: &[Shortfall], look: &Look) -> String {
    let text = word!(
        "The kit does not come down that far: something that the trip demands, that you keep, or that is on your always \
                list would have to go.\n"
    );
    wrapped(text, look, "") + &stands_against(catalogue, shortfalls, look)
}

fn stands_against(catalogue: &Catalogue, shortfalls: &[Shortfall], look: &Look) -> String {
    if shortfalls.is_empty() {
        return say!("Masses and volumes would do, but the things cannot be stowed in these bags together.\n");
    }
    let line = |shortfall| wrapped(&format!("- {}", short(catalogue, shortfall, look)), look, "  ");
    word!("The least that would have to give:\n").to_owned() + &shortfalls.iter().map(line).collect::<String>()
}

/// A shortfall in the rider's words.
pub(crate) fn short(catalogue: &Catalogue, shortfall: &Shortfall, look: &Look) -> String {
    let (by, limit) = (shortfall.by, shortfall.limit);
    let bag = || catalogue.bags.get(&shortfall.key).map_or(shortfall.key.as_str(), |bag| bag.name.as_str());
    match shortfall.family {
        "need" => {
            let name = catalogue.needs.get(&shortfall.key).map_or(shortfall.key.as_str(), |need| need.name.as_str());
            if by > 0.995 {
                say!("{name}: nothing that could come along meets it")
            } else {
                say!("{name}: {} of it cannot be had", percent(by))
            }
        }
        "stranded" => say!(
            "the chance of a stranding: at best 1 trip in {:.0}, and you allow 1 in {:.0}",
            1.0 / (limit + by),
            1.0 / limit
        ),
        "budget" => {
            say!("the budget: {by:.0} {0} more than {limit:.0} {0}", catalogue.currency)
        }
        "volume" => {
            say!("the kit's volume: {} more than {}", millilitres(by, look), millilitres(limit, look))
        }
        "mass" => say!("the kit's mass: {} more than {}", grams(by, look), grams(limit, look)),
        "always" => {
            let name = catalogue.items.get(&shortfall.key).map_or(shortfall.key.as_str(), |item| item.name.as_str());
            say!("the always list: {name} stays at home")
        }
        "room" => {
            say!("room: {} more than the {} of {}", millilitres(by, look), millilitres(limit, look), bag())
        }
        "bears" => say!("load: {} more than the {} that {} bears", grams(by, look), grams(limit, look), bag()),
        _ => say!("{}: {} more than is allowed", scale(&shortfall.key), grams(by * 1000.0, look)),
    }
}

fn scale(key: &str) -> String {
    match key.rsplit_once(", ") {
        Some((_, "front")) => say!("load on the front wheel"),
        Some((_, "rear")) => say!("load on the rear wheel"),
        _ => say!("the bike's maximum mass"),
    }
}

/// A change in the rider's words.
pub(crate) fn told(catalogue: &Catalogue, change: &Change, look: &Look) -> String {
    match change {
        Change::Leave(things, mass) => {
            let named: Vec<String> = things.iter().map(|(_, name, count)| counted(*count, name)).collect();
            say!("leave at home, of your always list: {} ({})", list(&named), look.show(*mass))
        }
        Change::Borrow(things, price) => {
            let named: Vec<String> = things.iter().map(|(_, name, count)| counted(*count, name)).collect();
            say!("borrow instead of buying: {} ({:.0} {})", list(&named), price.units(), catalogue.currency)
        }
        Change::Water { from, to } => {
            say!("refill water every {} at the latest instead of every {}", interval(*to), interval(*from))
        }
        Change::Food { from, to } => {
            say!("buy food every {} at the latest instead of every {}", interval(*to), interval(*from))
        }
        Change::Pumps { from, to } => {
            say!("find a pump every {} at the latest instead of every {}", look.show(*to), look.show(*from))
        }
        Change::Share { name, .. } => say!("let a companion carry this for both of you: {name}"),
        Change::KitMass { from, to } => {
            say!("allow {} more: a kit of {} instead of {}", look.show(*to - *from), look.show(*to), look.show(*from))
        }
        Change::Budget { from, to } => say!(
            "spend {:.0} {currency} more: {:.0} instead of {:.0} {currency}",
            (*to - *from).units(),
            to.units(),
            from.units(),
            currency = catalogue.currency
        ),
        Change::Bags { off, on } => {
            let names =
                |bags: &[(String, String)]| list(&bags.iter().map(|(_, name)| name.clone()).collect::<Vec<_>>());
            if off.is_empty() {
                say!("hang on {} as well", names(on))
            } else {
                say!("hang on {} instead of {}", names(on), names(off))
            }
        }
        Change::Nights { from, to } => {
            say!("choose nights no colder than {} (the trip has {})", look.show(*to), look.show(*from))
        }
        Change::Tyre { front, from, to } => {
            let bears = |index: u32| look.show(tyre_load(index).unwrap_or(Mass::ZERO));
            let wheel = if *front { word!("front") } else { word!("rear") };
            say!(
                "fit a {wheel} tyre of load index {to} ({}) instead of {from} ({}), if the bike's maker allows one",
                bears(*to),
                bears(*from)
            )
        }
        Change::Alone => say!("ride without the passenger"),
    }
}

/// `12 h`, `1 day`, `1.5 days`.
fn interval(hours: Hours) -> String {
    match hours.days() {
        days if days < 0.999 => say!("{:.0} h", hours.get()),
        days if days < 1.001 => say!("day"),
        days if days.fract() < 0.001 => say!("{days:.0} days"),
        days => say!("{days:.1} days"),
    }
}

fn millilitres(millilitres: f64, look: &Look) -> String {
    look.show(Volume::from_base(millilitres * 1e3))
}

fn grams(grams: f64, look: &Look) -> String {
    Mass::from_base(grams * 1e3).show(look.units)
}
