//! No kit will do: what stands against what, by how much, and what would help.

use super::{Look, wrapped};
use crate::words::{counted, list, percent};
use fardel_core::answer::{TripChange as Change, TripRemedy};
use fardel_core::domain::{Catalogue, tyre_load};
use fardel_core::select::relax::Shortfall;
use fardel_core::units::{Hours, Mass, Quantity, Show, Volume};

/// The message of exit code 1.
#[must_use]
pub fn infeasible(catalogue: &Catalogue, shortfalls: &[Shortfall], ways: &[TripRemedy], look: &Look) -> String {
    let mut text = "No kit meets all needs within all limits.\n".to_owned();
    text += &stands_against(catalogue, shortfalls, look);
    if ways.is_empty() {
        text += "No single change and no pair of changes that was tried makes this trip possible.\n";
        return text;
    }
    text += if ways.len() == 1 {
        "A way out, tried by packing the changed trip:\n"
    } else {
        "Ways out, any one of them, each tried by packing the changed trip:\n"
    };
    for (number, way) in ways.iter().enumerate() {
        let changes: Vec<String> = way.changes.iter().map(|change| told(catalogue, change, look)).collect();
        text += &wrapped(&format!("{}. {}.", number + 1, changes.join(", and ")), look, "   ");
    }
    text
}

/// Why a packed kit does not come down as far as is wished. The trip and its limits have no part in it.
#[must_use]
pub fn stuck(catalogue: &Catalogue, shortfalls: &[Shortfall], look: &Look) -> String {
    let text = "The kit does not come down that far: something that the trip demands, that you keep, or that is on your always \
                list would have to go.\n";
    wrapped(text, look, "") + &stands_against(catalogue, shortfalls, look)
}

fn stands_against(catalogue: &Catalogue, shortfalls: &[Shortfall], look: &Look) -> String {
    if shortfalls.is_empty() {
        return "Masses and volumes would do, but the things cannot be stowed in these bags together.\n".to_owned();
    }
    let line = |shortfall| wrapped(&format!("- {}", short(catalogue, shortfall, look)), look, "  ");
    "The least that would have to give:\n".to_owned() + &shortfalls.iter().map(line).collect::<String>()
}

/// A shortfall in the rider's words.
pub(crate) fn short(catalogue: &Catalogue, shortfall: &Shortfall, look: &Look) -> String {
    let (by, limit) = (shortfall.by, shortfall.limit);
    let bag = || catalogue.bags.get(&shortfall.key).map_or(shortfall.key.as_str(), |bag| bag.name.as_str());
    match shortfall.family {
        "need" => {
            let name = catalogue.needs.get(&shortfall.key).map_or(shortfall.key.as_str(), |need| need.name.as_str());
            if by > 0.995 {
                format!("{name}: nothing that could come along meets it")
            } else {
                format!("{name}: {} of it cannot be had", percent(by))
            }
        }
        "stranded" => format!(
            "the chance of a stranding: at best 1 trip in {:.0}, and you allow 1 in {:.0}",
            1.0 / (limit + by),
            1.0 / limit
        ),
        "budget" => {
            format!("the budget: {by:.0} {0} more than {limit:.0} {0}", catalogue.currency)
        }
        "volume" => {
            format!("the kit's volume: {} more than {}", millilitres(by, look), millilitres(limit, look))
        }
        "mass" => format!("the kit's mass: {} more than {}", grams(by, look), grams(limit, look)),
        "always" => {
            let name = catalogue.items.get(&shortfall.key).map_or(shortfall.key.as_str(), |item| item.name.as_str());
            format!("the always list: {name} stays at home")
        }
        "room" => {
            format!("room: {} more than the {} of {}", millilitres(by, look), millilitres(limit, look), bag())
        }
        "bears" => format!("load: {} more than the {} that {} bears", grams(by, look), grams(limit, look), bag()),
        _ => format!("{}: {} more than is allowed", scale(&shortfall.key), grams(by * 1000.0, look)),
    }
}

fn scale(key: &str) -> String {
    match key.rsplit_once(", ") {
        Some((_, "front")) => "load on the front wheel".to_owned(),
        Some((_, "rear")) => "load on the rear wheel".to_owned(),
        _ => "the bike's maximum mass".to_owned(),
    }
}

/// A change in the rider's words.
pub(crate) fn told(catalogue: &Catalogue, change: &Change, look: &Look) -> String {
    match change {
        Change::Leave(things, mass) => {
            let named: Vec<String> = things.iter().map(|(_, name, count)| counted(*count, name)).collect();
            format!("leave at home, of your always list: {} ({})", list(&named), look.show(*mass))
        }
        Change::Borrow(things, price) => {
            let named: Vec<String> = things.iter().map(|(_, name, count)| counted(*count, name)).collect();
            format!("borrow instead of buying: {} ({:.0} {})", list(&named), price.units(), catalogue.currency)
        }
        Change::Water { from, to } => {
            format!("refill water every {} at the latest instead of every {}", interval(*to), interval(*from))
        }
        Change::Food { from, to } => {
            format!("buy food every {} at the latest instead of every {}", interval(*to), interval(*from))
        }
        Change::Pumps { from, to } => {
            format!("find a pump every {} at the latest instead of every {}", look.show(*to), look.show(*from))
        }
        Change::Share { name, .. } => format!("let a companion carry this for both of you: {name}"),
        Change::KitMass { from, to } => {
            format!(
                "allow {} more: a kit of {} instead of {}",
                look.show(*to - *from),
                look.show(*to),
                look.show(*from)
            )
        }
        Change::Budget { from, to } => format!(
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
                format!("hang on {} as well", names(on))
            } else {
                format!("hang on {} instead of {}", names(on), names(off))
            }
        }
        Change::Nights { from, to } => {
            format!("choose nights no colder than {} (the trip has {})", look.show(*to), look.show(*from))
        }
        Change::Tyre { front, from, to } => {
            let bears = |index: u32| look.show(tyre_load(index).unwrap_or(Mass::ZERO));
            let wheel = if *front { "front" } else { "rear" };
            format!(
                "fit a {wheel} tyre of load index {to} ({}) instead of {from} ({}), if the bike's maker allows one",
                bears(*to),
                bears(*from)
            )
        }
        Change::Alone => "ride without the passenger".to_owned(),
    }
}

/// `12 h`, `1 day`, `1.5 days`.
fn interval(hours: Hours) -> String {
    match hours.days() {
        days if days < 0.999 => format!("{:.0} h", hours.get()),
        days if days < 1.001 => "day".to_owned(),
        days if days.fract() < 0.001 => format!("{days:.0} days"),
        days => format!("{days:.1} days"),
    }
}

fn millilitres(millilitres: f64, look: &Look) -> String {
    look.show(Volume::from_base(millilitres * 1e3))
}

fn grams(grams: f64, look: &Look) -> String {
    Mass::from_base(grams * 1e3).show(look.units)
}
