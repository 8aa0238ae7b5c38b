//! A world with one bike, one leg and as many bags as named, in the file formats.

use std::fmt::Write as _;
use std::path::Path;

#[derive(Debug, Clone, Default)]
pub struct World {
    pub items: Vec<Item>,
    pub failures: Vec<Failure>,
    /// Name, usable volume in mL, load limit in g, extra lines.
    pub bags: Vec<(String, u32, u32, &'static str)>,
    pub kit_mass_g: Option<u32>,
    pub budget: Option<u32>,
    pub hours_to_help: f64,
    pub repair_skill: &'static str,
    pub always: Vec<(String, u32)>,
    pub owns: Vec<(String, u32)>,
    /// Falls per 1000 km on rough, of which the leg has 1000.
    pub falls: f64,
    /// Limits of the bike's axles.
    pub front_axle_kg: Option<f64>,
    pub rear_axle_kg: Option<f64>,
    /// Further sections of the catalogue.
    pub rest: &'static str,
}

#[derive(Debug, Clone, Default)]
pub struct Item {
    pub id: String,
    pub mass_g: u32,
    pub volume_ml: u32,
    pub price: u32,
    pub at_most: u32,
    pub provides: Vec<(String, u32)>,
    pub holds: Vec<(String, u32)>,
    /// Further lines of the entry, each with its indentation.
    pub extra: String,
}

#[derive(Debug, Clone, Default)]
pub struct Failure {
    pub id: String,
    pub mean: f64,
    /// Hours it nags; `None`: it stops the bike.
    pub nags_h: Option<f64>,
    pub per_fall: f64,
    pub repairs: Vec<Repair>,
}

#[derive(Debug, Clone, Default)]
pub struct Repair {
    pub needs: Vec<(String, u32)>,
    pub uses: Vec<(String, u32)>,
    pub time_min: f64,
    pub restores: f64,
}

const BIKE: &str = "\
bikes:
  bike:
    name: test bike
    mass: 100 kg
    max_mass: 300 kg
    front_share: 0.5
    wheelbase: 1400 mm
    front_load_index: 54
    rear_load_index: 65
    tank: 10 L
    consumption: { sealed: 4 L, gravel: 4 L, track: 5 L, rough: 6 L }
    rider_x: 500 mm
    passenger_x: 200 mm
    attributes: {}
    basis: from memory
";

fn counted(list: &[(String, u32)]) -> String {
    let parts: Vec<String> = list.iter().map(|(name, n)| format!("{name}: {n}")).collect();
    format!("{{ {} }}", parts.join(", "))
}

fn side_bag(extra: &str) -> bool {
    extra.contains("side: left") || extra.contains("side: right")
}

impl World {
    /// One bag of any size, no limits, an hour from help.
    pub fn new() -> Self {
        Self {
            bags: vec![("bag".to_owned(), 1_000_000, 1_000_000, "")],
            hours_to_help: 1.0,
            repair_skill: "expert",
            ..Self::default()
        }
    }

    fn names(
        &self,
        of_item: impl Fn(&Item) -> &Vec<(String, u32)>,
        of_repair: impl Fn(&Repair) -> &Vec<(String, u32)>,
    ) -> Vec<String> {
        let mut names: Vec<String> =
            self.items.iter().flat_map(|i| of_item(i).iter().map(|(n, _)| n.clone())).collect();
        let repairs = self.failures.iter().flat_map(|f| &f.repairs);
        names.extend(repairs.flat_map(|r| of_repair(r).iter().map(|(n, _)| n.clone())));
        names.sort();
        names.dedup();
        names
    }

