//! Work that nobody waits for ends, and the server ends when it is told to.

use super::{Served, tree};
use serde_json::json;
use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::os::unix::process::ExitStatusExt as _;
use std::process::Command;
use std::time::{Duration, Instant};

/// Ticks of processor time that a process has used.
fn used(id: u32) -> Option<u64> {
    let stat = fs::read_to_string(format!("/proc/{id}/stat")).ok()?;
    let fields: Vec<&str> = stat.rsplit_once(')')?.1.split_whitespace().collect();
    Some(fields.get(11)?.parse::<u64>().ok()? + fields.get(12)?.parse::<u64>().ok()?)
}

/// Begins a plan that takes long, and waits for its first part.
fn begun(served: &Served) -> BufReader<std::net::TcpStream> {
    let host = fardel_planner::Host::new().unwrap();
    let mut body = json!({ "scenario": tree(&host, "six-over-the-range.yaml"), "over": "mass", "points": 60 });
    body["rider"] = body["scenario"]["riders"][0]["name"].clone();
    let body = body.to_string();
    let mut stream = served.connect();
    let head = format!(
        "POST /api/curve HTTP/1.1\r\nHost: {}\r\nAuthorization: Bearer {}\r\nContent-Length: {}\r\n\r\n",
        served.at,
        served.token,
        body.len()
    );
    stream.write_all((head + &body).as_bytes()).unwrap();
    let mut lines = BufReader::new(stream);
    let mut line = String::new();
    while !line.starts_with("{\"point\"") {
        line.clear();
        assert!(lines.read_line(&mut line).unwrap() > 0, "no point came");
    }
    lines
}

/// The connection goes; then no thread works on.
#[test]
fn a_call_that_is_given_up_stops_working() {
    let served = Served::new(None);
    let id = served.child.id();
    if used(id).is_none() {
        println!("left out: no /proc");
        return;
    }
    drop(begun(&served));
    let given_up = Instant::now();
    loop {
        let before = used(id).unwrap();
        std::thread::sleep(Duration::from_millis(500));
        // What is left is the look at the clock, twenty times a second.
        if used(id).unwrap() - before <= 2 {
            break;
        }
        assert!(given_up.elapsed() < Duration::from_secs(30), "it still works");
    }
    assert_eq!(served.call("start", &json!({})).status, 422, "it still answers");
}

/// As Ctrl-C does, which whoever starts tests may have switched off.
#[test]
fn a_signal_ends_it_soon_and_cleanly() {
    let folder = tempfile::tempdir().unwrap();
    let mut served = Served::new(Some(folder.path()));
    let _open = begun(&served);
    assert!(Command::new("kill").args(["-s", "TERM", &served.child.id().to_string()]).status().unwrap().success());
    let told = Instant::now();
    let status = served.child.wait().unwrap();
    assert!(told.elapsed() < Duration::from_secs(30));
    assert_eq!(status.signal(), Some(15));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}
