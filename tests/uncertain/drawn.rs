//! What is drawn, and how it is put into a case.

use super::shipped;
use crate::cli::Tiny;
use crate::support::fardel;
use fardel::risk;
use fardel::uncertain::{Drawn, Law, Number, Target, Uncertain};

/// Draws of a test.
const DRAWS: u64 = 4000;

fn factors(uncertain: &Uncertain<'_>) -> Vec<Vec<f64>> {
    (0..DRAWS).map(|draw| uncertain.draw(5, draw).factors).collect()
}

#[allow(clippy::cast_precision_loss)]
fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let values: Vec<f64> = values.collect();
    values.iter().sum::<f64>() / values.len() as f64
}

/// Everything that a kit is chosen by is on the list: each failure's rate, each repair's time, falls, help, prices.
#[test]
fn every_number_is_drawn() {
    let (loaded, instance) = shipped("five-day-loop.yaml");
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    let there = |target: Target| uncertain.numbers().iter().any(|number| number.target == target);
    for (at, failure) in instance.failures.iter().enumerate() {
        assert!(there(Target::Rate(at)), "rate of {}", failure.id);
        for (number, repair) in failure.repairs.iter().enumerate() {
            assert!(there(Target::Time(at, number)), "time of {}/{}", failure.id, repair.id);
            assert_eq!(there(Target::Restores(at, number)), repair.restores < 1.0, "{}/{}", failure.id, repair.id);
        }
    }
    for target in [
        Target::Falls(2),
        Target::Skill(0),
        Target::LoadSensitivity,
        Target::HoursPerFall,
        Target::Help(0),
        Target::Weight,
        Target::Thing,
        Target::RestOfDay,
        Target::Dread,
    ] {
        assert!(there(target), "{target:?}");
    }
}

/// Each number keeps its own distribution, whatever it is drawn with: Gamma factors have mean 1 and variance 1 / shape,
/// log-normal ones mean 1, nine in ten of all are within their factor of the median.
#[test]
fn numbers_keep_their_distributions() {
    let (loaded, instance) = shipped("five-day-loop.yaml");
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    let all = factors(&uncertain);
    let mut looked_at = 0;
    for (at, number) in uncertain.numbers().iter().enumerate().step_by(17) {
        let own = || all.iter().map(|factors| factors[at]);
        match number.law {
            Law::Events(shape) => {
                let error = (1.0 / shape / 4000.0).sqrt();
                assert!((mean(own()) - 1.0).abs() < 5.0 * error, "{number:?}: {}", mean(own()));
                let below =
                    mean(own().map(|factor| f64::from(u8::from(factor < fardel::uncertain::gamma(shape, -1.0)))));
                assert!((below - 0.1587).abs() < 0.03, "{number:?}: {below}");
            }
            Law::Within(factor) | Law::Odds(factor) => {
                let middle = number.law.factor(0.0);
                let inside = |own: f64| own <= middle * factor && own >= middle / factor;
                let share = mean(own().map(|own| f64::from(u8::from(inside(own)))));
                assert!((share - 0.9).abs() < 0.025, "{number:?}: {share}");
            }
        }
        looked_at += 1;
    }
    assert!(looked_at > 30);
}

/// Numbers of one system go together, with half of the variance of their scores; numbers of two systems do not.
#[test]
fn numbers_of_one_system_go_together() {
    let (loaded, instance) = shipped("five-day-loop.yaml");
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    let times: Vec<(usize, &Number)> = uncertain
        .numbers()
        .iter()
        .enumerate()
        .filter(|(_, number)| matches!(number.target, Target::Time(..)))
        .collect();
    let (first, own) = times[0];
    let same = times[1..].iter().find(|(_, number)| number.together == own.together).expect("two in one system").0;
    let other = times.iter().find(|(_, number)| number.together != own.together).expect("two systems").0;
    let all = factors(&uncertain);
    // Logarithms of log-normal factors are their scores, but for scale.
    let score = |at: usize| {
        let logs: Vec<f64> = all.iter().map(|factors| factors[at].ln()).collect();
        let middle = mean(logs.iter().copied());
        let spread = mean(logs.iter().map(|log| (log - middle).powi(2))).sqrt();
        logs.into_iter().map(move |log| (log - middle) / spread).collect::<Vec<f64>>()
    };
    let correlation = |a: usize, b: usize| mean(score(a).iter().zip(score(b)).map(|(a, b)| a * b));
    assert!((correlation(first, same) - 0.5).abs() < 0.06, "{}", correlation(first, same));
    assert!(correlation(first, other).abs() < 0.06, "{}", correlation(first, other));
}

