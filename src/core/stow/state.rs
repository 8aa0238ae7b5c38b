//! Units in bags while they are exchanged: what they come to by the rules and by what is disliked.

use super::Placement;
use super::at_once::Bags;
use super::columns::{dislike, lean_dislike};
use crate::resolve::{Instance, InstanceItem, mount};

/// Dislike of each further bag that a set is in: as a kilogram raised by a metre (from memory) ...
const PER_FURTHER_BAG: f64 = 1.0;
/// ... and a quarter of that more for each time that the set is reached for on the trip, ...
const PER_FURTHER_BAG_AND_USE: f64 = 0.25;
/// ... which counts up to so many times.
const MOST_USES: f64 = 12.0;
/// Dislike of a set in bags that are not at hand, for each time that something breaks which it mends; in part where it
/// is in part (from memory).
const PER_USE_NOT_AT_HAND: f64 = 1.0;

/// All units of an item in a bag go to another.
#[derive(Clone, Copy)]
pub(super) struct Step {
    pub item: usize,
    pub from: usize,
    pub to: usize,
    pub count: u32,
}

/// Units in bags, with what counts beside the rules.
#[derive(Clone)]
pub(super) struct State<'a> {
    pub instance: &'a Instance,
    bags: Bags<'a>,
    /// Units of each item in each bag.
    pub x: Vec<Vec<u32>>,
    /// The set of each item.
    pub set: Vec<Option<usize>>,
    /// Of each set, things (an item in a bag) by bag.
    pub things: Vec<Vec<u32>>,
}

impl<'a> State<'a> {
    pub fn new(instance: &'a Instance, placement: &Placement) -> Self {
        let (items, bags) = (instance.items.len(), instance.bags.len());
        let mut set = vec![None; items];
        for (number, own) in instance.sets.iter().enumerate() {
            own.items[0].iter().for_each(|item| set[*item] = Some(number));
        }
        let mut state = Self {
            instance,
            bags: Bags::new(instance, false),
            x: vec![vec![0; bags]; items],
            set,
            things: vec![vec![0; bags]; instance.sets.len()],
        };
        for (bag, units) in placement.iter().enumerate() {
            units.iter().for_each(|(item, count)| state.put(*item, *count, bag));
        }
        state
    }

    pub fn placement(&self) -> Placement {
        let in_bag = |bag: usize| {
            let units = self.x.iter().enumerate().map(|(item, own)| (item, own[bag]));
            units.filter(|(_, count)| *count > 0).collect()
        };
        (0..self.instance.bags.len()).map(in_bag).collect()
    }

    pub fn put(&mut self, item: usize, count: u32, bag: usize) {
        (0..count).for_each(|_| self.bags.put(item, bag));
        if count > 0 && self.x[item][bag] == 0 {
            self.count(item, bag, true);
        }
        self.x[item][bag] += count;
    }

    /// Takes all units of an item out of a bag; says how many.
    pub fn take(&mut self, item: usize, bag: usize) -> u32 {
        let count = std::mem::take(&mut self.x[item][bag]);
        (0..count).for_each(|_| self.bags.take_one(item, bag));
        if count > 0 {
            self.count(item, bag, false);
        }
        count
    }

    fn count(&mut self, item: usize, bag: usize, more: bool) {
        if let Some(set) = self.set[item] {
            let things = &mut self.things[set][bag];
            *things = if more { *things + 1 } else { *things - 1 };
        }
    }

    /// Puts units into a bag if every rule allows it.
    pub fn place(&mut self, item: usize, count: u32, bag: usize) -> bool {
        for done in 0..count {
            if !self.bags.takes(item, bag) {
                (0..done).for_each(|_| self.bags.take_one(item, bag));
                return false;
            }
            self.bags.put(item, bag);
        }
        if count > 0 && self.x[item][bag] == 0 {
            self.count(item, bag, true);
        }
        self.x[item][bag] += count;
        true
    }

    /// How little the whole stowage is liked.
    pub fn dislike(&self) -> f64 {
        let height: f64 = self.x.iter().zip(&self.instance.items).map(|(own, item)| self.height(own, item)).sum();
        height + lean_dislike(self.bags.lean()) + (0..self.things.len()).map(|set| self.of_set(set, &[])).sum::<f64>()
    }

    fn height(&self, own: &[u32], item: &InstanceItem) -> f64 {
        let places = own.iter().zip(&self.instance.bags).filter(|(count, _)| **count > 0);
        places.map(|(count, bag)| f64::from(*count) * item.mass.kilograms() * dislike(bag)).sum()
    }

    /// How little a set's bags are liked after some steps.
    fn of_set(&self, set: usize, steps: &[Step]) -> f64 {
        let own = &self.instance.sets[set];
        let mut things = self.things[set].clone();
        for step in steps.iter().filter(|step| self.set[step.item] == Some(set)) {
            things[step.from] -= 1;
            things[step.to] += u32::from(self.x[step.item][step.to] == 0);
        }
        let all: u32 = things.iter().sum();
        let bags = things.iter().filter(|n| **n > 0).count();
        if bags == 0 {
            return 0.0;
        }
        let uses = (own.repairs[0] + own.daily[0]).min(MOST_USES);
        let deep = things.iter().zip(&self.instance.bags).filter(|(_, bag)| !bag.quick).map(|(n, _)| *n);
        let deep = f64::from(deep.sum::<u32>()) / f64::from(all);
        #[allow(clippy::cast_precision_loss, reason = "a handful of bags")]
        let further = (bags - 1) as f64;
        further * (PER_FURTHER_BAG + PER_FURTHER_BAG_AND_USE * uses)
            + deep * PER_USE_NOT_AT_HAND * own.repairs[0].min(MOST_USES)
    }

    /// By how much some steps, each of another item, make the stowage less liked.
    pub fn change(&self, steps: &[Step]) -> f64 {
        let (mut height, mut pull) = (0.0, self.bags.lean());
        for step in steps {
            let kilograms = self.instance.items[step.item].mass.kilograms() * f64::from(step.count);
            let (from, to) = (&self.instance.bags[step.from], &self.instance.bags[step.to]);
            height += kilograms * (dislike(to) - dislike(from));
            pull += kilograms * (mount::lean(to) - mount::lean(from));
        }
        let mut sets: Vec<usize> = steps.iter().filter_map(|step| self.set[step.item]).collect();
        sets.dedup();
        let sets = sets.into_iter().map(|set| self.of_set(set, steps) - self.of_set(set, &[]));
        height + lean_dislike(pull) - lean_dislike(self.bags.lean()) + sets.sum::<f64>()
    }
}
