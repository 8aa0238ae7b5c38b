//! Every item exists, is allowed, is within its limits, and its totals are as claimed.

use super::{Evidence, Violation, differs};
use crate::units::{Mass, Money, Volume};

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    let mut wrong = |what: String, by: f64| found.push(Violation { rule: "counts", what, by });
    let (mut mass, mut volume, mut to_buy) = (Mass::ZERO, Volume::ZERO, Money::ZERO);
    for (id, count) in e.kit.iter() {
        let Some(item) = e.catalogue.items.get(id) else {
            wrong(format!("no item `{id}`"), f64::from(count));
            continue;
        };
        mass += item.mass * count;
        volume += item.volume * count;
        let own = e.rider.owns.get(id).copied().unwrap_or(0) + e.bike.toolkit.get(id).copied().unwrap_or(0);
        to_buy += item.price * count.saturating_sub(own);
        if count > item.at_most {
            wrong(format!("{count} of `{id}`, at most {}", item.at_most), f64::from(count - item.at_most));
        }
        if e.scenario.never.iter().any(|never| never == id) {
            wrong(format!("`{id}` is on the never list"), f64::from(count));
        }
    }
    for (id, least) in &e.scenario.always {
        if e.kit.count(id) < *least {
            wrong(format!("{} of `{id}`, always {least}", e.kit.count(id)), f64::from(least - e.kit.count(id)));
        }
    }
    let claim = e.claim;
    found.extend(differs("counts", "mass in g", claim.mass.grams(), mass.grams()));
    found.extend(differs("counts", "volume in mL", claim.volume.millilitres(), volume.millilitres()));
    found.extend(differs("counts", "money to spend", claim.to_buy.units(), to_buy.units()));
    found
}
