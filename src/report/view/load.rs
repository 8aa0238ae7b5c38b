//! What the wheels may bear, and which limit binds the kit.

use crate::Look;
use crate::told::Rows;
use crate::words::{counted_words, list, percent};
use fardel_core::answer::{By, Loading, SetsInBags, Wheels};
use fardel_core::resolve::{Limit, Scale, Setter};
use fardel_core::units::{Mass, Quantity, UnitSystem};

/// Beyond this sideways moment, in kilogram metres, the rider is told: 2 kg (common practice, no source) 0.3 m out.
const TOLD_LEAN_KG_M: f64 = 0.6;

/// `123.8 kg`: levers are known no better.
pub(crate) fn weight(kilograms: f64, look: &Look) -> String {
    match look.units {
        UnitSystem::Metric => format!("{kilograms:.1} kg"),
        UnitSystem::Imperial => format!("{:.1} lb", kilograms / 0.453_592_37),
    }
}

pub(crate) const fn setter(setter: Setter) -> &'static str {
    match setter {
        Setter::Bike => "bike",
        Setter::Axle => "axle",
        Setter::Tyre => "tyre",
    }
}

/// Which limit binds the kit's mass, and what the others would allow.
pub(crate) fn binding(load: &Loading, look: &Look) -> String {
    let Some((first, rest)) = load.allowances.split_first() else { return String::new() };
    let bags = load.allowances.iter().find(|allowance| allowance.by == By::Bags).map(|allowance| allowance.mass);
    let named: Vec<String> = rest
        .iter()
        .filter(|other| other.by == By::Bags || bags.is_none_or(|bags| other.mass < bags))
        .map(|other| format!("{} ({})", name(other.by), look.show(other.mass)))
        .collect();
    let others = if named.is_empty() { String::new() } else { format!(" Next would be {}.", list(&named)) };
    format!("The tightest limit on the kit's mass is {}, {}.{others}", name(first.by), look.show(first.mass))
}

/// As said within a sentence.
pub(crate) const fn name(by: By) -> &'static str {
    match by {
        By::Wish => "your own limit",
        By::Bags => "what bags and racks bear",
        By::Bike(Limit { scale: Scale::Gross, .. }) => "the bike's maximum mass",
        By::Bike(Limit { scale: Scale::Front, setter: Setter::Tyre, .. }) => "the front tyre",
        By::Bike(Limit { scale: Scale::Front, .. }) => "the front axle",
        By::Bike(Limit { scale: Scale::Rear, setter: Setter::Tyre, .. }) => "the rear tyre",
        By::Bike(Limit { scale: Scale::Rear, .. }) => "the rear axle",
    }
}

/// What hangs on either side, and how the bike pulls.
pub(crate) fn sides(load: &Loading, look: &Look) -> Option<String> {
    if load.left == Mass::ZERO && load.right == Mass::ZERO {
        return None;
    }
    let mut text =
        format!("Side bags with what is in them: left {}, right {}.", look.show(load.left), look.show(load.right));
    if load.lean.abs() > TOLD_LEAN_KG_M {
        let heavier = if load.lean > 0.0 { "left" } else { "right" };
        let as_mass = look.show(Mass::from_base(load.lean.abs() / 0.3 * 1e6));
        text += &format!(" It pulls to the {heavier} like {as_mass} in one side bag: shift something if you can.");
    }
    Some(text)
}

/// In one bag, for one set and for several.
const IN_ONE_BAG: (&str, &str) = ("is in one bag", "are in one bag each");

/// How many sets are in one bag, and where the others are.
pub(crate) fn sets(load: &Loading) -> Option<String> {
    let SetsInBags { whole, of, split } = &load.sets;
    together((*whole, *of), IN_ONE_BAG, &parted(split.iter().map(|set| (&set.name, &set.bags))))
}

/// The same in a line, where the bags are listed above it.
pub(crate) fn sets_in_short(load: &Loading) -> Option<String> {
    let SetsInBags { whole, of, split } = &load.sets;
    let names: Vec<String> = split.iter().map(|set| set.name.clone()).collect();
    together((*whole, *of), IN_ONE_BAG, &list(&names))
}

/// Sets with where they are: `first aid (tank bag; tail roll), stove (...)`.
pub(crate) fn parted<'a>(split: impl Iterator<Item = (&'a String, &'a Vec<String>)>) -> String {
    split.map(|(name, places)| format!("{name} ({})", places.join("; "))).collect::<Vec<_>>().join(", ")
}

/// `12 of 14 sets are in one bag each; split: first aid`; `None`: there are no sets.
pub(crate) fn together((whole, of): (usize, usize), (one, several): (&str, &str), split: &str) -> Option<String> {
    let text = format!("{whole} of {} {}", counted_words(of, "set", "sets"), if whole == 1 { one } else { several });
    (of > 0).then(|| if split.is_empty() { text } else { format!("{text}; split: {split}") })
}

/// A loaded bike as a table with its remarks.
pub(crate) struct Load {
    pub title: String,
    pub rows: Rows,
    pub notes: Vec<String>,
}

/// What rests on the wheels without and with the kit, against what they may bear.
pub(crate) fn load(load: &Loading, look: &Look) -> Load {
    let scales = [Scale::Front, Scale::Rear, Scale::Gross];
    let carried = |label: String, wheels: Wheels| {
        let cells = scales.iter().map(|scale| weight(wheels.on(*scale), look));
        std::iter::once(label).chain(cells).chain([percent(wheels.front_share())]).collect::<Vec<_>>()
    };
    let limit = |scale: &Scale| load.limits.iter().find(|limit| limit.scale == *scale);
    let allowed = scales.iter().map(|scale| {
        limit(scale).map_or_else(String::new, |limit| {
            format!("{}: {}", setter(limit.setter), weight(limit.mass.kilograms(), look))
        })
    });
    let used = scales.iter().map(|scale| load.used(*scale).map_or_else(String::new, percent));
    let rows = vec![
        carried(format!("bike {} and people {}", look.show(load.bike), look.show(load.people)), load.ridden),
        carried(format!("with empty bags, {}", look.show(load.bags)), load.bagged),
        carried(format!("with the kit, {}", look.show(load.kit)), load.loaded),
        std::iter::once("allowed".to_owned()).chain(allowed).chain([String::new()]).collect(),
        std::iter::once("used".to_owned()).chain(used).chain([String::new()]).collect(),
    ];
    let head = ["", "#front wheel", "#rear wheel", "#together", "#on the front"];
    let notes = [Some(binding(load, look)), sides(load, look), sets(load).map(|text| text + ".")];
    Load {
        title: format!("Load on the wheels of the {}", load.bike_name),
        rows: Rows::new(&head, rows),
        notes: notes.into_iter().flatten().filter(|note| !note.is_empty()).collect(),
    }
}
