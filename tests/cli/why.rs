//! What `why` answers about items in the kit, items left out, and failures.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

fn why(name: &str, further: &[&str]) -> Run {
    let own = ["why", name, "trip.yaml", "--catalogues", "catalogue", "--full"];
    fardel(Tiny::new().path(), &own.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn an_item_in_the_kit() {
    compare("why-carried", &why("pump", &[]));
}

#[test]
fn an_item_left_out() {
    compare("why-left", &why("pliers", &[]));
}

#[test]
fn a_failure_and_what_it_would_take() {
    compare("why-failure", &why("clutch-cable-snapped", &[]));
}

#[test]
fn by_name_as_well_as_by_key_and_the_nearest_one_otherwise() {
    let same = |a: &str, b: &str| assert_eq!(why(a, &[]), why(b, &[]));
    same("pump", "Hand pump");
    let told = why("pumq", &[]);
    let expected = "`pumq` is neither an item nor a failure of the catalogue; did you mean `pump`?\n";
    assert_eq!(told.refused(2), expected);
    let told = why("TYRE puncture", &[]);
    let listed = told.refused(2);
    assert!(listed.contains("With that in its name there is:\n  puncture: tyre punctured\n"), "{listed}");
}

#[test]
fn what_was_not_weighed_says_why() {
    assert!(why("jump-leads", &[]).answered().contains("not weighed at all: on the never list"));
    assert!(why("puncture-tubeless", &[]).answered().to_lowercase().contains("cannot happen on this bike"));
}

/// Without a pump no puncture is mended, and the only other pump fits no bag: what the patch kit, levers, socket and
/// handle save together is gone, worked out by hand as in the figures of the plan.
#[test]
fn the_loss_without_the_pump_is_the_one_worked_out_by_hand() {
    let json = why("pump", &["--format", "json"]).json();
    let puncture = 0.1 * 0.05 + 0.15 * 0.1 + 0.1 * 0.2 + 0.01 * 0.4;
    let saved = puncture * (0.95 * 9.0 - 50.0 / 60.0);
    let lost = json["reasons"]["covers"][0]["hours_lost"].as_f64().unwrap();
    crate::support::close(lost, saved, 1e-9);
}

/// The shipped loop: without a lighter the stove is dead weight, without the stove nothing is boiled or cooked.
#[test]
fn a_need_that_hangs_on_a_thing_by_way_of_others_is_told() {
    let unmet = |name: &str| -> Vec<String> {
        let run = fardel(Tiny::new().path(), &["why", name, &loop_file(), "--format", "json"]);
        let unmet = run.json()["reasons"]["needs_unmet_then"].clone();
        serde_json::from_value(unmet).unwrap()
    };
    for name in ["lighter", "stove-gas"] {
        let unmet = unmet(name);
        assert!(unmet.iter().any(|need| need.starts_with("heat to boil")), "{name}: {unmet:?}");
    }
    assert!(unmet("spoon").iter().any(|need| need.starts_with("food")));
}

/// What a repair takes is what it asks for, not what other repairs of the same failure take.
#[test]
fn a_spare_tube_takes_no_patches() {
    let tiny = Tiny::new();
    let text = std::fs::read_to_string(loop_file()).unwrap();
    tiny.write("loop.yaml", &text.replacen("\nalways: [", "\nalways: [tube-18, ", 1));
    let run = fardel(tiny.path(), &["why", "rear-puncture-tubed", "loop.yaml", "--format", "json"]);
    let json = run.json();
    let of = |name: &str| -> String {
        let repairs = json["reasons"]["repairs"].as_array().unwrap();
        let repair = repairs.iter().find(|repair| repair["name"] == name).unwrap();
        assert!(repair["share_of_occurrences"].as_f64().unwrap() > 0.0, "{repair}");
        repair["with"].to_string()
    };
    let (tube, patch) = (of("fit the spare tube"), of("patch the tube"));
    assert!(tube.contains("tube, 2 mm") && !tube.contains("patch kit"), "{tube}");
    assert!(patch.contains("patch kit") && !patch.contains("tube, 2 mm"), "{patch}");
    assert!([tube, patch].iter().all(|with| with.contains("pump") && with.contains("tyre lever")));
}

fn loop_file() -> String {
    format!("{}/scenarios/five-day-loop.yaml", env!("CARGO_MANIFEST_DIR"))
}
