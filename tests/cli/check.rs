//! `check`: everything wrong with the files, without packing.

use super::{Tiny, compare};
use crate::support::fardel;

const CATALOGUE: &str =
    "Catalogue: 17 items, 6 failures with 5 repairs, 2 bikes, 3 bags, 1 preparation; no problems found.\n";

#[test]
fn sound_files() {
    let tiny = Tiny::new();
    let run = fardel(tiny.path(), &["check", "trip.yaml", "--catalogues", "catalogue"]);
    assert_eq!(run.answered(), format!("{CATALOGUE}trip.yaml: Two days to the quarry; no problems found.\n"));
    let run = fardel(tiny.path(), &["check", "--catalogues", "catalogue"]);
    assert_eq!(run.answered(), CATALOGUE);
}

#[test]
fn the_shipped_catalogue_is_sound() {
    let run = fardel(Tiny::new().path(), &["check"]);
    assert!(run.answered().starts_with("Catalogue: "), "{}", run.out);
}

/// The good one is told as good, the bad ones with all that is wrong with them.
#[test]
fn good_and_bad_scenarios_together() {
    let tiny = Tiny::new();
    let trip = tiny.read("trip.yaml");
    tiny.write(
        "typing.yaml",
        &trip.replace("bike: single", "bike: singel").replace("9 h", "9").replace("pump", "pmup"),
    );
    let run = fardel(tiny.path(), &["check", "typing.yaml", "trip.yaml", "none.yaml", "--catalogues", "catalogue"]);
    assert_eq!(run.code, 2);
    compare("check-bad", &run);
}

#[test]
fn a_bad_catalogue() {
    let tiny = Tiny::new();
    tiny.write("catalogue/more.yaml", "items:\n  pump: { name: pump }\n");
    let run = fardel(tiny.path(), &["check", "--catalogues", "catalogue"]);
    assert!(run.refused(2).contains("one name for two things [F12]"), "{}", run.err);
    assert!(run.err.ends_with("nothing was done.\n"), "{}", run.err);
}
