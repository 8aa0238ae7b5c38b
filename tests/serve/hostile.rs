//! Whatever a call brings, it is answered or refused: nothing panics, and a refusal is JSON.

use super::tree;
use fardel_planner::{CALLS, Cancel, Host};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::OnceLock;

/// One host, and a body for each call that it would answer.
fn world() -> &'static (Host, Vec<(&'static str, Value)>) {
    static WORLD: OnceLock<(Host, Vec<(&'static str, Value)>)> = OnceLock::new();
    WORLD.get_or_init(|| {
        let host = Host::new().unwrap();
        let scenario = tree(&host, "day-ride.yaml");
        let bodies = CALLS.iter().map(|call| (call.word(), body(call.word(), &scenario))).collect();
        (host, bodies)
    })
}

fn body(call: &str, scenario: &Value) -> Value {
    let trip = json!({ "scenario": scenario, "seconds": 0.05, "files": {} });
    let with = |key: &str, value: Value| {
        let mut body = trip.clone();
        body[key] = value;
        body
    };
    match call {
        "start" => json!({ "bike": "single-450-tubed", "days": 3, "rough": "mixed", "help_h": 4, "camping": true }),
        "read" => json!({ "name": "a.yaml", "text": "name: x\ntrip: {}\n" }),
        "write" => json!({ "scenario": scenario }),
        "why" => with("item", json!("hand-pump")),
        "evaluate" => with("kit", json!({ "hand-pump": 1 })),
        "card" => with("kit", json!({ "items": { "hand-pump": 1 } })),
        "curve" => json!({ "scenario": scenario, "seconds": 0.05, "over": "mass", "points": 2, "whole": false }),
        "debrief" => {
            json!({ "log": { "rides": [{ "name": "a", "bike": "single-450-tubed", "km": { "gravel": 9 }, "days": 1, "falls": 0 }] } })
        }
        "match" => json!({ "rows": "2 x tyre lever, 60 g" }),
        "find" => json!({ "text": "puncture" }),
        "sheet" => json!({ "bike": "single-450-tubed" }),
        "route" => json!({ "name": "a.gpx", "text": "<gpx/>", "days": 1 }),
        _ => trip,
    }
}

/// Values that sit badly anywhere.
fn strange() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        Just(json!(true)),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(|number| serde_json::Number::from_f64(number).map_or(Value::Null, Value::Number)),
        Just(json!([])),
        Just(json!({})),
        Just(json!([[[[{ "a": [1, { "b": null }] }]]]])),
        ".{0,40}".prop_map(Value::from),
        prop_oneof![
            Just("1e999 kg"),
            Just("-5 kg"),
            Just("NaN"),
            Just("../../etc/passwd"),
            Just("\u{202e}gnp.exe"),
            Just("\u{0}")
        ]
        .prop_map(Value::from),
    ]
}

/// Puts a value at the place that `way` leads to, or takes what is there away.
fn change(value: &mut Value, way: &[usize], new: Option<&Value>) {
    let Some((step, rest)) = way.split_first() else {
        *value = new.cloned().unwrap_or(Value::Null);
        return;
    };
    match value {
        Value::Object(entries) if !entries.is_empty() => {
            let key = entries.keys().nth(step % entries.len()).unwrap().clone();
            match new {
                None if rest.is_empty() => drop(entries.remove(&key)),
                _ => change(entries.get_mut(&key).unwrap(), rest, new),
            }
        }
        Value::Array(members) if !members.is_empty() => {
            let at = step % members.len();
            change(&mut members[at], rest, new);
        }
        _ => *value = new.cloned().unwrap_or(Value::Null),
    }
}

/// The answer or the refusal; both are JSON.
fn heard(name: &str, body: &str) {
    let (host, _) = world();
    let mut parts = Vec::new();
    let answer = host.call(name, body, &mut |part| parts.push(part.to_owned()), &Cancel::new());
    let last = answer.unwrap_or_else(|refused| {
        assert!(!matches!(refused, fardel_planner::Refused::Defect(_)), "{name} {body}: {}", refused.json());
        refused.json()
    });
    for part in parts.iter().chain([&last]) {
        serde_json::from_str::<Value>(part).unwrap_or_else(|error| panic!("{name} {body}: {error}: {part}"));
    }
}

#[test]
fn the_sound_bodies_are_answered() {
    let (host, bodies) = world();
    for (name, body) in bodies.iter().filter(|(name, _)| *name != "route") {
        let mut body = body.clone();
        // What a group takes is handed out as well, which is more than a moment's work.
        if *name == "split" {
            body["seconds"] = json!(60);
        }
        let answer = host.call(name, &body.to_string(), &mut |_| (), &Cancel::new());
        assert!(answer.is_ok(), "{name}: {}", answer.unwrap_err().json());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_answered_or_refused(call in 0..CALLS.len(), body in ".{0,200}") {
        heard(CALLS[call].word(), &body);
    }

    #[test]
    fn any_change_of_a_sound_body_is_answered_or_refused(
        call in 0..CALLS.len(),
        changes in prop::collection::vec((prop::collection::vec(0..12_usize, 1..6), prop::option::of(strange())), 1..4),
    ) {
        let (_, bodies) = world();
        let (name, mut body) = bodies[call].clone();
        for (way, new) in &changes {
            change(&mut body, way, new.as_ref());
        }
        if body.get("seconds").is_some() {
            body["seconds"] = json!(0.05);
        }
        heard(name, &body.to_string());
    }

    #[test]
    fn any_cut_of_a_sound_body_is_answered_or_refused(call in 0..CALLS.len(), at in 0.0..1.0_f64) {
        let (_, bodies) = world();
        let (name, body) = &bodies[call];
        let text = body.to_string();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss, reason = "a place in a text")]
        let mut end = (text.len() as f64 * at) as usize;
        while !text.is_char_boundary(end) {
            end -= 1;
        }
        heard(name, &text[..end]);
    }
}

/// A scenario that would take long, nest deep or hold too much is refused soon.
#[test]
fn what_is_too_much_is_refused() {
    let (host, _) = world();
    let deep = format!("{{\"scenario\":{}{}}}", "[".repeat(5000), "]".repeat(5000));
    let twice = "{\"scenario\":{\"name\":\"a\",\"name\":\"b\"}}".to_owned();
    let many = json!({ "rows": "thing\n".repeat(5000) }).to_string();
    for (call, body) in [("check", deep), ("check", twice), ("match", many)] {
        let refused = host.call(call, &body, &mut |_| (), &Cancel::new()).unwrap_err();
        assert_eq!(refused.status(), 422, "{call}: {}", refused.json());
    }
    let cancelled = Cancel::new();
    cancelled.cancel();
    let (_, bodies) = world();
    let plan = &bodies.iter().find(|(name, _)| *name == "plan").unwrap().1;
    assert_eq!(host.call("plan", &plan.to_string(), &mut |_| (), &cancelled).unwrap_err().status(), 499);
}
