//! What `trim` answers.

use super::{Tiny, compare};
use crate::support::{Run, fardel};
use std::fs;
use std::path::Path;

fn trim(further: &[&str]) -> Run {
    let tiny = Tiny::new();
    let packed = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/packed.csv");
    fs::copy(packed, tiny.path().join("packed.csv")).unwrap();
    let own = ["trim", "trip.yaml", "--catalogues", "catalogue", "--kit", "packed.csv"];
    fardel(tiny.path(), &own.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn what_to_leave_at_home() {
    compare("trim", &trim(&["--to", "3.6 kg"]));
}

#[test]
fn with_other_things_instead() {
    compare("trim-swap", &trim(&["--to", "3.6 kg", "--swap"]));
}

#[test]
fn by_so_much_is_to_what_is_left() {
    let by = trim(&["--by", "500g", "--format", "json"]).json();
    let (packed, target) = (by["packed"].as_f64().unwrap(), by["target"].as_f64().unwrap());
    crate::support::close(packed - target, 500.0, 1e-12);
    assert!(by["left"].as_f64().unwrap() <= target);
    let to = trim(&["--to", &format!("{target}g"), "--format", "json"]).json();
    assert_eq!(by, to);
}

#[test]
fn what_is_kept_stays() {
    let free = trim(&["--to", "3.6kg", "--format", "json"]).json();
    let first = free["order"][0]["id"].as_str().unwrap().to_owned();
    assert_eq!(first, "camera", "nothing on this trip needs it");
    let kept = trim(&["--to", "3.6kg", "--format", "json", "--keep", &first]).json();
    assert!(kept["order"].as_array().unwrap().iter().all(|going| going["id"] != first.as_str()));
    assert!(kept["kit"].as_array().unwrap().iter().any(|own| own["id"] == first.as_str()));
    assert!(kept["left"].as_f64().unwrap() <= 3600.0);
}

#[test]
fn a_volume_as_well() {
    let json = trim(&["--to", "4.5L", "--format", "json"]).json();
    assert_eq!((&json["over"], &json["unit"]), (&"volume".into(), &"mL".into()));
    assert!(json["left"].as_f64().unwrap() <= 4500.0);
}

#[test]
fn what_makes_no_sense_is_refused() {
    for (further, told) in [
        (&["--to", "3 bananas"][..], "--to 3 bananas: "),
        (&["--to", "3kg", "--keep", "pumq"], "did you mean `pump`?"),
        (&[][..], "--to <AMOUNT>"),
        (&["--to", "3kg", "--by", "1kg"], "cannot be used"),
    ] {
        let run = trim(further);
        assert!(run.refused(2).contains(told), "{}", run.err);
    }
    // The needs stand: water and rain suit alone weigh more.
    let run = trim(&["--to", "1kg"]);
    let told = run.refused(1);
    assert!(told.starts_with("The kit does not come down that far") && !told.contains("allow"), "{told}");
    // What it says is missing is just enough.
    let more = told.split("the kit's mass: ").nth(1).and_then(|rest| rest.split(" more than").next()).unwrap();
    let more = more
        .strip_suffix(" g")
        .map_or_else(|| more.trim_end_matches(" kg").parse::<f64>().unwrap() * 1e3, |g| g.parse().unwrap());
    assert_eq!(trim(&["--to", &format!("{}g", 1000.0 + more)]).code, 0, "{told}");
    assert_eq!(trim(&["--to", &format!("{}g", 1000.0 + more - 20.0)]).code, 1, "{told}");
}
