//! What `pack` answers, in every shape.

use super::{Tiny, compare};
use crate::support::close;

#[test]
fn the_plan_as_text() {
    compare("pack", &Tiny::new().pack(&[]));
}

#[test]
fn the_plan_as_json() {
    compare("pack-json", &Tiny::new().pack(&["--format", "json"]));
}

/// What depends on the rates stands after the plan, which stays what it is.
#[test]
fn the_plan_under_drawn_rates() {
    let tiny = Tiny::new();
    let run = tiny.pack(&["--uncertain", "12"]);
    let (plan, rest) = run.answered().split_once("\nIf the numbers are wrong\n").expect("a section of its own");
    assert_eq!(plan, tiny.pack(&[]).answered());
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true,
        snapshot_path => "../snapshots/cli" }, { insta::assert_snapshot!("pack-uncertain", rest) });
}

/// Every figure of the tiny trip that can be worked out with a pencil.
#[test]
fn the_figures_are_those_worked_out_by_hand() {
    let answer = Tiny::new().pack(&["--format", "json"]).json();
    let figure = |name: &str| answer["figures"][name].as_f64().unwrap();
    // Per 1000 km: 100 km sealed, 150 gravel, 100 track, 10 rough.
    let puncture = 0.1 * 0.05 + 0.15 * 0.1 + 0.1 * 0.2 + 0.01 * 0.4;
    let cable = 0.1 * 0.05 + 0.15 * 0.06 + 0.1 * 0.1 + 0.01 * 0.15;
    let gasket = 0.1 * 0.03 + 0.15 * 0.03 + 0.1 * 0.04 + 0.01 * 0.05;
    let gearbox = 0.1 * 0.02 + 0.15 * 0.02 + 0.1 * 0.03 + 0.01 * 0.03;
    let falls = 0.1 * 0.02 + 0.15 * 0.3 + 0.1 * 2.0 + 0.01 * 8.0;
    // Guarded bars halve the broken indicators.
    let indicator = 0.5 * 0.2 * falls;
    close(figure("expected_failures"), puncture + cable + gasket + gearbox + indicator, 1e-12);
    // Nine hours to help; the snapped cable limps at half of that, the indicator nags for half an hour.
    let empty = 9.0 * (puncture + gasket + gearbox) + 4.5 * cable + 0.5 * indicator;
    close(figure("hours_lost_empty"), empty, 1e-12);
    // A patch takes 50 minutes and restores 0.95. More than six punctures, or ten broken indicators, are not to be
    // expected. The tie takes 5 minutes and restores 0.7.
    let saved = puncture * (0.95 * 9.0 - 50.0 / 60.0) + indicator * (0.7 * 0.5 - 5.0 / 60.0);
    close(figure("hours_saved"), saved, 1e-9);
    close(figure("coverage"), saved / empty, 1e-9);
    close(figure("self_recovery_empty_at_least"), (-(puncture + gasket + gearbox)).exp(), 1e-12);
    close(figure("self_recovery_at_least"), (-(gasket + gearbox)).exp(), 1e-9);
    // Water: 3 L and 0.15 L for each degree above 20, and half a litre for each hour of hard riding in a day, for a
    // quarter of a day, with a tenth in hand.
    let hard = 0.5 * (100.0 / 30.0 + 10.0 / 20.0);
    let litres: f64 = (3.0 + 0.15 * 8.0 + 0.5 * hard) * 0.25 * 1.1;
    close(answer["needs"][0]["demanded"].as_f64().unwrap(), (litres * 1000.0).ceil(), 0.0);
    // Five grams of precision in nothing: grams are whole.
    close(answer["totals"]["mass_g"].as_f64().unwrap(), 4060.0, 0.0);
    close(answer["totals"]["to_buy"].as_f64().unwrap(), 48.0, 0.0);
}

#[test]
fn json_and_text_say_the_same() {
    let tiny = Tiny::new();
    let (text, json) = (tiny.pack(&[]), tiny.pack(&["--format", "json"]).json());
    for bag in json["bags"].as_array().unwrap() {
        for item in bag["items"].as_array().unwrap() {
            assert!(text.answered().contains(item["name"].as_str().unwrap()), "{item}");
        }
    }
    let kilograms = json["totals"]["mass_g"].as_f64().unwrap() / 1000.0;
    assert!(text.out.contains(&format!("{kilograms:.2} kg of the 5.00 kg you allow")));
    assert_eq!(json["schema_version"], 4);
    assert_eq!(json["proof"]["proven_optimal"], true);
}

