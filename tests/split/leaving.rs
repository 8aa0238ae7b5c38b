//! When one leaves, when the group rides apart, and when an answer has been tampered with.

use super::{Rider, group, plain, split_with};
use crate::support::{Failure, Item, Repair, World, close};
use fardel::answer::split::{Demands, SplitAnswer, split};
use fardel::domain::{Kit, Stowage};
use fardel::load::Loaded;
use fardel::milp::{Engine, SolveOptions};
use fardel::units::Hours;
use fardel::verify::{GroupClaim, Part, SetsClaim, Terms, verify_group};

const TWO: [Rider<'static>; 2] = [("Ada", &["bag"], None), ("Bo", &["bag"], None)];

/// A pump mends most of what happens, a wrench the rest.
fn world() -> World {
    let mut world = World { hours_to_help: 10.0, falls: 1.0, ..World::new() };
    for (name, mass_g, mean) in [("pump", 400, 0.09), ("wrench", 300, 0.01)] {
        let provides = vec![(name.to_owned(), 1)];
        world.items.push(Item { id: format!("the-{name}"), mass_g, at_most: 1, provides, ..Item::default() });
        let repairs = vec![Repair { needs: vec![(name.to_owned(), 1)], restores: 1.0, ..Repair::default() }];
        world.failures.push(Failure { id: format!("no-{name}"), mean, repairs, ..Failure::default() });
    }
    world
}

pub fn carried(answer: &SplitAnswer, rider: usize, item: &str) -> u32 {
    let items = answer.cards[rider].bags.iter().flat_map(|bag| &bag.items);
    items.filter(|own| own.id == item).map(|own| own.count).sum()
}

#[test]
fn a_floor_puts_a_second_pump_on_the_other_bike() {
    let loaded = group(&world(), &TWO, "");
    for engine in Engine::ALL {
        let free = plain(&loaded, *engine);
        let pumps = |answer: &SplitAnswer| [carried(answer, 0, "the-pump"), carried(answer, 1, "the-pump")];
        assert_eq!(pumps(&free).iter().sum::<u32>(), 1, "a tool counts once");
        assert!(free.absences.iter().any(|line| line.share < 0.2), "{:?}", free.absences);
        let demands = Demands { keep_if_one_leaves: Some(0.8), max_moves: None };
        let kept = split_with(&loaded, &demands, *engine).unwrap();
        assert_eq!(pumps(&kept), [1, 1]);
        // Nine tenths of what happens is the pump's, so the wrench need not be there twice.
        assert!(kept.absences.iter().all(|line| line.share >= 0.8), "{:?}", kept.absences);
        let floor = kept.floor.unwrap();
        close(floor.mass.grams(), 400.0, 1e-9);
        assert_eq!(floor.doubled, ["pump"]);
    }
}

/// A fifth of a minute of weight is worth two pumps where each rides a leg alone, and one where they ride together.
#[test]
fn who_rides_alone_has_a_pump() {
    let mut loaded = group(&world(), &TWO, "");
    let leg = loaded.scenario.trip.legs[0].clone();
    let alone = |name: &str| fardel::domain::Leg { riders: vec![name.to_owned()], ..leg.clone() };
    loaded.scenario.trip.legs = vec![alone("Ada"), alone("Bo")];
    for engine in Engine::ALL {
        let answer = plain(&loaded, *engine);
        for rider in 0..2 {
            assert_eq!((carried(&answer, rider, "the-pump"), carried(&answer, rider, "the-wrench")), (1, 1));
        }
        // All that happens is mended, in no time: 2 riders x 10 h x (0.09 + 0.01), a day each.
        close(answer.figures.hours_saved.get(), 2.0, 1e-9);
        assert!(answer.figures.home.is_none());
    }
}

fn packed_before(loaded: &Loaded, kits: &[&[(&str, u32)]], max_moves: Option<u32>, engine: Engine) -> SplitAnswer {
    let kit = |items: &&[(&str, u32)]| Kit::new(items.iter().map(|(id, n)| ((*id).to_owned(), *n)));
    let kits: Vec<Kit> = kits.iter().map(kit).collect();
    let demands = Demands { keep_if_one_leaves: None, max_moves };
    let options = SolveOptions { engine, ..SolveOptions::default() };
    split(&loaded.catalogue, &loaded.scenario, &demands, Some(&kits), &options).unwrap()
}

#[test]
fn a_packed_group_leaves_the_second_pump_at_home_and_moves_little() {
    let loaded = group(&world(), &TWO, "");
    for engine in Engine::ALL {
        let answer = packed_before(
            &loaded,
            &[&[("the-pump", 1)], &[("the-pump", 1), ("the-wrench", 1)]],
            None,
            engine.to_owned(),
        );
        let moves = answer.moves.clone().unwrap();
        assert_eq!(moves.len(), 1, "{moves:?}");
        assert_eq!((moves[0].name.as_str(), moves[0].to.as_deref()), ("the-pump", None));
        assert_eq!(answer.totals.to_buy, fardel::units::Money::ZERO);
        // Nothing may change hands: still nothing does.
        let still = packed_before(&loaded, &[&[("the-pump", 1)], &[("the-wrench", 1)]], Some(0), *engine);
        assert_eq!(still.moves.unwrap(), []);
    }
}

/// What `verify` is told of an answer.
pub fn told<'a>(loaded: &'a Loaded, answer: &SplitAnswer) -> (Vec<Part<'a>>, GroupClaim) {
    let stowage = |card: &fardel::answer::split::Card| -> Stowage {
        let items = |bag: &fardel::answer::PackedBag| bag.items.iter().map(|own| (own.id.clone(), own.count)).collect();
        card.bags.iter().map(|bag| (bag.id.clone(), items(bag))).collect()
    };
    let parts = answer.cards.iter().zip(&loaded.scenario.riders).map(|(card, rider)| Part {
        rider,
        stowage: stowage(card),
        front_kg: card.load.loaded.front,
        rear_kg: card.load.loaded.rear,
        sets: sets(&card.load.sets),
    });
    let claim = GroupClaim {
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        hours_empty: answer.figures.hours_empty,
        terms: Terms {
            saved: Hours::new(answer.figures.terms.saved),
            relief: Hours::new(answer.figures.terms.relief),
            riding: Hours::new(answer.figures.terms.riding),
            falls: Hours::new(answer.figures.terms.falls),
            money: Hours::new(answer.figures.terms.money),
            packing: Hours::new(answer.figures.terms.packing),
        },
        needs: Vec::new(),
        apart: Vec::new(),
        absences: answer.absences.iter().map(|line| (line.rider.clone(), line.with_all, line.left)).collect(),
        floor: None,
        sets: None,
        packed: false,
    };
    (parts.collect(), claim)
}

