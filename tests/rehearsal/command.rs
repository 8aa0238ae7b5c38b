//! `fardel rehearse` from outside.

use crate::cli::{Tiny, compare};
use crate::support::{Run, fardel};

const REHEARSE: [&str; 5] = ["rehearse", "trip.yaml", "--catalogues", "catalogue", "--full"];

fn rehearse(tiny: &Tiny, further: &[&str]) -> Run {
    fardel(tiny.path(), &REHEARSE.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn the_rehearsal_as_text() {
    compare("rehearse", &rehearse(&Tiny::new(), &[]));
}

#[test]
fn the_rehearsal_as_json() {
    compare("rehearse-json", &rehearse(&Tiny::new(), &["--format", "json"]));
}

/// Worked out in `tests/cli/answers.rs`: what is expected to break, and to be lost with nothing aboard.
#[test]
fn the_figures_stand_beside_those_of_the_optimiser() {
    let json = rehearse(&Tiny::new(), &["--format", "json", "--trips", "200000"]).json();
    let pack = Tiny::new().pack(&["--format", "json"]).json();
    assert_eq!(json["reckoned"]["hours_lost_with_kit"], pack["figures"]["hours_lost_with_kit"]);
    assert_eq!(json["reckoned"]["self_recovery_at_least"], pack["figures"]["self_recovery_at_least"]);
    let (mean, error) =
        (json["hours_lost"]["mean"].as_f64().unwrap(), json["hours_lost"]["standard_error"].as_f64().unwrap());
    let reckoned = json["reckoned"]["hours_lost_with_kit"].as_f64().unwrap();
    assert!((mean - reckoned).abs() < 4.0 * error + 0.02 * reckoned, "{mean} against {reckoned}");
}

#[test]
fn a_seed_gives_the_same_bytes_and_another_does_not() {
    let tiny = Tiny::new();
    let one = rehearse(&tiny, &["--seed", "7", "--uncertain-rates"]);
    assert_eq!(one.code, 0, "{}", one.err);
    assert_eq!(one, rehearse(&tiny, &["--seed", "7", "--uncertain-rates"]));
    assert_ne!(one, rehearse(&tiny, &["--seed", "8", "--uncertain-rates"]));
}

#[test]
fn nonsense_is_refused() {
    for wrong in [&["--trips", "0"][..], &["--hours-in-hand", "25"], &["--seed", "-1"], &["--rider", "Nobody"]] {
        let run = rehearse(&Tiny::new(), wrong);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{wrong:?}");
    }
}

/// The JSON of `pack` is a kit, and riding with it is riding with what `pack` chooses.
#[test]
fn a_kit_from_an_earlier_pack_is_ridden_with() {
    let tiny = Tiny::new();
    assert_eq!(tiny.pack(&["--format", "json", "--out", "kit.json"]).code, 0);
    assert_eq!(rehearse(&tiny, &["--kit", "kit.json"]), rehearse(&tiny, &[]));
    tiny.write("lever.yaml", "items: [tyre-lever]\n");
    let mean = |kit: &str| rehearse(&tiny, &["--kit", kit, "--format", "json"]).json()["hours_lost"]["mean"].as_f64();
    assert!(mean("lever.yaml") > mean("kit.json"), "a lever alone mends nothing");
    tiny.write("wrong.yaml", "items: [tyre-leaver]\n");
    assert!(rehearse(&tiny, &["--kit", "wrong.yaml"]).refused(2).contains("tyre-lever"));
}

/// The picture is SVG with a bar for trips that lose nothing and thirty more, and is kept unless --force is given.
#[test]
fn the_hours_are_drawn() {
    let tiny = Tiny::new();
    assert_eq!(rehearse(&tiny, &["--plot", "hours.svg"]), rehearse(&tiny, &[]));
    let picture = tiny.read("hours.svg");
    assert!(picture.starts_with("<svg") && picture.trim_end().ends_with("</svg>"));
    for words in ["Two days to the quarry", "hours lost on a trip", "mean 0.3", "reckoned 0.3"] {
        assert!(picture.contains(words), "no `{words}` in the picture");
    }
    assert!(picture.matches("<rect").count() >= 31, "a bar for each class");
    rehearse(&tiny, &["--plot", "hours.svg"]).refused(2);
    assert!(rehearse(&tiny, &["--plot", "hours.pdf"]).refused(2).contains(".svg or .png"));
    assert_eq!(rehearse(&tiny, &["--plot", "hours.png"]).code, 0);
    assert!(std::fs::read(tiny.path().join("hours.png")).unwrap().starts_with(b"\x89PNG\r\n"));
    assert_eq!(tiny.read("hours.svg"), picture);
    assert_eq!(rehearse(&tiny, &["--plot", "hours.svg", "--out", "hours.txt", "--force"]).code, 0);
    assert_eq!(rehearse(&tiny, &[]).out, tiny.read("hours.txt"));
}

/// Where next to nobody is stranded on a few trips, what that says is told, and no error of nothing.
#[test]
fn few_trips_claim_little() {
    let home = |trips: &str| {
        let run = rehearse(&Tiny::new(), &["--trips", trips, "--seed", "3"]);
        run.out.lines().skip_while(|line| !line.starts_with("Home")).take(2).collect::<Vec<_>>().join(" ")
    };
    let few = home("20");
    assert!(few.contains("so few say no more than that it is between 83.9 and 100.0 %"), "{few}");
    assert!(home("20000").contains("give or take"), "{}", home("20000"));
}
