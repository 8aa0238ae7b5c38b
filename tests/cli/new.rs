//! `new`: a scenario to begin with, written whole or not at all.

use super::{Tiny, compare};
use crate::support::fardel;

#[test]
fn a_new_scenario() {
    let run = fardel(Tiny::new().path(), &["new", "--bike", "single-450-tubed", "--days", "3"]);
    assert!(!run.answered().is_empty());
    compare("new", &run);
}

#[test]
fn an_existing_file_is_kept_unless_forced() {
    let tiny = Tiny::new();
    let arguments = [
        "new",
        "--bike",
        "single",
        "--days",
        "2",
        "--style",
        "roofed",
        "--out",
        "mine.yaml",
        "--catalogues",
        "catalogue",
    ];
    assert_eq!(fardel(tiny.path(), &arguments).answered(), "");
    let first = tiny.read("mine.yaml");
    assert!(first.contains("bike: single ") && first.contains("style: roofed"), "{first}");
    tiny.write("mine.yaml", "mine");
    let again = fardel(tiny.path(), &arguments);
    assert!(again.refused(2).contains("it exists already"), "{}", again.err);
    assert_eq!(tiny.read("mine.yaml"), "mine");
    assert_eq!(fardel(tiny.path(), &[&arguments[..], &["--force"]].concat()).answered(), "");
    assert_eq!(tiny.read("mine.yaml"), first);
    assert_eq!(tiny.files().len(), 3, "nothing else is left behind");
}

#[test]
fn an_unknown_bike_is_answered_with_the_nearest() {
    let tiny = Tiny::new();
    let run = fardel(
        tiny.path(),
        &["new", "--bike", "singel", "--days", "2", "--out", "mine.yaml", "--catalogues", "catalogue"],
    );
    assert!(run.refused(2).contains("did you mean `single`?"), "{}", run.err);
    assert_eq!(tiny.files().len(), 2);
    let day = ["new", "--bike", "single", "--days", "1", "--style", "camping", "--catalogues", "catalogue"];
    assert!(fardel(tiny.path(), &day).refused(2).contains("a single day has no nights"));
    for days in ["0", "61", "many"] {
        assert_eq!(fardel(tiny.path(), &["new", "--bike", "single", "--days", days]).code, 2, "{days}");
    }
}
