//! Trips of any shape on any bike of the shipped catalogue.

use fardel::domain::Catalogue;
use proptest::prelude::*;
use std::fmt::Write as _;

/// The fewest and the most riders of a group that is drawn.
const RIDERS: (usize, usize) = (2, 8);

#[derive(Debug, Clone)]
pub(super) struct Trip {
    style: &'static str,
    legs: Vec<Leg>,
    riders: Vec<Rider>,
    always: Vec<String>,
    never: Vec<String>,
    done: Vec<String>,
    kit_mass_kg: Option<f64>,
    budget: Option<u32>,
}

#[derive(Debug, Clone)]
struct Rider {
    bike: String,
    skills: (&'static str, &'static str),
    mass_kg: u32,
    passenger_kg: Option<u32>,
    bags: Vec<String>,
    owns: Vec<String>,
}

#[derive(Debug, Clone)]
struct Leg {
    /// Who rides it, in bits; the first one everybody rides.
    with: u16,
    days: u32,
    nights: u32,
    km: [u32; 4],
    hours_to_help: f64,
    lowest: i32,
    warmer: i32,
    water_every: f64,
    food_every: f64,
    fuel_every: u32,
}

/// Any trip of one rider with bikes, bags, items and preparations of the catalogue.
pub(super) fn trip(catalogue: &Catalogue) -> impl Strategy<Value = Trip> + use<> {
    trip_of(catalogue, 1, 1)
}

/// Any trip of a group, which may ride some legs apart.
pub(super) fn group(catalogue: &Catalogue) -> impl Strategy<Value = Trip> + use<> {
    trip_of(catalogue, RIDERS.0, RIDERS.1)
}

fn among(names: &[String], from: usize, to: usize) -> impl Strategy<Value = Vec<String>> + use<> {
    prop::sample::subsequence(names.to_vec(), from..=to)
}

fn trip_of(catalogue: &Catalogue, fewest: usize, most: usize) -> impl Strategy<Value = Trip> + use<> {
    let items: Vec<String> = catalogue.items.keys().cloned().collect();
    let named = (
        among(&items, 0, 3),
        among(&items, 0, 6),
        among(&catalogue.preparations.keys().cloned().collect::<Vec<_>>(), 0, 6),
    );
    let limits = (prop::option::weighted(0.7, 4.0..45.0), prop::option::weighted(0.5, 0..4000_u32));
    let style = prop::sample::select(vec!["none", "none", "roofed", "roofed", "camping"]);
    let riders = prop::collection::vec(rider(catalogue), fewest..=most);
    let legs = prop::collection::vec(leg(), 1..=5);
    (style, legs, riders, named, limits).prop_map(|(style, legs, riders, named, (kit_mass_kg, budget))| {
        let (always, never, done) = named;
        let never = never.into_iter().filter(|item| !always.contains(item)).collect();
        let kit_mass_kg = kit_mass_kg.map(|mass| (1..riders.len()).fold(mass, |sum, _| sum + mass));
        Trip { style, legs, riders, always, never, done, kit_mass_kg, budget }
    })
}

fn rider(catalogue: &Catalogue) -> impl Strategy<Value = Rider> + use<> {
    let riding = prop::sample::select(vec!["novice", "intermediate", "advanced", "expert"]);
    let repairing = prop::sample::select(vec!["anyone", "handy", "skilled", "expert"]);
    let bikes: Vec<String> = catalogue.bikes.keys().cloned().collect();
    // What is part of some bike is not named again.
    let part = |bag: &&String| catalogue.bikes.values().any(|bike| bike.bags.contains(bag));
    let bags: Vec<String> = catalogue.bags.keys().filter(|bag| !part(bag)).cloned().collect();
    let rider = (
        prop::sample::select(bikes),
        (riding, repairing),
        55..110_u32,
        prop::option::weighted(0.15, 50..90_u32),
        among(&bags, 3, 9),
        among(&catalogue.items.keys().cloned().collect::<Vec<_>>(), 0, 150),
    );
    rider.prop_map(|(bike, skills, mass_kg, passenger_kg, bags, owns)| Rider {
        bike,
        skills,
        mass_kg,
        passenger_kg,
        bags,
        owns,
    })
}

fn leg() -> impl Strategy<Value = Leg> {
    let km = [0..400_u32, 0..300, 0..200, 0..60];
    let hours = prop_oneof![6 => 1.0..48.0, 1 => Just(0.1), 1 => Just(300.0)];
    let often = (0.1..1.5, 0.2..4.0, 40..400_u32);
    let with = prop_oneof![3 => Just(u16::MAX), 2 => any::<u16>()];
    (1..=4_u32, 0..=4_u32, km, hours, -15..25, 0..20, often, with).prop_map(
        |(days, nights, km, hours_to_help, lowest, warmer, (water_every, food_every, fuel_every), with)| Leg {
            with,
            days,
            nights: nights.min(days),
            km,
            hours_to_help,
            lowest,
            warmer,
            water_every,
            food_every,
            fuel_every,
        },
    )
}

impl Trip {
    /// The scenario file.
    pub(super) fn text(&self) -> String {
        let list = |names: &[String]| names.join(", ");
        let named = |at: usize| format!("Rider {at}");
        let mut text = format!("name: random\ntrip:\n  style: {}\n  legs:\n", self.style);
        for (at, leg) in self.legs.iter().enumerate() {
            let nights = if self.style == "none" { 0 } else { leg.nights };
            let Leg { days, km: [sealed, gravel, track, rough], hours_to_help, lowest, .. } = leg;
            let _ = writeln!(
                text,
                "    - name: leg {at}\n      days: {days}\n      nights: {nights}\n      \
                 km: {{ sealed: {sealed}, gravel: {gravel}, track: {track}, rough: {rough} }}\n      \
                 hours_to_help: {hours_to_help} h\n      lowest: {lowest} °C\n      highest: {} °C\n      \
                 water_every: {} days\n      food_every: {} days\n      fuel_every: {} km",
                lowest + leg.warmer,
                leg.water_every,
                leg.food_every,
                leg.fuel_every,
            );
            let with: Vec<String> =
                (0..self.riders.len()).filter(|rider| leg.with >> rider & 1 == 1).map(named).collect();
            if at > 0 && !with.is_empty() && with.len() < self.riders.len() {
                let _ = writeln!(text, "      riders: [{}]", list(&with));
            }
        }
        text += "riders:\n";
        for (at, rider) in self.riders.iter().enumerate() {
            let Rider { bike, skills: (riding, repairing), mass_kg, passenger_kg, bags, owns } = rider;
            let _ = writeln!(
                text,
                "  - name: {}\n    bike: {bike}\n    riding_skill: {riding}\n    repair_skill: {repairing}\n    \
                 mass: {mass_kg} kg\n    bags: [{}]\n    owns: [{}]",
                named(at),
                list(bags),
                list(owns)
            );
            if let Some(mass) = passenger_kg {
                let _ = writeln!(text, "    passenger: {mass} kg");
            }
        }
        let mass = self.kit_mass_kg.map(|mass| format!("kit_mass: {mass} kg"));
        let budget = self.budget.map(|budget| format!("budget: {budget} USD"));
        let limits: Vec<String> = mass.into_iter().chain(budget).collect();
        let _ = writeln!(
            text,
            "limits: {{ {} }}\nalways: [{}]\nnever: [{}]\ndone: [{}]",
            limits.join(", "),
            list(&self.always),
            list(&self.never),
            list(&self.done)
        );
        text
    }
}
