//! One entry of the catalogue with everything that is known of it, as labelled facts and lists of other entries.

use super::rests::{rests_on, width};
use super::uses::{items_for, uses};
use super::{Sort, energy};
use crate::domain::{Applies, Bag, Bike, Catalogue, Failure, Item, Map, Preparation, Repair, template, tyre_load};
use crate::uncertain::widths::{Quantity, within};
use crate::units::{Length, Mass, Pressure, Show, UnitSystem};
use schemars::JsonSchema;
use serde::Serialize;

/// An entry as it is shown.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Entry {
    /// What sort of entry.
    pub sort: Sort,
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What is known of it.
    pub facts: Vec<Fact>,
    /// Other entries that it has to do with.
    pub lists: Vec<References>,
    /// Where the numbers come from.
    pub basis: String,
}

/// A fact; `value` is in the unit at the end of the key, where the fact is a number.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fact {
    /// For machines.
    pub key: String,
    /// For people.
    pub label: String,
    /// As a number.
    pub value: Option<f64>,
    /// As text, with its unit.
    pub text: String,
}

/// Entries that belong together.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct References {
    /// What they are.
    pub title: String,
    /// The entries.
    pub entries: Vec<Reference>,
}

/// Another entry, or something that has no page of its own.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Reference {
    /// Its id, if it can be shown.
    pub id: Option<String>,
    /// In words.
    pub text: String,
}

/// The entry with this id, or with this name; a repair is `failure/repair`.
#[must_use]
pub fn show(catalogue: &Catalogue, id: &str, units: UnitSystem) -> Option<Entry> {
    let page = Page { catalogue, units };
    let id = id.trim();
    if let Some((failure, repair)) = id.split_once('/') {
        let failure = catalogue.failures.get(failure)?;
        return failure.repairs.iter().find(|own| own.id == repair).map(|repair| page.repair(failure, repair));
    }
    let named = |name: &str| name.to_lowercase() == id.to_lowercase();
    let item = catalogue.items.get(id).or_else(|| catalogue.items.values().find(|own| named(&own.name)));
    let failure = || catalogue.failures.get(id).or_else(|| catalogue.failures.values().find(|own| named(&own.name)));
    let bike = || catalogue.bikes.get(id).or_else(|| catalogue.bikes.values().find(|own| named(&own.name)));
    let bag = || catalogue.bags.get(id).or_else(|| catalogue.bags.values().find(|own| named(&own.name)));
    let preparation =
        || catalogue.preparations.get(id).or_else(|| catalogue.preparations.values().find(|own| named(&own.name)));
    item.map(|item| page.item(item))
        .or_else(|| failure().map(|failure| page.failure(failure)))
        .or_else(|| bike().map(|bike| page.bike(bike)))
        .or_else(|| bag().map(|bag| page.bag(bag)))
        .or_else(|| preparation().map(|preparation| page.preparation(preparation)))
}

struct Page<'a> {
    catalogue: &'a Catalogue,
    units: UnitSystem,
}

