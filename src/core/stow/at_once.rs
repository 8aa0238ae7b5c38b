//! A place for every unit at once, without a search: the units that few bags take first, then the large ones, each into the
//! bag that likes it best and still has room. What this finds is sound; that it finds nothing proves nothing.

use super::Placement;
use super::columns::{dislike, lean_dislike};
use crate::domain::Kind;
use crate::resolve::{Instance, Scale, mount};
use crate::units::{Mass, Volume};
use std::cmp::Reverse;

/// Rounding in sums of kilograms.
const ROUNDING: f64 = 1e-9;

/// Where each unit goes; `None`: none of the orders tried finds a place for all of them.
#[must_use]
pub fn at_once(instance: &Instance, counts: &[u32]) -> Option<Placement> {
    let mut units: Vec<usize> = Vec::new();
    for (item, count) in counts.iter().enumerate() {
        units.extend(std::iter::repeat_n(item, *count as usize));
    }
    let bags = |item: usize| instance.items[item].fits.iter().filter(|fits| **fits).count();
    let by = |order: usize| {
        let mut units = units.clone();
        let (volume, mass) = (|item: usize| instance.items[item].volume, |item: usize| instance.items[item].mass);
        match order {
            0 => units.sort_by_key(|item| (bags(*item), Reverse(volume(*item)), *item)),
            1 => units.sort_by_key(|item| (Reverse(volume(*item)), bags(*item), *item)),
            2 => units.sort_by_key(|item| (Reverse(mass(*item)), bags(*item), *item)),
            _ => units.sort_by_key(|item| (bags(*item), Reverse(mass(*item)), *item)),
        }
        units
    };
    (0..8).find_map(|order| Bags::new(instance, order >= 4).filled(&by(order % 4)))
}

/// Bags being filled.
#[derive(Clone)]
pub(super) struct Bags<'a> {
    instance: &'a Instance,
    /// Prefer the fullest bag that still takes a unit to the one that likes it best?
    tightly: bool,
    room: Vec<Volume>,
    bears: Vec<Mass>,
    /// Of each mount and scale with a limit: kilograms that are left.
    spare: Vec<Vec<Option<f64>>>,
    /// Of each mount: kilogram metres to the left.
    lean: Vec<f64>,
    /// The mount of each bag.
    mount: Vec<usize>,
    /// Item numbers by bag, one a unit.
    inside: Vec<Vec<usize>>,
}

impl<'a> Bags<'a> {
    pub(super) fn new(instance: &'a Instance, tightly: bool) -> Self {
        let mut of_bag = vec![0; instance.bags.len()];
        for (number, mount) in instance.mounts.iter().enumerate() {
            mount.bags.iter().for_each(|bag| of_bag[*bag] = number);
        }
        Self {
            instance,
            tightly,
            room: instance.bags.iter().map(crate::domain::Bag::usable).collect(),
            bears: instance.bags.iter().map(|bag| bag.max_load).collect(),
            spare: instance.mounts.iter().map(|mount| Scale::ALL.map(|scale| mount.spare(scale)).to_vec()).collect(),
            lean: instance.mounts.iter().map(|mount| mount.empty_lean).collect(),
            mount: of_bag,
            inside: vec![Vec::new(); instance.bags.len()],
        }
    }

    fn filled(mut self, units: &[usize]) -> Option<Placement> {
        for item in units {
            let bag = self.best(*item).or_else(|| self.make_room(*item))?;
            self.put(*item, bag);
        }
        Some(self.inside.iter().map(|units| counted(units)).collect())
    }

    /// The bag that likes a unit best of those that take it.
    fn best(&self, item: usize) -> Option<usize> {
        let open = (0..self.room.len()).filter(|bag| self.takes(item, *bag));
        open.min_by(|a, b| self.cost(item, *a).total_cmp(&self.cost(item, *b)).then(a.cmp(b)))
    }

    /// Does every rule allow one more unit in a bag?
    pub(super) fn takes(&self, item: usize, bag: usize) -> bool {
        let own = &self.instance.items[item];
        own.fits[bag]
            && own.volume <= self.room[bag]
            && own.mass <= self.bears[bag]
            && self.apart(item, bag)
            && self.bike_bears(own.mass.kilograms(), bag)
    }

