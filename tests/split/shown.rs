//! As riders see it: the tiny trip with a second rider, and the two shipped groups.

use crate::cli::{Tiny, compare};
use crate::support::fardel;
use std::path::Path;

pub const SECOND: &str = "
  - name: Pekka
    bike: single
    riding_skill: novice
    repair_skill: anyone
    mass: 90 kg
    roles: [last]
    bags: [side-left, side-right]
    owns: { bottle: 1, rain-suit: 1, documents: 1 }
group: { fair: equal, pins: { last: [inflation] } }
limits:";

fn tiny_group() -> Tiny {
    let tiny = Tiny::new();
    let trip = tiny.read("trip.yaml").replace("\nlimits:", SECOND);
    tiny.write("trip.yaml", &trip);
    tiny
}

fn split(tiny: &Tiny, further: &[&str]) -> crate::support::Run {
    let all = ["split", "trip.yaml", "--catalogues", "catalogue", "--full"];
    fardel(tiny.path(), &all.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn the_group_as_text_json_and_csv() {
    let tiny = tiny_group();
    compare("split", &split(&tiny, &["--keep-if-one-leaves", "0.5"]));
    compare("split-json", &split(&tiny, &["--keep-if-one-leaves", "0.5", "--format", "json"]));
    compare("split-csv", &split(&tiny, &["--format", "csv"]));
}

#[test]
fn a_file_for_each_rider_whole_or_not_at_all() {
    let tiny = tiny_group();
    assert_eq!(split(&tiny, &["--out", "cards"]).code, 0);
    let names = |folder: &str| {
        let all = std::fs::read_dir(tiny.path().join(folder)).unwrap();
        let mut names: Vec<String> = all.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    };
    assert_eq!(names("cards"), ["1-aino.txt", "2-pekka.txt", "group.txt"]);
    assert!(tiny.read("cards/2-pekka.txt").contains("Pekka on the"));
    // Nothing is overwritten, and nothing written, when one of the files is there.
    std::fs::remove_file(tiny.path().join("cards/group.txt")).unwrap();
    let again = split(&tiny, &["--out", "cards"]);
    assert_eq!(again.code, 2, "{}", again.err);
    assert_eq!(names("cards"), ["1-aino.txt", "2-pekka.txt"]);
}

#[test]
fn refusals() {
    let tiny = tiny_group();
    for (further, told) in [
        (&["--packed", "Nobody=kit.yaml"][..], "no such rider"),
        (&["--packed", "Aino"], "RIDER=FILE is expected"),
        (&["--keep-if-one-leaves", "1.5"], "a share above 0"),
    ] {
        let run = split(&tiny, further);
        assert_eq!(run.code, 2);
        assert!(run.err.contains(told), "{}", run.err);
    }
    let trip = tiny.read("trip.yaml");
    for (old, new, told) in [
        ("pins: { last: [inflation] }", "pins: { leads: [inflation] }", "nobody whose `roles` name `leads`"),
        ("fair: equal", "fair: stated", "no share above 0"),
        ("last: [inflation]", "last: [inflatoin]", "did you mean `inflation`"),
        ("days: 2", "days: 2\n      riders: [Pekk]", "did you mean `Pekka`"),
    ] {
        tiny.write("trip.yaml", &trip.replace(old, new));
        let run = split(&tiny, &[]);
        assert_eq!(run.code, 2, "{new}");
        assert!(run.err.contains(told), "{}", run.err);
    }
}

/// Three bikes of which two ride a loop of their own; six of whom any one may turn back.
#[test]
fn the_shipped_groups() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    compare("split-three", &fardel(root, &["split", "scenarios/three-to-the-coast.yaml"]));
    let six = ["split", "scenarios/six-over-the-range.yaml", "--keep-if-one-leaves", "0.8"];
    let run = fardel(root, &six);
    compare("split-six", &run);
    for line in run.out.lines().skip_while(|line| !line.contains("whole kit   what is left")).skip(1).take(6) {
        let share: f64 = line.split(" %").next().and_then(|s| s.split_whitespace().last()).unwrap().parse().unwrap();
        assert!(share >= 80.0, "{line}");
    }
}

/// Names that read like `item of bike` are names like others.
#[test]
fn a_tin_of_putty_is_a_tin_of_putty() {
    let tiny = tiny_group();
    let own = "items:\n  tin of putty: { name: tin of putty, kind: consumable, mass: 100 g, volume: 60 mL, longest: 60 mm, \
               price: 3 USD, personal: false, basis: from memory }\n";
    tiny.write("own.yaml", own);
    let trip = tiny.read("trip.yaml").replacen("trip:", "catalogues: [own.yaml]\ntrip:", 1);
    assert!(trip.contains("always: [documents]"), "{trip}");
    tiny.write("trip.yaml", &trip.replace("always: [documents]", "always: { documents: 1, tin of putty: 1 }"));
    let run = split(&tiny, &[]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(run.out.contains("tin of putty"), "{}", run.out);
}
