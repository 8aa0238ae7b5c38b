//! Counts, money and needs of all riders together.

use super::{ApartClaim, Group, Part, hours};
use crate::domain::{Item, Map};
use crate::units::{Mass, Money, Volume};
use crate::verify::{Violation, differs, needs};

pub(super) fn check(group: &Group<'_>) -> Vec<Violation> {
    let mut found = counts(group);
    found.extend(always(group));
    found.extend(money(group));
    found.extend(demanded(group));
    found.extend(apart(group));
    found
}

/// Units of every item in all bags.
pub(super) fn all(group: &Group<'_>) -> Map<u32> {
    let mut all = Map::new();
    for (id, count) in group.parts.iter().flat_map(Part::held) {
        *all.entry(id).or_insert(0) += count;
    }
    all
}

/// How many share the limits, each of which is a rider's.
fn riders(group: &Group<'_>) -> u32 {
    u32::try_from(group.parts.len()).unwrap_or(u32::MAX)
}

fn counts(group: &Group<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    let mut wrong = |what: String, by: f64| found.push(Violation { rule: "counts", what, by });
    let (mut mass, mut volume) = (Mass::ZERO, Volume::ZERO);
    for (id, count) in all(group) {
        let Some(item) = group.catalogue.items.get(&id) else {
            wrong(format!("no item `{id}`"), f64::from(count));
            continue;
        };
        mass += item.mass * count;
        volume += item.volume * count;
        let most = item.at_most.saturating_mul(u32::try_from(riders_of(group, &id).len()).unwrap_or(u32::MAX));
        if count > most && !group.claim.packed {
            wrong(format!("{count} of `{id}`, at most {most}"), f64::from(count - most));
        }
        if group.scenario.never.iter().any(|never| *never == plain(group, &id)) {
            wrong(format!("`{id}` is on the never list"), f64::from(count));
        }
    }
    found.extend(differs("counts", "mass in g", group.claim.mass.grams(), mass.grams()));
    found.extend(differs("counts", "volume in mL", group.claim.volume.millilitres(), volume.millilitres()));
    if let Some(most) = group.scenario.limits.kit_volume.map(|each| each * riders(group)).filter(|most| volume > *most)
    {
        let by = (volume - most).millilitres();
        found.push(Violation { rule: "caps", what: "kits above the limit of volume, mL".to_owned(), by });
    }
    found
}

/// The key of the catalogue, without the sort of bike.
pub(super) fn plain<'a>(group: &'a Group<'_>, key: &'a str) -> &'a str {
    group.keys.get(key).map_or(key, |known| known.item.as_str())
}

/// Units of a thing of the catalogue, for whichever sort of bike they are kept.
fn of_sort(group: &Group<'_>, held: &Map<u32>, id: &str) -> u32 {
    held.iter().filter(|(key, _)| plain(group, key) == id).map(|(_, count)| *count).sum()
}

/// The riders whom a thing can be for: all, or those on the sort of bike that it is kept for.
pub(super) fn riders_of<'a>(group: &'a Group<'_>, key: &str) -> Vec<&'a Part<'a>> {
    let bike = group.keys.get(key).and_then(|known| known.bike.as_deref());
    group.parts.iter().filter(|part| bike.is_none_or(|bike| part.rider.bike == bike)).collect()
}

/// What is always to be there is: personal things with everybody, others once.
fn always(group: &Group<'_>) -> Vec<Violation> {
    if group.claim.packed {
        return Vec::new();
    }
    let held = all(group);
    let short = |what: String, count: u32, least: u32| {
        (count < least).then(|| Violation { rule: "counts", what, by: f64::from(least - count) })
    };
    let mut found = Vec::new();
    for (id, least) in &group.scenario.always {
        let Some(item) = group.catalogue.items.get(id) else { continue };
        if item.personal {
            for part in group.parts {
                let count = of_sort(group, &part.held(), id);
                found.extend(short(format!("{}: `{id}`, always {least}", part.rider.name), count, *least));
            }
        } else {
            found.extend(short(format!("`{id}`, always {least}"), of_sort(group, &held, id), *least));
        }
    }
    found
}