impl Page<'_> {
    fn quantity(&self, key: &str, label: &str, value: f64, quantity: &impl Show) -> Fact {
        Fact { key: key.to_owned(), label: label.to_owned(), value: Some(value), text: quantity.show(self.units) }
    }

    /// Between what the mass lies nine times in ten, by what it rests on.
    fn likely(&self, item: &Item) -> Fact {
        let factor = within(Quantity::Mass, item.basis.kind);
        let at = |grams: f64| <Mass as crate::units::Quantity>::from_base(grams * 1000.0).show(self.units);
        let (low, high) = (item.mass.grams() / factor, item.mass.grams() * factor);
        word("mass_likely", "likely between", &format!("{} and {}", at(low.round()), at(high.round())))
    }

    fn item(&self, item: &Item) -> Entry {
        let mut facts = vec![
            word("kind", "kind", item.kind.word()),
            self.quantity("mass_g", "mass of one", item.mass.grams(), &item.mass),
            self.likely(item),
            self.quantity("volume_ml", "packed volume", item.volume.millilitres(), &item.volume),
            self.quantity("longest_mm", "longest side", item.longest.millimetres(), &item.longest),
            self.price(item.price),
            number("at_most", "most that make sense on one bike", f64::from(item.at_most)),
        ];
        let marks = [
            (item.quick, "wants to be at hand"),
            (item.dry, "wants to stay dry"),
            (item.personal, "personal, not shared in a group"),
            (item.on_request, "packed only when asked for by name"),
        ];
        let marks: Vec<&str> = marks.into_iter().filter_map(|(is, text)| is.then_some(text)).collect();
        if !marks.is_empty() {
            facts.push(word("marks", "also", &marks.join("; ")));
        }
        if !item.apart_from.is_empty() {
            let kinds: Vec<&str> = item.apart_from.iter().map(|kind| kind.word()).collect();
            facts.push(word("apart_from", "not in one bag with", &kinds.join(", ")));
        }
        let repairs = uses(self.catalogue).swap_remove(&item.id).unwrap_or_default();
        let repairs = repairs.iter().map(|own| Reference {
            id: Some(format!("{}/{}", own.failure.id, own.repair.id)),
            text: format!("{}: {}", own.failure.name, own.repair.name),
        });
        let bikes = self.catalogue.bikes.values().filter(|bike| bike.toolkit.contains_key(&item.id));
        let lists = vec![
            self.functions("What it lets you do", &item.provides),
            self.stocks("What it holds", &item.holds),
            list("Needs of the trip that it meets", item.meets.iter().map(|(need, met)| self.met(need, met.amount))),
            self.functions("Useless without", &item.requires),
            list("Repairs that it takes part in", repairs),
            list("In the toolkit of", bikes.map(|bike| entry(&bike.id, &bike.name))),
        ];
        whole(Sort::Item, &item.id, &item.name, facts, lists, item.basis.to_string())
    }

    fn failure(&self, failure: &Failure) -> Entry {
        let system =
            self.catalogue.systems.get(&failure.system).map_or(failure.system.as_str(), |own| own.name.as_str());
        let mut facts =
            vec![word("system", "part of the bike", system), word("outcome", "if nothing is done", &outcome(failure))];
        let rate = &failure.rate;
        for (surface, value) in rate.per_1000_km.iter() {
            let surface = surface.word();
            facts.push(rounded(&format!("per_1000_km_{surface}"), &format!("times in 1000 km, {surface}"), value));
        }
        facts.push(rounded("per_day", "times a day", rate.per_day));
        facts.push(rounded("per_fall", "times a fall", rate.per_fall));
        facts.push(rounded("worth_events", "events that the rate is worth", rate.worth_events));
        facts.extend(self.applies(&failure.applies));
        let repairs = failure.repairs.iter().map(|repair| Reference {
            id: Some(format!("{}/{}", failure.id, repair.id)),
            text: format!("{}, {}, {}", repair.name, repair.grade.word(), repair.time.show(self.units)),
        });
        let preparations = self.catalogue.preparations.values();
        let lowering = preparations.filter_map(|own| {
            let factor = own.effects.get(&failure.id)?;
            Some(Reference { id: Some(own.id.clone()), text: format!("{}, times {}", own.name, significant(*factor)) })
        });
        facts.extend(width(failure));
        let rests = rests_on(self.catalogue, failure);
        let lists = vec![list("Repairs", repairs), list("What makes it rarer", lowering), rests];
        whole(Sort::Failure, &failure.id, &failure.name, facts, lists, rate.basis.to_string())
    }

    fn repair(&self, failure: &Failure, repair: &Repair) -> Entry {
        let facts = vec![
            word("failure", "deals with", &failure.name),
            word("grade", "grade", repair.grade.word()),
            self.quantity("time_h", "working time", repair.time.get(), &repair.time),
            Fact {
                value: Some(repair.restores),
                text: format!("{:.0} %", repair.restores * 100.0),
                ..word("restores", "restores", "")
            },
            word("skill", "least skill", repair.skill.word()),
            number("riders", "riders who have to be there", f64::from(repair.riders)),
        ];
        let bikes: Vec<&Bike> = self.catalogue.bikes.values().filter(|bike| bike.matches(&failure.applies)).collect();
        let items = items_for(self.catalogue, repair, &bikes);
        let items =
            items.into_iter().filter_map(|id| self.catalogue.items.get(id)).map(|own| entry(&own.id, &own.name));
        let lists = vec![
            self.functions("What has to be possible", &repair.needs),
            self.stocks("What is used up", &repair.uses),
            list("Items that serve it, on one bike or another", items),
            list("Steps", repair.steps.iter().map(|step| plain(step))),
            list("Look at afterwards", repair.check_after.iter().map(|step| plain(step))),
        ];
        let id = format!("{}/{}", failure.id, repair.id);
        whole(Sort::Repair, &id, &repair.name, facts, lists, repair.basis.to_string())
    }

    fn bike(&self, bike: &Bike) -> Entry {
        let mut facts = vec![
            self.quantity("mass_kg", "mass, ready to ride", bike.mass.kilograms(), &bike.mass),
            self.quantity("max_mass_kg", "permissible mass, all included", bike.max_mass.kilograms(), &bike.max_mass),
            Fact {
                value: Some(bike.front_share),
                text: format!("{:.0} %", bike.front_share * 100.0),
                ..word("front_share", "of its own mass on the front wheel", "")
            },
            self.quantity("wheelbase_mm", "wheelbase", bike.wheelbase.millimetres(), &bike.wheelbase),
        ];
        for (key, label, limit) in [
            ("front_axle_limit_kg", "front axle limit", bike.front_axle_limit),
            ("rear_axle_limit_kg", "rear axle limit", bike.rear_axle_limit),
        ] {
            facts.extend(limit.map(|limit| self.quantity(key, label, limit.kilograms(), &limit)));
        }
        for (key, label, index) in [
            ("front_load_index", "front tyre load index", bike.front_load_index),
            ("rear_load_index", "rear tyre load index", bike.rear_load_index),
        ] {
            let load = tyre_load(index).map_or_else(String::new, |load| format!(", {}", load.show(self.units)));
            facts.push(Fact { value: Some(f64::from(index)), text: format!("{index}{load}"), ..word(key, label, "") });
        }
        let pressure = |key, label, own: Pressure| self.quantity(key, label, own.kilopascals(), &own);
        facts.extend(bike.front_pressure.map(|own| pressure("front_pressure_kpa", "front tyre, cold, loaded", own)));
        facts.extend(bike.rear_pressure.map(|own| pressure("rear_pressure_kpa", "rear tyre, cold, loaded", own)));
        let travel = |key, label, own: Length| self.quantity(key, label, own.millimetres(), &own);
        facts.extend(bike.front_travel.map(|own| travel("front_travel_mm", "travel of the front wheel", own)));
        facts.extend(bike.rear_travel.map(|own| travel("rear_travel_mm", "travel of the rear wheel", own)));
        facts.extend(energy::facts(&bike.energy, self.units));
        for (name, value) in &bike.attributes {
            let label = self.catalogue.attributes.get(name).map_or(name.as_str(), |own| own.name.as_str());
            facts.push(word(&format!("attribute_{name}"), label, value));
        }
        let toolkit = bike.toolkit.iter().filter_map(|(id, count)| {
            let item = self.catalogue.items.get(id)?;
            Some(Reference { id: Some(id.clone()), text: format!("{count} {}", item.name) })
        });
        let bags = bike.bags.iter().filter_map(|id| self.catalogue.bags.get(id)).map(|bag| entry(&bag.id, &bag.name));
        let fitted = bike
            .fitted
            .iter()
            .filter_map(|id| self.catalogue.preparations.get(id))
            .map(|own| entry(&own.id, &own.name));
        let lists =
            vec![list("Toolkit", toolkit), list("Bags that are part of it", bags), list("Fitted as sold", fitted)];
        whole(Sort::Bike, &bike.id, &bike.name, facts, lists, bike.basis.to_string())
    }

    fn bag(&self, bag: &Bag) -> Entry {
        let usable = bag.usable();
        let mut facts = vec![
            self.quantity("volume_l", "volume", bag.volume.litres(), &bag.volume),
            self.quantity("usable_l", "of that, filled by odd-shaped things", usable.litres(), &usable),
            self.quantity("mass_g", "mass, empty", bag.mass.grams(), &bag.mass),
            self.quantity("max_load_kg", "load that it bears", bag.max_load.kilograms(), &bag.max_load),
            self.quantity("longest_mm", "longest thing that fits", bag.longest.millimetres(), &bag.longest),
            word("access", "reached", if bag.quick { "without unpacking" } else { "by unpacking" }),
            word("weather", "keeps rain out", if bag.weatherproof { "yes" } else { "no" }),
            word("side", "side", bag.side.word()),
            self.price(bag.price),
        ];
        if !bag.refuses.is_empty() {
            let kinds: Vec<&str> = bag.refuses.iter().map(|kind| kind.word()).collect();
            facts.push(word("refuses", "not for", &kinds.join(", ")));
        }
        whole(Sort::Bag, &bag.id, &bag.name, facts, Vec::new(), bag.basis.to_string())
    }

    fn preparation(&self, own: &Preparation) -> Entry {
        let mut facts = vec![
            word("kind", "sort", own.kind.word()),
            self.price(own.price),
            self.quantity("mass_g", "mass that it adds", own.mass.grams(), &own.mass),
            self.quantity("time_h", "work at home", own.time.get(), &own.time),
        ];
        facts.extend(self.applies(&own.applies));
        let effects = own.effects.iter().filter_map(|(id, factor)| {
            let failure = self.catalogue.failures.get(id)?;
            Some(Reference { id: Some(id.clone()), text: format!("{}, times {}", failure.name, significant(*factor)) })
        });
        let lists = vec![list("What it makes rarer", effects)];
        whole(Sort::Preparation, &own.id, &own.name, facts, lists, own.basis.to_string())
    }

    fn price(&self, price: crate::units::Money) -> Fact {
        let text = price_text(price, self.catalogue.currency);
        Fact { value: Some(price.units()), text, ..word("price", "price", "") }
    }

    fn applies(&self, applies: &Applies) -> Option<Fact> {
        let one = |(name, values): (&String, &Vec<String>)| {
            let label = self.catalogue.attributes.get(name).map_or(name.as_str(), |own| own.name.as_str());
            format!("{label}: {}", values.join(" or "))
        };
        let all: Vec<String> = applies.iter().map(one).collect();
        (!all.is_empty()).then(|| word("applies", "bikes with", &all.join("; ")))
    }

    fn met(&self, need: &str, amount: f64) -> Reference {
        let known = self.catalogue.needs.get(need);
        let (name, unit) = known.map_or((need, ""), |own| (own.name.as_str(), own.unit.as_str()));
        plain(format!("{name}: {} {unit}", significant(amount)).trim())
    }

    fn functions(&self, title: &str, names: &Map<u32>) -> References {
        let text = |(name, count): (&String, &u32)| {
            let named = self.catalogue.functions.get(name).map_or_else(|| self.open(name), |own| own.name.clone());
            plain(&if *count > 1 { format!("{named} ({count} at a time)") } else { named })
        };
        list(title, names.iter().map(text))
    }

    fn stocks(&self, title: &str, names: &Map<u32>) -> References {
        let text = |(name, units): (&String, &u32)| {
            let known = self.catalogue.stocks.get(name);
            let named = known.map_or_else(|| self.open(name), |own| own.name.clone());
            plain(&format!("{units} of: {named}"))
        };
        list(title, names.iter().map(text))
    }

    /// `{rear_axle}` in words.
    fn open(&self, name: &str) -> String {
        let holes = template::holes(name).unwrap_or_default();
        let mut text = name.to_owned();
        for hole in holes {
            let label = self.catalogue.attributes.get(hole).map_or(hole, |own| own.name.as_str());
            text = text.replace(&format!("{{{hole}}}"), &format!("({label})"));
        }
        text
    }
}

