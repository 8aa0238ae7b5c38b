//! What `why` answers about items in the kit, items left out, and failures.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

fn why(name: &str, further: &[&str]) -> Run {
    let own = ["why", name, "trip.yaml", "--catalogues", "catalogue"];
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
    assert!(why("jump-leads", &[]).answered().contains("not weighed at all: on the never list."));
    assert!(why("puncture-tubeless", &[]).answered().contains("It cannot happen on this bike."));
}

/// Without a pump no puncture is mended, and the only other pump fits no bag: what the patch kit, levers, socket and
/// handle save together is gone, worked out by hand as in the figures of the plan.
#[test]
fn the_loss_without_the_pump_is_the_one_worked_out_by_hand() {
    let json = why("pump", &["--format", "json"]).json();
    let puncture = 0.1 * 0.05 + 0.15 * 0.1 + 0.1 * 0.2 + 0.01 * 0.4;
    let saved = puncture * (0.95 * 9.0 - 50.0 / 60.0);
    let lost = json["carried"]["covers"][0]["hours_lost"].as_f64().unwrap();
    crate::support::close(lost, saved, 1e-9);
}
