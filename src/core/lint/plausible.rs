//! Numbers that can be read but hardly believed. Bounds are wide: they catch a slipped unit or decimal point, no more.

use super::{Doubt, Lint};
use crate::domain::{Catalogue, Energy, Item, Kind, Scenario, Surface};
use fardel_words::{say, word};
use std::ops::RangeInclusive;

/// Plausible kilograms per litre as packed, by kind (common practice, no source): solid steel, 7.85 kg/L, on top for
/// tools and spares; cloth and down from air to wet cloth; what is mostly water, oil or food about 1 kg/L.
const fn densities_of(kind: Kind) -> RangeInclusive<f64> {
    match kind {
        Kind::Tool | Kind::Spare => 0.1..=7.85,
        Kind::Shelter | Kind::Sleep | Kind::Clothing => 0.04..=0.9,
        Kind::Food | Kind::Water | Kind::Fuel => 0.1..=1.5,
        Kind::Consumable | Kind::Electronics => 0.1..=3.0,
        Kind::Cooking => 0.08..=2.5,
        Kind::FirstAid | Kind::Papers | Kind::Hygiene | Kind::Comfort => 0.08..=2.0,
    }
}

/// Densities.
pub(super) fn densities(catalogue: &Catalogue) -> Vec<Doubt> {
    let odd = |item: &&Item| {
        let bounds = densities_of(item.kind);
        let density = item.mass.kilograms() / item.volume.litres();
        !bounds.contains(&density)
    };
    let told = catalogue.items.values().filter(odd).map(|item| {
        let bounds = densities_of(item.kind);
        let density = item.mass.kilograms() / item.volume.litres();
        let (least, most) = (bounds.start(), bounds.end());
        let what = say!("{density:.2} kg/L, where {least} to {most} is usual for the kind {}", item.kind.word());
        Doubt { lint: Lint::OddDensity, section: "items", id: item.id.clone(), what }
    });
    told.collect()
}

/// Collects numbers outside their bounds.
struct Bounds {
    doubts: Vec<Doubt>,
}

