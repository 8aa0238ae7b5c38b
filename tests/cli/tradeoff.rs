//! What `tradeoff` answers, in every shape, and the picture beside it.

use super::{Tiny, compare};
use crate::support::{Run, fardel};
use std::fs;
use std::path::Path;
use std::process::Command;

fn tradeoff(tiny: &Tiny, further: &[&str]) -> Run {
    let own = ["tradeoff", "trip.yaml", "--catalogues", "catalogue", "--full"];
    fardel(tiny.path(), &own.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn the_curve_as_text() {
    compare("tradeoff", &tradeoff(&Tiny::new(), &[]));
}

#[test]
fn what_to_buy_first() {
    compare("tradeoff-money", &tradeoff(&Tiny::new(), &["--over", "money"]));
}

#[test]
fn the_curve_as_csv() {
    compare("tradeoff-csv", &tradeoff(&Tiny::new(), &["--over", "volume", "--points", "4", "--format", "csv"]));
}

/// The rider's own limit is among the points and gives what `pack` gives.
#[test]
fn the_riders_own_limit_gives_the_kit_of_pack() {
    let tiny = Tiny::new();
    let curve = tradeoff(&tiny, &["--over", "money", "--format", "json"]).json();
    let points = curve["points"].as_array().unwrap();
    let own = points.iter().find(|point| point["limit"] == curve["own_limit"]).unwrap();
    let packed = tiny.pack(&["--format", "json"]).json();
    for (point, total) in [("mass_g", "mass_g"), ("volume_ml", "volume_ml"), ("to_buy", "to_buy"), ("units", "units")] {
        assert_eq!(own[point], packed["totals"][total], "{point}");
    }
    assert_eq!(own["hours_saved"], packed["figures"]["hours_saved"]);
    // Under the limit of 5 kg, so the curve over money ends where nothing that fits is worth buying.
    assert!(points.iter().all(|point| point["mass_g"].as_f64().unwrap() <= 5000.0));
}

#[test]
fn limits_of_ones_own_and_those_too_low() {
    let curve = tradeoff(&Tiny::new(), &["--at", "3.5 kg,1kg,8 lb", "--format", "json"]).json();
    let limits: Vec<f64> = curve["points"].as_array().unwrap().iter().map(|p| p["limit"].as_f64().unwrap()).collect();
    assert_eq!(limits, [3500.0, 3628.739]);
    assert_eq!(curve["too_low"], serde_json::json!([1000.0]));
    let told = tradeoff(&Tiny::new(), &["--at", "1kg"]);
    assert!(told.answered().contains("Too little for any kit: 1.00 kg."), "{}", told.out);
}

#[test]
fn a_picture_beside_the_answer() {
    let tiny = Tiny::new();
    tradeoff(&tiny, &["--plot", "curve.svg"]).answered();
    let picture = tiny.read("curve.svg");
    assert!(picture.starts_with("<svg") && picture.contains("Two days to the quarry: Aino"), "{picture}");
    // Kept, unless replacing is asked for.
    assert_eq!(tradeoff(&tiny, &["--plot", "curve.svg"]).refused(2), format!("curve.svg{KEPT}"));
    tradeoff(&tiny, &["--plot", "curve.svg", "--force", "--out", "curve.txt"]).answered();
    tradeoff(&tiny, &["--plot", "curve.png"]).answered();
    let bytes = fs::read(tiny.path().join("curve.png")).unwrap();
    assert_eq!(&bytes[..8], b"\x89PNG\r\n\x1a\n");
    tradeoff(&tiny, &["--plot", "curve.gif"]).refused(2);
}

const KEPT: &str = ": cannot be written: it exists already; --force replaces it\n";

#[test]
fn what_makes_no_sense_is_refused() {
    let tiny = Tiny::new();
    for (further, told) in [
        (&["--at", "5"][..], "--at 5: "),
        (&["--at", "5L"], "--at 5L: "),
        (&["--from", "5kg", "--to", "4kg"], "--from is more than --to"),
        (&["--over", "money", "--to", "50EUR"], "the catalogue's prices are in USD, not EUR"),
        (&["--points", "1"], "--points"),
    ] {
        let run = tradeoff(&tiny, further);
        assert!(run.refused(2).contains(told), "{}", run.err);
    }
}

#[test]
fn no_kit_whatever_the_limit() {
    let tiny = Tiny::but(&[("budget: 70", "budget: 0")]);
    let run = tradeoff(&tiny, &[]);
    assert!(run.refused(1).contains("the budget: 6 USD more than 0 USD"), "{}", run.err);
    // Lifting that very limit is what the curve over money is for.
    assert!(tradeoff(&tiny, &["--over", "money"]).answered().contains("Least 6 USD"));
}

#[test]
fn the_number_of_threads_changes_nothing() {
    let of = |threads: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_fardel"));
        let scenario = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/day-ride.yaml");
        command.arg("tradeoff").arg(scenario).args(["--points", "9", "--format", "json"]);
        let output = command.env("RAYON_NUM_THREADS", threads).env("FARDEL_TIME_LIMIT", "none").output().unwrap();
        assert!(output.status.success());
        String::from_utf8(output.stdout).unwrap()
    };
    let one = of("1");
    assert!(one == of("2") && one == of("5"), "{one}");
}
