//! Hours to help, surfaces and gaps on a map small enough to reckon by hand.

use crate::world::{World, valley};
use fardel_route::draft::{Leg, trip};
use fardel_route::map::Ground;
use fardel_route::survey::Wishes;
use fardel_route::track::MarkKind;

fn km(leg: &Leg, ground: Ground) -> f64 {
    leg.under.iter().find(|(found, _)| *found == ground).unwrap().1 / 1000.0
}

/// Corners in the lat/lon plane are not geodesics to the metre, so lengths are right to half a per cent.
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 0.005 * expected.abs() + 0.03, "{found} is not {expected}");
}

/// Speeds 60, 40 and 20 km/h: from the end 20/60 + 10/40 + 10/20 h each way, after 12 h out of cover.
#[test]
fn hours_by_hand() {
    for (lat, lon) in [(45.0, 7.0), (-33.0, 179.8), (-75.0, -179.9), (0.0, 0.0)] {
        let (world, track) = valley(lat, lon);
        let (survey, legs) = world.survey(&track, &Wishes { days: Some(1), ..Wishes::default() });
        let help = &survey.map.as_ref().unwrap().help;
        let last = help.last().unwrap();
        let one_way = 20.0 / 60.0 + 10.0 / 40.0 + 10.0 / 20.0;
        near(last.hours().unwrap(), 12.0 + 2.0 * one_way - 2.0 * 0.25 / 20.0);
        let first = help.first().unwrap();
        near(first.wait, 2.0);
        assert!(first.hours().unwrap() < 2.1, "at the pump");
        // The town is within 10 km up to there.
        assert!(help.iter().all(|look| (look.wait > 2.0) == (look.metres > 10_000.0)));
        near(legs[0].hours_to_help.value, 14.5);
        assert!(legs[0].mean_hours.unwrap() < 12.0);
        assert_eq!(legs[0].unreached, 0.0);
    }
}

#[test]
fn surfaces_and_gaps_by_hand() {
    let (world, track) = valley(45.0, 7.0);
    let (survey, legs) = world.survey(&track, &Wishes { days: Some(2), ..Wishes::default() });
    let sum = |ground| legs.iter().map(|leg| km(leg, ground)).sum::<f64>();
    near(sum(Ground::Sealed), 20.0);
    near(sum(Ground::Gravel), 10.0);
    near(sum(Ground::Track), 10.0);
    near(sum(Ground::Rough), 0.0);
    near(sum(Ground::OffMap), 0.0);
    assert_eq!(survey.fuel.len(), 1);
    assert_eq!(legs[0].fuel_every.as_ref().unwrap().value, 40.0, "from the pump to the end");
    assert_eq!(legs[0].food_every.value, 1.0, "20 km to the shop and 20 on: a day each");
    assert!(legs[1].notes.iter().any(|note| note.starts_with("gates at km 35.")), "{:?}", legs[1].notes);
    assert_eq!(legs[0].name, "Day 1: from Westing");
}

/// A ride 30 m beside a road, as receivers have it, is still on it; one 300 m away is off the map.
#[test]
fn a_track_beside_a_road_is_on_it_and_one_far_away_is_not() {
    let (world, _) = valley(45.0, 7.0);
    let ground = |north: f64| {
        let track = world.track(&[(0.5, north), (9.0, north)]);
        let (_, legs) = world.survey(&track, &Wishes::default());
        (km(&legs[0], Ground::Sealed), km(&legs[0], Ground::OffMap))
    };
    near(ground(-0.03).0, 8.5);
    near(ground(-0.3).1, 8.5);
}

/// Two ways side by side with 20 m between: points that wander from one to the other stay on the one they began on, for
/// nobody jumps ten times in a kilometre.
#[test]
fn wandering_points_do_not_jump_between_two_ways() {
    let mut world = World::at(45.0, 7.0);
    world.way(&[(0.0, 0.0), (5.0, 0.0)], &[("highway", "primary"), ("surface", "asphalt")]);
    world.way(&[(0.2, 0.02), (4.8, 0.02)], &[("highway", "track"), ("surface", "sand")]);
    let wander = |at: u32| (f64::from(at) * 0.1, if at % 3 == 2 { 0.012 } else { 0.004 });
    let track = world.track(&(0..=50).map(wander).collect::<Vec<_>>());
    let (_, legs) = world.survey(&track, &Wishes::default());
    near(km(&legs[0], Ground::Sealed), 5.0);
}

#[test]
fn one_way_streets_and_forbidden_ways_make_help_come_around() {
    let mut world = World::at(45.0, 7.0);
    let a = world.node(0.0, 0.0, &[("amenity", "fuel")]);
    let b = world.node(10.0, 0.0, &[]);
    let c = world.node(5.0, 5.0, &[]);
    world.join(&[b, a], &[("highway", "primary"), ("oneway", "yes")]);
    world.join(&[a, c, b], &[("highway", "primary")]);
    world.join(&[a, b], &[("highway", "path")]);
    let track = world.track(&[(9.9, 0.0), (10.0, 0.0)]);
    let (survey, _) = world.survey(&track, &Wishes::default());
    let (out, back) = survey.map.as_ref().unwrap().help[0].drive.unwrap();
    near(out, (2.0 * 50.0_f64.sqrt() + 0.05) / 60.0);
    near(back, 9.95 / 60.0);
}

#[test]
fn without_anybody_to_help_the_figure_is_a_guess_and_says_so() {
    let mut world = World::at(45.0, 7.0);
    world.way(&[(0.0, 0.0), (10.0, 0.0)], &[("highway", "track")]);
    let track = world.track(&[(0.0, 0.0), (10.0, 0.0)]);
    let (_, legs) = world.survey(&track, &Wishes::default());
    assert!(legs[0].hours_to_help.basis.starts_with("a guess: no place that can help"), "{:?}", legs[0].hours_to_help);
    let (_, legs) = world.survey(&track, &Wishes { help_hours: Some(30.0), ..Wishes::default() });
    assert_eq!(legs[0].hours_to_help.value, 30.0);
}

#[test]
fn camps_split_the_days_and_give_them_names() {
    let (world, mut track) = valley(45.0, 7.0);
    track.marks = vec![
        world.mark(20.0, 0.3, MarkKind::Camp, "Crossing"),
        world.mark(30.0, 0.1, MarkKind::Camp, "Foot \"x\": # of\nthe pass"),
    ];
    let wishes = Wishes::default();
    let (survey, legs) = world.survey(&track, &wishes);
    assert_eq!(legs.len(), 3);
    near(legs[0].to, 20_000.0);
    assert_eq!(legs[0].name, "Day 1: Westing to Crossing");
    let text = trip(&survey, &wishes, &legs, &["a.gpx".to_owned()], Some("a.osm.pbf"));
    assert!(text.contains("- name: \"Day 2: Crossing to Foot \\\"x\\\": # of\\nthe pass\""), "{text}");
    assert!(text.contains("© OpenStreetMap contributors"));
}
