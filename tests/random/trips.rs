//! Trips of any shape on any bike of the shipped catalogue.

use fardel::domain::Catalogue;
use proptest::prelude::*;
use std::fmt::Write as _;

#[derive(Debug, Clone)]
pub(super) struct Trip {
    style: &'static str,
    legs: Vec<Leg>,
    bike: String,
    skills: (&'static str, &'static str),
    mass_kg: u32,
    passenger_kg: Option<u32>,
    bags: Vec<String>,
    owns: Vec<String>,
    always: Vec<String>,
    never: Vec<String>,
    done: Vec<String>,
    kit_mass_kg: Option<f64>,
    budget: Option<u32>,
}

#[derive(Debug, Clone)]
struct Leg {
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

/// Any trip with bikes, bags, items and preparations of the catalogue.
pub(super) fn trip(catalogue: &Catalogue) -> impl Strategy<Value = Trip> + use<> {
    let among = |names: Vec<String>, from: usize, to: usize| prop::sample::subsequence(names, from..=to);
    let items: Vec<String> = catalogue.items.keys().cloned().collect();
    let riding = prop::sample::select(vec!["novice", "intermediate", "advanced", "expert"]);
    let repairing = prop::sample::select(vec!["anyone", "handy", "skilled", "expert"]);
    let rider = (
        prop::sample::select(catalogue.bikes.keys().cloned().collect::<Vec<_>>()),
        (riding, repairing),
        55..110_u32,
        prop::option::weighted(0.15, 50..90_u32),
        among(catalogue.bags.keys().cloned().collect(), 3, 9),
    );
    let named = (
        among(items.clone(), 0, 150),
        among(items.clone(), 0, 3),
        among(items, 0, 6),
        among(catalogue.preparations.keys().cloned().collect(), 0, 6),
    );
    let limits = (prop::option::weighted(0.7, 4.0..45.0), prop::option::weighted(0.5, 0..4000_u32));
    let style = prop::sample::select(vec!["none", "none", "roofed", "roofed", "camping"]);
    let trip = (style, prop::collection::vec(leg(), 1..=5));
    (trip, rider, named, limits).prop_map(|((style, legs), rider, named, (kit_mass_kg, budget))| {
        let (bike, skills, mass_kg, passenger_kg, bags) = rider;
        let (owns, always, never, done) = named;
        let never = never.into_iter().filter(|item| !always.contains(item)).collect();
        Trip { style, legs, bike, skills, mass_kg, passenger_kg, bags, owns, always, never, done, kit_mass_kg, budget }
    })
}

fn leg() -> impl Strategy<Value = Leg> {
    let km = [0..400_u32, 0..300, 0..200, 0..60];
    let hours = prop_oneof![6 => 1.0..48.0, 1 => Just(0.1), 1 => Just(300.0)];
    let often = (0.1..1.5, 0.2..4.0, 40..400_u32);
    (1..=4_u32, 0..=4_u32, km, hours, -15..25, 0..20, often).prop_map(
        |(days, nights, km, hours_to_help, lowest, warmer, (water_every, food_every, fuel_every))| Leg {
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
        }
        let list = |names: &[String]| names.join(", ");
        let _ = writeln!(
            text,
            "riders:\n  - name: Rider\n    bike: {}\n    riding_skill: {}\n    repair_skill: {}\n    mass: {} kg\n    bags: [{}]\n    owns: [{}]",
            self.bike,
            self.skills.0,
            self.skills.1,
            self.mass_kg,
            list(&self.bags),
            list(&self.owns)
        );
        if let Some(mass) = self.passenger_kg {
            let _ = writeln!(text, "    passenger: {mass} kg");
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
