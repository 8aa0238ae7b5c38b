//! Whatever a file holds, reading it ends soon with an answer or a clear word.

use crate::world::{World, blob, field, raw_blob, valley, varint};
use fardel_route::map::read;
use fardel_route::read::{TrackFile, tracks};
use fardel_route::ride::Ride;
use fardel_route::survey::Wishes;
use std::io::Cursor;

/// A ride of one kilometre, so that little has to be set up for each file.
fn short_ride(world: &World) -> Ride {
    Ride::new(&world.track(&[(0.0, 0.0), (1.0, 0.0)])).unwrap()
}

fn refused(bytes: Vec<u8>) -> String {
    let ride = short_ride(&World::at(45.0, 7.0));
    read("a.osm.pbf", Cursor::new(bytes), &ride, 300.0).unwrap_err().to_string()
}

#[test]
fn an_extract_cut_anywhere_is_refused() {
    let (world, _) = valley(45.0, 7.0);
    let whole = world.bytes();
    let ride = short_ride(&world);
    let mut read_after_all = 0;
    for length in 0..whole.len() {
        match read("a.osm.pbf", Cursor::new(whole[..length].to_vec()), &ride, 300.0) {
            Ok(_) => read_after_all += 1,
            Err(fault) => assert!(fault.place.starts_with("a.osm.pbf, byte "), "{fault}"),
        }
    }
    // Cut between two blobs a file is shorter, but not broken.
    assert_eq!(read_after_all, 2);
}

#[test]
fn no_changed_byte_brings_it_down() {
    let (world, _) = valley(45.0, 7.0);
    let whole = world.bytes();
    let ride = short_ride(&world);
    let mut random = fastrand::Rng::with_seed(11);
    for _ in 0..1000 {
        let mut bytes = whole.clone();
        for _ in 0..random.usize(1..4) {
            let at = random.usize(0..bytes.len());
            bytes[at] = random.u8(..);
        }
        let _ = read("a.osm.pbf", Cursor::new(bytes), &ride, 300.0);
    }
}

/// The same with blobs that are not packed, so that what changes is what the blocks say.
#[test]
fn no_changed_block_brings_it_down() {
    let (world, _) = valley(45.0, 7.0);
    let ride = short_ride(&world);
    let mut random = fastrand::Rng::with_seed(12);
    let header = blob(b"OSMHeader", &field(4, b"OsmSchema-V0.6"));
    let packed = world.bytes();
    for _ in 0..300 {
        let noise: Vec<u8> = (0..random.usize(1..200)).map(|_| random.u8(..)).collect();
        let group = field(random.u64(1..5), &field(random.u64(1..12), &noise));
        let block = [field(1, &field(1, b"highway")), field(2, &group)].concat();
        let bytes = [header.clone(), raw_blob(b"OSMData", &field(1, &block))].concat();
        let _ = read("a.osm.pbf", Cursor::new(bytes), &ride, 300.0);
        let more = [packed.clone(), raw_blob(b"OSMData", &field(1, &block))].concat();
        let _ = read("a.osm.pbf", Cursor::new(more), &ride, 300.0);
    }
}

#[test]
fn what_is_wrong_with_an_extract_is_told() {
    let header = blob(b"OSMHeader", &field(4, b"OsmSchema-V0.6"));
    assert!(refused(Vec::new()).contains("found a broken blob"));
    assert!(refused(b"<?xml version='1.0'?><osm/>".to_vec()).contains("found a broken blob"));
    assert!(refused(vec![0xff; 100]).contains("found a broken blob"));
    let history = blob(b"OSMHeader", &field(4, b"HistoricalInformation"));
    assert!(refused(history).contains("found the feature `HistoricalInformation`"));
    let other = raw_blob(b"OSMData", &field(7, b"zstandard"));
    assert!(refused([header.clone(), other].concat()).contains("found data packed otherwise"));
    let large = [field(1, b"OSMData"), vec![3 << 3], varint(1 << 40)].concat();
    let large = [&u32::try_from(large.len()).unwrap().to_be_bytes()[..], &large].concat();
    assert!(refused([header.clone(), large].concat()).contains("found a blob that is too large"));
    // 40 MiB of zeros pack to 40 KiB.
    let bomb = blob(b"OSMData", &vec![0; 40 << 20]);
    assert!(bomb.len() < 1 << 20);
    assert!(refused([header, bomb].concat()).contains("found a blob that unpacks to more than 32 MiB"));
}

