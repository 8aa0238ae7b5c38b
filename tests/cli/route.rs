//! `route`: a track becomes a scenario that packs as it is; what is wrong is told and nothing is left behind.

use super::Tiny;
use crate::support::fardel;

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
