//! Functions, stocks and needs that no item serves; items that serve nothing.

use super::reach::{Asked, Reach};
use super::{Doubt, Lint};
use crate::domain::Catalogue;
use fardel_words::say;

/// Functions, stocks and needs that no item gives.
pub(super) fn unprovided(catalogue: &Catalogue, reach: &Reach) -> Vec<Doubt> {
    let doubt = |lint, section, id: &String, name: &str| Doubt {
        lint,
        section,
        id: id.clone(),
        what: say!("nothing to carry for \"{name}\": add an item, or take the entry out"),
    };
    let functions = catalogue.functions.iter().filter(|(id, _)| reach.function(id) == 0);
    let functions = functions.map(|(id, function)| doubt(Lint::NobodyProvides, "functions", id, &function.name));
    let stocks = catalogue.stocks.iter().filter(|(id, _)| reach.stock(id) == 0);
    let stocks = stocks.map(|(id, stock)| doubt(Lint::NobodyHolds, "stocks", id, &stock.name));
    let met = |id: &String| catalogue.items.values().any(|item| item.meets.contains_key(id));
    let needs = catalogue.needs.iter().filter(|(id, _)| !met(id));
    let needs = needs.map(|(id, need)| doubt(Lint::NobodyMeets, "needs", id, &need.name));
    functions.chain(stocks).chain(needs).collect()
}

/// Items that nothing can use.
pub(super) fn useless(catalogue: &Catalogue, reach: &Reach) -> Vec<Doubt> {
    let asked = Asked::of(catalogue);
    let mut doubts = Vec::new();
    for item in catalogue.items.values() {
        let lacking = item.requires.iter().find(|(name, n)| reach.function(name) < **n);
        let what = match (asked.wants(item), item.on_request, lacking) {
            (_, _, Some((name, _))) => say!("it is useless without `{name}`, which nothing gives"),
            (false, false, _) => say!(
                "no repair, need or item asks for what it gives; mark it `on_request: true` if it is \
                                  carried for reasons of its own"
            ),
            (true, true, _) => say!("it is marked `on_request`, but the program has a use for it"),
            _ => continue,
        };
        doubts.push(Doubt { lint: Lint::NoUse, section: "items", id: item.id.clone(), what });
    }
    doubts
}
