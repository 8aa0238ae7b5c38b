//! Repairs that take a second rider: worth nothing alone, something where two ride together. Figures by hand.

use super::{Rider, group, plain};
use crate::support::{Failure, Item, Repair, World, close, pack_with};
use fardel::domain::Leg;
use fardel::load::Loaded;
use fardel::milp::Engine;
use fardel::rehearse::{Load, party};
use fardel::resolve::{resolve, resolve_group};
use fardel::risk;
use fardel::units::Mass;

const TWO: [Rider<'static>; 2] = [("Ada", &["bag"], None), ("Bo", &["bag"], None)];

/// Bogged once in ten days of riding, ten hours from help. With a strap and somebody to pull, an hour of work leaves half
/// of the ten hours: 10 - 1 - 5 = 4 h are saved each time.
fn world(falls: f64, riders: &[Rider<'_>]) -> Loaded {
    let mut world = World { hours_to_help: 10.0, falls, ..World::new() };
    let provides = vec![("tow".to_owned(), 1)];
    world.items.push(Item { id: "strap".to_owned(), mass_g: 250, at_most: 1, provides, ..Item::default() });
    let needs = vec![("tow".to_owned(), 1)];
    let repairs = vec![Repair { needs, time_min: 60.0, restores: 0.5, ..Repair::default() }];
    world.failures.push(Failure { id: "bogged".to_owned(), mean: 0.1, per_fall: 0.05, repairs, ..Failure::default() });
    let mut loaded = group(&world, riders, "");
    loaded.catalogue.failures.get_mut("bogged").unwrap().repairs[0].riders = 2;
    loaded
}

/// A day together, then a day that only Ada rides.
fn parting(falls: f64) -> Loaded {
    let mut loaded = world(falls, &TWO);
    let leg = loaded.scenario.trip.legs[0].clone();
    loaded.scenario.trip.legs.push(Leg { riders: vec!["Ada".to_owned()], ..leg });
    loaded
}

fn loads(riders: &[&str]) -> Vec<Load> {
    riders.iter().map(|rider| Load { rider: (*rider).to_owned(), mass: Mass::ZERO }).collect()
}

#[test]
fn alone_a_strap_mends_nothing() {
    let loaded = world(0.0, &TWO[..1]);
    for engine in Engine::ALL {
        let answer = pack_with(&loaded, *engine).unwrap();
        assert!(answer.kit.is_empty(), "{:?}", answer.kit);
        close(answer.figures.hours_saved.get(), 0.0, 1e-12);
        close(answer.figures.home.bound, (-0.1_f64).exp(), 1e-12);
    }
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    assert!(instance.failures[0].repairs.is_empty() && instance.items.is_empty());
}

#[test]
fn two_share_one_strap_and_each_packs_it_where_each_packs_alone() {
    let loaded = world(0.0, &TWO);
    for engine in Engine::ALL {
        let together = plain(&loaded, *engine);
        close(together.figures.hours_saved.get(), 2.0 * 0.1 * 4.0, 1e-9);
        close(together.figures.home.unwrap().bound, 1.0, 1e-12);
        // Ada's own kit: Bo rides along and pulls.
        let own = pack_with(&loaded, *engine).unwrap();
        close(own.figures.hours_saved.get(), 0.1 * 4.0, 1e-9);
        // Whoever stays when the other leaves has nobody to pull.
        for absence in &together.absences {
            close(absence.with_all.get(), 0.0, 1e-12);
        }
    }
}

#[test]
fn on_a_leg_ridden_alone_the_strap_does_nothing() {
    let loaded = parting(0.0);
    for engine in Engine::ALL {
        let ada = pack_with(&loaded, *engine).unwrap();
        close(ada.figures.hours_saved.get(), 0.1 * 4.0, 1e-9);
        close(ada.figures.home.bound, (-0.1_f64).exp(), 1e-12);
        close(plain(&loaded, *engine).figures.hours_saved.get(), 2.0 * 0.1 * 4.0, 1e-9);
    }
    let (catalogue, scenario) = (&loaded.catalogue, &loaded.scenario);
    let instance = resolve(catalogue, scenario, &scenario.riders[0]).unwrap();
    // The rehearsal: an hour and half of ten together, nothing to be done alone.
    let costs = |party: &fardel::rehearse::Party| party.members[0].faults[0].repairs[0].costs.clone();
    assert_eq!(costs(&party(&instance, &[1], &loads(&["Ada"]))), [Some(6_000_000), None]);
    let instance = resolve_group(catalogue, scenario, &scenario.riders).unwrap();
    let both = party(&instance, &[1], &loads(&["Ada", "Bo"]));
    assert_eq!(costs(&both), [Some(6_000_000), None]);
}

/// With falls the price of weight counts too: 5 of 100 falls bog the bike down, which costs 6 h where two ride and 10 h
/// where one does, and half an hour goes with each fall; one kilogram on a bike of 100 kg is one fall more in a hundred.
/// `pack` and `split` hold only if verify comes to the same by its own reckoning.
#[test]
fn the_price_of_weight_knows_who_is_there() {
    let loaded = parting(1.0);
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let expected = 0.01 * ((0.5 + 0.05 * 6.0) + (0.5 + 0.05 * 10.0));
    close(risk::assess(&instance).handling_per_kg(None), expected, 1e-9);
    for engine in Engine::ALL {
        let mean = 0.1 + 0.05;
        close(pack_with(&loaded, *engine).unwrap().figures.hours_saved.get(), mean * 4.0, 1e-9);
        close(plain(&loaded, *engine).figures.hours_saved.get(), 2.0 * mean * 4.0, 1e-9);
    }
}
