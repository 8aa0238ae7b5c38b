//! The room that a scenario gives to each rider's kit is one limit for the kits of all of them together.

use super::leaving::told;
use super::{Rider, group, plain};
use crate::support::{Failure, Item, Repair, World, close};
use fardel::load::Loaded;
use fardel::milp::Engine;
use fardel::units::Volume;
use fardel::verify::verify_group;

const TWO: [Rider<'static>; 2] = [("Ada", &["bag"], None), ("Bo", &["bag"], None)];

/// Three tools, each of which alone mends what happens so often a day: 4 L for 0.10, 3 L for 0.07, 2 L for 0.06.
fn tools(each: Option<i64>) -> Loaded {
    let mut world = World { hours_to_help: 10.0, ..World::new() };
    for (name, volume_ml, mean) in [("large", 4000, 0.10), ("middling", 3000, 0.07), ("small", 2000, 0.06)] {
        let provides = vec![(name.to_owned(), 1)];
        world.items.push(Item {
            id: format!("the-{name}"),
            mass_g: 1,
            volume_ml,
            at_most: 1,
            provides,
            ..Item::default()
        });
        let repairs = vec![Repair { needs: vec![(name.to_owned(), 1)], restores: 1.0, ..Repair::default() }];
        world.failures.push(Failure { id: format!("no-{name}"), mean, repairs, ..Failure::default() });
    }
    let mut loaded = group(&world, &TWO, "");
    loaded.scenario.limits.kit_volume = each.map(Volume::from_millilitres);
    loaded
}

/// By hand: what the tools that go in mend, 10 h a time, for two riders on one day.
#[test]
fn the_kits_together_keep_within_the_room_of_all() {
    let cases = [
        (None, 9000, 0.23),
        (Some(4500), 9000, 0.23),
        (Some(4499), 7000, 0.17),
        (Some(3000), 6000, 0.16),
        (Some(2500), 5000, 0.13),
        (Some(2499), 4000, 0.10),
        (Some(1000), 2000, 0.06),
        (Some(999), 0, 0.0),
    ];
    for (each, volume, mended) in cases {
        let loaded = tools(each);
        for engine in Engine::ALL {
            let answer = plain(&loaded, *engine);
            close(answer.totals.volume.millilitres(), f64::from(volume), 1e-9);
            close(answer.figures.hours_saved.get(), 2.0 * 10.0 * mended, 1e-9);
            assert!(answer.proof.proven, "{each:?}");
        }
    }
}

#[test]
fn a_kit_beyond_the_room_is_found_out() {
    let mut loaded = tools(Some(4500));
    let answer = plain(&loaded, Engine::Microlp);
    for (each, rules) in [(4500, vec![]), (4499, vec!["caps"])] {
        loaded.scenario.limits.kit_volume = Some(Volume::from_millilitres(each));
        let (parts, claim) = told(&loaded, &answer);
        let found = verify_group(&loaded.catalogue, &loaded.scenario, &parts, &claim);
        assert_eq!(found.iter().map(|violation| violation.rule).collect::<Vec<_>>(), rules, "{found:?}");
    }
}