fn sets(told: &fardel::answer::SetsInBags) -> SetsClaim {
    let split = told.split.iter().map(|set| (set.name.clone(), set.bags.clone())).collect();
    SetsClaim { whole: told.whole, of: told.of, split }
}

#[test]
fn tampering_is_found_out() {
    let loaded = group(&world(), &TWO, "");
    let answer = plain(&loaded, Engine::Microlp);
    let check =
        |parts: &[Part<'_>], claim: &GroupClaim| verify_group(&loaded.catalogue, &loaded.scenario, parts, claim);
    let (parts, claim) = told(&loaded, &answer);
    assert_eq!(check(&parts, &claim), []);
    let rules = |parts: &[Part<'_>], claim: &GroupClaim| -> Vec<&str> {
        check(parts, claim).into_iter().map(|violation| violation.rule).collect()
    };
    // The pump on the other bike: masses agree, what is left when one leaves and the wheels do not.
    let mut swapped = parts.clone();
    swapped[0].stowage.clone_from(&parts[1].stowage);
    swapped[1].stowage.clone_from(&parts[0].stowage);
    let found = rules(&swapped, &claim);
    assert!(found.contains(&"absence") && found.contains(&"axles"), "{found:?}");
    let more = |hours: Hours| hours + Hours::new(0.01);
    let term = claim.terms;
    for wrong in [
        Terms { saved: more(term.saved), ..term },
        Terms { relief: more(term.relief), ..term },
        Terms { riding: more(term.riding), ..term },
        Terms { falls: more(term.falls), ..term },
        Terms { money: more(term.money), ..term },
        Terms { packing: more(term.packing), ..term },
    ] {
        assert_eq!(rules(&parts, &GroupClaim { terms: wrong, ..claim.clone() }), ["value"], "{wrong:?}");
    }
    let floor = GroupClaim { floor: Some(0.8), ..claim.clone() };
    assert!(rules(&parts, &floor).contains(&"absence"));
    let mut gone = parts.clone();
    gone.iter_mut().for_each(|part| part.stowage.clear());
    assert!(rules(&gone, &claim).contains(&"counts"));
}
