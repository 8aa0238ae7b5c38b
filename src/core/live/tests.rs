//! A live plan against packing from nothing, on the shipped trips.

use super::*;
use crate::answer::{Anew, pack_briefly};
use crate::load::{Loaded, Source, load_texts, shipped};
use crate::resolve::Measure;
use crate::units::Hours;
use crate::verify;
use fardel_milp::{Answer, CustomSolver, Engine, Model};
use std::ops::ControlFlow;
use std::time::Duration;

const TEXTS: [(&str, &str); 3] = [
    ("day-ride.yaml", include_str!("../../../scenarios/day-ride.yaml")),
    ("five-day-loop.yaml", include_str!("../../../scenarios/five-day-loop.yaml")),
    ("two-up-road.yaml", include_str!("../../../scenarios/two-up-road.yaml")),
];
const HIGH: (&str, &str) = ("high-country-week.yaml", include_str!("../../../scenarios/high-country-week.yaml"));

fn loaded((name, text): (&str, &str)) -> Loaded {
    let scenario = Source { name: name.to_owned(), text: text.to_owned() };
    load_texts(&shipped(), scenario, &|_| unreachable!("no other files")).unwrap()
}

fn opened(loaded: &Loaded) -> Live {
    let catalogue = Arc::new(loaded.catalogue.clone());
    Live::open(catalogue, loaded.scenario.clone(), 0, SolveOptions::default()).unwrap()
}

/// To the proof; every kit on the way stands up to checking, and none is beyond a bound told before.
fn proven(live: &mut Live) -> Standing {
    let (mut bound, mut worth) = (f64::INFINITY, f64::NEG_INFINITY);
    let own = live.clone();
    let mut hear = |standing: &Standing| {
        stands(&own, standing);
        let near = 1e-5 * standing.objective().abs().max(1.0);
        assert!(standing.objective() <= bound + near, "{} beyond {bound}", standing.objective());
        assert!(standing.objective() >= worth - near, "{} after {worth}", standing.objective());
        worth = standing.objective();
        bound = standing.bound.map_or(bound, |told| told.min(bound));
        ControlFlow::Continue(())
    };
    let standing = live.improve(Budget::default(), &Cancel::new(), &mut hear).unwrap().clone();
    assert!(standing.proven && standing.gap() == Some(0.0));
    standing
}

/// The second calculation finds nothing wrong.
fn stands(live: &Live, standing: &Standing) {
    assert!(standing.figures.is_sound(), "{:?}", standing.figures.breaks);
    let wrong = verify::verify(
        &live.catalogue,
        &live.own,
        live.rider(),
        &standing.kit,
        &standing.stowage,
        &live.claim(&standing.figures),
    );
    assert!(wrong.is_empty(), "{wrong:?}");
}

fn limited(live: &mut Live, share: f64) -> Kept {
    let used = Measure::Mass.used(&live.instance, live.standing().unwrap().counts());
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "milligrams")]
    let limit = (used as f64 * share) as i64;
    live.patch(Change::Limit(Measure::Mass, Some(limit))).unwrap()
}

#[test]
fn the_improved_answer_is_that_of_pack_to_the_last_byte() {
    for text in TEXTS.into_iter().chain([HIGH]) {
        let loaded = loaded(text);
        let mut live = opened(&loaded);
        proven(&mut live);
        let rider = &loaded.scenario.riders[0];
        let packed = pack_briefly(&loaded.catalogue, &loaded.scenario, rider, &SolveOptions::default()).unwrap();
        let told = live.pack(Anew::None, false).unwrap();
        assert_eq!(serde_json::to_string(&told).unwrap(), serde_json::to_string(&packed).unwrap(), "{}", text.0);
    }
}

#[test]
fn a_first_kit_is_within_three_per_cent_of_the_best() {
    for text in TEXTS.into_iter().chain([HIGH]) {
        let mut live = opened(&loaded(text));
        let first = live.first().unwrap_or_else(|| panic!("no kit for {}", text.0)).clone();
        stands(&live, &first);
        let best = proven(&mut live).objective();
        let short = best - first.objective();
        assert!(short <= 0.03 * best.abs(), "{}: {} of {best}", text.0, first.objective());
    }
}

#[test]
fn a_plan_that_was_dragged_ends_where_a_new_one_does() {
    for text in TEXTS {
        let loaded = loaded(text);
        let mut live = opened(&loaded);
        let all = proven(&mut live);
        for share in [0.97, 1.01, 0.96] {
            let kept = limited(&mut live, share);
            assert!(kept.case && kept.revision > all.revision);
            let dragged = live.improve(Budget::default(), &Cancel::new(), &mut |_| ControlFlow::Continue(())).cloned();
            let mut anew = opened(&Loaded { scenario: live.scenario().clone(), ..loaded.clone() });
            let new = anew.improve(Budget::default(), &Cancel::new(), &mut |_| ControlFlow::Continue(())).cloned();
            match (dragged, new) {
                (Ok(dragged), Ok(new)) => {
                    assert_eq!((&dragged.kit, dragged.proven), (&new.kit, new.proven), "{} at {share}", text.0);
                }
                (Err(PackError::Infeasible { .. }), Err(PackError::Infeasible { .. })) => break,
                other => panic!("{} at {share}: {other:?}", text.0),
            }
        }
    }
}