/// A world in which nothing was drawn otherwise is the case itself; and each value goes where it belongs.
#[test]
fn a_world_is_the_case_with_other_values() {
    let (loaded, instance) = shipped("five-day-loop.yaml");
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    let nothing = Drawn { factors: vec![1.0; uncertain.numbers().len()] };
    let same = uncertain.world(&nothing);
    let (before, after) = (risk::assess(&instance), risk::assess(&same));
    assert!((before.hours_empty() - after.hours_empty()).abs() < 1e-9 * before.hours_empty());
    let with = |target: Target, factor: f64| {
        let mut drawn = nothing.clone();
        let at = uncertain.numbers().iter().position(|number| number.target == target).expect("it is on the list");
        drawn.factors[at] = factor;
        uncertain.world(&drawn)
    };
    let leg = |world: &fardel::resolve::Instance| world.exposures[0].legs[0].clone();
    let helped = with(Target::Help(leg(&instance).number), 2.0);
    let hours = leg(&instance).hours_to_help;
    assert!((leg(&helped).hours_to_help.get() - 2.0 * hours.get()).abs() < 1e-9);
    assert!((leg(&helped).fetched.get() - instance.prices.fetched(hours * 2.0).get()).abs() < 1e-9);
    let falls = |world: &fardel::resolve::Instance| world.exposures[0].legs.iter().map(|leg| leg.falls).sum::<f64>();
    assert!((falls(&with(Target::Skill(0), 3.0)) - 3.0 * falls(&instance)).abs() < 1e-9);
    let surfaces = [0, 1, 2, 3].map(|at| {
        let there = uncertain.numbers().iter().any(|number| number.target == Target::Falls(at));
        if there { falls(&with(Target::Falls(at), 2.0)) - falls(&instance) } else { 0.0 }
    });
    assert!((surfaces.iter().sum::<f64>() - falls(&instance)).abs() < 1e-9, "each surface's own falls double");
    let cheap = with(Target::Hour, 4.0);
    let bought = |world: &fardel::resolve::Instance| world.items.iter().map(|item| item.buying.get()).sum::<f64>();
    assert!((bought(&cheap) - bought(&instance) / 4.0).abs() < 1e-9, "where an hour is worth more, money costs fewer");
}

/// What the scenario states is the rider's own, and certain.
#[test]
fn prices_of_the_riders_own_are_not_drawn() {
    let (mut loaded, _) = shipped("five-day-loop.yaml");
    loaded.scenario.prices.dread = Some(0.5);
    let instance =
        fardel::resolve::resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).expect("a bike");
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    assert!(uncertain.numbers().iter().all(|number| number.target != Target::Dread));
}

/// Riding in many worlds: what is reckoned on average over worlds is what is ridden, and the error grows with the worlds'
/// differences.
#[test]
fn riding_in_many_worlds_agrees_with_reckoning_in_them() {
    let tiny = Tiny::new();
    let run = |further: &[&str]| {
        let given = ["rehearse", "trip.yaml", "--catalogues", "catalogue", "--format", "json", "--trips", "64000"];
        let run = fardel(tiny.path(), &[&given[..], further].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        run.json()
    };
    let (known, drawn) = (run(&[]), run(&["--uncertain"]));
    assert_eq!((drawn["worlds"].as_u64(), known["worlds"].as_u64()), (Some(2000), Some(0)));
    let figure = |json: &serde_json::Value, name: &str| json["hours_lost"][name].as_f64().unwrap();
    assert!(figure(&drawn, "standard_error") > 1.2 * figure(&known, "standard_error"), "worlds differ");
    let (loaded, kit) = tiny_kit(&tiny);
    let rider = &loaded.scenario.riders[0];
    let instance = fardel::resolve::resolve(&loaded.catalogue, &loaded.scenario, rider).unwrap();
    let uncertain = Uncertain::new(&loaded.catalogue, &loaded.scenario, &instance);
    let counts: Vec<u32> = instance.items.iter().map(|item| kit.count(&item.id)).collect();
    let lost = (0..3000).map(|draw| {
        let world = uncertain.world(&uncertain.draw(9, draw));
        let model = risk::assess(&world);
        let value = risk::value(&world, &model, &counts);
        model.hours_empty() - value.hours_saved() + value.terms.falls
    });
    let reckoned = mean(lost);
    let apart = (figure(&drawn, "mean") - reckoned).abs();
    assert!(apart < 4.0 * figure(&drawn, "standard_error") + 0.05 * reckoned, "{reckoned} against {drawn}");
}

fn tiny_kit(tiny: &Tiny) -> (fardel::load::Loaded, fardel::domain::Kit) {
    let loaded = fardel::load::load(&tiny.path().join("trip.yaml"), Some(&tiny.path().join("catalogue"))).unwrap();
    let options = fardel::milp::SolveOptions::default();
    let packed =
        fardel::answer::pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], &options).unwrap();
    (loaded, packed.kit)
}
