//! Riders who ride a leg without the others have with them what that leg demands.

use super::leaving::{carried, told};
use super::{Rider, group, plain};
use crate::support::{Item, World, shipped};
use fardel::domain::Leg;
use fardel::load::Loaded;
use fardel::milp::Engine;
use fardel::verify::{ApartClaim, verify_group};

const THREE: [Rider<'static>; 3] = [("Ada", &["bag"], None), ("Bo", &["bag"], None), ("Cy", &["bag"], None)];
const NEEDS: &str = "needs:\n  way: { name: a way to find the way, unit: way, rule: navigation }\n";

/// One screen does for a group, and only on a lead. A screen costs 20, a lead 5, and everybody has `budget`.
fn screens(budget: u32) -> World {
    let item = |id: &str, price, extra: &str| Item {
        id: id.to_owned(),
        mass_g: 200,
        price,
        at_most: 1,
        extra: extra.to_owned(),
        ..Item::default()
    };
    let mut lead = item("lead", 5, "");
    lead.provides = vec![("power".to_owned(), 1)];
    let screen = item("screen", 20, "    meets: { way: 1 }\n    requires: [power]\n");
    World { items: vec![lead, screen], budget: Some(budget), rest: NEEDS, ..World::new() }
}

/// Ada rides one leg alone, the other two another.
fn parted(loaded: &mut Loaded) {
    let leg = loaded.scenario.trip.legs[0].clone();
    let of = |name: &str, riders: &[&str]| Leg {
        name: name.to_owned(),
        riders: riders.iter().map(|rider| (*rider).to_owned()).collect(),
        ..leg.clone()
    };
    loaded.scenario.trip.legs = vec![of("all", &[]), of("north", &["Ada"]), of("south", &["Bo", "Cy"])];
}

/// Together one screen and one lead do; where Ada rides alone, she needs both, and so do the other two.
#[test]
fn each_part_has_its_own() {
    let mut loaded = group(&screens(100), &THREE, "");
    for engine in Engine::ALL {
        let answer = plain(&loaded, *engine);
        assert_eq!((answer.totals.units, answer.totals.to_buy.units(), answer.apart.len()), (2, 25.0, 0));
    }
    parted(&mut loaded);
    for engine in Engine::ALL {
        let answer = plain(&loaded, *engine);
        assert_eq!((answer.totals.units, answer.totals.to_buy.units()), (4, 50.0));
        for item in ["screen", "lead"] {
            assert_eq!(carried(&answer, 0, item), 1, "{item} with Ada");
            assert_eq!(carried(&answer, 1, item) + carried(&answer, 2, item), 1, "{item} with Bo and Cy");
        }
        assert!(answer.proof.proven && answer.apart.iter().all(|part| part.lacking.is_empty()));
        // A claim that is not true is found out: Ada has one screen, not two.
        let (parts, claim) = told(&loaded, &answer);
        let mut checked = claim.clone();
        for (amount, sound) in [(1.0, true), (2.0, false)] {
            checked.apart = vec![ApartClaim { riders: vec!["Ada".to_owned()], met: vec![("way".to_owned(), amount)] }];
            assert_eq!(verify_group(&loaded.catalogue, &loaded.scenario, &parts, &checked).is_empty(), sound);
        }
    }
}

/// Money for one screen and one lead: whoever rides without them is told, first of all and on the card.
#[test]
fn who_goes_without_is_told() {
    let mut loaded = group(&screens(10), &THREE, "");
    parted(&mut loaded);
    for engine in Engine::ALL {
        let answer = plain(&loaded, *engine);
        assert_eq!((answer.totals.units, answer.apart.len()), (2, 2));
        let short: Vec<_> = answer.apart.iter().filter(|part| !part.lacking.is_empty()).collect();
        // A screen here and its lead there would be of no use to anybody apart.
        assert!(!short.is_empty());
        for part in &short {
            assert_eq!(part.lacking[0].0, "a way to find the way");
            let with = &part.lacking[0].1;
            assert!(with.iter().all(|rider| !part.riders.contains(rider)), "{part:?}");
        }
        let look = fardel::report::Look { units: fardel::units::UnitSystem::Metric, width: 200 };
        let plain = |text: &str| anstream::adapter::strip_str(text).to_string();
        let text = plain(&fardel::report::terminal::split(&answer, &look));
        assert!(text.find("WITHOUT: a way to find the way").unwrap() < text.find("Carry ").unwrap(), "{text}");
        for card in &answer.cards {
            let lacks = short.iter().any(|part| part.riders.contains(&card.rider));
            let text = plain(&fardel::report::terminal::rider_card(&answer, card, &look));
            assert_eq!(text.contains("WITHOUT: a way to find the way"), lacks, "{text}");
        }
    }
}

/// The pot, the stove and the rest are with two; Bram's night alone by the road is told with what he goes without, and it
/// is not in his bags.
#[test]
fn a_night_alone_on_the_way_to_the_coast() {
    let loaded = shipped("three-to-the-coast.yaml");
    let answer = plain(&loaded, Engine::Microlp);
    let bram = answer.apart.iter().find(|part| part.riders == ["Bram"]).unwrap();
    let items = || answer.cards[1].bags.iter().flat_map(|bag| &bag.items);
    for need in ["cook pot", "water treatment", "first aid"] {
        let meets = |id: &str| loaded.catalogue.items.get(id).is_some_and(|item| item.meets.contains_key(need));
        let lacks = bram.lacking.iter().any(|(name, _)| *name == loaded.catalogue.needs[need].name);
        assert_eq!(lacks, !items().any(|item| meets(&item.id)), "{need}: {bram:?}");
    }
}

/// Of a large group it is not asked, in the model that is exported no more than in the one that is solved; of a small one
/// it is.
#[test]
fn what_is_asked_is_in_the_exported_model() {
    let asked = |loaded: &Loaded| {
        let (catalogue, scenario) = (&loaded.catalogue, &loaded.scenario);
        let instance = fardel::resolve::resolve_group(catalogue, scenario, &scenario.riders).unwrap();
        assert!(!instance.apart.is_empty(), "riders part on this trip");
        let model = fardel::answer::split::group_model(catalogue, scenario).unwrap();
        let needs = model.rows.iter().filter(|row| row.family.ends_with("need")).count();
        assert!(needs >= instance.demands.len(), "what the whole trip demands is asked in any case");
        needs > instance.demands.len()
    };
    assert!(!asked(&shipped("three-to-the-coast.yaml")));
    let mut small = group(&screens(75), &THREE, "");
    parted(&mut small);
    assert!(asked(&small));
}
