//! Bad input: exit status 2, the reason on standard error, nothing on standard output.

use super::{Tiny, compare};
use crate::support::fardel;

#[test]
fn unknown_options_and_commands() {
    let tiny = Tiny::new();
    let run = tiny.pack(&["--unit", "imperial"]);
    assert!(run.refused(2).contains("unexpected argument '--unit'"), "{}", run.err);
    assert!(run.err.contains("a similar argument exists: '--units'"), "{}", run.err);
    assert!(fardel(tiny.path(), &["pakc", "trip.yaml"]).refused(2).contains("'pakc'"));
    assert!(fardel(tiny.path(), &["pack"]).refused(2).contains("<SCENARIO>"));
}

#[test]
fn values_out_of_range() {
    let tiny = Tiny::new();
    for (arguments, told) in [
        (["--gap", "1"], "a share from 0 to below 1 is expected, such as 0.01"),
        (["--gap", "nan"], "a share from 0 to below 1 is expected, such as 0.01"),
        (["--gap", "-0.1"], "unexpected argument '-0'"),
        (["--time-limit", "0"], "a number of seconds above 0, or `none`, is expected"),
        (["--time-limit", "inf"], "a number of seconds above 0, or `none`, is expected"),
        (["--units", "nautical"], "[possible values: metric, imperial]"),
        (["--format", "tsv"], "[possible values: text, markdown, csv, json, html]"),
        (["--color", "sometimes"], "[possible values: auto, always, never]"),
        (["--engine", "abacus"], "[possible values: microlp"),
    ] {
        let run = tiny.pack(&arguments);
        assert!(run.refused(2).contains(told), "{arguments:?}: {}", run.err);
    }
}

#[test]
fn files_that_cannot_be_read() {
    let tiny = Tiny::new();
    let told = |file: &str, found: &str| {
        format!(
            "{file}: a file that cannot be read [unreadable-file]\n  found {found}\n  expected a text file in UTF-8\n\n\
             1 problem in 1 file; nothing was done.\n"
        )
    };
    assert_eq!(fardel(tiny.path(), &["pack", "nowhere.yaml"]).refused(2), told("nowhere.yaml", "no such file"));
    assert_eq!(fardel(tiny.path(), &["pack", "catalogue"]).refused(2), told("catalogue", "a folder"));
    let run = fardel(tiny.path(), &["pack", "trip.yaml", "--catalogues", "nowhere"]);
    assert_eq!(run.refused(2), told("nowhere", "no such folder"));
    let run = fardel(tiny.path(), &["pack", "trip.yaml", "--catalogues", "trip.yaml"]);
    assert_eq!(run.refused(2), told("trip.yaml", "a file where a folder of catalogue files belongs"));
}

#[test]
fn all_problems_of_a_scenario_are_told_at_once() {
    let tiny = Tiny::but(&[
        ("hours_to_help: 9 h", "hours_to_help: 9"),
        ("days: 2", "days: -2"),
        ("bike: single", "bike: singel"),
        ("    mass: 80 kg\n", ""),
        ("never: [jump-leads]", "nevver: [jump-leads]"),
        ("budget: 70 USD", "budget: 70 EUR"),
    ]);
    let run = tiny.pack(&["--out", "plan.txt"]);
    run.refused(2);
    compare("bad-scenario", &run);
    assert_eq!(tiny.files().len(), 2, "{:?}", tiny.files());
}

#[test]
fn an_own_catalogue_that_is_missing() {
    let tiny = Tiny::but(&[("name: Two days to the quarry", "name: Two days to the quarry\ncatalogues: [mine.yaml]")]);
    let run = tiny.pack(&[]);
    assert!(run.refused(2).starts_with("mine.yaml: a file that cannot be read [unreadable-file]\n"), "{}", run.err);
}