#[test]
fn a_limit_changes_the_case_as_reading_it_anew_does() {
    for text in TEXTS {
        let loaded = loaded(text);
        let mut live = opened(&loaded);
        for change in [
            Change::Limit(Measure::Mass, Some(12_345_000)),
            Change::Limit(Measure::Volume, Some(45_678_000)),
            Change::Limit(Measure::Money, Some(12_345)),
            Change::Limit(Measure::Money, None),
            Change::Stranded(Some(0.2)),
        ] {
            let kept = live.patch(change).unwrap();
            assert!(kept.case);
            let anew = opened(&Loaded { scenario: live.scenario().clone(), ..loaded.clone() });
            assert_eq!(format!("{:?}", live.instance), format!("{:?}", anew.instance));
        }
    }
}

#[test]
fn what_a_patch_leaves_valid_is_kept() {
    let mut live = opened(&loaded(TEXTS[2]));
    let best = proven(&mut live);
    // Looser: the kit stays, what was proven does not.
    let kept = limited(&mut live, 1.5);
    assert_eq!((kept.kit, kept.bound), (true, false));
    assert!(!live.standing().unwrap().proven);
    // Tighter, and the kit still fits: both stay.
    proven(&mut live);
    let kept = limited(&mut live, 1.0);
    assert_eq!((kept.kit, kept.bound), (true, true));
    assert!(live.standing().unwrap().proven);
    // Too tight for it: a good kit is found near it.
    let kept = limited(&mut live, 0.98);
    assert_eq!((kept.kit, kept.bound), (false, true));
    assert!(live.standing().is_none());
    // Anything else: the kit is looked at again in the changed trip.
    let mut other = live.scenario().clone();
    other.limits.kit_mass = None;
    other.trip.legs[0].hours_to_help += Hours::new(3.0);
    proven(&mut live);
    let kept = live.patch(Change::Scenario(Box::new(other))).unwrap();
    assert_eq!((kept.case, kept.bound), (false, false));
    assert!(live.standing().is_none_or(|standing| standing.revision == live.revision()));
    assert!(best.revision < live.revision());
}

#[test]
fn a_kit_in_hand_is_evaluated_as_the_answer_tells_it() {
    for text in TEXTS {
        let mut live = opened(&loaded(text));
        proven(&mut live);
        let answer = live.answer().unwrap();
        let own = live.evaluate(&answer.kit);
        assert!(own.is_sound() && own.idle.is_empty());
        assert_eq!(
            (own.mass, own.volume, own.to_buy),
            (answer.totals.mass, answer.totals.volume, answer.totals.to_buy)
        );
        assert_eq!((own.terms, own.objective), (answer.figures.terms, answer.proof.objective));
        assert_eq!(own.hours_lost, answer.figures.hours_lost);
        assert!((own.self_recovery - answer.figures.home.bound).abs() < 1e-12);
    }
}

#[test]
fn a_kit_that_breaks_limits_is_told_so() {
    let mut live = opened(&loaded(TEXTS[0]));
    proven(&mut live);
    let kit = live.standing().unwrap().kit.clone();
    let families = |live: &Live, kit: &Kit| -> Vec<&'static str> {
        live.evaluate(kit).breaks.iter().map(|short| short.family).collect()
    };
    live.patch(Change::Limit(Measure::Mass, Some(1_000_000))).unwrap();
    assert!(families(&live, &kit).contains(&"mass"));
    let nothing = families(&live, &Kit::default());
    assert!(nothing.contains(&"need") && !nothing.contains(&"mass"), "{nothing:?}");
    let strange = Kit::new([("no-such-thing".to_owned(), 1)]);
    assert_eq!(live.evaluate(&strange).idle, ["no-such-thing"]);
}