    /// Nothing in the bag must not share one with it.
    fn apart(&self, item: usize, bag: usize) -> bool {
        let (kind, wary): (Kind, &[Kind]) = (self.instance.items[item].kind, &self.instance.items[item].apart_from);
        self.inside[bag]
            .iter()
            .map(|other| &self.instance.items[*other])
            .all(|other| !wary.contains(&other.kind) && !other.apart_from.contains(&kind))
    }

    fn bike_bears(&self, kilograms: f64, bag: usize) -> bool {
        let mount = &self.instance.mounts[self.mount[bag]];
        let charge = |scale: Scale| kilograms * mount.charge(scale, self.instance.bags[bag].ahead);
        let spare = &self.spare[self.mount[bag]];
        Scale::ALL.iter().zip(spare).all(|(scale, spare)| spare.is_none_or(|spare| charge(*scale) <= spare + ROUNDING))
    }

    fn cost(&self, item: usize, bag: usize) -> f64 {
        if self.tightly {
            return self.room[bag].millilitres();
        }
        let (own, place) = (&self.instance.items[item], &self.instance.bags[bag]);
        let before = self.lean[self.mount[bag]];
        let after = before + own.mass.kilograms() * mount::lean(place);
        own.mass.kilograms() * dislike(place) + lean_dislike(after) - lean_dislike(before)
    }

    /// The bag that takes it once one smaller unit has gone elsewhere.
    fn make_room(&mut self, item: usize) -> Option<usize> {
        for bag in (0..self.room.len()).filter(|bag| self.instance.items[item].fits[*bag]) {
            for at in 0..self.inside[bag].len() {
                let other = self.inside[bag][at];
                self.take(bag, at);
                if self.takes(item, bag) {
                    let elsewhere = (0..self.room.len()).filter(|place| *place != bag && self.takes(other, *place));
                    if let Some(place) = elsewhere.min_by(|a, b| self.cost(other, *a).total_cmp(&self.cost(other, *b)))
                    {
                        self.put(other, place);
                        return Some(bag);
                    }
                }
                self.put(other, bag);
                // It went to the end; the one that took its place is looked at next time round, by another order.
            }
        }
        None
    }

    /// One unit more, whether or not a rule allows it.
    pub(super) fn put(&mut self, item: usize, bag: usize) {
        self.change(item, bag, 1.0);
        self.room[bag] = self.room[bag] - self.instance.items[item].volume;
        self.bears[bag] = self.bears[bag] - self.instance.items[item].mass;
        self.inside[bag].push(item);
    }

    /// One unit of an item less.
    pub(super) fn take_one(&mut self, item: usize, bag: usize) {
        if let Some(at) = self.inside[bag].iter().rposition(|there| *there == item) {
            self.take(bag, at);
        }
    }

    /// How the only bike leans: kilogram metres to the left.
    pub(super) fn lean(&self) -> f64 {
        self.lean.first().copied().unwrap_or(0.0)
    }

    fn take(&mut self, bag: usize, at: usize) {
        let item = self.inside[bag].swap_remove(at);
        self.change(item, bag, -1.0);
        self.room[bag] += self.instance.items[item].volume;
        self.bears[bag] += self.instance.items[item].mass;
    }

    fn change(&mut self, item: usize, bag: usize, sign: f64) {
        let (number, place) = (self.mount[bag], &self.instance.bags[bag]);
        let kilograms = sign * self.instance.items[item].mass.kilograms();
        self.lean[number] += kilograms * mount::lean(place);
        let mount = &self.instance.mounts[number];
        for (scale, spare) in Scale::ALL.iter().zip(&mut self.spare[number]) {
            if let Some(spare) = spare {
                *spare -= kilograms * mount.charge(*scale, place.ahead);
            }
        }
    }
}

/// Units of one bag as counts, in item order.
fn counted(units: &[usize]) -> Vec<(usize, u32)> {
    let mut units = units.to_vec();
    units.sort_unstable();
    let mut counts: Vec<(usize, u32)> = Vec::new();
    for item in units {
        match counts.last_mut() {
            Some((last, count)) if *last == item => *count += 1,
            _ => counts.push((item, 1)),
        }
    }
    counts
}
