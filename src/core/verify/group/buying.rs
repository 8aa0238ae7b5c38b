//! What the group's purchases are charged with.

use super::together::{all, owned, plain, riders_of};
use super::{Group, Part};
use crate::domain::Rider;
use crate::verify::prices::{Bought, money};
use crate::verify::{Violation, differs};

pub(super) fn check(group: &Group<'_>) -> Vec<Violation> {
    let claimed = group.claim.terms.money.get();
    let found = if group.claim.packed { 0.0 } else { charged(group) };
    differs("value", "hours for money", claimed, found).into_iter().collect()
}

fn charged(group: &Group<'_>) -> f64 {
    let riders: Vec<&Rider> = group.parts.iter().map(|part| part.rider).collect();
    let charge = |bought: &Bought<'_>| money(group.plain, group.scenario, &riders, &group.claim.needs, bought);
    let mut hours = 0.0;
    for (id, count) in all(group) {
        let Some(item) = group.plain.items.get(plain(group, &id)) else { continue };
        if item.personal {
            let each = |part: &Part<'_>| {
                let held = part.held().get(&id).copied().unwrap_or(0);
                let count = held.saturating_sub(owned(group, part, &id));
                charge(&Bought { item, count, owner: Some(part.rider) })
            };
            hours += group.parts.iter().map(each).sum::<f64>();
        } else {
            let free: u32 = riders_of(group, &id).into_iter().map(|part| owned(group, part, &id)).sum();
            hours += charge(&Bought { item, count: count.saturating_sub(free), owner: None });
        }
    }
    hours
}
