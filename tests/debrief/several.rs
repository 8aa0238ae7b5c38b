//! Several riders' books, and what weight does to falls.

use super::{debrief, with_log};
use crate::cli::Tiny;
use crate::support::close;

/// A ride on the tiny bike (140 kg).
fn ride(name: &str, rider: &str, falls: u32, more: &str) -> String {
    let rider = if rider.is_empty() { String::new() } else { format!("rider: {rider}, ") };
    format!("  - {{ name: {name}, {rider}bike: single, km: {{ rough: 250 }}, days: 2, falls: {falls}{more} }}\n")
}

fn book(rides: &[String]) -> String {
    format!("rides:\n{}", rides.concat())
}

/// Ten students: nine quiet, one who punctures and falls. All of them teach the bike's rate; the unlucky one has a rate of
/// their own above it, and the book of the coach does not grow by it.
#[test]
fn a_coach_with_ten_students() {
    let tiny = Tiny::new();
    tiny.write("mine.yaml", &book(&[ride("a day of mine", "", 2, "")]));
    let mut others = Vec::new();
    for student in 0..10 {
        let unlucky = student == 7;
        let more = if unlucky { ", broke: { puncture: 3 }" } else { "" };
        let rides = [ride("first", "", if unlucky { 9 } else { 2 }, more), ride("second", "", 2, "")];
        tiny.write(&format!("student-{student}.yaml"), &book(&rides));
        others.extend(["--others".to_owned(), format!("student-{student}.yaml")]);
    }
    let others: Vec<&str> = others.iter().map(String::as_str).collect();
    let run = |more: &[&str]| {
        let all: Vec<&str> = ["mine.yaml", "--format", "json"].iter().chain(&others).chain(more).copied().collect();
        let tiny = &tiny;
        let _ = std::fs::remove_file(tiny.path().join("book.yaml"));
        debrief(tiny, &all).json()
    };
    let rate = |json: &serde_json::Value| {
        let failures = json["failures"].as_array().unwrap();
        let own = failures.iter().find(|failure| failure["id"] == "puncture").unwrap();
        own["after_per_1000_km"]["mean"].as_f64().unwrap()
    };
    let falls = |json: &serde_json::Value| json["fall_rate"]["after_per_1000_km"]["mean"].as_f64().unwrap();
    let mine = run(&[]);
    assert_eq!(mine["riders"].as_array().unwrap().len(), 11);
    assert_eq!(mine["riders"][0]["name"], serde_json::Value::Null);
    assert_eq!(mine["riders"][8]["name"], "student-7");
    assert_eq!((&mine["riders"][8]["broke"], &mine["riders"][8]["falls"]), (&3.into(), &11.into()));
    let (unlucky, quiet) = (run(&["--rider", "student-7"]), run(&["--rider", "student-2"]));
    assert_eq!(unlucky["rates_of"], "student-7");
    assert!(rate(&unlucky) > 2.0 * rate(&quiet), "{} against {}", rate(&unlucky), rate(&quiet));
    assert!(falls(&unlucky) > 1.2 * falls(&quiet), "{} against {}", falls(&unlucky), falls(&quiet));
    // The quiet student's bike is of the same model as the unlucky one's: alone, it would look better still.
    tiny.write("alone.yaml", &book(&[ride("first", "", 2, ""), ride("second", "", 2, "")]));
    let _ = std::fs::remove_file(tiny.path().join("book.yaml"));
    let alone = debrief(&tiny, &["alone.yaml", "--format", "json"]).json();
    assert!(rate(&alone) < rate(&quiet), "{} against {}", rate(&alone), rate(&quiet));
    run(&[]);
    assert!(!tiny.read("book.yaml").contains("student"), "only the coach's own ride is in the coach's book");
    assert!(tiny.read("book.yaml").contains("a day of mine"));
}

/// One book with the names of the riders in it does the same; a misspelt one is an error that writes nothing.
#[test]
fn a_book_may_name_its_riders() {
    let rides = [ride("first", "Ada", 2, ", broke: { puncture: 2 }"), ride("second", "Ben", 2, "")];
    let tiny = with_log(&book(&rides));
    let run = debrief(&tiny, &["log.yaml", "--rider", "Adda"]);
    let said = run.refused(2);
    assert!(said.contains("did you mean `Ada`"), "{said}");
    assert!(!tiny.path().join("book.yaml").exists());
    let shown = debrief(&tiny, &["log.yaml"]).out;
    assert!(shown.contains("Ada") && shown.contains("Ben"), "{shown}");
    assert!(tiny.read("book.yaml").contains("rider: \"Ada\""));
}

/// Twelve rides with a light kit and twelve with a heavy one.
fn light_and_heavy(light: u32, heavy: u32) -> String {
    let rides = |word: &str, falls: u32, kit: &str| -> String {
        (0..12).map(|at| ride(&format!("{word} {at}"), "", falls, &format!(", kit_mass: {kit}"))).collect()
    };
    format!("rides:\n{}{}", rides("light", light, "7 kg"), rides("heavy", heavy, "70 kg"))
}

#[test]
fn heavy_kits_that_fell_more_teach_that_weight_matters() {
    let sensitivity = |log: &str| {
        let json = debrief(&with_log(log), &["log.yaml", "--format", "json"]).json();
        let own = json["fall_rate"]["load_sensitivity"].clone();
        let number = |key: &str| own["after"][key].as_f64().unwrap();
        close(own["before"]["mean"].as_f64().unwrap(), 1.0, 1e-12);
        assert!(number("low") < number("mean") && number("mean") < number("high"), "{own}");
        (number("mean"), number("high") / number("low"))
    };
    let ((more, narrow), (same, _)) = (sensitivity(&light_and_heavy(2, 5)), sensitivity(&light_and_heavy(3, 3)));
    assert!(more > 1.5 && same < 0.8, "{more} and {same}");
    assert!(narrow < 9.0, "the prior lies within a factor of three to either side: {narrow}");
}

/// The written rates hold the sensitivity, and a scenario that names them is packed by it; without weighed kits it stays.
#[test]
fn what_weight_does_is_written_and_read() {
    let tiny = with_log(&light_and_heavy(2, 5));
    assert_eq!(debrief(&tiny, &["log.yaml"]).code, 0);
    let rates = tiny.read("rates.yaml");
    let line = rates.lines().find(|line| line.contains("load_sensitivity")).unwrap();
    let learnt: f64 = line.split(':').nth(1).unwrap().trim().parse().unwrap();
    let falls_h =
        |tiny: &Tiny| tiny.pack(&["--format", "json"]).json()["figures"]["terms"]["falls_h"].as_f64().unwrap();
    let before = falls_h(&tiny);
    tiny.write("trip.yaml", &tiny.read("trip.yaml").replace("trip:\n", "catalogues: [rates.yaml]\ntrip:\n"));
    assert!(learnt > 1.5 && falls_h(&tiny) > before, "{learnt}: {} against {before}", falls_h(&tiny));
    let plain = with_log(&book(&[ride("only", "", 4, "")]));
    let json = debrief(&plain, &["log.yaml", "--format", "json"]).json();
    assert_eq!(json["fall_rate"]["load_sensitivity"], serde_json::Value::Null);
}
