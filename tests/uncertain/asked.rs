//! Questions to riders, their answers, and what becomes of them.

use crate::cli::{Tiny, compare};
use crate::support::{Run, fardel};
use fardel::elicit::calibration::CALIBRATION;
use std::collections::BTreeMap;

const ASK: [&str; 8] = ["ask", "trip.yaml", "--catalogues", "catalogue", "--kits", "8", "--draws", "400"];

fn ask(tiny: &Tiny, further: &[&str]) -> Run {
    fardel(tiny.path(), &[&ASK[..], further].concat())
}

fn pool(tiny: &Tiny, further: &[&str]) -> Run {
    fardel(tiny.path(), &[&["pool"], further, &["--catalogues", "catalogue"]].concat())
}

/// Answers to every known question: the truth times `off`, between a third and three times of it.
fn known(off: f64) -> String {
    let row = |own: &fardel::elicit::calibration::Calibration| {
        let best = own.truth * off;
        format!("{},{},{},{},80\n", own.id, best / 3.0, best * 3.0, best)
    };
    CALIBRATION.iter().map(row).collect()
}

const HEAD: &str = "id,lowest,highest,best,confidence\n";

#[test]
fn the_questions_as_text() {
    compare("ask", &ask(&Tiny::new(), &[]));
}

/// The spreadsheet has the known questions, then those that matter; the answers are nowhere in it.
#[test]
fn the_questions_as_a_spreadsheet() {
    let text = ask(&Tiny::new(), &["--format", "csv"]).answered().to_owned();
    assert!(text.starts_with("id,question,unit,lowest,highest,best,confidence\nlog-1,"), "{text}");
    assert!(text.lines().count() > 1 + CALIBRATION.len(), "something else is asked for: {text}");
    for own in CALIBRATION {
        assert!(text.contains(own.text.split(',').next().unwrap()), "{}", own.id);
        assert!(!text.contains(own.source), "{}", own.id);
    }
}

/// The page loads nothing, allows only its own script, and has four fields for each question.
#[test]
fn the_questions_as_a_page() {
    let page = ask(&Tiny::new(), &["--format", "html"]).answered().to_owned();
    for bad in ["src=", "http:", "https:", "@import", "url(", "{{", "{%"] {
        assert!(!page.contains(bad), "`{bad}` is in the page");
    }
    let questions = page.matches("<li data-id=").count();
    assert!(questions > CALIBRATION.len());
    assert_eq!(page.matches("<input inputmode=").count(), 4 * questions);
    assert!(page.contains("script-src 'sha256-") && page.contains("default-src 'none'"));
    assert!(CALIBRATION.iter().all(|own| !page.contains(own.source)));
}

/// A questionnaire that comes back as it is holds no answer.
#[test]
fn an_empty_questionnaire_is_no_answer() {
    let tiny = Tiny::new();
    tiny.write("anna.csv", ask(&tiny, &["--format", "csv"]).answered());
    let run = pool(&tiny, &["anna.csv"]);
    assert!(run.refused(2).contains("no question answered"), "{}", run.err);
}

/// Every sort of nonsense is told with its file and line, all of it at once, and nothing is written.
#[test]
fn nonsense_is_refused_with_file_and_line() {
    let tiny = Tiny::new();
    let rows = "rate:puncture:20000-0-0-0-100,5,2,3,80\nlog-1,1,9,3,40\nlog-2,1,9,3,101\nlog-3,1,2,3,80\nlog-4,a,2,1,80\n\
                log-5,1,2,,80\nrate:punctur:20000-0-0-0-100,1,2,1,80\nlog-6,-1,2,1,80\nlog-7,1,2,1,80\nlog-7,1,3,1,80\nlog-8,2,2,2,80\n";
    tiny.write("ben.csv", &format!("{HEAD}{rows}"));
    tiny.write("cleo.csv", "id,lowest,highest\nlog-1,1,2\n");
    let run = pool(&tiny, &["ben.csv", "cleo.csv", "--overlay", "asked.yaml"]);
    let told = run.refused(2).to_owned();
    for (line, code) in [
        (2, "contradiction"),
        (3, "out-of-range"),
        (4, "out-of-range"),
        (5, "contradiction"),
        (6, "wrong-sort"),
        (7, "missing"),
        (8, "unknown-name"),
        (9, "out-of-range"),
        (11, "name-twice"),
        (12, "contradiction"),
    ] {
        let found = told.lines().any(|own| own.starts_with(&format!("ben.csv:{line},")) && own.contains(code));
        assert!(found, "line {line} {code} in\n{told}");
    }
    assert!(told.contains("did you mean `puncture`?"), "{told}");
    assert!(told.contains("cleo.csv:1, best") && told.contains("cleo.csv:1, confidence"), "{told}");
    assert!(!tiny.path().join("asked.yaml").exists());
}

