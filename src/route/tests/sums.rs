//! Whichever way a ride goes and however it is cut into days, its sums stay.

use crate::world::valley;
use fardel_route::days::Split;
use fardel_route::draft::Leg;
use fardel_route::map::Ground;
use fardel_route::ride::Ride;
use fardel_route::survey::Wishes;
use fardel_route::track::{Line, Track, TrackPoint};
use proptest::prelude::*;

fn sums(legs: &[Leg]) -> Vec<f64> {
    let under = Ground::ALL.iter().map(|ground| {
        let of = |leg: &Leg| leg.under.iter().find(|(found, _)| found == ground).map_or(0.0, |(_, metres)| *metres);
        legs.iter().map(of).sum::<f64>()
    });
    let written = (0..4).map(|at| legs.iter().map(|leg| leg.km[at] * 1000.0).sum::<f64>());
    let climb = legs.iter().filter_map(|leg| leg.climb).fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    under.chain(written).chain([climb.0, climb.1]).collect()
}

fn alike(one: &[f64], other: &[f64]) {
    for (a, b) in one.iter().zip(other) {
        assert!((a - b).abs() < 1e-3, "{one:?}\n{other:?}");
    }
}

/// The track of the valley with points every 70 m that scatter, and heights.
fn scattered(seed: u64) -> (crate::world::World, Track) {
    let (world, _) = valley(45.0, 7.0);
    let mut random = fastrand::Rng::with_seed(seed);
    let mut point = |east: f64, north: f64| TrackPoint {
        at: world.place(east + random.f64() * 0.016 - 0.008, north + random.f64() * 0.016 - 0.008),
        height: Some(200.0 + 20.0 * north + random.f64() * 8.0),
        time: None,
    };
    let mut points: Vec<TrackPoint> = (0..430).map(|at| point(f64::from(at) * 0.07, 0.0)).collect();
    points.extend((1..140).map(|at| point(30.0, f64::from(at) * 0.07)));
    (world, Track { lines: vec![Line { file: 0, name: None, points }], marks: Vec::new() })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    #[test]
    fn days_add_up_to_the_ride(seed in 0_u64..1000, days in 2_usize..12, riding in any::<bool>()) {
        let (world, track) = scattered(seed);
        let split = if riding { Split::Riding } else { Split::Length };
        let of = |days: usize| world.survey(&track, &Wishes { days: Some(days), split, ..Wishes::default() });
        let ((survey, whole), (_, parts)) = (of(1), of(days));
        prop_assert_eq!(parts.len(), days);
        alike(&sums(&whole), &sums(&parts));
        let total: f64 = sums(&whole)[..7].iter().sum();
        prop_assert!((total - survey.ride.metres).abs() < 1e-3);
    }

    #[test]
    fn a_ride_back_is_as_long_and_on_the_same_ground(seed in 0_u64..1000) {
        let (world, track) = scattered(seed);
        let wishes = Wishes { days: Some(1), ..Wishes::default() };
        let ((there, one), (back, other)) = (world.survey(&track, &wishes), world.survey(&track.reversed(), &wishes));
        prop_assert!((there.ride.metres - back.ride.metres).abs() < 1e-6 * there.ride.metres);
        let (mut one, mut other) = (sums(&one), sums(&other));
        let ((up, down), (back_up, back_down)) = ((one.split_off(11)[0], sums(&world.survey(&track, &wishes).1)[12]), (other.split_off(11)[0], sums(&world.survey(&track.reversed(), &wishes).1)[12]));
        prop_assert!((up - back_down).abs() < 1e-3 && (down - back_up).abs() < 1e-3);
        alike(&one, &other);
    }

    #[test]
    fn a_line_cut_in_two_is_as_long(seed in 0_u64..1000, cut in 2_usize..500) {
        let (_, track) = scattered(seed);
        let points = &track.lines[0].points;
        let line = |points: &[TrackPoint]| Line { file: 0, name: None, points: points.to_vec() };
        let two = Track { lines: vec![line(&points[..=cut]), line(&points[cut..])], marks: Vec::new() };
        let (one, two) = (Ride::new(&track).unwrap(), Ride::new(&two).unwrap());
        prop_assert!((one.metres - two.metres).abs() < 1e-6);
        prop_assert!(two.between_lines.abs() < 1e-9);
    }
}

/// Three nights of eight hours between four days, and a long lunch: the nights are found.
#[test]
fn stops_of_a_track_with_times_are_nights() {
    let (world, _) = valley(45.0, 7.0);
    let mut points = Vec::new();
    let mut time = 1_777_622_400.0;
    for day in 0..4_u32 {
        for part in 0..=10_u32 {
            let east = f64::from(day * 10 + part);
            points.push(TrackPoint { at: world.place(east, 0.0), height: None, time: Some(time) });
            time += if part == 5 { 7200.0 } else { 1200.0 };
        }
        time += 8.0 * 3600.0;
    }
    let track = Track { lines: vec![Line { file: 0, name: None, points }], marks: Vec::new() };
    let (survey, legs) = world.survey(&track, &Wishes::default());
    assert_eq!(legs.len(), 4);
    assert!(survey.days.how.contains("stop"));
    assert!(legs.iter().all(|leg| ((leg.to - leg.from) / 1000.0 - 10.0).abs() < 0.2));
    let (_, legs) = world.survey(&track, &Wishes { days: Some(2), split: Split::Stops, ..Wishes::default() });
    assert_eq!(legs.len(), 2);
    assert!(world.read(&track, &Wishes { days: Some(9), split: Split::Stops, ..Wishes::default() }).is_err());
}
