//! Items that are the same as another one, or worse in everything that could make somebody take them.
//!
//! [`Lint::Beaten`] compares mass, volume, longest side, price, functions, stocks, needs and how warm, what is required, `at_most`,
//! access, dryness, `apart_from`, `personal` and kind. An item that is better in any of these is not beaten.

use super::{Doubt, Lint};
use crate::domain::{Catalogue, Contribution, Item, Map};
use fardel_words::{say, word};

/// Twins, and items that are beaten. Items on request are chosen by name, not by what they do, and are not compared.
pub(super) fn doubts(catalogue: &Catalogue) -> Vec<Doubt> {
    let items: Vec<&Item> = catalogue.items.values().filter(|item| !item.on_request).collect();
    let mut doubts = Vec::new();
    for (at, item) in items.iter().enumerate() {
        let twin = items[..at].iter().find(|other| as_good(other, item) && as_good(item, other));
        let better = items.iter().find(|other| as_good(other, item) && !as_good(item, other));
        let doubt = |lint, what| Doubt { lint, section: "items", id: item.id.clone(), what };
        if let Some(twin) = twin {
            doubts.push(doubt(Lint::Twins, say!("the same as `{}` but for name and basis", twin.id)));
        } else if let Some(better) = better {
            let what = say!(
                "`{}` is as light, small, cheap and useful, and better in {}: nobody would take this one",
                better.id,
                gains(better, item).join(", ")
            );
            doubts.push(doubt(Lint::Beaten, what));
        }
    }
    doubts
}

/// Is `a` at least as good as `b` in everything: whoever takes `b` could take `a`, and lose nothing?
fn as_good(a: &Item, b: &Item) -> bool {
    let same = a.kind == b.kind && a.personal == b.personal;
    let lean = a.mass <= b.mass && a.volume <= b.volume && a.longest <= b.longest && a.price <= b.price;
    let tame =
        (!a.quick || b.quick) && (!a.dry || b.dry) && a.apart_from.iter().all(|kind| b.apart_from.contains(kind));
    same && lean
        && tame
        && a.at_most >= b.at_most
        && covers(&a.provides, &b.provides)
        && covers(&a.holds, &b.holds)
        && covers(&b.requires, &a.requires)
        && b.meets.iter().all(|(need, theirs)| a.meets.get(need).is_some_and(|own| meets(own, theirs)))
}

fn covers(more: &Map<u32>, less: &Map<u32>) -> bool {
    less.iter().all(|(name, n)| more.get(name).is_some_and(|own| own >= n))
}

/// As much, down to as cold.
fn meets(a: &Contribution, b: &Contribution) -> bool {
    let warm = match (a.down_to, b.down_to) {
        (None, _) => true,
        (Some(a), Some(b)) => a <= b,
        (Some(_), None) => false,
    };
    a.amount >= b.amount && warm
}

/// What the better one is better in.
fn gains(a: &Item, b: &Item) -> Vec<&'static str> {
    let parts = [
        (a.mass < b.mass, "mass"),
        (a.volume < b.volume, "volume"),
        (a.longest < b.longest, "length"),
        (a.price < b.price, "price"),
        (!covers(&b.provides, &a.provides), "functions"),
        (!covers(&b.holds, &a.holds), "stocks"),
        (a.meets != b.meets, word!("needs met")),
        (!covers(&a.requires, &b.requires), word!("what it requires")),
        (a.at_most > b.at_most, word!("how many can be taken")),
        (a.quick != b.quick || a.dry != b.dry || a.apart_from != b.apart_from, word!("where it can go")),
    ];
    parts.into_iter().filter_map(|(better, word)| better.then_some(word)).collect()
}
