//! What to measure first, from outside.

use crate::cli::{Tiny, compare};
use crate::support::{Run, fardel};

fn measure(tiny: &Tiny, further: &[&str]) -> Run {
    let given = ["measure-first", "trip.yaml", "--catalogues", "catalogue", "--kits", "12"];
    let draws: &[&str] = if further.contains(&"--draws") { &[] } else { &["--draws", "800"] };
    fardel(tiny.path(), &[&given[..], draws, further].concat())
}

#[test]
fn what_to_measure_first_as_text() {
    compare("measure-first", &measure(&Tiny::new(), &[]));
}

#[test]
fn what_to_measure_first_as_json() {
    compare("measure-first-json", &measure(&Tiny::new(), &["--format", "json"]));
}

/// The same seed gives the same bytes, another one other draws. (Threads: see `tests/determinism.rs`.)
#[test]
fn a_seed_decides_the_draws() {
    let tiny = Tiny::new();
    let json = |seed: &str| measure(&tiny, &["--format", "json", "--seed", seed]).answered().to_owned();
    assert_eq!(json("4"), json("4"));
    assert_ne!(json("4"), json("5").replace("\"seed\": 5", "\"seed\": 4"));
}

/// No single number is worth more than all of them, and what is shown is in order and surely above nothing.
#[test]
fn gains_are_in_order_and_below_that_of_knowing_everything() {
    let answer = measure(&Tiny::new(), &["--format", "json", "--draws", "4000"]).json();
    let number = |value: &serde_json::Value, key: &str| value[key].as_f64().unwrap();
    let first = answer["first"].as_array().unwrap();
    let gains: Vec<f64> = first.iter().map(|own| number(own, "gain_h")).collect();
    assert!(gains.windows(2).all(|pair| pair[0] >= pair[1]), "{gains:?}");
    for own in first {
        assert!(number(own, "gain_h") > 3.0 * number(own, "gain_standard_error_h"), "{own}");
        let most = number(&answer, "everything_h") + 3.0 * number(&answer, "everything_standard_error_h");
        assert!(number(own, "gain_h") <= most, "{own} of {most}");
    }
}