    pub fn catalogue(&self) -> String {
        let mut text = BIKE.to_owned();
        for (axle, limit) in [("front", self.front_axle_kg), ("rear", self.rear_axle_kg)] {
            if let Some(kilograms) = limit {
                let _ = writeln!(text, "    {axle}_axle_limit: {kilograms} kg");
            }
        }
        text += "systems:\n  all: { name: all, basis: from memory }\nfunctions:\n";
        for name in self.names(|i| &i.provides, |r| &r.needs) {
            let _ = writeln!(text, "  {name}: {{ name: {name} }}");
        }
        text += "stocks:\n";
        for name in self.names(|i| &i.holds, |r| &r.uses) {
            let _ = writeln!(text, "  {name}: {{ name: {name}, unit: piece }}");
        }
        text += "items:\n";
        for item in &self.items {
            let Item { id, mass_g, volume_ml, price, at_most, provides, holds, extra } = item;
            let _ = writeln!(
                text,
                "  {id}:\n    name: {id}\n    kind: tool\n    mass: {mass_g} g\n    volume: {volume_ml} mL\n    longest: 10 mm\n    \
                 price: {price} USD\n    at_most: {at_most}\n    provides: {}\n    holds: {}\n    basis: from memory\n{extra}",
                counted(provides),
                counted(holds),
            );
        }
        text += "failures:\n";
        for failure in &self.failures {
            Self::failure(&mut text, failure);
        }
        text += "bags:\n";
        for (id, volume, load, extra) in &self.bags {
            let access = if extra.contains("access") { "" } else { "\n    access: deep" };
            let weather = if extra.contains("weatherproof") { "" } else { "\n    weatherproof: true" };
            let ahead = if extra.contains("ahead:") { "" } else { "\n    ahead: 0 mm" };
            let out = if side_bag(extra) { "300 mm" } else { "0 mm" };
            let side = if extra.contains("side:") { "" } else { "\n    side: centre" };
            let _ = writeln!(
                text,
                "  {id}:\n    name: {id}\n    volume: {volume} mL\n    packing: 1\n    mass: 1 kg\n    max_load: {load} g\n    \
                 longest: 1 m{access}{weather}{side}{ahead}\n    out: {out}\n    height: 800 mm\n    price: 0 USD\n    \
                 basis: from memory\n{extra}"
            );
        }
        let _ = writeln!(
            text,
            "model:\n  falls_per_1000_km: {{ sealed: 0, gravel: 0, track: 0, rough: {} }}\n  riding_skill: {{ novice: 1, intermediate: 1, advanced: 1, expert: 1 }}\n  \
             load_sensitivity: 1\n  hours_per_fall: 0.5 h\n  basis: from memory",
            self.falls
        );
        text + self.rest
    }

    fn failure(text: &mut String, failure: &Failure) {
        let outcome =
            failure.nags_h.map_or("outcome: stops".to_owned(), |h| format!("outcome: nags\n    nags_hours: {h} h"));
        let _ = writeln!(
            text,
            "  {0}:\n    name: {0}\n    system: all\n    {outcome}\n    rate: {{ per_day: {1}, per_fall: {2}, worth_events: 0.5, basis: from memory }}",
            failure.id, failure.mean, failure.per_fall
        );
        if failure.repairs.is_empty() {
            *text += "    repairs: {}\n";
            return;
        }
        *text += "    repairs:\n";
        for (at, repair) in failure.repairs.iter().enumerate() {
            let _ = writeln!(
                text,
                "      r{at}: {{ name: r{at}, grade: field, needs: {}, uses: {}, time: {} min, restores: {}, skill: anyone, basis: from memory }}",
                counted(&repair.needs),
                counted(&repair.uses),
                repair.time_min,
                repair.restores
            );
        }
    }

    pub fn scenario(&self) -> String {
        let bags: Vec<&str> = self.bags.iter().map(|(id, ..)| id.as_str()).collect();
        let mut text = format!(
            "name: test trip\ntrip:\n  style: none\n  legs:\n    - name: the leg\n      days: 1\n      km: {{ rough: 1000 }}\n      \
             hours_to_help: {} h\nriders:\n  - name: Rider\n    bike: bike\n    riding_skill: intermediate\n    repair_skill: {}\n    \
             mass: 80 kg\n    bags: [{}]\n    owns: {}\nalways: {}\n",
            self.hours_to_help,
            self.repair_skill,
            bags.join(", "),
            counted(&self.owns),
            counted(&self.always),
        );
        text += "limits: {";
        let mass = self.kit_mass_g.map(|g| format!(" kit_mass: {g} g"));
        let budget = self.budget.map(|b| format!(" budget: {b} USD"));
        text += &mass.into_iter().chain(budget).collect::<Vec<_>>().join(",");
        text += " }\n";
        text
    }

    /// Writes `catalogue/world.yaml` and `trip.yaml` into a folder.
    pub fn write(&self, folder: &Path) {
        std::fs::create_dir_all(folder.join("catalogue")).expect("a folder that can be written to");
        std::fs::write(folder.join("catalogue/world.yaml"), self.catalogue()).expect("a folder that can be written to");
        std::fs::write(folder.join("trip.yaml"), self.scenario()).expect("a folder that can be written to");
    }
}
