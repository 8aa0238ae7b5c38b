//! The page's answers are those of the command line, to the byte but for white space.

use super::{Served, ask, tree};
use crate::support::fardel;
use fardel_planner::{Cancel, Host};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

fn scenarios() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> =
        names.filter(|name| Path::new(name).extension().is_some_and(|end| end == "yaml")).collect();
    names.sort();
    names
}

/// What a command prints, without white space outside of texts.
fn printed(arguments: &[&str]) -> String {
    let run = fardel(Path::new(env!("CARGO_MANIFEST_DIR")), &[arguments, &["--format", "json"]].concat());
    assert_eq!(run.code, 0, "{arguments:?}: {}", run.err);
    plain(&run.out)
}

fn plain(json: &str) -> String {
    let mut quoted = false;
    let mut before = ' ';
    let mut kept = String::new();
    for c in json.chars() {
        let escaped = quoted && before == '\\';
        if c == '"' && !escaped {
            quoted = !quoted;
        }
        before = if escaped && c == '\\' { ' ' } else { c };
        if quoted || !c.is_ascii_whitespace() {
            kept.push(c);
        }
    }
    kept
}

/// The last part of a call: its state, and its answer as it was written.
fn last(host: &Host, call: &str, body: &Value) -> (String, String) {
    let answer = host.call(call, &body.to_string(), &mut |_| (), &Cancel::new());
    let answer = answer.unwrap_or_else(|refused| panic!("{call}: {}", refused.json()));
    let state = serde_json::from_str::<Value>(&answer).unwrap()["state"].as_str().unwrap().to_owned();
    let at = answer.find("\"answer\":").unwrap() + "\"answer\":".len();
    (state, answer[at..answer.len() - 1].to_owned())
}

#[test]
fn every_shipped_scenario_is_packed_or_split_as_on_the_command_line() {
    let host = Host::new().unwrap();
    for name in scenarios() {
        let scenario = tree(&host, &name);
        let call = if scenario["riders"].as_array().unwrap().len() == 1 { "plan" } else { "split" };
        let (state, answer) = last(&host, call, &json!({ "scenario": scenario }));
        let command = if call == "plan" { "pack" } else { "split" };
        assert_eq!(answer, printed(&[command, &format!("scenarios/{name}")]), "{name}");
        assert_eq!(state == "proven", answer.contains("\"proven_optimal\":true"), "{name}");
    }
}

#[test]
fn other_answers_are_those_of_the_command_line() {
    let host = Host::new().unwrap();
    let (name, file) = ("day-ride.yaml", "scenarios/day-ride.yaml");
    let scenario = tree(&host, name);
    let body = json!({ "scenario": scenario, "item": "hand-pump", "anew": true });
    let why = host.call("why", &body.to_string(), &mut |_| (), &Cancel::new()).unwrap();
    assert_eq!(plain(&why), printed(&["why", "hand-pump", file]));
    let (_, packed) = last(&host, "plan", &json!({ "scenario": scenario }));
    let packed: Value = serde_json::from_str(&packed).unwrap();
    let body = json!({ "scenario": scenario, "kit": packed });
    let card = host.call("card", &body.to_string(), &mut |_| (), &Cancel::new()).unwrap();
    assert_eq!(plain(&card), printed(&["card", file]));
    let sheet = host.call("sheet", "{\"bike\":\"single-450-tubed\"}", &mut |_| (), &Cancel::new()).unwrap();
    assert_eq!(plain(&sheet), printed(&["bike", "single-450-tubed"]));
    let body = json!({ "scenario": scenario, "over": "mass", "points": 4 });
    let curve = host.call("curve", &body.to_string(), &mut |_| (), &Cancel::new()).unwrap();
    let curve = curve.strip_prefix("{\"curve\":").unwrap().strip_suffix('}').unwrap().to_owned();
    assert_eq!(curve, printed(&["tradeoff", file, "--points", "4"]));
}

/// What comes over HTTP is what the host says.
#[test]
fn the_server_passes_answers_on_as_they_are() {
    let (served, host) = (Served::new(None), Host::new().unwrap());
    let body = json!({ "scenario": tree(&host, "day-ride.yaml") });
    let response = served.call("plan", &body);
    assert_eq!(response.status, 200);
    let (_, answer) = last(&host, "plan", &body);
    assert_eq!(response.last()["answer"], serde_json::from_str::<Value>(&answer).unwrap());
    let states: Vec<Value> =
        response.body.lines().map(|line| serde_json::from_str::<Value>(line).unwrap()["state"].clone()).collect();
    assert!(states.len() > 1 && states[0] == "good so far", "{states:?}");
    assert_eq!(states.last().unwrap(), "proven");
    assert_eq!(served.call("catalogue", &json!({})).json(), ask(&host, "catalogue", &json!({})));
}