#[test]
fn a_map_of_somewhere_else_leaves_the_track_off_the_map() {
    let (world, _) = valley(45.0, 7.0);
    let (_, track) = valley(-20.0, 130.0);
    let (survey, legs) = world.survey(&track, &Wishes::default());
    let map = survey.map.unwrap();
    assert!(map.corridor.ways.is_empty() && map.help.iter().all(|look| look.hours().is_none()));
    assert!((legs[0].km[2] - survey.ride.metres / 1000.0).abs() < 1e-6, "counted as track");
}

#[test]
fn tracks_without_length_and_around_the_earth_are_refused() {
    let world = World::at(45.0, 7.0);
    let wishes = Wishes::default();
    let still = world.track(&[(0.0, 0.0), (0.0, 0.0)]);
    assert_eq!(
        world.read(&still, &wishes).unwrap_err().to_string(),
        "a.gpx: found a track without length; expected two points that differ"
    );
    let mut far = world.track(&[(0.0, 0.0)]);
    let first = far.lines[0].points[0];
    for turn in 0..4000_u32 {
        let lon = f64::from(turn % 2) * 90.0;
        far.lines[0]
            .points
            .push(fardel_route::track::TrackPoint { at: fardel_route::geo::Point::new(0.0, lon).unwrap(), ..first });
    }
    assert!(world.read(&far, &wishes).unwrap_err().to_string().contains("found more than 20000 km of track"));
}

#[test]
fn poles_and_the_date_line_are_ridden_like_anything_else() {
    for (lat, lon) in [(89.9, 0.0), (-89.9, 120.0), (10.0, 179.95), (-10.0, -180.0)] {
        let text = format!(
            "<gpx><trk><trkseg><trkpt lat='{lat}' lon='{lon}'/><trkpt lat='{lat}' lon='{}'/></trkseg></trk></gpx>",
            if lon > 179.0 { lon - 359.9 } else { lon + 0.1 }
        );
        let track = tracks(&[TrackFile { name: "a.gpx".to_owned(), text }]).unwrap();
        let ride = Ride::new(&track).unwrap();
        assert!(ride.metres < 12_000.0, "{} m around the parallel", ride.metres);
        assert!(ride.pieces.iter().all(|piece| piece.metres <= 25.0));
    }
}

#[test]
fn no_changed_track_file_brings_it_down() {
    let files = [
        "<gpx><wpt lat='1' lon='2'><name>a &amp; b</name></wpt><trk><trkseg><trkpt lat='1' lon='2'><ele>3</ele>\
         <time>2026-01-01T00:00:00Z</time></trkpt><trkpt lat='1' lon='3'/></trkseg></trk></gpx>",
        "<kml><Placemark><name>x</name><LineString><coordinates>1,2,3 4,5</coordinates></LineString></Placemark></kml>",
        "{\"type\":\"Feature\",\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[1,2],[3,4,5]]}}",
    ];
    let mut random = fastrand::Rng::with_seed(13);
    for _ in 0..5000 {
        let mut bytes = files[random.usize(0..files.len())].as_bytes().to_vec();
        for _ in 0..random.usize(1..5) {
            let at = random.usize(0..bytes.len());
            bytes[at] = b"<>&;'/= 0-9.eE[]{},\"a"[random.usize(0..21)];
        }
        let text = String::from_utf8(bytes).unwrap();
        let _ = tracks(&[TrackFile { name: "a".to_owned(), text }]).map(|track| Ride::new(&track));
    }
}
