//! What many answers come to together. Memory grows with the things, bikes and routes there are, not with the jobs.

use super::rows::{Answer, Figures, Pack, Result, Risk, Study};
use fardel_words::say;
use serde::Serialize;
use std::collections::BTreeMap;

/// Tables by name, in the order of names.
type By<T> = BTreeMap<String, T>;

/// A season so far.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Season {
    /// Jobs by how they ended.
    pub jobs: By<u64>,
    /// Kits that were looked at.
    pub kits: u64,
    /// Mass of all kits, g.
    pub mass_g: f64,
    /// Of all prices.
    pub currency: String,
    /// What is bought.
    pub bought: By<Bought>,
    /// Spares, by id.
    pub spares: By<Spare>,
    /// Bikes, then routes on them.
    pub coverage: By<By<Coverage>>,
    /// What nobody carries and would help, by what it takes.
    pub vehicle: By<Vehicle>,
    /// Numbers that are worth knowing better.
    pub numbers: Numbers,
}

/// A thing that is bought.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Bought {
    /// Kits that want it.
    pub kits: u64,
    /// How many in all.
    pub units: u64,
    /// What they cost.
    pub money: f64,
}

/// A spare that is carried.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Spare {
    /// As a rider would say it.
    pub name: String,
    /// Kits that have it.
    pub kits: u64,
    /// How many in all.
    pub units: u64,
    /// Expected hours lost more without it, over all kits.
    pub hours: f64,
    /// Kits by bike.
    pub bikes: By<u64>,
    /// Kits by route.
    pub routes: By<u64>,
}

/// How well kits cover what can happen.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Coverage {
    /// How many kits.
    pub kits: u64,
    /// Expected hours lost with nothing aboard.
    pub hours_empty: f64,
    /// With the kits.
    pub hours_left: f64,
    /// Sum of the chances of getting home.
    pub home: f64,
}

/// Things that would help if somebody brought them.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Vehicle {
    /// Kits that lack them.
    pub kits: u64,
    /// Expected occurrences of what they would mend.
    pub occurrences: f64,
    /// Expected hours still lost to that: the most that they can save.
    pub hours: f64,
    /// What they weigh.
    pub mass_g: f64,
    /// What they mend, with the hours still lost to each.
    pub mends: By<f64>,
}

/// What studies say, added up.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Numbers {
    /// Trips that were studied.
    pub trips: u64,
    /// Hours that knowing everything uncertain would save.
    pub all_rates: f64,
    /// Rates by failure: name, trips on which it matters, hours that knowing it would save.
    pub rates: By<(String, u64, f64)>,
    /// Other numbers and factors: hours lost by having packed for another.
    pub turned: By<f64>,
}

impl Coverage {
    /// Share of the hours that the kits save.
    #[must_use]
    pub fn share(&self) -> f64 {
        if self.hours_empty > 0.0 { 1.0 - self.hours_left / self.hours_empty } else { 0.0 }
    }

    /// Mean chance of getting home.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "a count of kits")]
    pub fn mean_home(&self) -> f64 {
        self.home / self.kits.max(1) as f64
    }

    /// Both together.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self {
            kits: self.kits + other.kits,
            hours_empty: self.hours_empty + other.hours_empty,
            hours_left: self.hours_left + other.hours_left,
            home: self.home + other.home,
        }
    }
}

impl Season {
    /// Takes in a result.
    pub fn add(&mut self, result: &Result) {
        *self.jobs.entry(result.status.clone()).or_default() += 1;
        match &result.answer {
            Some(Answer::Pack(pack)) if result.status == "answered" => self.add_kit(pack),
            Some(Answer::Study(study)) => self.numbers.add(study),
            _ => {}
        }
    }

    fn add_kit(&mut self, pack: &Pack) {
        self.kits += 1;
        if let Some(totals) = &pack.totals {
            self.mass_g += totals.mass_g;
            self.currency.clone_from(&totals.currency);
        }
        for purchase in &pack.purchases {
            let own = self.bought.entry(purchase.name.clone()).or_default();
            own.kits += 1;
            own.units += u64::from(purchase.count);
            own.money += purchase.price;
        }
        self.add_spares(pack);
        if let Some(figures) = &pack.figures {
            let own = self.coverage.entry(pack.bike.clone()).or_default().entry(pack.scenario.clone()).or_default();
            *own = own.with(coverage(figures));
        }
        pack.risks.iter().for_each(|risk| self.add_open(risk));
    }

    /// A spare may lie in several bags; what it is worth stands with each of them.
    fn add_spares(&mut self, pack: &Pack) {
        let mut seen = std::collections::BTreeSet::new();
        for item in pack.bags.iter().flat_map(|bag| &bag.items).filter(|item| item.kind == "spare") {
            let own = self.spares.entry(item.id.clone()).or_default();
            own.units += u64::from(item.count);
            if seen.insert(&item.id) {
                own.name.clone_from(&item.name);
                own.kits += 1;
                own.hours += item.hours_lost_without;
                *own.bikes.entry(pack.bike.clone()).or_default() += 1;
                *own.routes.entry(pack.scenario.clone()).or_default() += 1;
            }
        }
    }

