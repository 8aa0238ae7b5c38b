//! Things that are used together ride together, on the shipped trips.

use crate::support::fardel;
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;

const ALONE: &[&str] = &["day-ride", "five-day-loop", "high-country-week", "two-up-road"];
const GROUPS: &[&str] = &["three-to-the-coast", "six-over-the-range"];
/// What turns what (ISO 3315 and ISO 1174 have the square drives, from memory): 3/8 in sockets and their handles, 1/2 in ones and theirs.
const DRIVES: &[(&[&str], &[&str])] = &[
    (&["socket-", "six-lobe-socket-", "plug-socket-"], &["ratchet-3-8", "sliding-bar-3-8"]),
    (&["axle-key-", "axle-socket-"], &["sliding-bar-1-2"]),
];

/// The answers of all shipped trips, with whether they are a group's.
fn answers() -> Vec<(String, Value)> {
    let run = |command: &str, name: &str| {
        let file = format!("scenarios/{name}.yaml");
        let run = fardel(Path::new(env!("CARGO_MANIFEST_DIR")), &[command, &file, "--format", "json", "--quiet"]);
        assert_eq!(run.code, 0, "{name}: {}", run.err);
        (name.to_owned(), serde_json::from_str(&run.out).unwrap())
    };
    ALONE.iter().map(|name| run("pack", name)).chain(GROUPS.iter().map(|name| run("split", name))).collect()
}

/// What each rider of an answer has: the bags, and the loading.
fn riders(answer: &Value) -> Vec<(&Value, &Value)> {
    match answer["riders"].as_array() {
        Some(riders) => riders.iter().map(|rider| (&rider["bags"], &rider["load"])).collect(),
        None => vec![(&answer["bags"], &answer["loads"][0])],
    }
}

fn ids(bag: &Value) -> BTreeSet<&str> {
    bag["items"].as_array().unwrap().iter().map(|item| item["id"].as_str().unwrap()).collect()
}

/// No petrol with bedding, food or what goes on a wound; a socket with what turns it; and what is said of sets agrees
/// with the bags.
#[test]
fn what_is_used_together_rides_together() {
    let mut seen = 0;
    for (name, answer) in answers() {
        for (bags, load) in riders(&answer) {
            let bags = bags.as_array().unwrap();
            for bag in bags.iter().filter(|bag| ids(bag).contains("siphon-hose")) {
                seen += 1;
                let kinds: BTreeSet<&str> =
                    bag["items"].as_array().unwrap().iter().map(|item| item["kind"].as_str().unwrap()).collect();
                let offended = ["sleep", "food", "water", "clothing", "first aid"];
                assert!(offended.iter().all(|kind| !kinds.contains(kind)), "{name}: {kinds:?} with the siphon");
            }
            told_right(&name, bags, &load["sets"]);
            let all: BTreeSet<&str> = bags.iter().flat_map(ids).collect();
            for (pieces, handles) in DRIVES {
                let piece = all.iter().find(|id| pieces.iter().any(|piece| id.starts_with(piece)));
                let handle = handles.iter().any(|handle| all.contains(handle));
                // In a group the handle may ride on another bike if no load allows more; then that is said.
                let apart = answer["sets"]["split"].as_array().into_iter().flatten();
                let told = apart.filter(|set| set["name"] == "tool roll").count() == 1;
                assert!(piece.is_none() || handle || told, "{name}: {piece:?} without a handle");
            }
        }
    }
    assert!(seen > 0, "some trip has a siphon along");
}

/// The stove and all that is kept with it are one set, found again by kind.
fn told_right(name: &str, bags: &[Value], sets: &Value) {
    let split = sets["split"].as_array().unwrap();
    let (whole, of) = (sets["whole"].as_u64().unwrap(), sets["of"].as_u64().unwrap());
    assert_eq!(whole + split.len() as u64, of, "{name}");
    let stove = |bag: &&Value| bag["items"].as_array().unwrap().iter().any(|item| item["kind"] == "cooking");
    let told = split.iter().find(|set| set["name"] == "stove, pot and fuel");
    let there: Vec<&Value> = bags.iter().filter(stove).map(|bag| &bag["name"]).collect();
    match told {
        Some(told) => assert_eq!(told["bags"].as_array().unwrap().iter().collect::<Vec<_>>(), there, "{name}"),
        None => assert!(there.len() < 2, "{name}: {there:?}"),
    }
}
