//! Curves over random tiny worlds: each point is what packing under that limit gives, none lies lower than the one before,
//! and those said to be on the envelope are those under no line between two others.

use super::brute_force::world;
use crate::support::{load, pack_with};
use fardel::answer::{Curve, Limits, PackError, curve};
use fardel::domain::Pooling;
use fardel::milp::{Engine, EngineError, SolveOptions, Stop};
use fardel::resolve::{Amount, Instance, Measure, resolve};
use fardel::risk::assess;

const MEASURES: [Measure; 3] = [Measure::Mass, Measure::Volume, Measure::Money];

fn curve_of(instance: &Instance, measure: Measure, engine: Engine) -> Result<Curve, EngineError> {
    let limits = Limits::Between { from: None, to: None, count: 9 };
    curve(instance, &assess(instance), measure, &limits, &SolveOptions { engine, ..SolveOptions::default() }, &|_| ())
}

/// What packing gives under a limit, worked out from the files.
fn packed(seed: u64, measure: Measure, limit: Amount, engine: Engine) -> Result<f64, PackError> {
    let mut loaded = load(&world(seed));
    loaded.catalogue.model.pooling = Pooling::EveryRepair;
    let limits = &mut loaded.scenario.limits;
    match measure {
        Measure::Mass => limits.kit_mass = Some(fardel::units::Mass::from_grams(limit / 1000)),
        Measure::Volume => limits.kit_volume = Some(fardel::units::Volume::from_millilitres(limit / 1000)),
        Measure::Money => limits.budget = Some(fardel::units::Money::from_cents(limit)),
    }
    pack_with(&loaded, engine).map(|answer| answer.proof.objective)
}

#[test]
fn every_point_is_what_packing_gives_and_the_curve_never_falls() {
    for (seed, engine) in (500..530).flat_map(|seed| Engine::ALL.iter().map(move |engine| (seed, *engine))) {
        let mut loaded = load(&world(seed));
        loaded.catalogue.model.pooling = Pooling::EveryRepair;
        let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
        for measure in MEASURES {
            let curve = curve_of(&instance, measure, engine).unwrap();
            assert!(curve.least_exact && !curve.points.is_empty(), "seed {seed}");
            for point in &curve.points {
                let expected = packed(seed, measure, point.limit, engine).unwrap();
                let apart = (point.objective - expected).abs();
                assert!(apart < 1e-8, "seed {seed}, {measure:?} {}: {apart}", point.limit);
                assert!(point.solved.choice.stop == Stop::Proven, "seed {seed}, {measure:?} {}", point.limit);
                assert!(point.used <= point.limit);
            }
            let falls = curve.points.windows(2).any(|pair| pair[1].objective < pair[0].objective);
            assert!(!falls, "seed {seed}, {measure:?}");
            the_envelope_is_flagged(&curve, seed);
        }
    }
}

/// A point is off the envelope if and only if it lies under the line between some two others.
#[allow(clippy::cast_precision_loss)]
fn the_envelope_is_flagged(curve: &Curve, seed: u64) {
    let points: Vec<(f64, f64)> = curve.points.iter().map(|p| (p.used as f64, p.objective)).collect();
    for (own, (x, y)) in curve.points.iter().zip(&points) {
        let pairs = points.iter().flat_map(|a| points.iter().map(move |b| (a, b)));
        let above =
            pairs.filter(|(a, b)| a.0 < *x && *x < b.0).map(|(a, b)| a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0));
        let under = above.fold(f64::NEG_INFINITY, f64::max) - y;
        assert!(under.abs() > 1e-7 || under <= 1e-9, "seed {seed}: too near to tell");
        assert_eq!(own.on_envelope, under <= 1e-9, "seed {seed}, {} under by {under}", own.limit);
    }
}

#[test]
fn with_less_than_the_least_there_is_no_kit() {
    let mut needy = world(501);
    needy.always = vec![("item-0".to_owned(), 1), ("item-1".to_owned(), 1)];
    (needy.kit_mass_g, needy.budget) = (None, None);
    let loaded = load(&needy);
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let least = curve_of(&instance, Measure::Mass, Engine::Microlp).unwrap().least;
    // Nothing but the two, and whatever they are useless without.
    let two: Amount = needy.items[..2].iter().map(|item| Amount::from(item.mass_g) * 1000).sum();
    assert!(least >= two && least > 0);
    for (limit, fits) in [(least, true), (least - 1000, false)] {
        let mut own = load(&needy);
        own.scenario.limits.kit_mass = Some(fardel::units::Mass::from_grams(limit / 1000));
        assert_eq!(pack_with(&own, Engine::Microlp).is_ok(), fits, "{limit}");
    }
    let limits = Limits::At(vec![least - 1000, least]);
    let found =
        curve(&instance, &assess(&instance), Measure::Mass, &limits, &SolveOptions::default(), &|_| ()).unwrap();
    assert_eq!((found.too_low, found.points.len()), (vec![least - 1000], 1));
}
