//! A country's extract and a track of 1,500 km through it: `cargo bench --bench route`. Reported, never asserted.
//!
//! The extract is invented and as large as `FARDEL_MAP_MB` says (200 if it does not): blocks of 8,000 nodes that lie near
//! each other, a way through every nine of them, packed as real ones are. Twice `fardel route`: with the extract, and with
//! what the first run kept of it.
#![allow(missing_docs, reason = "a benchmark")]

use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Nodes of a block.
const NODES: i64 = 8000;
/// Blocks stand in rows of so many across the country, which is six degrees wide and high.
const ACROSS: i64 = 100;
/// How often the memory of the program is looked at; what is read is the most so far.
const LOOK: Duration = Duration::from_millis(10);
const KINDS: [&str; 12] = [
    "building",
    "yes",
    "highway",
    "track",
    "surface",
    "gravel",
    "unclassified",
    "tracktype",
    "grade3",
    "residential",
    "asphalt",
    "service",
];

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
    let status = format!("/proc/{}/status", child.id());
    let mut peak = None;
    while child.try_wait().expect("it can be asked").is_none() {
        peak = most_memory(&status).or(peak);
        sleep(LOOK);
    }
    assert!(child.wait().expect("it ends").success());
    (started.elapsed().as_secs_f64(), peak)
}

/// Resident memory at its peak in megabytes, where the system tells.
fn most_memory(status: &str) -> Option<f64> {
    let status = fs::read_to_string(status).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024.0)
}

/// From corner to corner and back beside it, a point every 150 m.
fn track() -> String {
    let point = |lat: f64, lon: f64| format!("<trkpt lat='{lat:.5}' lon='{lon:.5}'/>");
    let there = (0..5000).map(|at| f64::from(at) / 5000.0 * 5.5).map(|at| point(45.2 + at, 10.2 + at));
    let back = (0..5000).rev().map(|at| f64::from(at) / 5000.0 * 5.5).map(|at| point(45.2 + at, 10.5 + at * 0.95));
    format!("<gpx><trk><trkseg>{}</trkseg></trk></gpx>", there.chain(back).collect::<String>())
}

/// Blocks of nodes until half of the size is there, then their ways.
fn write_extract(path: &Path, size: u64) -> std::io::Result<()> {
    let mut random = fastrand::Rng::with_seed(3);
    let mut file = BufWriter::new(File::create(path)?);
    file.write_all(&blob(b"OSMHeader", &[field(4, b"OsmSchema-V0.6"), field(4, b"DenseNodes")].concat())?)?;
    let (mut written, mut blocks) = (0, 0);
    while written < size * 7 / 10 {
        let block = blob(b"OSMData", &nodes(blocks, &mut random))?;
        file.write_all(&block)?;
        written += block.len() as u64;
        blocks += 1;
    }
    for block in 0..blocks {
        file.write_all(&blob(b"OSMData", &ways(block, &mut random))?)?;
    }
    file.flush()
}

fn nodes(block: i64, random: &mut fastrand::Rng) -> Vec<u8> {
    // Blocks go round the country again and again, as one with many towns has them.
    let (row, column) = (block / ACROSS % ACROSS, block % ACROSS);
    let unit = |from: i64, at: i64| from * 10_000_000 + at * 600_000;
    let (mut lats, mut lons) = (vec![unit(45, row)], vec![unit(10, column)]);
    for _ in 1..NODES {
        lats.push(lats[lats.len() - 1] + random.i64(-4000..4075));
        lons.push(lons[lons.len() - 1] + random.i64(-4000..4075));
    }
    let ids = differences((0..NODES).map(|at| block * NODES + at + 1));
    let dense = [field(1, &ids), field(8, &differences(lats.into_iter())), field(9, &differences(lons.into_iter()))];
    [field(1, &field(1, b"")), field(2, &field(2, &dense.concat()))].concat()
}

fn ways(block: i64, random: &mut fastrand::Rng) -> Vec<u8> {
    let strings: Vec<u8> = [""].iter().chain(&KINDS).flat_map(|string| field(1, string.as_bytes())).collect();
    let mut group = Vec::new();
    for first in (0..NODES - 9).step_by(9) {
        let (keys, values): (&[u8], &[u8]) = match random.u8(0..10) {
            0 => (&[3, 8], &[4, 9]),
            1 => (&[3, 5], &[7, 6]),
            2 => (&[3, 5], &[10, 11]),
            3 => (&[3], &[12]),
            _ => (&[1], &[2]),
        };
        // Ten nodes, so that one way begins where the last ended.
        let refs = differences((0..10).map(|at| block * NODES + first + at + 1));
        let id = [vec![1 << 3], varint((block * NODES + first + 1).cast_unsigned())].concat();
        group.extend(field(3, &[id, field(2, keys), field(3, values), field(8, &refs)].concat()));
    }
    [field(1, &strings), field(2, &group)].concat()
}

fn varint(mut number: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    while number > 127 {
        bytes.push(u8::try_from(number & 127).expect("seven bits") | 128);
        number >>= 7;
    }
    bytes.push(u8::try_from(number).expect("seven bits"));
    bytes
}

fn field(number: u64, bytes: &[u8]) -> Vec<u8> {
    [varint(number << 3 | 2), varint(bytes.len() as u64), bytes.to_vec()].concat()
}

fn differences(numbers: impl Iterator<Item = i64>) -> Vec<u8> {
    let mut before = 0;
    let step = |number: i64| {
        let step = number - before;
        before = number;
        varint((step.cast_unsigned() << 1) ^ (step >> 63).cast_unsigned())
    };
    numbers.flat_map(step).collect()
}

fn blob(kind: &[u8], content: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::fast());
    packed.write_all(content)?;
    let blob = [vec![2 << 3], varint(content.len() as u64), field(3, &packed.finish()?)].concat();
    let header = [field(1, kind), vec![3 << 3], varint(blob.len() as u64)].concat();
    let length = u32::try_from(header.len()).expect("a short header").to_be_bytes();
    Ok([&length[..], &header, &blob].concat())
}
