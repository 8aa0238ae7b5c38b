//! Which things a rider reaches for when a function is wanted.

use crate::resolve::Instance;
use crate::risk::value;

/// Compositions nest a few deep at most; a ring in the catalogue is refused at loading, this only bounds the work.
const DEEPEST: u32 = 8;

/// What gives which function in a kit.
pub(crate) struct Providers<'a> {
    instance: &'a Instance,
    counts: &'a [u32],
    /// How many of each function there are at a time.
    available: Vec<u32>,
}

impl<'a> Providers<'a> {
    pub fn new(instance: &'a Instance, counts: &'a [u32]) -> Self {
        Self { instance, counts, available: value::available(instance, counts) }
    }

    /// The items that give a function so many at a time, the lightest first, with all that they need themselves;
    /// without any that does it alone, the first way to combine it. `None` if the kit has not enough of it.
    pub fn of(&self, function: usize, wanted: u32) -> Option<Vec<usize>> {
        (self.available[function] >= wanted).then(|| self.gather(function, wanted, 0))
    }

    fn gather(&self, function: usize, wanted: u32, depth: u32) -> Vec<usize> {
        if depth > DEEPEST {
            return Vec::new();
        }
        let mut giving: Vec<(usize, u32)> = self.givers(function);
        giving.sort_by_key(|(item, _)| (self.instance.items[*item].mass, *item));
        let mut items = Vec::new();
        let mut have = 0_u32;
        for (item, given) in giving {
            if have >= wanted {
                break;
            }
            have = have.saturating_add(given);
            items.push(item);
            for (required, count) in &self.instance.items[item].requires {
                items.extend(self.gather(*required, (*count).max(1), depth + 1));
            }
        }
        if items.is_empty() {
            let ways = &self.instance.functions[function].also_from;
            let way = ways.iter().find(|way| way.iter().all(|part| self.available[*part] > 0));
            items.extend(way.into_iter().flatten().flat_map(|part| self.gather(*part, 1, depth + 1)));
        }
        items
    }

    /// Items that give the function by themselves, and how many of it all units of each give.
    fn givers(&self, function: usize) -> Vec<(usize, u32)> {
        let given = |item: usize| {
            let each = self.instance.items[item].provides.iter().find(|(given, _)| *given == function)?.1;
            Some((item, each.saturating_mul(self.counts[item]))).filter(|(_, given)| *given > 0)
        };
        (0..self.counts.len()).filter_map(given).collect()
    }
}