/// Units that a rider owns or has in the bike's toolkit.
pub(super) fn owned(group: &Group<'_>, part: &Part<'_>, key: &str) -> u32 {
    let id = plain(group, key);
    let on_bike = group.catalogue.bikes.get(&part.rider.bike).and_then(|bike| bike.toolkit.get(id)).copied();
    part.rider.owns.get(id).copied().unwrap_or(0) + on_bike.unwrap_or(0)
}

/// What nobody owns is bought; what one owns of a shared thing serves all.
fn money(group: &Group<'_>) -> Vec<Violation> {
    let owned = |part: &Part<'_>, id: &str| owned(group, part, id);
    let bought = |item: &Item, count: u32, owned: u32| item.price * count.saturating_sub(owned);
    let mut spent = Money::ZERO;
    for (id, count) in all(group) {
        let Some(item) = group.catalogue.items.get(&id) else { continue };
        if item.personal {
            let each = group.parts.iter().map(|part| (part.held().get(&id).copied().unwrap_or(0), owned(part, &id)));
            spent += each.map(|(count, owned)| bought(item, count, owned)).sum();
        } else {
            let owned = riders_of(group, &id).into_iter().map(|part| owned(part, &id)).sum();
            spent += bought(item, count, owned);
        }
    }
    let spent = if group.claim.packed { Money::ZERO } else { spent };
    let mut found: Vec<Violation> =
        differs("counts", "money to spend", group.claim.to_buy.units(), spent.units()).into_iter().collect();
    let purse = group.scenario.limits.budget.map(|each| each * riders(group));
    if let Some(purse) = purse.filter(|purse| spent > *purse) {
        let by = (spent - purse).units();
        found.push(Violation { rule: "caps", what: "spending above the budget".to_owned(), by });
    }
    found
}

/// Amounts are sums of decimal texts and may miss by a rounding.
const ROUNDING: f64 = 1e-9;

fn demanded(group: &Group<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    for (id, owner, demanded) in &group.claim.needs {
        let parts = group.parts.iter().filter(|part| owner.as_ref().is_none_or(|owner| part.rider.name == *owner));
        let met: f64 = parts.map(|part| met_by(group, part, id)).sum();
        if demanded - met > ROUNDING * demanded.max(1.0) {
            let whose = owner.as_ref().map_or_else(String::new, |owner| format!(" for {owner}"));
            let what = format!("{id}{whose}: {demanded} demanded, {met} carried");
            found.push(Violation { rule: "needs", what, by: demanded - met });
        }
    }
    found
}

/// What riders have with them on legs without the others, things left out that are useless without what is elsewhere.
fn apart(group: &Group<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    for ApartClaim { riders, met } in &group.claim.apart {
        let parts = || group.parts.iter().filter(|part| riders.contains(&part.rider.name));
        let usable = hours::held(group, &parts().map(|part| part.rider).collect::<Vec<_>>());
        for (id, claimed) in met {
            let of = |part: &Part<'_>| -> f64 {
                let own = group.scenario.as_ridden_by(part.rider);
                let held = part.held().into_iter().filter(|(item, _)| usable.contains_key(item));
                held.map(|(item, count)| needs::met_by(group.catalogue, &own, &item, id) * f64::from(count)).sum()
            };
            let carried: f64 = parts().map(of).sum();
            if claimed - carried > ROUNDING * claimed.max(1.0) {
                let what = format!("{id} with {}: {claimed} claimed, {carried} carried", riders.join(", "));
                found.push(Violation { rule: "needs", what, by: claimed - carried });
            }
        }
    }
    found
}

fn met_by(group: &Group<'_>, part: &Part<'_>, need: &str) -> f64 {
    let own = group.scenario.as_ridden_by(part.rider);
    let held = part.held();
    held.iter().map(|(item, count)| needs::met_by(group.catalogue, &own, item, need) * f64::from(*count)).sum()
}
