//! Small invented groups: legs ridden apart, roles, pins, personal things, things for one sort of bike, things that only
//! some own, needs, limits of all sorts, budgets of nothing. As JSON, which the loader reads as YAML.

use fastrand::Rng;
use serde_json::{Map, Value, json};

/// A catalogue and a scenario.
#[derive(Debug, Clone)]
pub struct Drawn {
    pub catalogue: Value,
    pub scenario: Value,
}

const NAMES: [&str; 6] = ["Ada", "Bo", "Cy", "Di", "Ed", "Fay"];
const KINDS: [&str; 10] =
    ["tool", "spare", "consumable", "clothing", "sleep", "shelter", "comfort", "electronics", "water", "food"];
/// Needs whose amount the scenario states or the trip gives.
const NEEDS: [(&str, &str); 5] =
    [("warm", "sleep warmth"), ("water", "water"), ("petrol", "fuel"), ("phone", "telephone"), ("papers", "papers")];

/// How many of each there are.
struct Size {
    functions: usize,
    stocks: usize,
    items: usize,
    bags: usize,
    bikes: usize,
    riders: usize,
}

/// What a seed gives.
pub fn drawn(seed: u64) -> Drawn {
    let mut rng = Rng::with_seed(seed);
    let size = Size {
        functions: rng.usize(1..5),
        stocks: rng.usize(1..4),
        items: rng.usize(2..11),
        bags: rng.usize(1..4),
        bikes: rng.usize(1..4),
        riders: rng.usize(2..7),
    };
    Drawn { catalogue: catalogue(&mut rng, &size), scenario: scenario(&mut rng, &size) }
}

fn pick<T: Clone>(rng: &mut Rng, from: &[T]) -> T {
    from[rng.usize(0..from.len())].clone()
}

fn by_id(prefix: &str, count: usize, mut one: impl FnMut(usize) -> Value) -> Value {
    (0..count).map(|at| (format!("{prefix}{at}"), one(at))).collect::<Map<_, _>>().into()
}

/// Some of these names, each with a number.
fn some(rng: &mut Rng, prefix: &str, count: usize, chance: f64, most: u32) -> Map<String, Value> {
    let mut map = Map::new();
    for at in 0..count {
        if rng.f64() < chance {
            map.insert(format!("{prefix}{at}"), json!(rng.u32(1..=most)));
        }
    }
    map
}