#[test]
fn imperial_units_are_used_throughout() {
    let tiny = Tiny::new();
    let run = tiny.pack(&["--units", "imperial"]);
    let text = run.answered();
    for line in [
        "Aino on a 400 cc single, tubed: 2 days, 224 mi, 68 mi of it track and rough, help up to 9.0 h away.",
        "Carry 11 things, 8.95 lb of the 11.02 lb you allow, 1.3 gal in 3.4 gal of bags, 48 of 70 USD to buy.",
    ] {
        assert!(text.contains(line), "{text}");
    }
    let (before, needs) = text.split_once("What the trip demands").unwrap();
    let metric = |text: &str| [" g ", " kg", " mL", " L ", " km"].iter().any(|unit| text.contains(unit));
    assert!(!metric(&before.replace("1 L ", "")), "{before}");
    // The formula is shown in the units it is written in; the amounts are not.
    let water = needs.lines().find(|line| line.contains("drinking water")).unwrap();
    assert!(water.contains("48.0 fl oz  67.6 fl oz"), "{water}");
    // The JSON names its units and is the same either way.
    let json = tiny.pack(&["--format", "json"]);
    assert_eq!(tiny.pack(&["--format", "json", "--units", "imperial"]), json);
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    for format in ["text", "json"] {
        let further = ["--format", format];
        let first = Tiny::new().pack(&further);
        first.answered();
        assert_eq!(Tiny::new().pack(&further), first, "{format}");
    }
}

#[test]
fn one_of_several_riders() {
    let second = "limits: { kit_mass: 5 kg, budget: 70 USD }\n";
    let with = format!(
        "  - {{ name: Bert, bike: tubeless, riding_skill: novice, repair_skill: anyone, mass: 90 kg, bags: [side-left, tank-bag] }}\n{second}"
    );
    let tiny = Tiny::but(&[(second, &with), ("budget: 70", "budget: 700")]);
    assert_eq!(tiny.pack(&[]).refused(2), "the scenario has several riders: choose one with --rider (Aino, Bert)\n");
    assert_eq!(
        tiny.pack(&["--rider", "Cleo"]).refused(2),
        "--rider Cleo: no such rider; the scenario has Aino, Bert\n"
    );
    let bert = tiny.pack(&["--rider", "Bert"]);
    assert!(bert.answered().contains("Bert on a 800 cc twin, tubeless:"), "{}", bert.out);
    assert!(bert.out.contains("plug kit, 5 strings"), "{}", bert.out);
    assert!(!bert.out.contains("patch kit"), "{}", bert.out);
}

#[test]
fn the_rider_of_a_scenario_with_one_may_be_named() {
    let tiny = Tiny::new();
    assert_eq!(tiny.pack(&["--rider", "Aino"]), tiny.pack(&[]));
    tiny.pack(&["--rider", "aino"]).refused(2);
}

#[test]
fn an_own_catalogue_takes_the_place_of_entries_and_says_so() {
    let tiny = Tiny::but(&[("name: Two days to the quarry", "name: Two days to the quarry\ncatalogues: [mine.yaml]")]);
    tiny.write("mine.yaml", "items:\n  pump: { like: pump, mass: 320 g, basis: ride log }\n");
    let run = tiny.pack(&[]);
    assert!(run.answered().contains("hand pump                320 g"), "{}", run.out);
    let note = "- items.pump from mine.yaml takes the place of the one from catalogue/world.yaml";
    assert!(run.out.replace("\n  ", " ").contains(note), "{}", run.out);
}

#[test]
fn an_answer_within_a_gap_says_what_could_still_be_better() {
    let tiny = Tiny::new();
    let json = tiny.pack(&["--gap", "0.5", "--time-limit", "60", "--format", "json"]).json();
    let proof = |key: &str| json["proof"][key].as_f64().unwrap();
    assert!(proof("bound_h") >= proof("objective_h"));
    assert!(proof("relative_gap") <= 0.5);
}

#[test]
fn without_time_there_is_a_kit_that_needs_no_solver() {
    let run = Tiny::new().pack(&["--time-limit", "0.000000001"]);
    assert!(run.answered().contains("Not proven"), "{}", run.out);
}

#[test]
fn no_kit_will_do() {
    let tiny =
        Tiny::but(&[("5 kg, budget: 70", "2 kg, budget: 0"), ("always: [documents]", "always: [documents, camera]")]);
    let run = tiny.pack(&[]);
    run.refused(1);
    compare("infeasible", &run);
    let json = tiny.pack(&["--format", "json"]);
    assert_eq!(json.code, 1);
    let complaint: serde_json::Value = serde_json::from_str(&json.err).unwrap();
    assert!(complaint["shortfalls"].as_array().is_some_and(|all| !all.is_empty()), "{complaint}");
    compare("infeasible-json", &json);
}

#[test]
fn what_does_not_fit_the_bags_is_said_by_bag() {
    let told = Tiny::but(&[("[side-left, side-right, tank-bag]", "[tank-bag]")]).pack(&[]);
    let told = told.refused(1);
    assert!(told.contains("- room: ") && told.contains(" of tank bag"), "{told}");
}