#[test]
fn stopping_at_any_moment_leaves_a_sound_kit_or_none() {
    for text in TEXTS {
        let mut fresh = opened(&loaded(text));
        let best = proven(&mut fresh.clone()).objective();
        for stop_after in 0..4_u32 {
            let mut live = fresh.clone();
            let mut heard = 0;
            let mut hear = |_: &Standing| {
                heard += 1;
                if heard > stop_after { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            };
            let own = live.clone();
            if let Ok(standing) = live.improve(Budget::default(), &Cancel::new(), &mut hear) {
                stands(&own, standing);
                assert!(standing.objective() <= best + 1e-6);
            }
        }
        // From another thread, at moments that nobody chose.
        for milliseconds in [0, 3, 11, 40, 90] {
            let mut live = fresh.clone();
            let cancel = Cancel::new();
            let later = cancel.clone();
            let wait = std::thread::spawn(move || {
                std::thread::sleep(Duration::from_millis(milliseconds));
                later.cancel();
            });
            let own = live.clone();
            match live.improve(Budget::default(), &cancel, &mut |_| ControlFlow::Continue(())) {
                Ok(standing) => stands(&own, standing),
                Err(PackError::OutOfTime) => {}
                Err(error) => panic!("{}: {error}", text.0),
            }
            wait.join().unwrap();
            assert!((proven(&mut live).objective() - best).abs() <= 1e-6);
        }
        fresh.first();
    }
}

#[test]
fn a_short_budget_has_a_kit_all_the_same() {
    for text in TEXTS.into_iter().chain([HIGH]) {
        let mut live = opened(&loaded(text));
        let own = live.clone();
        let budget = Budget { time: Some(Duration::from_millis(1)), gap: 0.0 };
        let standing = live.improve(budget, &Cancel::new(), &mut |_| ControlFlow::Continue(())).unwrap();
        stands(&own, standing);
    }
}

#[test]
fn a_curve_goes_outward_and_never_falls() {
    let mut live = opened(&loaded(TEXTS[2]));
    proven(&mut live);
    let used = Measure::Mass.used(&live.instance, live.standing().unwrap().counts());
    live.patch(Change::Limit(Measure::Mass, Some(used))).unwrap();
    let limits: Vec<i64> = (-3..3).map(|step| used + step * 60_000).collect();
    let mut order = Vec::new();
    let mut hear = |point: &LivePoint| {
        order.push((point.limit - used).abs());
        ControlFlow::Continue(())
    };
    let points = live.curve(Measure::Mass, &limits, Budget::default(), &Cancel::new(), &mut hear).unwrap();
    assert!(order.is_sorted());
    assert_eq!(points.iter().map(|point| point.limit).collect::<Vec<_>>(), limits);
    let worth: Vec<f64> = points.iter().filter_map(|point| Some(point.standing.as_ref()?.objective())).collect();
    assert!(worth.len() >= 3 && worth.is_sorted_by(|a, b| *a <= b + 1e-9), "{worth:?}");
}

#[test]
fn why_of_the_kit_in_hand_searches_nothing_unless_asked() {
    fn never(_: &Model, _: &SolveOptions) -> Result<Answer, fardel_milp::EngineError> {
        panic!("nobody asked for a search")
    }
    let mut live = opened(&loaded(TEXTS[2]));
    proven(&mut live);
    let engine = Engine::Custom(CustomSolver { word: "never", solve: never, has_fallback: false });
    let (carried, left): (Vec<_>, Vec<_>) = live
        .instance
        .items
        .iter()
        .map(|item| item.id.clone())
        .partition(|id| live.standing().unwrap().kit.count(id) > 0);
    live.options.engine = engine;
    for id in [&carried[0], &left[0]] {
        let told = live.why(id, false).unwrap();
        assert!(!told.anew && &told.id == id);
    }
    live.options.engine = Engine::Microlp;
    assert!(live.why(&carried[0], true).unwrap().anew);
}

#[test]
fn a_clone_improves_on_its_own_and_is_taken_over_unless_it_is_late() {
    let mut kept = opened(&loaded(TEXTS[2]));
    let mut own = kept.clone();
    let best = proven(&mut own);
    assert!(kept.standing().is_none());
    assert!(kept.adopt(&own));
    assert_eq!(kept.standing().unwrap().kit, best.kit);
    kept.patch(Change::Stranded(Some(0.9))).unwrap();
    assert!(!kept.adopt(&own));
}

#[test]
fn a_split_in_hand_is_evaluated_as_it_was_told() {
    let text = ("three-to-the-coast.yaml", include_str!("../../../scenarios/three-to-the-coast.yaml"));
    let loaded = loaded(text);
    let catalogue = Arc::new(loaded.catalogue.clone());
    let demands = crate::answer::split::Demands::default();
    let mut group = LiveGroup::open(catalogue, loaded.scenario.clone(), demands, SolveOptions::default()).unwrap();
    let answer = group.improve(Budget::default(), &Cancel::new()).unwrap().clone();
    let kit = |card: &crate::answer::split::Card| {
        let units = card.bags.iter().flat_map(|bag| &bag.items).map(|item| (item.id.clone(), item.count));
        let mut counts = std::collections::BTreeMap::new();
        units.for_each(|(id, n)| *counts.entry(id).or_insert(0) += n);
        Kit::new(counts)
    };
    let kits: Vec<Kit> = answer.cards.iter().map(kit).collect();
    let own = group.evaluate(&kits);
    assert!(own.breaks.is_empty(), "{:?}", own.breaks);
    assert!((own.objective - answer.proof.objective).abs() <= 1e-6, "{} {}", own.objective, answer.proof.objective);
    for (load, card) in own.riders.iter().zip(&answer.cards) {
        assert_eq!((&load.rider, load.mass), (&card.rider, card.mass));
        assert!(load.breaks.iter().all(|short| short.family == "stow") && load.idle.is_empty(), "{load:?}");
    }
    assert_eq!(group.patch(loaded.scenario.clone(), demands).unwrap(), 0);
    let cancelled = Cancel::new();
    cancelled.cancel();
    assert!(group.improve(Budget::default(), &cancelled).is_err());
    assert!(group.standing().is_some());
}
