//! What is cut from a map along a ride tells the same of it as the whole map.

use crate::world::{World, valley};
use fardel_route::geo::Point;
use fardel_route::map::{Corridor, WayKind, cut, read};
use fardel_route::ride::Ride;
use fardel_route::survey::{Wishes, survey};
use fardel_route::track::Track;
use std::io::Cursor;

fn corridor(world: &World, track: &Track, reach: f64) -> Corridor {
    read("a.osm.pbf", Cursor::new(world.bytes()), &Ride::new(track).unwrap(), reach).unwrap()
}

/// The valley with one of everything that a way or a place can be.
fn busy() -> (World, Track) {
    let (mut world, track) = valley(45.0, 7.0);
    let mut way = |north: f64, tags: &[(&'static str, &'static str)]| {
        world.way(&[(1.0, north), (2.0, north)], tags);
    };
    way(0.3, &[("route", "ferry")]);
    way(0.4, &[("highway", "motorway")]);
    way(0.5, &[("highway", "residential"), ("oneway", "-1")]);
    way(0.6, &[("highway", "path")]);
    way(0.7, &[("highway", "tertiary"), ("access", "no")]);
    way(0.8, &[("highway", "track"), ("ford", "yes"), ("surface", "mud")]);
    way(0.9, &[("highway", "unclassified"), ("ford", "yes")]);
    let places: [&[(&str, &str)]; 6] = [
        &[("amenity", "fuel"), ("ford", "yes"), ("name", "Pump & café „Ödland“")],
        &[("amenity", "drinking_water")],
        &[("shop", "tyres")],
        &[("amenity", "clinic")],
        &[("emergency", "mountain_rescue")],
        &[("drinking_water", "yes"), ("natural", "spring"), ("barrier", "bollard")],
    ];
    for (at, tags) in (1..).zip(places) {
        world.node(f64::from(at), 0.02, tags);
    }
    // Out of the corridor and back.
    world.way(&[(3.0, 1.0), (4.0, 90.0), (5.0, 1.0), (6.0, 1.0)], &[("highway", "road")]);
    // Drawn by its outline.
    world.way(&[(7.0, 0.1), (7.1, 0.1), (7.0, 0.2)], &[("shop", "supermarket"), ("name", "By the bridge")]);
    (world, track)
}

/// A way with where it goes.
type LaidOut = (i64, WayKind, Vec<(i64, Point)>);

fn laid_out(corridor: &Corridor) -> Vec<LaidOut> {
    let node = |at: &u32| (corridor.ids[*at as usize], corridor.nodes[*at as usize]);
    corridor.ways.iter().map(|way| (way.id, way.kind, way.nodes.iter().map(node).collect())).collect()
}

#[test]
fn a_cut_is_read_as_what_it_was_cut_from() {
    let (world, track) = busy();
    let whole = corridor(&world, &track, 3000.0);
    assert!(whole.ways.len() > 8 && whole.places.len() > 10, "{whole:?}");
    let bytes = cut::bytes(&whole, "here").unwrap();
    let again = read("cut", Cursor::new(&bytes), &Ride::new(&track).unwrap(), 3000.0).unwrap();
    assert_eq!(laid_out(&again), laid_out(&whole));
    assert_eq!(again.places, whole.places);
    // And a cut of the cut is the same to the byte.
    assert_eq!(cut::bytes(&again, "here").unwrap(), bytes);
}

#[test]
fn a_ride_on_a_cut_is_the_ride_on_the_map() {
    let (world, track) = busy();
    let wishes = Wishes { days: Some(2), reach: 3000.0, ..Wishes::default() };
    let (whole, legs) = world.survey(&track, &wishes);
    let bytes = cut::bytes(&whole.map.as_ref().unwrap().corridor, "here").unwrap();
    let cut = survey("a.gpx", &track, Some(("cut", Cursor::new(bytes))), &wishes).unwrap();
    assert_eq!(fardel_route::draft::legs(&cut, &wishes), legs);
    assert_eq!((cut.fuel, cut.food, cut.water), (whole.fuel, whole.food, whole.water));
    assert_eq!((cut.fords, cut.gates), (whole.fords, whole.gates));
    assert_eq!(cut.map.unwrap().help, whole.map.unwrap().help);
}

#[test]
fn a_cut_says_what_it_was_cut_from() {
    let (world, track) = valley(45.0, 7.0);
    let ride = Ride::new(&track).unwrap();
    let origin = |size, changed, reach| cut::origin("a.osm.pbf", size, changed, &ride, reach);
    let here = origin(7, 8, 300.0);
    assert!(cut::is_ours(&here));
    let other = Ride::new(&world.track(&[(0.0, 0.0), (20.0, 0.0)])).unwrap();
    for differs in [
        origin(8, 8, 300.0),
        origin(7, 9, 300.0),
        origin(7, 8, 301.0),
        cut::origin("b.osm.pbf", 7, 8, &ride, 300.0),
        cut::origin("a.osm.pbf", 7, 8, &other, 300.0),
    ] {
        assert_ne!(differs, here);
    }
    let bytes = cut::bytes(&corridor(&world, &track, 300.0), &here).unwrap();
    assert_eq!(cut::origin_of(Cursor::new(bytes)), Some(here));
    assert_eq!(cut::origin_of(Cursor::new(world.bytes())), None);
    assert_eq!(cut::origin_of(Cursor::new(b"no map")), None);
}
