//! Why a kit cannot be stowed: the smallest set of units found that cannot go together.

use super::stowable;
use crate::resolve::Instance;
use fardel_milp::SolveOptions;

/// Stowing problems solved to find it; what is left then is a reason as well, only a wordier one.
const MOST_TRIES: usize = 30;

/// Drops one item after another as long as the rest still cannot be stowed (a deletion filter). What is left cannot
/// be stowed, and after few enough tries without any one of its units it could. `None` if nothing is left.
#[must_use]
pub fn smallest_no_good(instance: &Instance, counts: &[u32], options: &SolveOptions) -> Option<Vec<(usize, u32)>> {
    let mut kept = counts.to_vec();
    let mut tries = 0;
    let mut order: Vec<usize> = (0..kept.len()).filter(|i| kept[*i] > 0).collect();
    // Small things first: they are least likely to be the reason.
    order.sort_by_key(|i| (instance.items[*i].volume, *i));
    for item in order {
        while kept[item] > 0 && tries < MOST_TRIES {
            tries += 1;
            kept[item] -= 1;
            // Where that is not decided in time, the unit may be needed for the misfit and stays.
            if stowable(instance, &kept, options) != Some(false) {
                kept[item] += 1;
                break;
            }
        }
    }
    let no_good: Vec<(usize, u32)> = kept.iter().enumerate().filter(|(_, n)| **n > 0).map(|(i, n)| (i, *n)).collect();
    (!no_good.is_empty()).then_some(no_good)
}