    fn add_open(&mut self, risk: &Risk) {
        let Some(remedy) = &risk.remedy else { return };
        let thing = |count: u32, name: &str| if count == 1 { name.to_owned() } else { format!("{count} {name}") };
        let mut things: Vec<String> = remedy.items.iter().map(|extra| thing(extra.count, &extra.name)).collect();
        things.sort();
        let own = self.vehicle.entry(things.join(", ")).or_default();
        own.kits += 1;
        own.occurrences += risk.expected_occurrences;
        own.hours += risk.hours_lost_with_kit;
        own.mass_g = own.mass_g.max(remedy.mass_g);
        *own.mends.entry(risk.name.clone()).or_default() += risk.hours_lost_with_kit;
    }

    /// Coverage by bike.
    #[must_use]
    pub fn by_bike(&self) -> By<Coverage> {
        let whole = |routes: &By<Coverage>| routes.values().fold(Coverage::default(), |sum, own| sum.with(*own));
        self.coverage.iter().map(|(bike, routes)| (bike.clone(), whole(routes))).collect()
    }

    /// Coverage by route.
    #[must_use]
    pub fn by_route(&self) -> By<Coverage> {
        let mut all = By::new();
        for (route, own) in self.coverage.values().flatten() {
            let sum: &mut Coverage = all.entry(route.clone()).or_default();
            *sum = sum.with(*own);
        }
        all
    }
}

impl Numbers {
    fn add(&mut self, study: &Study) {
        self.trips += 1;
        self.all_rates += study.all_rates_h;
        for rate in &study.rates {
            let own = self.rates.entry(rate.id.clone()).or_default();
            own.0.clone_from(&rate.name);
            own.1 += 1;
            own.2 += rate.hours;
        }
        for turned in &study.turned {
            *self.turned.entry(say!("{} times {}", turned.what, turned.factor)).or_default() += turned.hours;
        }
    }
}

fn coverage(figures: &Figures) -> Coverage {
    Coverage {
        kits: 1,
        hours_empty: figures.hours_lost_empty,
        hours_left: figures.hours_lost_with_kit,
        home: figures.self_recovery.as_ref().map_or(figures.self_recovery_at_least, |own| own.mean),
    }
}

/// The entries with the most of something, the most first; equals by name.
#[must_use]
pub fn most<T>(table: &By<T>, of: impl Fn(&T) -> f64) -> Vec<(&str, &T)> {
    let mut rows: Vec<(&str, &T)> = table.iter().map(|(name, own)| (name.as_str(), own)).collect();
    rows.sort_by(|a, b| of(b.1).total_cmp(&of(a.1)));
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn kit(bike: &str, left: f64) -> String {
        json!({"id": "x", "status": "answered", "errors": [], "answer": {"command": "pack", "scenario": "loop", "bike": bike,
            "totals": {"mass_g": 5000.0, "currency": "USD"},
            "figures": {"hours_lost_empty": 4.0, "hours_lost_with_kit": left, "self_recovery": null, "self_recovery_at_least": 0.9},
            "bags": [{"items": [{"id": "tube", "name": "tube", "kind": "spare", "count": 1, "hours_lost_without": 0.5}]},
                     {"items": [{"id": "tube", "name": "tube", "kind": "spare", "count": 2, "hours_lost_without": 0.5},
                                {"id": "pump", "name": "pump", "kind": "tool", "count": 1, "hours_lost_without": 0.5}]}],
            "purchases": [{"name": "tube", "count": 2, "price": 16.0}],
            "risks": [{"name": "chain snapped", "expected_occurrences": 0.01, "hours_lost_with_kit": left,
                       "remedy": {"items": [{"name": "chain tool", "count": 1}, {"name": "chain link", "count": 2}], "mass_g": 300.0}}]}})
        .to_string()
    }

    #[test]
    fn kits_add_up_by_thing_bike_and_route() {
        let mut season = Season::default();
        for line in [
            kit("single", 1.0),
            kit("single", 2.0),
            kit("twin", 1.0),
            r#"{"id":"y","status":"no_kit","answer":null}"#.to_owned(),
        ] {
            season.add(&Result::read(&line).unwrap());
        }
        assert_eq!((season.kits, season.jobs["answered"], season.jobs["no_kit"]), (3, 3, 1));
        assert_eq!(season.bought["tube"], Bought { kits: 3, units: 6, money: 48.0 });
        let tube = &season.spares["tube"];
        assert_eq!((tube.kits, tube.units, tube.hours, tube.bikes["single"]), (3, 9, 1.5, 2));
        assert!(!season.spares.contains_key("pump"));
        assert!((season.by_bike()["single"].share() - 5.0 / 8.0).abs() < 1e-12);
        assert!((season.by_route()["loop"].mean_home() - 0.9).abs() < 1e-12);
        let (things, lacking) = most(&season.vehicle, |own| own.hours)[0];
        assert_eq!((things, lacking.kits, lacking.hours), ("2 chain link, chain tool", 3, 4.0));
    }

    #[test]
    fn lines_of_other_commands_count_and_nonsense_is_told() {
        let mut season = Season::default();
        season.add(&Result::read(r#"{"id":"s","status":"answered","answer":{"command":"split","totals":3}}"#).unwrap());
        assert_eq!((season.kits, season.jobs["answered"]), (0, 1));
        assert!(Result::read("{\"id\": 3").unwrap_err().contains("column"));
    }
}
