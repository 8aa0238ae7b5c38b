//! Which limits a given kit breaks, and by how much: arithmetic, without a search.

use super::relax::Shortfall;
use super::rows::{PlainRow, chance, confined, load};
use crate::domain::Bag;
use crate::resolve::{Amount, Instance, InstanceItem, Measure};
use crate::risk::value::available;
use crate::risk::{RiskModel, value};
use crate::units::{Mass, Volume};

/// Amounts are sums of decimal texts and may miss by a rounding.
const ROUNDING: f64 = 1e-9;

/// Everything that a kit breaks, in words of [`Shortfall`], and `require` for what is useless without something; empty: it
/// keeps all limits that can be told without putting it into the bags.
#[must_use]
pub fn broken(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> Vec<Shortfall> {
    let mut all = own_limits(instance, counts);
    all.extend(required(instance, counts));
    all.extend(needs(instance, counts));
    all.extend(rooms(instance, counts));
    all.extend(loads(instance, counts));
    all.extend(strandings(instance, risk_model, counts));
    all
}

/// What of it a rider's own limit, the bags and the bike bear: all that a rider's part of a group's kit can break.
#[must_use]
pub fn overloaded(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    own_limits(instance, counts).into_iter().chain(rooms(instance, counts)).chain(loads(instance, counts)).collect()
}

fn own_limits(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let mut all = over(instance, |measure| measure.used(instance, counts));
    all.extend(personal(instance, counts));
    all
}

/// The limits of the whole kit that what is `used` of them goes beyond.
pub fn over(instance: &Instance, used: impl Fn(Measure) -> Amount) -> Vec<Shortfall> {
    let over = |(family, measure): (&'static str, Measure)| {
        let (limit, used) = (measure.limit(instance)?, used(measure));
        let by = measure.in_row(used) - measure.in_row(limit);
        (used > limit).then(|| short(family, measure.key(), by, measure.in_row(limit)))
    };
    let of_all = [("mass", Measure::Mass), ("volume", Measure::Volume), ("budget", Measure::Money)];
    of_all.into_iter().filter_map(over).collect()
}

/// What stays with its owner is within the owner's limit.
fn personal(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let own = |rider: usize| -> Mass {
        let held = instance.items.iter().zip(counts).filter(|(item, _)| item.owner == Some(rider));
        held.map(|(item, n)| item.mass * *n).sum()
    };
    let limits = instance.own_kit_mass.iter().enumerate().filter_map(|(rider, cap)| Some((rider, (*cap)?)));
    let over = limits.map(|(rider, cap)| (rider, cap, own(rider))).filter(|(_, cap, own)| own > cap);
    over.map(|(rider, cap, own)| Shortfall {
        family: "mass",
        key: format!("kit mass of rider {}, g", rider + 1),
        by: own.grams() - cap.grams(),
        limit: cap.grams(),
    })
    .collect()
}

/// Things without what they are useless without, and things of the always list that are not there.
fn required(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let there = available(instance, counts);
    let lacks = |item: &InstanceItem| item.requires.iter().any(|(function, n)| there[*function] < (*n).max(1));
    let useless = instance.items.iter().zip(counts).filter(|(item, n)| **n > 0 && lacks(item));
    let useless = useless.map(|(item, n)| short("require", &item.id, f64::from(*n), 0.0));
    let missed = instance.items.iter().zip(counts).filter(|(item, n)| **n < item.at_least);
    let missed =
        missed.map(|(item, n)| short("always", &item.id, f64::from(item.at_least - n), f64::from(item.at_least)));
    useless.chain(missed).collect()
}

fn short(family: &'static str, key: &str, by: f64, limit: f64) -> Shortfall {
    Shortfall { family, key: key.to_owned(), by, limit }
}

fn needs(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let each = instance.demands.iter().enumerate().map(|(at, demand)| (demand, instance.met(at, counts)));
    let open = each.filter(|(demand, met)| *met < demand.amount * (1.0 - ROUNDING));
    open.map(|(demand, met)| short("need", &demand.id, (demand.amount - met) / demand.amount, 1.0)).collect()
}

fn rooms(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let mut all = Vec::new();
    for set in confined::sets(instance) {
        let inside = |item: &InstanceItem| item.fits.iter().zip(&set).all(|(fits, in_set)| !fits || *in_set);
        let own = || instance.items.iter().zip(counts).filter(|(item, _)| inside(item));
        let bags = || instance.bags.iter().zip(&set).filter(|(_, in_set)| **in_set).map(|(bag, _)| bag);
        let key = bags().map(|bag| bag.id.as_str()).collect::<Vec<_>>().join(" + ");
        let (volume, room) =
            (own().map(|(item, n)| item.volume * *n).sum::<Volume>(), bags().map(Bag::usable).sum::<Volume>());
        if volume > room {
            all.push(short("room", &key, volume.millilitres() - room.millilitres(), room.millilitres()));
        }
        let (mass, bears) =
            (own().map(|(item, n)| item.mass * *n).sum::<Mass>(), bags().map(|bag| bag.max_load).sum::<Mass>());
        if mass > bears {
            all.push(short("bears", &key, mass.grams() - bears.grams(), bears.grams()));
        }
    }
    all
}

fn loads(instance: &Instance, counts: &[u32]) -> Vec<Shortfall> {
    let carried = |row: &PlainRow| -> f64 { row.each.iter().zip(counts).map(|(each, n)| each * f64::from(*n)).sum() };
    let rows = load::rows(instance).into_iter().map(|row| (carried(&row), row));
    let mut over: Vec<Shortfall> = rows
        .filter(|(carried, row)| *carried > row.most + ROUNDING)
        .map(|(carried, row)| {
            short("load", row.key.split(" kg at ").next().unwrap_or(&row.key), carried - row.most, row.most)
        })
        .collect();
    over.sort_by(|a, b| a.key.cmp(&b.key).then(b.by.total_cmp(&a.by)));
    over.dedup_by(|a, b| a.key == b.key);
    over
}

fn strandings(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> Option<Shortfall> {
    let most = instance.stranded?;
    let own = risk_model.at(instance, counts);
    let chance = -libm::expm1(-chance::expected(instance, &own, &value(instance, risk_model, counts).shares));
    (chance > most + ROUNDING).then(|| short("stranded", "stranded_at_most", chance - most, most))
}
