//! Ctrl-C and its like: the run ends as the system has it, and leaves nothing that is not whole.
#![cfg(unix)]

use super::Tiny;
use crate::support::program;
use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Child, Command};
use std::time::{Duration, Instant};

/// Starts the program with signals as they are at a terminal, whatever the test itself was started with.
fn start(folder: &Path, arguments: &[&str]) -> Child {
    let plain = program(folder, arguments);
    let resets = Command::new("env").args(["--default-signal", "true"]).output().is_ok_and(|run| run.status.success());
    let mut command = if resets {
        let mut command = Command::new("env");
        command.arg("--default-signal").arg(plain.get_program()).args(plain.get_args()).current_dir(folder);
        command
    } else {
        plain
    };
    command.stdin(std::process::Stdio::null()).stdout(std::process::Stdio::null());
    command.spawn().expect("the program starts")
}

fn send(signal: &str, child: &Child) {
    let id = child.id().to_string();
    assert!(Command::new("kill").args(["-s", signal, &id]).status().unwrap().success());
}

/// More than can be ridden in a test.
const LONG: [&str; 8] =
    ["rehearse", "trip.yaml", "--catalogues", "catalogue", "--trips", "1000000000", "--out", "plan.txt"];

/// 130, 143 and 129 to a shell.
#[test]
fn a_long_run_ends_by_the_signal_and_writes_nothing() {
    for (signal, number) in [("INT", 2), ("TERM", 15), ("HUP", 1)] {
        let tiny = Tiny::new();
        let mut child = start(tiny.path(), &[&LONG[..], &["--uncertain-rates"]].concat());
        std::thread::sleep(Duration::from_millis(300));
        send(signal, &child);
        assert_eq!(child.wait().unwrap().signal(), Some(number), "{signal}");
        assert_eq!(tiny.files().len(), 2, "{:?}", tiny.files());
    }
}

/// The pages of all commands are a dozen files: stopped while they are being written, all are there or none.
#[test]
fn a_run_stopped_while_it_writes_leaves_all_or_nothing() {
    let whole = Tiny::new();
    assert!(start(whole.path(), &["man", "--out", "pages"]).wait().unwrap().success());
    let pages = |tiny: &Tiny| -> Vec<_> {
        let mut names: Vec<_> = fs::read_dir(tiny.path().join("pages"))
            .map(|entries| entries.flatten().map(|entry| entry.file_name()).collect())
            .unwrap_or_default();
        names.sort();
        names
    };
    let (all, mut stopped) = (pages(&whole), 0);
    for _ in 0..20 {
        let tiny = Tiny::new();
        let mut child = start(tiny.path(), &["man", "--out", "pages"]);
        let patience = Instant::now();
        while pages(&tiny).is_empty() && patience.elapsed() < Duration::from_secs(10) {}
        send("TERM", &child);
        let ended = child.wait().unwrap();
        let left = pages(&tiny);
        assert!(left.is_empty() || left == all, "{left:?}");
        stopped += u32::from(ended.signal() == Some(15));
        assert!(ended.signal() == Some(15) || (ended.success() && left == all), "{ended:?}");
    }
    assert!(stopped > 0, "not once was it stopped in time");
}

/// Whoever starts the program may have it live on when the terminal goes away.
#[test]
fn a_signal_that_is_to_be_ignored_is_ignored() {
    if !Path::new("/proc/self/status").exists() {
        println!("left out: the system does not say which signals are ignored");
        return;
    }
    let tiny = Tiny::new();
    let script = "trap '' HUP INT; exec \"$0\" rehearse trip.yaml --catalogues catalogue --trips 3000000 --uncertain-rates \
                  --out plan.txt";
    let mut child =
        Command::new("sh").args(["-c", script, env!("CARGO_BIN_EXE_fardel")]).current_dir(tiny.path()).spawn().unwrap();
    std::thread::sleep(Duration::from_millis(200));
    send("HUP", &child);
    send("INT", &child);
    assert!(child.wait().unwrap().success());
    assert!(!tiny.read("plan.txt").is_empty());
}
