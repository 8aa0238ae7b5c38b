//! Tracks and maps: what is read makes a trip whose figures are figures, or it is refused in words.

use super::{faults, text};
use fardel_route::draft::{self, Leg};
use fardel_route::fault::Fault;
use fardel_route::geo::Point;
use fardel_route::map::{cut, read};
use fardel_route::picture;
use fardel_route::read::{TrackFile, tracks};
use fardel_route::ride::Ride;
use fardel_route::survey::{Survey, Wishes, survey};
use fardel_route::track::{Line, Track, TrackPoint};
use std::io::Cursor;

/// Half the corridor of the map's target, in metres.
const REACH: f64 = 300.0;

/// A file of a rider: its trip, without a map.
pub fn track(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let wishes = Wishes::default();
    let track = match tracks(&[TrackFile { name: "own.gpx".to_owned(), text: text.to_owned() }]) {
        Ok(track) => track,
        Err(fault) => return is_told(&fault),
    };
    match survey("own.gpx", &track, None::<(&str, Cursor<Vec<u8>>)>, &wishes) {
        Ok(survey) => is_a_trip(&survey, &wishes),
        Err(fault) => is_told(&fault),
    }
}

/// An extract around a ride of one kilometre. What is kept of it can be cut out and read again as the same.
pub fn extract(bytes: &[u8]) {
    if bytes.len() > super::LONGEST {
        return;
    }
    let track = kilometre();
    let Some(ride) = Ride::new(&track).ok() else { panic!("a kilometre is a ride") };
    let corridor = match read("own.osm.pbf", Cursor::new(bytes), &ride, REACH) {
        Ok(corridor) => corridor,
        Err(fault) => return is_told(&fault),
    };
    let kept = cut::bytes(&corridor, "a test").unwrap_or_else(|error| panic!("{error}"));
    let again = read("cut.osm.pbf", Cursor::new(&kept), &ride, REACH).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(again.ways.len(), corridor.ways.len(), "a cut lost ways");
    assert_eq!(again.places.len(), corridor.places.len(), "a cut lost places");
    let wishes = Wishes { reach: REACH, ..Wishes::default() };
    match survey("own.gpx", &track, Some(("cut.osm.pbf", Cursor::new(kept))), &wishes) {
        Ok(survey) => is_a_trip(&survey, &wishes),
        Err(fault) => is_told(&fault),
    }
}

fn kilometre() -> Track {
    let point = |lat: f64| Point::new(lat, 7.0).map(|at| TrackPoint { at, height: None, time: None });
    let points = [45.0, 45.009].into_iter().filter_map(point).collect();
    Track { lines: vec![Line { file: 0, name: None, points }], marks: Vec::new() }
}

fn is_told(fault: &Fault) {
    let text = fault.to_string();
    assert!(text.contains("; expected "), "{text}");
    faults::is_harmless(&text);
}

fn is_a_trip(survey: &Survey, wishes: &Wishes) {
    let legs: Vec<Leg> = draft::legs(survey, wishes);
    assert!(!legs.is_empty(), "a trip has a leg");
    for leg in &legs {
        assert!(leg.km.iter().all(|km| km.is_finite() && *km >= 0.0), "{:?}", leg.km);
    }
    let trip = draft::trip(survey, wishes, &legs, &["own.gpx".to_owned()], None);
    faults::is_harmless(&trip);
    let read: Result<serde_yaml::Value, _> = serde_yaml::from_str(&trip);
    assert!(read.is_ok(), "{read:?}\n{trip}");
    let drawn = picture::svg(survey, &legs, "own");
    assert!(!["NaN", "inf", "<script"].iter().any(|word| drawn.contains(word)), "{drawn}");
}
