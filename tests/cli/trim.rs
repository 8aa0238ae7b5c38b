//! What `trim` answers.

use super::{Tiny, compare};
use crate::support::{Run, fardel};
use std::fs;
use std::path::Path;

fn trim(further: &[&str]) -> Run {
    let tiny = Tiny::new();
    let packed = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/packed.csv");
    fs::copy(packed, tiny.path().join("packed.csv")).unwrap();
    let own = ["trim", "trip.yaml", "--catalogues", "catalogue", "--kit", "packed.csv", "--full"];
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

/// One night out with the shipped catalogue: too little of everything is packed, and `packed` beside a tent.
fn cold_night(lowest: &str, packed: &str, further: &[&str]) -> serde_json::Value {
    let folder = tempfile::tempdir().unwrap();
    let trip = "\
name: One cold night
trip:
  style: camping
  legs:
    - { name: up and down, days: 2, nights: 1, km: { gravel: 120 }, hours_to_help: 5 h, lowest: -2 °C, highest: 15 °C, water_every: 0.5 days, food_every: 1 day }
riders:
  - { name: Joss, bike: single-450-tubed, riding_skill: advanced, repair_skill: anyone, mass: 80 kg, bags: [tail-roll, soft-side-left, soft-side-right] }
prices: { buying: 0 }
";
    fs::write(folder.path().join("night.yaml"), trip.replace("-2 °C", lowest)).unwrap();
    fs::write(folder.path().join("kit.yaml"), format!("items: {{ tent-1: 1, {packed} }}\n")).unwrap();
    let own = ["trim", "night.yaml", "--kit", "kit.yaml", "--format", "json"];
    fardel(folder.path(), &own.iter().chain(further).copied().collect::<Vec<_>>()).json()
}

fn named(list: &serde_json::Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|own| own["id"].as_str().unwrap()).collect()
}

/// A bag for 0 °C is too cold a bag, and better than none: the one for 10 °C goes.
#[test]
fn the_warmest_bag_stays_where_none_is_warm_enough() {
    let json = cold_night("-2 °C", "bag-0-synthetic: 1, bag-plus-10: 1", &["--by", "100g"]);
    assert_eq!(named(&json["order"]), ["bag-plus-10"]);
    assert_eq!(named(&json["kit"]), ["tent-1", "bag-0-synthetic"]);
    let short = json["shortfalls"].as_array().unwrap();
    let bag = short.iter().find(|short| short["need"] == "sleep warmth").unwrap();
    assert_eq!((&bag["demanded_down_to_c"], &bag["packed_down_to_c"]), (&(-2.0).into(), &0.0.into()));
    assert_eq!((&bag["demanded"], &bag["packed"]), (&1.0.into(), &1.0.into()));
    // Where one is warm enough, the other is of no use, and nothing is short.
    let json = cold_night("-2 °C", "bag-minus-5-down: 1, bag-0-synthetic: 1", &["--by", "100g"]);
    assert_eq!(named(&json["order"]), ["bag-0-synthetic"]);
    assert!(json["shortfalls"].as_array().unwrap().iter().all(|short| short["need"] != "sleep warmth"));
}

/// R 3.1 + 0.155 x 12 = 5.0 is asked for, and a mat of R 3.5 is packed.
#[test]
fn a_mat_that_is_too_thin_stays() {
    let json = cold_night("-12 °C", "mat-self-inflating: 1, bag-minus-10-down: 1, bag-plus-10: 1", &["--by", "100g"]);
    assert_eq!(named(&json["order"]), ["bag-plus-10"]);
    assert!(named(&json["kit"]).contains(&"mat-self-inflating"));
    let mat = json["shortfalls"].as_array().unwrap().iter().find(|short| short["need"] == "sleep mat").unwrap();
    assert_eq!((mat["demanded"].as_f64(), mat["packed"].as_f64()), (Some(5.0), Some(3.5)));
    assert!(mat["packed_down_to_c"].is_null());
}

/// Lighter bags of the same degree may take its place, colder ones not.
#[test]
fn nothing_colder_takes_its_place() {
    let json = cold_night("-2 °C", "bag-0-synthetic: 1", &["--by", "100g", "--swap"]);
    let bags: Vec<&str> = named(&json["entering"]).into_iter().filter(|id| id.starts_with("bag-")).collect();
    assert_eq!(bags, ["bag-0-down"]);
}
