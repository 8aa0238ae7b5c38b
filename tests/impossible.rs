//! Five trips that cannot be packed for: too cold, too dry, too little room, an overloaded rear tyre, too little money. Each
//! is told as it stands in the snapshot, every way out is packed again, and none asks for more than it takes.

use crate::cli::compare;
use crate::support::fardel;
use fardel::answer::{PackAnswer, PackError, TripChange as Change, TripRemedy, pack};
use fardel::load::{Loaded, load};
use fardel::milp::{Engine, SolveOptions};
use fardel::units::{Mass, Money};
use std::path::{Path, PathBuf};

const ALL: [&str; 5] = ["too-cold", "too-dry", "too-little-room", "rear-tyre", "budget"];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/impossible")
}

fn loaded(name: &str) -> Loaded {
    load(&folder().join(name).with_extension("yaml"), None).unwrap_or_else(|faults| panic!("{faults}"))
}

fn packed(loaded: &Loaded, changes: &[Change], engine: Engine) -> Result<PackAnswer, PackError> {
    let (mut catalogue, mut scenario) = (loaded.catalogue.clone(), loaded.scenario.clone());
    let mut rider = scenario.riders[0].clone();
    changes.iter().for_each(|change| change.apply(&mut catalogue, &mut scenario, &mut rider));
    // That there is a kit is the question, not which is best.
    pack(&catalogue, &scenario, &rider, &SolveOptions { engine, gap: 0.2, ..SolveOptions::default() })
}

fn ways(loaded: &Loaded, engine: Engine) -> Vec<TripRemedy> {
    match packed(loaded, &[], engine) {
        Err(PackError::Infeasible { shortfalls, ways }) => {
            assert!(!shortfalls.is_empty() && !ways.is_empty());
            ways
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn each_is_told_with_its_ways_out() {
    for name in ALL {
        let run = fardel(&folder(), &["pack", &format!("{name}.yaml")]);
        run.refused(1);
        compare(&format!("impossible-{name}"), &run);
    }
}

#[test]
fn every_way_out_leads_out() {
    for name in ALL {
        let mut loaded = loaded(name);
        // One with all that breaks; for the others that there is a kit for the needs is enough, and quicker.
        if name != "too-cold" {
            loaded.catalogue.failures.clear();
        }
        for engine in Engine::ALL {
            for way in ways(&loaded, *engine) {
                let answer = packed(&loaded, &way.changes, *engine);
                let answer = answer.unwrap_or_else(|error| panic!("{name}: {:?}: {error}", way.changes));
                assert!(answer.needs.iter().all(|need| need.carried >= need.demanded), "{name}: {way:?}");
            }
        }
    }
}

/// The same change by one step less does not do: 200 g, one unit of money, one load index, a degree.
#[test]
fn no_way_out_asks_for_more_than_it_takes() {
    let mut tried = 0;
    for name in ALL {
        let mut loaded = loaded(name);
        loaded.catalogue.failures.clear();
        for way in ways(&loaded, Engine::Microlp) {
            let [only] = way.changes.as_slice() else { continue };
            let less = match only.clone() {
                Change::KitMass { from, to } => Change::KitMass { from, to: to - Mass::from_grams(200) },
                Change::Budget { from, to } => Change::Budget { from, to: to - Money::from_cents(101) },
                Change::Tyre { front, from, to } => Change::Tyre { front, from, to: to - 1 },
                Change::Nights { from, to } => {
                    Change::Nights { from, to: fardel::units::Temperature::new(to.celsius() - 1.0) }
                }
                _ => continue,
            };
            tried += 1;
            let answer = packed(&loaded, std::slice::from_ref(&less), Engine::Microlp);
            assert!(matches!(answer, Err(PackError::Infeasible { .. })), "{name}: {less:?} would do");
        }
    }
    assert!(tried >= 2, "{tried}");
}

/// By hand: the warmest bag of the catalogue is good to -10 °C, and dry clothes are worth 2 °C. Three days at 39 °C ask for
/// 3 + 0.15 x 19 + 0.5 h litres a day and one to cook with; half as long between refills asks for half of it.
#[test]
fn the_ways_out_are_those_found_by_hand() {
    let cold = ways(&loaded("too-cold"), Engine::Microlp);
    let told = |way: &TripRemedy| way.changes[0].figures().map(|(_, from, to)| (from, to));
    assert_eq!((cold[0].changes.len(), told(&cold[0])), (1, Some((-21.0, -12.0))));
    let dry = loaded("too-dry");
    let water = &ways(&dry, Engine::Microlp)[0];
    assert_eq!((water.changes.len(), told(water)), (1, Some((72.0, 36.0))));
    let after = packed(&dry, &water.changes, Engine::Microlp).unwrap();
    let demanded = after.needs.iter().find(|need| need.id == "drinking water").unwrap().demanded;
    let hard = (150.0 / 30.0 + 10.0 / 20.0) / 3.0;
    let litres = (3.0 + 0.15 * 19.0 + 0.5 * hard + 1.0) * 1.5 * 1.1;
    assert!((demanded - litres * 1000.0).abs() <= 1.0, "{demanded} mL against {litres} L");
}
