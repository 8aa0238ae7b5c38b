//! A country's extract and a track of 1,500 km through it: `cargo bench --bench route`. Reported, never asserted.
//!
//! The extract is invented and as large as `FARDEL_MAP_MB` says (200 if it does not): regions of 8,000 nodes that lie near
//! each other, packed as real ones are. One node in eight is on a road or track, as about thirty million of a country's
//! gigabyte are (from memory); the others are those of buildings, fields and rivers. Twice `fardel route`: with the
//! extract, and with what the first run kept of it.
//!
//! Once measured, with `FARDEL_MAP_MB=1000` (some 237 million nodes, 30 million of them on roads, some 11 million of those in
//! the corridor), beside other work: 54 s and at most 1.84 GB with the extract, 17 s with the 49 MB that the first run kept.
//! Memory goes with the roads in the corridor and not with the file.
#![allow(missing_docs, reason = "a benchmark")]

mod support;

use fardel_route::geo::Point;
use fardel_route::map::{Corridor, Ground, Way, WayKind, cut};
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};
use support::peak_memory;

/// Nodes of a region.
const NODES: u32 = 8000;
/// Regions stand in rows of so many across the country, which is six degrees wide and high.
const ACROSS: u32 = 100;
/// How often the memory of the program is looked at; what is read is the most so far.
const LOOK: Duration = Duration::from_millis(10);

fn main() {
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    let megabytes = std::env::var("FARDEL_MAP_MB").ok().and_then(|text| text.parse().ok()).unwrap_or(200);
    let folder = tempfile::tempdir().expect("a folder");
    let map = folder.path().join("country.osm.pbf");
    write_extract(&map, megabytes << 20).expect("it is written");
    fs::write(folder.path().join("loop.gpx"), track()).expect("it is written");
    let size = fs::metadata(&map).expect("it is there").len() >> 20;
    for (what, out) in [("with the extract", "first.yaml"), ("with what was kept", "second.yaml")] {
        let (seconds, peak) = run(folder.path(), out);
        let peak = peak.map_or_else(|| "memory not told".to_owned(), |peak| format!("at most {peak:.0} MB"));
        println!("route, 1,500 km, {size} MB, {what}: {seconds:.1} s, {peak}");
    }
    let kept = fs::metadata(folder.path().join("loop.map.osm.pbf")).map_or(0, |about| about.len());
    println!("kept beside the track: {} kB", kept >> 10);
    let read = |name: &str| fs::read(folder.path().join(name)).expect("it was written");
    println!("the same trip: {}", read("first.yaml") == read("second.yaml"));
}

fn run(folder: &Path, out: &str) -> (f64, Option<f64>) {
    let started = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_fardel"))
        .args(["route", "loop.gpx", "--map", "country.osm.pbf", "--days", "8", "--out", out])
        .current_dir(folder)
        .stdout(Stdio::null())
        .spawn()
        .expect("it starts");
    let process = child.id().to_string();
    let mut peak = None;
    while child.try_wait().expect("it can be asked").is_none() {
        peak = peak_memory(&process).or(peak);
        sleep(LOOK);
    }
    assert!(child.wait().expect("it ends").success());
    (started.elapsed().as_secs_f64(), peak)
}

/// From corner to corner and back beside it, a point every 150 m.
fn track() -> String {
    let point = |lat: f64, lon: f64| format!("<trkpt lat='{lat:.5}' lon='{lon:.5}'/>");
    let there = (0..5000).map(|at| f64::from(at) / 5000.0 * 5.5).map(|at| point(45.2 + at, 10.2 + at));
    let back = (0..5000).rev().map(|at| f64::from(at) / 5000.0 * 5.5).map(|at| point(45.2 + at, 10.5 + at * 0.95));
    format!("<gpx><trk><trkseg>{}</trkseg></trk></gpx>", there.chain(back).collect::<String>())
}

/// Regions one after another, each with its nodes and then its ways, until the size is there.
fn write_extract(path: &Path, size: u64) -> std::io::Result<()> {
    let mut random = fastrand::Rng::with_seed(3);
    let mut file = BufWriter::new(File::create(path)?);
    let mut written = 0;
    for number in 0.. {
        let region = cut::bytes_with_every_node(&region(number, &mut random), "invented")?;
        file.write_all(&region)?;
        written += region.len() as u64;
        if written >= size {
            break;
        }
    }
    file.flush()
}

/// Nodes that lie near each other, and a way through every ten of the first eighth that begins where the last one ended.
/// Regions go round the country again and again, as one with many towns has them.
fn region(number: u32, random: &mut fastrand::Rng) -> Corridor {
    let (row, column) = (number / ACROSS % ACROSS, number % ACROSS);
    let mut at = (45.0 + 0.06 * f64::from(row), 10.0 + 0.06 * f64::from(column));
    let mut step = || 1e-7 * f64::from(random.i32(-4000..4075));
    let mut nodes = Vec::new();
    for _ in 0..NODES {
        at = (at.0 + step(), at.1 + step());
        nodes.extend(Point::new(at.0, at.1));
    }
    let first = i64::from(number) * i64::from(NODES) + 1;
    let ids = (first..first + i64::from(NODES)).collect();
    let kind = |ground: Ground| WayKind { ground, drivable: true, directions: (true, true), ford: false };
    let way = |from: u32| {
        let ground = Ground::KNOWN[from as usize / 9 % Ground::KNOWN.len()];
        Way { id: first + i64::from(from), nodes: (from..from + 10).collect(), kind: kind(ground) }
    };
    let ways = (0..NODES / 8).step_by(9).map(way).collect();
    Corridor { reach: 0.0, ids, nodes, ways, places: Vec::new() }
}