fn catalogue(rng: &mut Rng, size: &Size) -> Value {
    let surfaces = |rng: &mut Rng, from: &[f64]| json!({ "sealed": pick(rng, from), "gravel": pick(rng, from), "track": pick(rng, from), "rough": pick(rng, from) });
    let items = by_id("it", size.items, |at| item(rng, size, at));
    let mut items = items.as_object().cloned().unwrap_or_default();
    for (need, rule) in NEEDS {
        let mut meets = json!({ "amount": if rule == "water" || rule == "fuel" { 1000 } else { 1 } });
        if rule == "sleep warmth" {
            meets["down_to"] = json!("-20 °C");
        }
        items.insert(
            format!("for-{need}"),
            json!({ "name": format!("for {need}"), "kind": if rule == "fuel" { "fuel" } else { "papers" }, "mass": "80 g",
                "volume": "100 mL", "longest": "100 mm", "price": "0 USD", "at_most": 20, "basis": "from memory",
                "personal": rng.f64() < 0.2, "meets": { need: meets } }),
        );
    }
    json!({
        "attributes": { "kind": { "name": "kind" } },
        "functions": by_id("fn", size.functions, |at| json!({ "name": format!("fn{at}") })),
        "stocks": by_id("st", size.stocks, |at| json!({ "name": format!("st{at}"), "unit": "piece", "one_bike": rng.f64() < 0.4 })),
        "needs": NEEDS.iter().map(|(id, rule)| ((*id).to_owned(), json!({ "name": id, "unit": "u", "rule": rule }))).collect::<Map<_, _>>(),
        "systems": { "sys": { "name": "sys", "basis": "from memory" } },
        "items": items,
        "bags": by_id("bg", size.bags, |at| json!({
            "name": format!("bag {at}"), "volume": if at == 0 { "25 L" } else { pick(rng, &["1 L", "4 L", "12 L"]) }, "packing": pick(rng, &[0.85, 1.0]),
            "mass": "500 g", "max_load": if at == 0 { "15 kg" } else { pick(rng, &["2 kg", "4 kg", "9 kg"]) }, "longest": if at == 0 { "600 mm" } else { pick(rng, &["200 mm", "400 mm", "600 mm"]) },
            "access": pick(rng, &["deep", "quick"]), "weatherproof": rng.bool(), "side": pick(rng, &["left", "right", "centre"]),
            "ahead": pick(rng, &["0 mm", "600 mm"]), "out": "0 mm", "height": "700 mm",
            "refuses": if rng.f64() < 0.2 { json!(["food"]) } else { json!([]) }, "price": "0 USD", "basis": "from memory" })),
        "bikes": by_id("bk", size.bikes, |at| json!({
            "name": format!("bike {at}"), "mass": "140 kg", "max_mass": pick(rng, &["320 kg", "400 kg"]), "front_share": 0.48,
            "wheelbase": "1450 mm", "front_load_index": pick(rng, &[48, 54]), "rear_load_index": pick(rng, &[60, 65]), "tank": "12 L",
            "consumption": { "sealed": "4 L", "gravel": "4.5 L", "track": "5 L", "rough": "6 L" }, "rider_x": "550 mm",
            "passenger_x": "250 mm", "attributes": { "kind": pick(rng, &["a", "b"]) },
            "toolkit": some(rng, "it", size.items, 0.2, 1), "fitted": [], "basis": "from memory" })),
        "failures": by_id("fa", rng.usize(1..5), |at| {
            let mut failure = json!({ "name": format!("failure {at}"), "system": "sys", "outcome": "stops",
                "rate": { "per_1000_km": surfaces(rng, &[0.0, 0.01, 0.3, 4.0]), "per_day": pick(rng, &[0.0, 0.1]),
                    "per_fall": pick(rng, &[0.0, 0.05]), "worth_events": 0.5, "basis": "from memory" },
                "repairs": by_id("r", rng.usize(1..4), |_| repair(rng, size)) });
            match rng.u8(0..3) {
                0 => { failure["outcome"] = json!("nags"); failure["nags_hours"] = json!("30 min"); }
                1 => { failure["outcome"] = json!("limps"); failure["limps_share"] = json!(0.4); }
                _ => {}
            }
            if rng.f64() < 0.3 {
                failure["applies"] = json!({ "kind": ["a"] });
            }
            failure
        }),
        "preparations": { "pr0": { "name": "prep 0", "type": "adjustment", "price": "0 USD", "mass": "700 g", "time": "10 min",
            "effects": { "fa0": 0.5 }, "basis": "from memory" } },
        "model": { "falls_per_1000_km": { "sealed": 0.1, "gravel": 1, "track": 3, "rough": 9 },
            "riding_skill": { "novice": 2, "intermediate": 1, "advanced": 0.6, "expert": 0.4 },
            "load_sensitivity": pick(rng, &[0.0, 0.02]), "hours_per_fall": "0.25 h", "basis": "from memory" },
    })
}

fn item(rng: &mut Rng, size: &Size, at: usize) -> Value {
    let mut item = json!({ "name": format!("thing {at}"), "kind": pick(rng, &KINDS), "mass": pick(rng, &["1 g", "30 g", "200 g", "900 g", "2500 g"]),
        "volume": pick(rng, &["1 mL", "400 mL", "1500 mL"]), "longest": pick(rng, &["10 mm", "150 mm", "300 mm", "500 mm"]),
        "price": pick(rng, &["0 USD", "3 USD", "20.5 USD", "150 USD"]), "at_most": rng.u32(1..5), "basis": "from memory",
        "provides": some(rng, "fn", size.functions, 0.4, 2), "holds": some(rng, "st", size.stocks, 0.4, 3),
        "personal": rng.f64() < 0.25, "dry": rng.f64() < 0.2 });
    if rng.f64() < 0.15 {
        item["requires"] = some(rng, "fn", size.functions, 0.4, 2).into();
    }
    if rng.f64() < 0.2 {
        let (need, rule) = pick(rng, &NEEDS);
        item["meets"] = json!({ need: if rule == "sleep warmth" { json!({ "amount": 0.5, "down_to": "0 °C" }) } else { json!({ "amount": 1 }) } });
    }
    item
}