#[test]
fn a_kit_is_reckoned_with_whether_it_may_be_or_not() {
    let host = Host::new().unwrap();
    let scenario = tree(&host, "day-ride.yaml");
    let (_, packed) = last(&host, "plan", &json!({ "scenario": scenario }));
    let packed: Value = serde_json::from_str(&packed).unwrap();
    let figures = ask(&host, "evaluate", &json!({ "scenario": scenario, "kit": packed }));
    assert_eq!(figures["figures"]["breaks"], json!([]));
    assert_eq!(figures["figures"]["mass_g"], packed["totals"]["mass_g"]);
    assert_eq!(figures["limits"]["mass_g"], 9000.0);
    let heavy = ask(&host, "evaluate", &json!({ "scenario": scenario, "kit": { "tent-1": 9 } }));
    let families = heavy["figures"]["breaks"].as_array().unwrap().iter().map(|own| own["family"].as_str().unwrap());
    assert!(families.clone().any(|family| family == "mass"), "{heavy}");
}

#[test]
fn five_answers_make_a_trip_that_can_be_packed_for() {
    let host = Host::new().unwrap();
    let answers = json!({ "bike": "single-450-tubed", "days": 3, "rough": "rough", "help_h": 24, "camping": true });
    let started = ask(&host, "start", &answers);
    let checked = ask(&host, "check", &json!({ "scenario": started["scenario"] }));
    assert_eq!((&checked["trip"]["days"], &checked["trip"]["nights"]), (&json!(3.0), &json!(2)));
    assert!(!checked["riders"][0]["needs"].as_array().unwrap().is_empty());
    let written = ask(&host, "write", &json!({ "scenario": started["scenario"] }));
    let again = ask(&host, "read", &json!({ "name": "trip.yaml", "text": written["text"] }));
    assert_eq!(again["scenario"], started["scenario"]);
}

/// A trip that no kit will do for is told with its ways out, not as a fault.
#[test]
fn what_cannot_be_met_is_an_answer() {
    let host = Host::new().unwrap();
    let mut scenario = tree(&host, "day-ride.yaml");
    scenario["limits"]["kit_mass"] = json!("500 g");
    let (state, answer) = last(&host, "plan", &json!({ "scenario": scenario }));
    let answer: Value = serde_json::from_str(&answer).unwrap();
    assert_eq!((state.as_str(), &answer["infeasible"]), ("no kit", &json!(true)));
    assert!(!answer["shortfalls"].as_array().unwrap().is_empty());
    assert!(!answer["ways_out"].as_array().unwrap().is_empty());
}

/// A typed list, a ride log and a track become what the page shows.
#[test]
fn lists_logs_and_tracks_are_read() {
    let host = Host::new().unwrap();
    let lines =
        ask(&host, "match", &json!({ "rows": "2 x tyre lever, 60 g\nharmonica 90g\nhand pump" }))["lines"].clone();
    assert_eq!(
        (&lines[0]["id"], &lines[0]["count"], &lines[0]["mass_g"]),
        (&json!("tyre-lever"), &json!(2), &json!(60.0))
    );
    assert_eq!((&lines[1]["how"], &lines[1]["mass_g"]), (&json!("own"), &json!(90.0)));
    assert_eq!(lines[2]["id"], "hand-pump");
    let ride = json!({ "rides": [{ "name": "May", "bike": "single-450-tubed", "km": { "gravel": 300 }, "days": 2, "falls": 1 }] });
    let learnt = ask(&host, "debrief", &json!({ "log": ride }));
    assert_eq!(learnt["learnt"]["rides"], 1);
    let book = learnt["book"].as_str().unwrap();
    let again = ask(&host, "debrief", &json!({ "book": book }));
    assert_eq!(again["book"].as_str().unwrap(), book);
    let point = |at: u8| format!("<trkpt lat=\"{}\" lon=\"10\"><ele>{at}</ele></trkpt>", 50.0 + f64::from(at) * 0.01);
    let points = (0..40).map(point).collect::<Vec<_>>().concat();
    let gpx = format!("<gpx version=\"1.1\"><trk><trkseg>{points}</trkseg></trk></gpx>");
    let trip = ask(&host, "route", &json!({ "name": "loop.gpx", "text": gpx, "days": 1 }));
    assert_eq!(trip["trip"]["legs"].as_array().unwrap().len(), 1);
    assert!(trip["picture"].as_str().unwrap().starts_with("<svg"));
}
