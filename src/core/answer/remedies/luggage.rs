//! Other bags, warmer nights, a stouter tyre, no passenger.

use super::change::bears;
use super::{Change, Trial};
use crate::domain::{Bag, Kind, NeedRule};
use crate::resolve::{CLOTHING_CREDIT, Scale, Setter};
use crate::select::relax::Shortfall;
use crate::units::{Temperature, Volume};

/// Bags nearer than this along the bike hang in the same place, in metres.
const SAME_PLACE: f64 = 0.2;
/// A holder that refuses more kinds than this is no help with room.
const MOST_REFUSED: usize = 8;
/// Bags and pairs of them that are tried, the least additional room first.
const MOST_TRIED: usize = 12;

/// All that make the trip possible, each alone.
pub(super) fn all(trial: &Trial, shortfalls: &[Shortfall]) -> Vec<Change> {
    let short = |families: &[&str]| shortfalls.iter().any(|shortfall| families.contains(&shortfall.family));
    let mut found = Vec::new();
    found.extend(bags(trial).into_iter().take(MOST_TRIED).find_map(|change| trial.tried(change)));
    if short(&["need"]) {
        found.extend(nights(trial));
    }
    if short(&["load"]) {
        found.extend(tyre(trial, shortfalls));
        if trial.rider.passenger.is_some() {
            found.extend(trial.tried(Change::Alone));
        }
    }
    found
}

fn named(bag: &Bag) -> (String, String) {
    (bag.id.clone(), bag.name.clone())
}

fn same_place(a: &Bag, b: &Bag) -> bool {
    let near = |a: crate::units::Length, b: crate::units::Length| (a.metres() - b.metres()).abs() < SAME_PLACE;
    a.side == b.side && near(a.ahead, b.ahead) && near(a.height, b.height)
}

/// Larger bags for those on the bike (both of a pair of side bags), and further ones where nothing hangs yet.
fn bags(trial: &Trial) -> Vec<Change> {
    let Some((instance, _)) = trial.instance() else { return Vec::new() };
    let mine: Vec<&Bag> = instance.bags.iter().collect();
    let mut found: Vec<(Volume, Change)> = Vec::new();
    let useful = |bag: &&Bag| bag.refuses.len() <= MOST_REFUSED && bag.refuses.iter().all(|kind| *kind != Kind::Tool);
    let others = trial.catalogue.bags.values().filter(|bag| mine.iter().all(|own| own.id != bag.id)).filter(useful);
    let others: Vec<&Bag> = others.collect();
    for bag in &others {
        let here: Vec<&&Bag> = mine.iter().filter(|own| same_place(own, bag)).collect();
        let room: Volume = here.iter().map(|own| own.usable()).sum();
        let own = here.iter().all(|own| trial.rider.bags.contains(&own.id));
        if bag.usable() > room && own {
            let off: Vec<(String, String)> = here.iter().map(|own| named(own)).collect();
            let partner = partner(bag, &others);
            let both: Vec<&Bag> = std::iter::once(*bag).chain(partner).collect();
            if partner.is_some() && bag.side != crate::domain::Side::Left {
                continue;
            }
            let on = both.iter().map(|bag| named(bag)).collect();
            let across = mine.iter().filter(|own| partner.is_some_and(|partner| same_place(own, partner)));
            let across: Vec<&&Bag> = across.collect();
            let gone: Volume = across.iter().map(|own| own.usable()).sum();
            let off = off.into_iter().chain(across.iter().map(|own| named(own))).collect();
            let all: Volume = both.iter().map(|bag| bag.usable()).sum();
            found.push((all - room - gone, Change::Bags { off, on }));
        }
    }
    found.sort_by_key(|(more, _)| *more);
    found.into_iter().map(|(_, change)| change).collect()
}

/// The bag that hangs opposite a side bag: the same key with the other side in it.
fn partner<'a>(bag: &Bag, others: &[&'a Bag]) -> Option<&'a Bag> {
    let opposite =
        if bag.id.contains("left") { bag.id.replace("left", "right") } else { bag.id.replace("right", "left") };
    others.iter().find(|other| other.id == opposite && other.id != bag.id).copied()
}

/// Nights no colder than some bag is good for, the coldest that will do.
fn nights(trial: &Trial) -> Option<Change> {
    let (instance, _) = trial.instance()?;
    let demand = instance.demands.iter().find(|demand| demand.rule == NeedRule::SleepWarmth)?;
    let lowest = trial.scenario.trip.legs.iter().map(|leg| leg.lowest.celsius()).fold(f64::INFINITY, f64::min);
    let credit = demand.down_to.map_or(0.0, |good_to| (good_to.celsius() - lowest).clamp(0.0, CLOTHING_CREDIT));
    let rated = trial.catalogue.items.values().filter_map(|item| item.meets.get(&demand.id)?.down_to);
    let mut rated: Vec<f64> = rated.map(|good_to| good_to.celsius() - credit).filter(|t| *t > lowest).collect();
    rated.sort_by(f64::total_cmp);
    rated.dedup();
    let from = Temperature::new(lowest);
    rated.into_iter().find_map(|to| trial.tried(Change::Nights { from, to: Temperature::new(to) }))
}

/// The least load index that will do on the wheel that is short.
fn tyre(trial: &Trial, shortfalls: &[Shortfall]) -> Option<Change> {
    let (instance, _) = trial.instance()?;
    let bike = trial.catalogue.bikes.get(&trial.rider.bike)?;
    let mount = instance.mounts.first()?;
    [Scale::Rear, Scale::Front].into_iter().find_map(|scale| {
        let limit = mount.limit(scale).filter(|limit| limit.setter == Setter::Tyre)?;
        let short = shortfalls.iter().find(|s| s.family == "load" && s.key.ends_with(scale.word()))?;
        let front = scale == Scale::Front;
        let from = if front { bike.front_load_index } else { bike.rear_load_index };
        let enough = |to: &u32| bears(*to).kilograms() + 1e-6 >= limit.mass.kilograms() + short.by;
        (from + 1..=crate::domain::LARGEST_LOAD_INDEX)
            .filter(enough)
            .take(3)
            .find_map(|to| trial.tried(Change::Tyre { front, from, to }))
    })
}
