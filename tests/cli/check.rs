//! `check`: everything wrong with the files, without packing.

use super::{Tiny, compare};
use crate::support::fardel;

const CATALOGUE: &str =
    "Catalogue: 17 items, 6 failures with 5 repairs, 2 bikes, 3 bags, 2 preparations; 8 things to look at.\n";

#[test]
fn sound_files() {
    let tiny = Tiny::new();
    let run = fardel(tiny.path(), &["check", "trip.yaml", "--catalogues", "catalogue"]);
    assert!(run.answered().starts_with(CATALOGUE), "{}", run.out);
    assert!(run.out.ends_with("\ntrip.yaml: Two days to the quarry; no problems found.\n"), "{}", run.out);
    compare("check", &fardel(tiny.path(), &["check", "--catalogues", "catalogue"]));
}

#[test]
fn the_shipped_catalogue_is_sound() {
    let run = fardel(Tiny::new().path(), &["check"]);
    assert!(run.answered().starts_with("Catalogue: ") && run.out.contains("; no problems found.\n"), "{}", run.out);
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

/// Gear and catalogue files are told apart from scenarios by what is in them; own numbers are doubted too.
#[test]
fn gear_and_catalogues_together_with_scenarios() {
    let tiny = Tiny::new();
    tiny.write("my-gear.csv", "id,mass (g)\npump,19000\npmup,190\n");
    tiny.write("sound.csv", "id;mass (kg)\npump;19,0\n");
    tiny.write(
        "more.yaml",
        "items:\n  juggling-balls: { like: pump, name: balls, provides: [], basis: from memory }\n",
    );
    let files = ["check", "my-gear.csv", "sound.csv", "more.yaml", "trip.yaml", "--catalogues", "catalogue"];
    let run = fardel(tiny.path(), &files);
    assert_eq!(run.code, 2);
    compare("check-gear", &run);
    let json = fardel(tiny.path(), &[&files[..], &["--format", "json"]].concat());
    assert_eq!((json.code, json.err.as_str()), (2, ""));
    compare("check-json", &json);
}

/// Exit status 0 with things to look at, 2 with faults, in either format.
#[test]
fn only_faults_make_a_check_fail() {
    let tiny = Tiny::new();
    for format in ["text", "json"] {
        let run = fardel(tiny.path(), &["check", "trip.yaml", "--catalogues", "catalogue", "--format", format]);
        assert!(run.answered().contains("without-repair"), "{}", run.out);
        let run = fardel(tiny.path(), &["check", "none.yaml", "--catalogues", "catalogue", "--format", format]);
        assert_eq!(run.code, 2);
    }
}

#[test]
fn a_bad_catalogue() {
    let tiny = Tiny::new();
    tiny.write("catalogue/more.yaml", "items:\n  pump: { name: pump }\n");
    let run = fardel(tiny.path(), &["check", "--catalogues", "catalogue"]);
    assert!(run.refused(2).contains("one name for two things [name-twice]"), "{}", run.err);
    assert!(run.err.ends_with("nothing was done.\n"), "{}", run.err);
}
