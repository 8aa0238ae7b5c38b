//! A stowage made better by moving things, swapping two, and gathering a set in one bag, until nothing helps. Every
//! step keeps every rule; the steps are tried in a fixed order, so the same stowage comes out the same.

use super::Placement;
use super::state::{State, Step};
use crate::resolve::Instance;

/// A step is taken only if it is better by more than rounding.
const BETTER: f64 = 1e-9;
/// Steps after which a stowage is good enough.
const MOST_STEPS: usize = 400;

/// The same units, in bags that keep sets together and at hand, heavy things low and the bike level.
pub(super) fn exchange(instance: &Instance, placement: Placement) -> Placement {
    // Bags of one bike only: things do not change hands here.
    if instance.mounts.len() != 1 || instance.sets.is_empty() {
        return placement;
    }
    let mut state = State::new(instance, &placement);
    let mut steps = 0;
    while steps < MOST_STEPS {
        if state.descend(&mut steps, None) || state.gather(&mut steps) {
            continue;
        }
        break;
    }
    state.placement()
}

impl State<'_> {
    /// Takes steps if together they help and every rule allows them.
    fn takes(&mut self, steps: &[Step]) -> bool {
        let fits = |step: &Step| self.instance.items[step.item].fits[step.to];
        if !steps.iter().all(fits) || self.change(steps) > -BETTER {
            return false;
        }
        for step in steps {
            self.take(step.item, step.from);
        }
        for (done, step) in steps.iter().enumerate() {
            if !self.place(step.item, step.count, step.to) {
                for step in &steps[..done] {
                    // Only what came is taken back: some may have been there before.
                    let all = self.take(step.item, step.to);
                    self.put(step.item, all - step.count, step.to);
                }
                for step in steps {
                    self.put(step.item, step.count, step.from);
                }
                return false;
            }
        }
        true
    }

    /// Moves and swaps as long as one helps; those of a set are left where they are if it is `held`. Did any help?
    fn descend(&mut self, steps: &mut usize, held: Option<usize>) -> bool {
        let before = *steps;
        while *steps < MOST_STEPS {
            let then = *steps;
            *steps += self.moves(held) + self.swaps(held);
            if *steps == then {
                break;
            }
        }
        *steps > before
    }

    /// Where units are that may be moved: item and bag.
    fn places(&self, held: Option<usize>) -> Vec<(usize, usize)> {
        let loose = (0..self.x.len()).filter(|item| held.is_none() || self.set[*item] != held);
        let places = loose.flat_map(|item| (0..self.instance.bags.len()).map(move |bag| (item, bag)));
        places.filter(|(item, bag)| self.x[*item][*bag] > 0).collect()
    }

    fn step(&self, item: usize, from: usize, to: usize) -> Step {
        Step { item, from, to, count: self.x[item][from] }
    }

    /// Moves all units of an item in a bag to another bag wherever that helps; says how often.
    fn moves(&mut self, held: Option<usize>) -> usize {
        let mut moved = 0;
        for (item, from) in self.places(held) {
            for to in (0..self.instance.bags.len()).filter(|to| *to != from) {
                let step = self.step(item, from, to);
                if step.count > 0 && self.takes(&[step]) {
                    moved += 1;
                }
            }
        }
        moved
    }

    /// Swaps all units of two items in two bags wherever that helps; says how often.
    fn swaps(&mut self, held: Option<usize>) -> usize {
        let mut swapped = 0;
        let places = self.places(held);
        for (at, (one, here)) in places.iter().copied().enumerate() {
            for (other, there) in places[at + 1..].iter().copied() {
                let (first, second) = (self.step(one, here, there), self.step(other, there, here));
                let both = here != there && one != other && first.count > 0 && second.count > 0;
                if both && self.takes(&[first, second]) {
                    swapped += 1;
                }
            }
        }
        swapped
    }

    /// Gathers a set in one bag, making room there, and settles the rest anew; kept if it helps.
    fn gather(&mut self, steps: &mut usize) -> bool {
        let now = self.dislike();
        for set in 0..self.things.len() {
            if self.things[set].iter().filter(|n| **n > 0).count() < 2 {
                continue;
            }
            for bag in 0..self.instance.bags.len() {
                let mut other = self.clone();
                if other.gathered(set, bag) {
                    other.descend(&mut 0, Some(set));
                    if other.dislike() < now - BETTER {
                        *self = other;
                        *steps += 1;
                        return true;
                    }
                }
            }
        }
        false
    }

    /// Puts what of a set the bag may take into it; what else is there makes room, the largest first, as far as it must.
    /// Is it in fewer bags then?
    fn gathered(&mut self, set: usize, bag: usize) -> bool {
        let members: Vec<usize> = self.instance.sets[set].items[0].clone();
        let bags = |state: &Self| state.things[set].iter().filter(|n| **n > 0).count();
        let before = bags(self);
        for item in members {
            for from in (0..self.instance.bags.len()).filter(|from| *from != bag) {
                if self.x[item][from] == 0 || !self.instance.items[item].fits[bag] {
                    continue;
                }
                let before = self.clone();
                let count = self.take(item, from);
                while !self.place(item, count, bag) {
                    if !self.make_room(set, bag) {
                        // What made room may lie where the thing was, so all of it goes back.
                        *self = before;
                        break;
                    }
                }
            }
        }
        bags(self) < before
    }

    /// Moves the largest thing of no part of the set out of a bag, to the first bag that takes it.
    fn make_room(&mut self, set: usize, bag: usize) -> bool {
        let mut others: Vec<usize> =
            (0..self.x.len()).filter(|item| self.x[*item][bag] > 0 && self.set[*item] != Some(set)).collect();
        others.sort_by_key(|item| (std::cmp::Reverse(self.instance.items[*item].volume * self.x[*item][bag]), *item));
        for item in others {
            let count = self.take(item, bag);
            if (0..self.instance.bags.len()).any(|to| to != bag && self.place(item, count, to)) {
                return true;
            }
            self.put(item, count, bag);
        }
        false
    }
}

/// How little a stowage is liked, in kilograms raised by a metre.
#[cfg(test)]
pub(super) fn how_disliked(instance: &Instance, placement: &Placement) -> f64 {
    State::new(instance, placement).dislike()
}
