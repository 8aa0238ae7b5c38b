//! `route`: a track becomes a scenario that packs as it is; what is wrong is told and nothing is left behind.

use super::Tiny;
use crate::support::fardel;
use fardel_route::geo::Point;
use fardel_route::map::{Corridor, Ground, Way, WayKind, cut};
use std::fs;

/// An invented track of 60 km to the north with heights, a camp half-way and a pump.
fn track() -> String {
    let point = |at: u32| {
        let lat = 44.0 + f64::from(at) * 0.01;
        format!("<trkpt lat='{lat:.2}' lon='7'><ele>{}</ele></trkpt>", 300 + 10 * at)
    };
    let points: String = (0..55).map(point).collect();
    format!(
        "<gpx version='1.1'><wpt lat='44.27' lon='7.001'><name>Ford camp</name></wpt>\n\
         <wpt lat='44.10' lon='7.001'><name>Pump</name></wpt>\n<trk><trkseg>{points}</trkseg></trk></gpx>"
    )
}

#[test]
fn a_track_becomes_a_scenario_that_packs_as_it_is() {
    let tiny = Tiny::new();
    tiny.write("loop.gpx", &track());
    let arguments = ["route", "loop.gpx", "--bike", "single-450-tubed", "--out", "mine.yaml", "--picture", "loop.svg"];
    let told = fardel(tiny.path(), &arguments);
    assert!(told.answered().starts_with("60.0 km, a day from camp to camp, as marked.\n"), "{}", told.out);
    let text = tiny.read("mine.yaml");
    for word in ["Day 1: to Ford camp", "altitude: 570 m", "fuel_every: 50 km", "A plan, not a promise", "a guess"] {
        assert!(text.contains(word), "{word}\n{text}");
    }
    assert!(tiny.read("loop.svg").starts_with("<svg"));
    assert!(!fardel(tiny.path(), &["pack", "mine.yaml"]).answered().is_empty());
    // The same into a scenario that is there: all else stays.
    let into = ["route", "loop.gpx", "--into", "mine.yaml", "--days", "3", "--split", "length", "--out", "other.yaml"];
    fardel(tiny.path(), &into).answered();
    let other = tiny.read("other.yaml");
    assert_eq!(other.matches("- name: \"Day").count(), 3);
    let riders = |text: &str| text[text.find("\nriders:").unwrap()..].to_owned();
    assert_eq!(riders(&other), riders(&text));
    assert!(!fardel(tiny.path(), &["pack", "other.yaml"]).answered().is_empty());
}

#[test]
fn what_is_wrong_is_told_and_nothing_is_written() {
    let tiny = Tiny::new();
    let before = tiny.files().len();
    tiny.write("loop.gpx", &track());
    tiny.write("broken.gpx", "<gpx>\n<trk><trkseg><trkpt lat='NaN' lon='7'/>");
    tiny.write("no-map.osm.pbf", "this is no map");
    let cases: [(&[&str], &str); 7] = [
        (&["nowhere.gpx"], "nowhere.gpx"),
        (&["broken.gpx"], "broken.gpx:2: found `NaN`; expected degrees north, from -90 to 90"),
        (&["loop.gpx", "--map", "no-map.osm.pbf"], "no-map.osm.pbf, byte 4: found a broken blob"),
        (&["loop.gpx", "--map", "nowhere.osm.pbf"], "nowhere.osm.pbf"),
        (&["loop.gpx", "--bike", "single-450-tubbed"], "did you mean `single-450-tubed`?"),
        (&["loop.gpx", "--days", "9", "--split", "camps"], "found 1 camps along the way; expected 8 for 9 days"),
        (&["loop.gpx", "--surfaces", "gravle=1"], "did you mean `gravel`?"),
    ];
    for (arguments, words) in cases {
        let run = fardel(tiny.path(), &[&["route"][..], arguments, &["--out", "mine.yaml"]].concat());
        assert!(run.refused(2).contains(words), "{arguments:?}: {}", run.err);
    }
    assert_eq!(tiny.files().len(), before + 3);
    let over = fardel(tiny.path(), &["route", "loop.gpx", "--out", "loop.gpx", "--force"]);
    assert!(over.refused(2).contains("the answer is made from it"), "{}", over.err);
}

/// A track of `track()` on a road that is nothing but rough, in an extract large enough to be worth a cut.
fn large_extract() -> Vec<u8> {
    let nodes = [44.0, 44.27, 44.54].map(|lat| Point::new(lat, 7.0).unwrap()).to_vec();
    let kind = WayKind { ground: Ground::Rough, drivable: true, directions: (true, true), ford: false };
    let ways = vec![Way { id: 5, nodes: vec![0, 1, 2], kind }];
    let corridor = Corridor { reach: 30_000.0, ids: vec![1, 2, 3], nodes, ways, places: Vec::new() };
    let mut bytes = cut::bytes(&corridor, "").unwrap();
    // A blob of a kind that readers pass over: its header with its length of 32 MiB, and as many zeros.
    let header = b"\x0a\x07Padding\x18\x80\x80\x80\x10";
    bytes.extend(u32::try_from(header.len()).unwrap().to_be_bytes());
    bytes.extend(header);
    bytes.extend(vec![0; 32 << 20]);
    bytes
}

#[test]
fn what_a_large_map_has_along_the_track_is_kept_beside_it() {
    let tiny = Tiny::new();
    tiny.write("loop.gpx", &track());
    let map = tiny.path().join("country.osm.pbf");
    fs::write(&map, large_extract()).unwrap();
    let run = |out: &str, more: &[&str]| {
        let arguments = ["route", "loop.gpx", "--map", "country.osm.pbf", "--days", "2", "--out", out];
        fardel(tiny.path(), &[&arguments[..], more].concat())
    };
    run("whole.yaml", &["--whole-map"]).answered();
    let cut = tiny.path().join("loop.map.osm.pbf");
    assert!(!cut.exists());
    let first = run("first.yaml", &[]);
    assert_eq!(first.code, 0);
    assert!(first.err.contains("kept in loop.map.osm.pbf"), "{}", first.err);
    assert!(fs::metadata(&cut).unwrap().len() < 1000);
    let second = run("second.yaml", &[]);
    second.answered();
    assert!(second.err.is_empty(), "{}", second.err);
    let whole = tiny.read("whole.yaml");
    assert!(whole.contains("rough: 30"), "{whole}");
    assert_eq!([tiny.read("first.yaml"), tiny.read("second.yaml")], [whole.clone(), whole]);
    // Another corridor is cut anew, and a file that is no cut stays as it is.
    assert!(run("third.yaml", &["--within", "20"]).err.contains("kept in"));
    fs::write(&cut, "mine").unwrap();
    assert!(run("fourth.yaml", &[]).err.is_empty());
    assert_eq!(fs::read_to_string(&cut).unwrap(), "mine");
}
