//! What can hurt people, said with every answer.

use crate::domain::Kind;
use fardel_words::{mark, plain};

/// Said with every answer.
const ALWAYS: &[&str] = &[
    mark!(
        "A plan, not a promise: rates and masses are mostly from memory (each entry of the catalogue says its basis). Weigh your own things."
    ),
    mark!(
        "The owner's manual, the tyre sidewall and local law outrank everything printed here: maximum mass, axle loads, pressures, torque."
    ),
    mark!(
        "Wheel loads are reckoned at rest on level ground. A tyre bears what its load index says only at the pressure its maker ties to it, and less with air let out."
    ),
    mark!(
        "Brakes, steering, wheels and fuel: if you are not trained for a repair, do not ride on it. A field repair only has to reach a workshop."
    ),
    mark!(
        "Tie everything down so that nothing can reach a wheel, the chain or the exhaust, and check again at every stop."
    ),
];

/// Said where a kit has things of a kind.
const BY_KIND: &[(Kind, &str)] = &[
    (Kind::FirstAid, mark!("First aid: carry what you are trained to use; medicines as your doctor says.")),
    (
        Kind::Cooking,
        mark!(
            "Stoves and gas: only in the open, away from tents and petrol; never shield a burner that sits on its canister; local fire bans hold."
        ),
    ),
    (
        Kind::Fuel,
        mark!(
            "Petrol: approved containers only, upright, away from food and heat; local rules limit how much you may carry."
        ),
    ),
    (
        Kind::Electronics,
        mark!(
            "Lithium packs: no crushed or swollen cells, keep them dry and padded, follow the maker on cold and charging."
        ),
    ),
    (Kind::Water, mark!("Water: amounts are planning values; heat, illness and a wrong turn raise them.")),
];

/// The cautions for a kit with these kinds of things in it.
#[must_use]
pub fn cautions(kinds: &[Kind]) -> Vec<&'static str> {
    let own = BY_KIND.iter().filter(|(kind, _)| kinds.contains(kind)).map(|(_, text)| *text);
    ALWAYS.iter().copied().chain(own).map(plain).collect()
}

/// What goes before any repair on the roadside.
const BEFORE_ANY_REPAIR: &[&str] = &[
    mark!(
        "A reminder, not instructions: the owner's manual and your training come first. What you have not practised at home, leave."
    ),
    mark!("Off the road and seen by others; stand the bike firmly, switch off, let engine, exhaust and radiator cool."),
    mark!("Petrol: in the open, no flame, no spark, wipe up spills. Lithium packs: nothing crushed, swollen or hot."),
    mark!("After work on wheels, brakes, steering or chain: test the brakes at walking pace before you ride on."),
    mark!("Brakes and steering: only if you know how. In doubt have the bike fetched."),
];

/// The same for an electric bike: what may not be touched in place of what burns.
const BEFORE_ANY_ELECTRIC_REPAIR: &[&str] = &[
    BEFORE_ANY_REPAIR[0],
    mark!("Off the road and seen by others; stand the bike firmly, switch off, key out, let motor and battery cool."),
    mark!(
        "Never open or unplug battery, motor, controller or anything wired in orange: high voltage, for the maker's workshop."
    ),
    mark!("Battery dented, hot, hissing or smoking: get well away from it, keep others away, call for help."),
    BEFORE_ANY_REPAIR[3],
    BEFORE_ANY_REPAIR[4],
];

/// The same for every card of a bike with an engine, and of an electric one.
#[must_use]
pub fn on_the_card(electric: bool) -> Vec<&'static str> {
    let texts = if electric { BEFORE_ANY_ELECTRIC_REPAIR } else { BEFORE_ANY_REPAIR };
    texts.iter().copied().map(plain).collect()
}
