//! Fuel range by hand, and what happens when no container will do.

use crate::support::{pack_with, shipped};
use fardel::answer::PackAnswer;
use fardel::milp::Engine;
use fardel::report::Look;
use fardel::resolve::resolve;
use fardel::units::{Distance, Quantity, UnitSystem};

fn five_days(bags: &[&str], fuel_every_km: Option<f64>) -> PackAnswer {
    let mut loaded = shipped("five-day-loop.yaml");
    loaded.scenario.riders[0].bags.retain(|bag| bag != "fuel-carrier");
    loaded.scenario.riders[0].bags.extend(bags.iter().map(|bag| (*bag).to_owned()));
    for leg in &mut loaded.scenario.trip.legs {
        leg.fuel_every = fuel_every_km.map(Distance::from_base).or(leg.fuel_every);
    }
    pack_with(&loaded, Engine::Microlp).unwrap()
}

fn fuel(answer: &PackAnswer) -> Option<(f64, f64)> {
    answer.needs.iter().find(|need| need.id == "fuel").map(|need| (need.demanded, need.carried))
}

/// The Marrow flats leg: 55 km gravel at 4.4, 120 km track at 5.2 and 35 km rough at 6.8 L for 100 km are 11.04 L on
/// 210 km; times (175 x 1.25 + 35 x 1.5) / 210 = 1.2917 that is 14.26 L, 2.26 more than the tank of 12.
#[test]
fn the_longest_stretch_is_reckoned_as_by_hand() {
    let answer = five_days(&["fuel-carrier"], None);
    let litres = (0.55 * 4.4 + 1.2 * 5.2 + 0.35 * 6.8) * (175.0 * 1.25 + 35.0 * 1.5) / 210.0;
    let (demanded, carried) = fuel(&answer).unwrap();
    assert!((demanded - (litres - 12.0) * 1000.0).abs() <= 1.0, "{demanded} against {litres} L");
    assert!(carried >= demanded && answer.warnings.iter().all(|warning| !warning.contains("FUEL")));
    assert!((answer.ranges[0].1.litres - litres).abs() < 1e-9);
}

#[test]
fn a_tank_that_will_do_asks_for_nothing() {
    let answer = five_days(&[], Some(120.0));
    assert_eq!(fuel(&answer), None);
    assert!(answer.ranges[0].1.short() <= 0.0);
}

/// A litre in the holder, and no bag that takes petrol: the rest is a warning with the litres that are missing.
#[test]
fn fuel_that_no_container_takes_is_a_warning() {
    let answer = five_days(&["fuel-bottle-holder"], None);
    let (demanded, carried) = fuel(&answer).unwrap();
    assert!((2250.0..2280.0).contains(&demanded), "what the trip asks for, not what containers hold: {demanded}");
    assert!((carried - 1000.0).abs() < 1e-9);
    let told = answer.warnings.iter().find(|warning| warning.starts_with("NOT ENOUGH FUEL")).unwrap();
    assert!(
        told.contains("2.3 L to carry") && told.contains("take 1.0 L of it") && told.contains("1.3 L short"),
        "{told}"
    );
    let nothing = five_days(&[], None);
    assert_eq!(fuel(&nothing).map(|(_, carried)| carried), Some(0.0));
    assert!(nothing.warnings.iter().any(|warning| warning.contains("2.3 L short")));
}

/// Petrol that has to reach the next pump is not there a second time when the rider runs dry; where the tank reaches all
/// pumps, a bottle is a reserve.
#[test]
fn petrol_for_the_next_pump_is_no_reserve() {
    let reserve = |fuel_every_km: Option<f64>| {
        let mut loaded = shipped("five-day-loop.yaml");
        for leg in &mut loaded.scenario.trip.legs {
            leg.fuel_every = fuel_every_km.map(Distance::from_base).or(leg.fuel_every);
        }
        let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
        let poured =
            |failure: &fardel::resolve::InstanceFailure| failure.repairs.iter().any(|r| r.id == "pour-the-bottle");
        let warned = instance.warnings.iter().any(|warning| warning.contains("no reserve"));
        assert_eq!(warned, fuel_every_km.is_none(), "{:?}", instance.warnings);
        let dry = instance.failures.iter().find(|failure| failure.id == "out-of-fuel").unwrap();
        poured(dry)
    };
    assert!(!reserve(None));
    assert!(reserve(Some(120.0)));
}

/// Tank and bottle hold 13 L of the 14.26 that 210 km take: pumps may be 210 x 13 / 14.26 = 191 km apart. Without the
/// bottle, 210 x 12 / 14.26 = 176.
#[test]
fn how_far_apart_pumps_may_be_is_told_first() {
    for (bags, carried, every) in [(&["fuel-bottle-holder"][..], 1.0, 191.0), (&[], 0.0, 176.0)] {
        let answer = five_days(bags, None);
        let short = answer.fuel.as_ref().unwrap();
        assert!(short.leg.contains("Marrow"), "{}", short.leg);
        assert_eq!((short.carried.litres(), short.pump_every.unwrap().km()), (carried, every));
        let text = fardel::report::terminal::pack(&answer, &Look { units: UnitSystem::Metric, width: 100 });
        let text = anstream::adapter::strip_str(&text).to_string();
        let (fuel, home) = (text.find("Fuel NOT ENOUGH").unwrap(), text.find("Home ").unwrap());
        assert!(fuel < home, "{text}");
    }
    assert!(five_days(&["fuel-carrier"], None).fuel.is_none());
}