fn outcome(failure: &Failure) -> String {
    match failure.outcome {
        crate::domain::Outcome::Stops => "the bike stops: all the hours to help are lost".to_owned(),
        crate::domain::Outcome::Limps(share) => {
            format!("it limps: {:.0} % of the hours to help are lost", share * 100.0)
        }
        crate::domain::Outcome::Nags(hours) => format!("a nuisance: {} lost", hours.show(UnitSystem::Metric)),
    }
}

fn word(key: &str, label: &str, text: &str) -> Fact {
    Fact { key: key.to_owned(), label: label.to_owned(), value: None, text: text.to_owned() }
}

fn number(key: &str, label: &str, value: f64) -> Fact {
    Fact { key: key.to_owned(), label: label.to_owned(), value: Some(value), text: format!("{value}") }
}

fn rounded(key: &str, label: &str, value: f64) -> Fact {
    Fact { text: significant(value), ..number(key, label, value) }
}

fn price_text(price: crate::units::Money, currency: crate::units::Currency) -> String {
    format!("{:.2} {currency}", price.units())
}

/// Three figures that count.
fn significant(value: f64) -> String {
    format!("{}", crate::evidence::rounded(value))
}

fn entry(id: &str, name: &str) -> Reference {
    Reference { id: Some(id.to_owned()), text: name.to_owned() }
}

fn plain(text: &str) -> Reference {
    Reference { id: None, text: text.to_owned() }
}

fn list(title: &str, entries: impl Iterator<Item = Reference>) -> References {
    References { title: title.to_owned(), entries: entries.collect() }
}

fn whole(sort: Sort, id: &str, name: &str, facts: Vec<Fact>, mut lists: Vec<References>, basis: String) -> Entry {
    lists.retain(|list| !list.entries.is_empty());
    Entry { sort, id: id.to_owned(), name: name.to_owned(), facts, lists, basis }
}
