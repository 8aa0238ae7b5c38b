//! Several runs at once, with the same place to write to: each file is whole and nothing is lost.

use super::{Tiny, arguments};
use crate::support::{Run, fardel};
use std::collections::BTreeSet;
use std::thread;

/// Runs the program so many times at once.
fn at_once(tiny: &Tiny, runs: &[Vec<&str>]) -> Vec<Run> {
    thread::scope(|scope| {
        let started: Vec<_> = runs.iter().map(|run| scope.spawn(|| fardel(tiny.path(), run))).collect();
        started.into_iter().map(|run| run.join().unwrap()).collect()
    })
}

#[test]
fn one_of_many_gets_the_name_and_the_others_are_told() {
    let tiny = Tiny::new();
    let ended = at_once(&tiny, &vec![arguments(&["--out", "plan.txt"]); 8]);
    let (first, later): (Vec<_>, Vec<_>) = ended.iter().partition(|run| run.code == 0);
    assert_eq!(first.len(), 1);
    for run in later {
        assert_eq!(run.refused(2), "plan.txt: cannot be written: it exists already; --force replaces it\n");
    }
    assert_eq!(tiny.read("plan.txt"), tiny.pack(&[]).out);
    assert_eq!(tiny.files().len(), 3, "{:?}", tiny.files());
}

#[test]
fn the_last_of_many_is_there_whole() {
    let tiny = Tiny::new();
    let formats = ["text", "json", "csv", "markdown"];
    let runs = formats.map(|format| arguments(&["--format", format, "--out", "plan", "--force"]));
    assert!(at_once(&tiny, &[&runs[..], &runs[..]].concat()).iter().all(|run| run.code == 0));
    let whole: Vec<String> = formats.iter().map(|format| tiny.pack(&["--format", format]).out).collect();
    assert!(whole.contains(&tiny.read("plan")));
    assert_eq!(tiny.files().len(), 3, "{:?}", tiny.files());
}

/// Each debrief reads the book, adds a ride and writes it again: taking turns, none writes over another's ride.
#[test]
fn debriefs_with_one_book_lose_no_ride() {
    let tiny = Tiny::new();
    let logs: Vec<String> = (0..8).map(|at| format!("log-{at}.yaml")).collect();
    for (at, log) in logs.iter().enumerate() {
        let ride = super::writing::RIDE.replace("name: one", &format!("name: ride {at}"));
        tiny.write(log, &ride);
    }
    let own = ["debrief", "--book", "book.yaml", "--rates", "rates.yaml", "--catalogues", "catalogue"];
    let runs: Vec<Vec<&str>> = logs.iter().map(|log| own.iter().copied().chain([log.as_str()]).collect()).collect();
    for run in at_once(&tiny, &runs) {
        assert_eq!((run.code, run.err.as_str()), (0, ""));
    }
    let book = tiny.read("book.yaml");
    let names: BTreeSet<&str> = book.lines().filter(|line| line.contains("name: ")).collect();
    assert_eq!(names.len(), 8, "{book}");
    let rates = tiny.read("rates.yaml");
    assert!(rates.contains("# 8 rides, 2400 km"), "{rates}");
    assert_eq!(fardel(tiny.path(), &own).code, 0);
    assert_eq!(tiny.read("rates.yaml"), rates, "the rates are those of the whole book");
}