/// Two riders who know the logs equally well weigh the same; the pool of two equal answers is that answer; and the overlay
/// says of the rate what they say, with its basis, and is read back by `pack`.
#[test]
fn answers_become_a_catalogue() {
    let tiny = Tiny::new();
    let rate = "rate:puncture:8000-7000-4000-1000-100,10,30,20,90\n";
    let rest = "falls:track,10,30,20,90\nload-sensitivity,5,15,10,90\nhours-per-fall,10,20,15,90\n";
    tiny.write("anna.csv", &format!("{HEAD}{}{rate}{rest}", known(1.0)));
    tiny.write("ben.csv", &format!("{HEAD}{}{rate}{rest}", known(1.0)));
    let answer = pool(&tiny, &["anna.csv", "ben.csv", "--overlay", "asked.yaml", "--format", "json"]).json();
    let riders: BTreeMap<&str, f64> = answer["riders"]
        .as_array()
        .unwrap()
        .iter()
        .map(|own| (own["name"].as_str().unwrap(), own["weight"].as_f64().unwrap()))
        .collect();
    assert_eq!(riders.keys().copied().collect::<Vec<_>>(), ["anna", "ben"]);
    assert!(riders.values().all(|weight| (weight - 0.5).abs() < 1e-12));
    let asked = answer["questions"].as_array().unwrap();
    let puncture = &asked[0];
    for pool in ["equal", "performance"] {
        let at = |name: &str| puncture[pool][name].as_f64().unwrap();
        assert!((at("five_in_hundred") - 10.0).abs() < 1e-6 && (at("median") - 20.0).abs() < 1e-6);
        assert!((at("ninety_five_in_hundred") - 30.0).abs() < 1e-6 && (at("mean") - 20.0).abs() < 1e-6);
    }
    // Per 1000 km in the tiny world: 0.05 sealed, 0.1 gravel, 0.2 track, 0.4 rough.
    let expected = 8.0 * 0.05 + 7.0 * 0.1 + 4.0 * 0.2 + 0.4;
    assert!((puncture["catalogue"].as_f64().unwrap() - expected).abs() < 1e-9, "{puncture}");
    let text = tiny.read("asked.yaml");
    assert!(text.contains("basis: \"elicited: of 2 riders"), "{text}");
    let trip = tiny.read("trip.yaml");
    tiny.write("trip.yaml", &format!("catalogues: [asked.yaml]\n{trip}"));
    let run = tiny.pack(&["--format", "json"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let loaded = fardel::load::load(&tiny.path().join("trip.yaml"), Some(&tiny.path().join("catalogue"))).unwrap();
    let rate = &loaded.catalogue.failures["puncture"].rate;
    let now: f64 = [8.0, 7.0, 4.0, 1.0].iter().zip(rate.per_1000_km.iter()).map(|(km, (_, per))| km * per).sum();
    assert!((now - 20.0).abs() < 1e-9, "{now}");
    let model = &loaded.catalogue.model;
    assert!((model.falls_per_1000_km.on(fardel::domain::Surface::Track) - 2.0).abs() < 1e-9);
    assert!((model.load_sensitivity - 1.0).abs() < 1e-9 && (model.hours_per_fall.get() - 0.25).abs() < 1e-9);
}

/// A rider who is far off weighs little by performance, and as much as anybody otherwise.
#[test]
fn who_knows_the_logs_weighs_more() {
    let tiny = Tiny::new();
    let rate = |best: u32| format!("rate:puncture:8000-7000-4000-1000-100,{},{},{best},90\n", best / 2, best * 2);
    tiny.write("anna.csv", &format!("{HEAD}{}{}", known(1.0), rate(10)));
    tiny.write("ben.csv", &format!("{HEAD}{}{}", known(20.0), rate(100)));
    tiny.write("cleo.csv", &format!("{HEAD}{}", rate(50)));
    let answer = pool(&tiny, &["anna.csv", "ben.csv", "cleo.csv", "--format", "json"]).json();
    let riders = answer["riders"].as_array().unwrap();
    assert!(riders[0]["weight"].as_f64().unwrap() > 0.99, "{answer}");
    assert!(riders[2]["weight"].is_null(), "who left the known questions open has no weight");
    let one = &answer["questions"][0];
    let mean = |pool: &str| one[pool]["mean"].as_f64().unwrap();
    assert!(mean("performance") < 15.0 && mean("equal") > 40.0, "{one}");
}

#[test]
fn what_riders_say_as_text() {
    let tiny = Tiny::new();
    tiny.write("anna.csv", &format!("{HEAD}{}rate:puncture:8000-7000-4000-1000-100,1,8,3,80\n", known(1.2)));
    tiny.write("ben.csv", &format!("{HEAD}{}rate:puncture:8000-7000-4000-1000-100,2,20,6,70\n", known(0.6)));
    compare("pool", &pool(&tiny, &["anna.csv", "ben.csv"]));
}
