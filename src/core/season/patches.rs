//! What a job changes in the scenario that it names, so that one file serves many riders, bikes and limits.

use crate::diagnostic::{nearest, quoted};
use crate::domain::{Catalogue, Scenario};
use crate::load::chance;
use crate::units::{Currency, Hours, Mass, Money, Quantity as _, Volume};
use fardel_words::say;

/// Changes of a scenario; what is `None` stays.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Patches {
    /// Whom to pack for.
    pub rider: Option<String>,
    /// The bike of that rider, by key.
    pub bike: Option<String>,
    /// Mass of the kit, instead of the scenario's and of the rider's own.
    pub kit_mass: Option<Mass>,
    /// Volume of the kit.
    pub kit_volume: Option<Volume>,
    /// Money for what is not owned.
    pub budget: Option<(Money, Currency)>,
    /// Most that the chance of a stranding may be.
    pub stranded: Option<f64>,
    /// Hours to help of every leg.
    pub hours_to_help: Option<Hours>,
}

/// A scenario with its changes made.
#[derive(Debug, Clone, PartialEq)]
pub struct Patched {
    /// The scenario.
    pub scenario: Scenario,
    /// Whom to pack for, where that is settled: the position among its riders.
    pub rider: Option<usize>,
}

impl Patches {
    /// What they are called.
    pub const KEYS: [&str; 7] = [
        "rider",
        "bike",
        "limits.kit_mass",
        "limits.kit_volume",
        "limits.budget",
        "limits.stranded_at_most",
        "hours_to_help",
    ];

    /// Reads them from texts by key.
    ///
    /// # Errors
    /// Everything that cannot be read, in words.
    pub(super) fn read(text: &mut dyn FnMut(&str) -> Option<String>) -> Result<Self, Vec<String>> {
        let mut errors = Vec::new();
        let own = Self {
            rider: text("rider"),
            bike: text("bike"),
            kit_mass: one("limits.kit_mass", text, &mut errors, Mass::read),
            kit_volume: one("limits.kit_volume", text, &mut errors, Volume::read),
            budget: one("limits.budget", text, &mut errors, Money::read),
            stranded: one("limits.stranded_at_most", text, &mut errors, chance),
            hours_to_help: one("hours_to_help", text, &mut errors, Hours::read),
        };
        if errors.is_empty() { Ok(own) } else { Err(errors) }
    }

    /// The scenario with the changes.
    ///
    /// # Errors
    /// In words: a rider, bike or currency that is not there, a bag that the other bike has already, a bike for nobody.
    pub fn apply(&self, catalogue: &Catalogue, scenario: &Scenario) -> Result<Patched, Vec<String>> {
        let mut errors = Vec::new();
        let mut own = scenario.clone();
        let rider = self.find_rider(&own, &mut errors);
        self.change_bike(catalogue, &mut own, rider, &mut errors);
        if let Some(mass) = self.kit_mass {
            own.limits.kit_mass = Some(mass);
            own.riders.iter_mut().for_each(|rider| rider.kit_mass = None);
        }
        own.limits.kit_volume = self.kit_volume.or(own.limits.kit_volume);
        own.limits.stranded = self.stranded.or(own.limits.stranded);
        if let Some((money, currency)) = self.budget {
            own.limits.budget = Some(money);
            if currency != catalogue.currency {
                let wanted = catalogue.currency;
                errors.push(say!("`limits.budget`: {currency} is found, {wanted} is expected as in the catalogue"));
            }
        }
        if let Some(hours) = self.hours_to_help {
            own.trip.legs.iter_mut().for_each(|leg| leg.hours_to_help = hours);
        }
        if errors.is_empty() { Ok(Patched { scenario: own, rider }) } else { Err(errors) }
    }

    fn find_rider(&self, scenario: &Scenario, errors: &mut Vec<String>) -> Option<usize> {
        let Some(name) = &self.rider else { return (scenario.riders.len() == 1).then_some(0) };
        let found = scenario.riders.iter().position(|rider| rider.name == *name);
        if found.is_none() {
            let names = scenario.riders.iter().map(|rider| rider.name.as_str());
            errors.push(say!("`rider`: {}", not_there(name, names)));
        }
        found
    }

    fn change_bike(&self, catalogue: &Catalogue, own: &mut Scenario, rider: Option<usize>, errors: &mut Vec<String>) {
        let Some(id) = &self.bike else { return };
        let Some(bike) = catalogue.bikes.get(id) else {
            errors.push(say!("`bike`: {}", not_there(id, catalogue.bikes.keys().map(String::as_str))));
            return;
        };
        let Some(rider) = rider.and_then(|at| own.riders.get_mut(at)) else {
            if errors.is_empty() {
                errors.push(say!("`bike` is found without `rider`, and the scenario has several"));
            }
            return;
        };
        id.clone_into(&mut rider.bike);
        if let Some(bag) = rider.bags.iter().find(|bag| bike.bags.contains(bag)) {
            errors.push(say!("`bike`: {} has the rider's bag {} already", quoted(id), quoted(bag)));
        }
    }
}

fn one<T, E: std::fmt::Display>(
    key: &str,
    text: &mut dyn FnMut(&str) -> Option<String>,
    errors: &mut Vec<String>,
    read: fn(&str) -> Result<T, E>,
) -> Option<T> {
    match read(&text(key)?) {
        Ok(value) => Some(value),
        Err(error) => {
            errors.push(format!("`{key}`: {error}"));
            None
        }
    }
}

fn not_there<'a>(name: &str, known: impl Iterator<Item = &'a str> + Clone) -> String {
    let near =
        nearest(name, known.clone()).map_or_else(|| ".".to_owned(), |near| say!("; did you mean {}?", quoted(&near)));
    say!("{} is not there{near} There are {}", quoted(name), known.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::{Source, load_texts, shipped};

    fn loaded() -> crate::load::Loaded {
        let text = include_str!("../../../scenarios/day-ride.yaml").to_owned();
        let scenario = Source { name: "day-ride.yaml".to_owned(), text };
        load_texts(&shipped(), scenario, &|_| unreachable!("no other files")).unwrap()
    }

    #[test]
    fn limits_hours_and_bike_are_changed_and_nothing_else() {
        let own = loaded();
        let patches = Patches {
            bike: Some("single-450-tubed".to_owned()),
            kit_mass: Some(Mass::read("7 kg").unwrap()),
            hours_to_help: Some(Hours::new(11.0)),
            ..Patches::default()
        };
        let patched = patches.apply(&own.catalogue, &own.scenario).unwrap();
        let mut expected = own.scenario.clone();
        expected.riders[0].bike = "single-450-tubed".to_owned();
        expected.limits.kit_mass = Some(Mass::read("7 kg").unwrap());
        expected.trip.legs[0].hours_to_help = Hours::new(11.0);
        assert_eq!(patched, Patched { scenario: expected, rider: Some(0) });
        assert_eq!(Patches::default().apply(&own.catalogue, &own.scenario).unwrap().scenario, own.scenario);
    }

    #[test]
    fn what_is_not_there_is_told_with_what_is_near() {
        let own = loaded();
        let patches =
            Patches { rider: Some("Tvoe".to_owned()), bike: Some("single-450-tube".to_owned()), ..Patches::default() };
        let errors = patches.apply(&own.catalogue, &own.scenario).unwrap_err();
        assert_eq!(errors.len(), 2);
        assert!(errors[0].contains("did you mean `Tove`?"), "{errors:?}");
        assert!(errors[1].contains("did you mean `single-450-tubed`?"), "{errors:?}");
    }
}
