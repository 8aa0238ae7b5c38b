//! Cartridges against the gas law, and stove fuel against the heat that water takes.

use super::SHIPPED;
use fardel::domain::{Failure, Repair};
use std::f64::consts::PI;

/// A tyre that stands for its class, and the pressure to reach.
struct Tyre {
    /// Section width and height in mm as marked, rim in inches.
    size: (f64, f64, f64),
    /// Gauge pressure in kPa that is low but rideable off the seal. common practice, no source.
    gauge: f64,
    /// Inner volume in litres in the table of the standards page. derived, within 15 %.
    volume: f64,
}

/// The larger usual size of each class.
const FRONT_TUBED: Tyre = Tyre { size: (90.0, 90.0, 21.0), gauge: 150.0, volume: 8.8 };
const REAR_TUBED: Tyre = Tyre { size: (140.0, 80.0, 18.0), gauge: 150.0, volume: 17.6 };
const FRONT_TUBELESS: Tyre = Tyre { size: (110.0, 80.0, 19.0), gauge: 200.0, volume: 10.9 };
const REAR_TUBELESS: Tyre = Tyre { size: (150.0, 70.0, 18.0), gauge: 200.0, volume: 17.5 };

/// What the table of the standards page allows.
const TOLERANCE: f64 = 0.15;

impl Tyre {
    /// Ring of the section about the rim, a fifth off for carcass and rim well (common practice, no source), in litres.
    fn litres(&self) -> f64 {
        let (width, aspect, rim) = self.size;
        let height = width * aspect / 100.0;
        0.8 * (PI / 4.0 * width * height) * (2.0 * PI * (rim * 25.4 / 2.0 + height / 2.0)) / 1e6
    }

    /// 16 g cartridges to the pressure: n R T / V at 20 °C, 44.01 g a mole (derived from the gas law).
    fn cartridges(&self) -> f64 {
        let rise = 16.0 / 44.01 * 8.314 * 293.15 / self.litres();
        self.gauge / rise
    }

    /// The tyre a failure is about, from its name and the bikes it applies to.
    fn of(failure: &Failure) -> Self {
        let front = failure.id.starts_with("front");
        let tubed = failure.applies.values().flatten().any(|value| value == "tubed");
        match (front, tubed) {
            (true, true) => FRONT_TUBED,
            (false, true) => REAR_TUBED,
            (true, false) => FRONT_TUBELESS,
            (false, false) => REAR_TUBELESS,
        }
    }
}

#[test]
fn volumes_are_those_of_the_table() {
    for tyre in [FRONT_TUBED, REAR_TUBED, FRONT_TUBELESS, REAR_TUBELESS] {
        assert!((tyre.litres() / tyre.volume - 1.0).abs() < 0.02, "{:?}: {} L", tyre.size, tyre.litres());
    }
}

/// Enough to reach the pressure with one cartridge wasted, and no more than that rounded up (common practice).
#[test]
fn cartridges_of_a_tyre_repair_fill_the_tyre() {
    let repairs =
        SHIPPED.failures.values().flat_map(|failure| failure.repairs.iter().map(move |repair| (failure, repair)));
    let with: Vec<(&Failure, &Repair)> =
        repairs.filter(|(_, repair)| repair.uses.contains_key("co2 cartridge")).collect();
    assert!(with.len() >= 8, "tyres are filled from cartridges");
    for (failure, repair) in with {
        let used = f64::from(repair.uses["co2 cartridge"]);
        let wanted = Tyre::of(failure).cartridges();
        let (least, most) = (wanted * (1.0 - TOLERANCE) + 1.0, (wanted * (1.0 + TOLERANCE)).ceil() + 1.0);
        assert!((least..=most).contains(&used), "{}.{}: {used}, not {least:.1} to {most}", failure.id, repair.id);
    }
}

/// Heat for a litre from 20 to 100 °C, m c dT: 335 kJ (derived, exact to 1 kJ).
fn boil_kj() -> f64 {
    1.0 * 4.186 * (100.0 - 20.0)
}

/// Fuel a litre by heating value in MJ/kg at an efficiency; values from memory, 45.7 for gas mixes.
fn grams_a_litre(heating: f64, efficiency: f64) -> f64 {
    boil_kj() / (heating * efficiency)
}

#[test]
fn heat_to_boil_a_litre() {
    assert!((boil_kj() - 335.0).abs() < 1.0);
    for (heating, at_40, at_51, at_60) in [(45.7, 18.3, 14.4, 12.2), (43.5, 19.3, 15.1, 12.8), (26.8, 31.2, 24.5, 20.8)]
    {
        for (efficiency, grams) in [(0.40, at_40), (0.51, at_51), (0.60, at_60)] {
            assert!((grams_a_litre(heating, efficiency) - grams).abs() < 0.1, "{heating} {efficiency}");
        }
    }
}

/// What stands under `stove heat` is fill x lower heating value: gas 45.7, petrol 43.5 (from memory, within published
/// 44 to 46 gross), ethanol 26.8 MJ/kg (from memory; gross 29.7, CRC handbook by way of a fuel table).
#[test]
fn canisters_hold_the_heat_of_their_fuel() {
    for (id, grams, heating) in [
        ("gas-100", 100.0, 45.7),
        ("gas-230", 230.0, 45.7),
        ("gas-450", 450.0, 45.7),
        ("petrol-bottle-stove", 0.6 * 747.5, 43.5),
        ("spirit-bottle", 0.5 * 790.0, 26.8),
    ] {
        let item = &SHIPPED.items[id];
        let heat = item.meets["stove heat"].amount;
        assert!((heat - grams * heating).abs() < 1.0, "{id}: {heat} kJ against {}", grams * heating);
        assert!(item.mass.grams() > grams, "{id}: the can weighs something");
        // 1 L at the 43 % of still air: 15 to 25 g of gas (common practice, no source).
        let litre = grams / (heat * 0.43 / boil_kj());
        assert!(heating < 45.0 || (15.0..=25.0).contains(&litre), "{id}: {litre:.1} g a litre");
    }
}

/// Petrol weighs 720 to 775 kg/m3 (EN 228:2012, second-hand): containers weigh that and something for themselves.
#[test]
fn fuel_containers_weigh_what_their_fuel_weighs() {
    let mut count = 0;
    for item in SHIPPED.items.values() {
        let Some(fuel) = item.meets.get("fuel") else { continue };
        let litres = fuel.amount / 1000.0;
        assert!((litres * 720.0..=litres * 1000.0).contains(&item.mass.grams()), "{}", item.id);
        assert!(item.mass.grams() > litres * 747.5 && item.volume.litres() > litres, "{}", item.id);
        assert!(item.apart_from.contains(&fardel::domain::Kind::Food), "{}", item.id);
        count += 1;
    }
    assert_eq!(count, 3);
}