impl Bounds {
    fn ask(&mut self, at: (&'static str, &str), what: &str, value: f64, bounds: RangeInclusive<f64>, unit: &str) {
        if bounds.contains(&value) {
            return;
        }
        let (least, most) = (bounds.start(), bounds.end());
        let what = say!("{what} {value} {unit}, where {least} to {most} {unit} is usual");
        self.doubts.push(Doubt { lint: Lint::OddNumber, section: at.0, id: at.1.to_owned(), what });
    }
}

/// Numbers of a catalogue. All bounds: common practice, no source.
pub(super) fn catalogue(catalogue: &Catalogue) -> Vec<Doubt> {
    let mut bounds = Bounds { doubts: Vec::new() };
    for (id, item) in &catalogue.items {
        thing(&mut bounds, id, item);
    }
    for (id, bag) in &catalogue.bags {
        let at = ("bags", id.as_str());
        bounds.ask(at, "volume", bag.volume.litres(), 0.2..=120.0, "L");
        bounds.ask(at, word!("empty mass"), bag.mass.kilograms(), 0.0..=15.0, "kg");
        bounds.ask(at, "max_load", bag.max_load.kilograms(), 0.3..=40.0, "kg");
    }
    for (id, bike) in &catalogue.bikes {
        let at = ("bikes", id.as_str());
        bounds.ask(at, "mass", bike.mass.kilograms(), 60.0..=450.0, "kg");
        bounds.ask(at, word!("load (max_mass - mass)"), (bike.max_mass - bike.mass).kilograms(), 80.0..=300.0, "kg");
        bounds.ask(at, "wheelbase", bike.wheelbase.millimetres(), 1100.0..=1900.0, "mm");
        energy(&mut bounds, at, &bike.energy);
    }
    for (id, failure) in &catalogue.failures {
        let at = ("failures", id.as_str());
        for (surface, rate) in failure.rate.per_1000_km.iter() {
            bounds.ask(at, surface.word(), rate, 0.0..=20.0, word!("times in 1000 km"));
        }
        bounds.ask(at, "per_day", failure.rate.per_day, 0.0..=2.0, word!("times a day"));
        bounds.ask(at, "per_fall", failure.rate.per_fall, 0.0..=1.0, word!("times a fall"));
        for repair in &failure.repairs {
            bounds.ask(at, &say!("time of `{}`", repair.id), repair.time.get(), 0.0..=12.0, "h");
        }
    }
    bounds.doubts
}

fn energy(bounds: &mut Bounds, at: (&'static str, &str), energy: &Energy) {
    match energy {
        Energy::Fuel { tank, consumption } => {
            bounds.ask(at, "tank", tank.litres(), 2.0..=45.0, "L");
            for (_, used) in consumption.iter() {
                bounds.ask(at, "consumption", used.litres(), 1.5..=20.0, word!("L for 100 km"));
            }
        }
        Energy::Battery { range } => {
            for (surface, far) in range.iter() {
                bounds.ask(at, &say!("range, {}", surface.word()), far.km(), 20.0..=400.0, "km");
            }
        }
    }
}

fn thing(bounds: &mut Bounds, id: &str, item: &Item) {
    let at = ("items", id);
    bounds.ask(at, "mass", item.mass.grams(), 1.0..=25_000.0, "g");
    bounds.ask(at, "volume", item.volume.millilitres(), 1.0..=60_000.0, "mL");
    bounds.ask(at, "longest", item.longest.millimetres(), 5.0..=1500.0, "mm");
    bounds.ask(at, "price", item.price.units(), 0.0..=5000.0, word!("in money"));
    // A box of this longest side holds at most its cube.
    let most = (item.longest.millimetres() / 10.0).powi(3);
    if item.volume.millilitres() > most * 1.001 {
        let what = say!(
            "{} mL do not go into a thing whose longest side is {} mm",
            item.volume.millilitres(),
            item.longest.millimetres()
        );
        bounds.doubts.push(Doubt { lint: Lint::OddNumber, section: "items", id: id.to_owned(), what });
    }
}

/// Numbers of a scenario. All bounds: common practice, no source.
pub(super) fn scenario(scenario: &Scenario) -> Vec<Doubt> {
    let mut bounds = Bounds { doubts: Vec::new() };
    for (index, leg) in scenario.trip.legs.iter().enumerate() {
        let id = format!("legs[{}]", index + 1);
        let at = ("trip", id.as_str());
        let km: f64 = Surface::ALL.iter().map(|surface| leg.km.on(*surface).km()).sum();
        bounds.ask(at, "distance", km / leg.days.max(0.5), 0.0..=1200.0, word!("km a day"));
        bounds.ask(at, "days", leg.days, 0.0..=60.0, "days");
        bounds.ask(at, "nights", f64::from(leg.nights), 0.0..=leg.days.ceil() + 1.0, word!("nights for its days"));
        bounds.ask(at, "hours_to_help", leg.hours_to_help.get(), 0.5..=240.0, "h");
        bounds.ask(at, "lowest", leg.lowest.celsius(), -40.0..=35.0, "°C");
        bounds.ask(at, "highest", leg.highest.celsius(), -20.0..=55.0, "°C");
        bounds.ask(at, "water_every", leg.water_every.get(), 0.5..=120.0, "h");
    }
    for (index, rider) in scenario.riders.iter().enumerate() {
        let id = format!("riders[{}]", index + 1);
        bounds.ask(("riders", &id), "mass", rider.mass.kilograms(), 35.0..=220.0, "kg");
    }
    if let Some(most) = scenario.limits.kit_mass {
        bounds.ask(("limits", "kit_mass"), "kit_mass", most.kilograms(), 1.0..=150.0, "kg");
    }
    bounds.doubts
}