fn repair(rng: &mut Rng, size: &Size) -> Value {
    json!({ "name": "repair", "grade": pick(rng, &["bodge", "field", "full"]), "time": pick(rng, &["0 min", "10 min", "60 min"]),
        "restores": pick(rng, &[0.3, 0.95, 1.0]), "skill": pick(rng, &["anyone", "handy", "skilled", "expert"]), "basis": "from memory",
        "needs": some(rng, "fn", size.functions, 0.4, 2), "uses": some(rng, "st", size.stocks, 0.4, 2),
        "riders": if rng.f64() < 0.2 { rng.u32(2..4) } else { 1 } })
}

fn scenario(rng: &mut Rng, size: &Size) -> Value {
    let names = &NAMES[..size.riders];
    let riders: Vec<Value> = names.iter().map(|name| rider(rng, size, name)).collect();
    let style = pick(rng, &["none", "roofed", "camping", "camping"]);
    let legs: Vec<Value> = (0..rng.usize(1..4))
        .map(|at| {
            let km = |rng: &mut Rng| pick(rng, &[0, 40, 300]);
            let mut leg = json!({ "name": format!("leg {at}"), "days": pick(rng, &[0.5, 2.0]), "nights": if style == "none" { 0 } else { rng.u32(0..3) },
                "km": { "sealed": km(rng), "gravel": km(rng), "track": km(rng), "rough": km(rng) },
                "hours_to_help": pick(rng, &["0.1 h", "5 h", "30 h"]), "lowest": pick(rng, &["-5 °C", "6 °C", "12 °C"]), "highest": "30 °C" });
            if rng.f64() < 0.2 {
                leg["fuel_every"] = json!(pick(rng, &["150 km", "400 km"]));
            }
            // Everybody rides the first one.
            if at > 0 && rng.f64() < 0.5 {
                let some: Vec<&str> = names.iter().copied().filter(|_| rng.bool()).collect();
                if !some.is_empty() {
                    leg["riders"] = json!(some);
                }
            }
            leg
        })
        .collect();
    let mut scenario = json!({ "name": "a drawn trip", "trip": { "style": style, "legs": legs },
        "riders": riders, "limits": {} });
    let limits: [(&str, &[&str]); 3] =
        [("kit_mass", &["2 kg", "9 kg"]), ("kit_volume", &["2 L", "8 L"]), ("budget", &["0 USD", "30 USD"])];
    for (limit, values) in limits {
        if rng.f64() < 0.3 {
            scenario["limits"][limit] = json!(pick(rng, values));
        }
    }
    if rng.f64() < 0.1 {
        scenario["limits"]["stranded_at_most"] = json!("5 %");
    }
    let some = some(rng, "it", size.items, 0.2, 1);
    match rng.u8(0..4) {
        0 => scenario["always"] = some.into(),
        1 => scenario["never"] = json!(some.keys().collect::<Vec<_>>()),
        _ => {}
    }
    if rng.f64() < 0.2 {
        scenario["done"] = json!(["pr0"]);
    }
    if rng.f64() < 0.2 {
        scenario["needs"] = json!({ pick(rng, &["petrol", "water", "papers"]): rng.u32(1..900) });
    }
    if rng.f64() < 0.3 {
        scenario["group"] = json!({ "fair": pick(rng, &["equal", "spare payload"]) });
    }
    scenario
}

fn rider(rng: &mut Rng, size: &Size, name: &str) -> Value {
    let bags: Vec<String> =
        (0..size.bags).filter(|at| *at == 0 || rng.f64() < 0.6).map(|at| format!("bg{at}")).collect();
    let mut owns = some(rng, "it", size.items, 0.4, 2);
    owns.extend(NEEDS.iter().filter(|_| rng.bool()).map(|(need, _)| (format!("for-{need}"), json!(2))));
    let mut rider = json!({ "name": name, "bike": format!("bk{}", rng.usize(0..size.bikes)),
        "riding_skill": pick(rng, &["novice", "expert"]), "repair_skill": pick(rng, &["anyone", "handy", "skilled", "expert"]),
        "mass": pick(rng, &["60 kg", "84 kg", "110 kg"]), "bags": bags, "owns": owns, "medicine": rng.f64() < 0.3 });
    if rng.f64() < 0.2 {
        rider["passenger"] = json!("50 kg");
    }
    if rng.f64() < 0.2 {
        rider["kit_mass"] = json!(pick(rng, &["0.5 kg", "2 kg", "4 kg"]));
    }
    if rng.f64() < 0.2 {
        rider["roles"] = json!([pick(rng, &["leads", "last", "medic"])]);
    }
    rider
}
