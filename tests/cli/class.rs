//! A class and a season on the tiny world, whose numbers can be checked by hand.

use super::Tiny;
use crate::split::shown::SECOND;
use crate::support::fardel;
use serde_json::{Value, json};

fn class(tiny: &Tiny, more: &[&str]) -> crate::support::Run {
    fardel(tiny.path(), &[&["class", "group.yaml", "--catalogues", "catalogue"], more].concat())
}

/// Two riders; the second has little and may spend little.
fn two() -> Tiny {
    let tiny = Tiny::new();
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    tiny
}

#[test]
fn every_rider_has_the_kit_that_pack_gives() {
    let tiny = two();
    let answer = class(&tiny, &["--format", "json"]).json();
    let members = answer["members"].as_array().unwrap();
    assert_eq!(members.len(), 2);
    for member in members {
        let rider = member["rider"].as_str().unwrap();
        let pack = ["pack", "group.yaml", "--catalogues", "catalogue", "--rider", rider, "--format", "json"];
        let own = fardel(tiny.path(), &pack).json();
        assert_eq!(member["kit"]["totals"], own["totals"], "{rider}");
        let ids = |kit: &Value| -> Vec<(Value, Value)> {
            let bags = kit["bags"].as_array().unwrap().iter();
            bags.flat_map(|bag| bag["items"].as_array().unwrap())
                .map(|item| (item["id"].clone(), item["count"].clone()))
                .collect()
        };
        assert_eq!(ids(&member["kit"]), ids(&own), "{rider}");
    }
    // What is bought adds up to what the kits buy.
    let bought: f64 = answer["shopping"].as_array().unwrap().iter().map(|line| line["price"].as_f64().unwrap()).sum();
    let kits: f64 = members.iter().map(|member| member["kit"]["totals"]["to_buy"].as_f64().unwrap()).sum();
    assert!((bought - kits).abs() < 0.005, "{bought} {kits}");
}

/// Nothing is lacking that a rider has, and of those who carry a tool one alone would save what the others pay.
#[test]
fn what_is_lacking_and_shared_is_not_there_already() {
    let answer = class(&two(), &["--format", "json"]).json();
    let leader = answer["leader"].as_str().unwrap();
    for member in answer["members"].as_array().unwrap() {
        let lacks = member["lacks"].as_array().unwrap();
        assert!(member["rider"] != leader || lacks.is_empty());
        for lack in lacks {
            assert!(!member["kit"]["bags"].to_string().contains(&format!("\"id\":{}", lack["id"])), "{lack}");
        }
    }
    for line in answer["shopping"].as_array().unwrap().iter().filter(|line| !line["one_for_all"].is_null()) {
        assert!(line["one_for_all"]["saves"].as_f64() <= line["price"].as_f64(), "{line}");
    }
}

#[test]
fn there_is_a_sheet_for_everybody_in_every_shape() {
    let tiny = two();
    for (format, ending) in [("text", "txt"), ("csv", "csv"), ("json", "json"), ("html", "html")] {
        assert_eq!(class(&tiny, &["--format", format, "--out", format]).code, 0);
        let names: Vec<String> =
            ["coach", "1-aino", "2-pekka"].iter().map(|name| format!("{format}/{name}.{ending}")).collect();
        for (at, name) in names.iter().enumerate() {
            let text = tiny.read(name);
            assert!(text.contains(["Pekka", "Aino", "Pekka"][at]) && !text.contains('\u{1b}'), "{name}: {text}");
        }
    }
}

#[test]
fn a_rider_without_a_kit_is_told_and_the_others_have_theirs() {
    let tiny = two();
    tiny.write("group.yaml", &tiny.read("group.yaml").replace("name: Pekka", "name: Pekka\n    kit_mass: 0.1 kg"));
    let run = class(&tiny, &[]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("No kit meets all needs within all limits for Pekka."), "{}", run.out);
    assert!(run.out.contains("no kit; what it would take: "), "{}", run.out);
}

#[test]
fn a_season_adds_up_what_its_rows_say() {
    let tiny = Tiny::new();
    let job = |at: u32| {
        json!({"id": at, "scenario": "trip.yaml", "hours_to_help": format!("{} h", 2 + 6 * at)}).to_string() + "\n"
    };
    let jobs: String = (0..4).map(job).collect();
    tiny.write("jobs.jsonl", &(jobs + "{\"id\": \"bad\", \"scenario\": \"none.yaml\"}\n"));
    let season = |rows: &str, format: &str| fardel(tiny.path(), &["season", rows, "--format", format]);
    for brief in [&["--brief"][..], &[]] {
        let batch =
            [&["batch", "jobs.jsonl", "--catalogues", "catalogue", "--out", "rows.jsonl", "--force", "--quiet"], brief]
                .concat();
        assert_eq!(fardel(tiny.path(), &batch).code, 0);
        let rows: Vec<Value> =
            tiny.read("rows.jsonl").lines().map(|line| serde_json::from_str(line).unwrap()).collect();
        let told = season("rows.jsonl", "json").json();
        assert_eq!(told["jobs"], json!({"answered": 4, "bad_input": 1}));
        let sum = |of: fn(&Value) -> f64| rows.iter().take(4).map(|row| of(&row["answer"])).sum::<f64>();
        let mass = sum(|answer| answer["totals"]["mass_g"].as_f64().unwrap());
        assert_eq!(told["mass_g"].as_f64(), Some(mass));
        let spent = sum(|answer| answer["totals"]["to_buy"].as_f64().unwrap());
        let bought: f64 = told["bought"].as_object().unwrap().values().map(|own| own["money"].as_f64().unwrap()).sum();
        assert!((bought - spent).abs() < 0.01, "{bought} {spent}");
        let left = sum(|answer| answer["figures"]["hours_lost_with_kit"].as_f64().unwrap());
        let coverage = &told["coverage"]["400 cc single, tubed"]["Two days to the quarry"];
        assert!((coverage["hours_left"].as_f64().unwrap() - left).abs() < 1e-9 && coverage["kits"] == 4);
    }
    let text = season("rows.jsonl", "text").out;
    for heading in ["Bought most", "Coverage by bike", "Coverage by route", "For the support vehicle", "Take care"] {
        assert!(text.contains(heading), "{heading}: {text}");
    }
    assert!(season("rows.jsonl", "html").out.contains("Coverage by bike"));
    assert!(season("rows.jsonl", "csv").out.starts_with("table,name,bike,route,"));
    assert_eq!(season("jobs.jsonl", "text").code, 2, "jobs are no results");
}

#[test]
fn a_study_says_what_rates_are_worth_and_a_season_pools_it() {
    let tiny = Tiny::new();
    let job = |id: &str| json!({"id": id, "command": "study", "scenario": "trip.yaml"}).to_string() + "\n";
    tiny.write("jobs.jsonl", &(job("a") + &job("b")));
    let batch = ["batch", "jobs.jsonl", "--catalogues", "catalogue", "--quiet", "--out", "rows.jsonl"];
    assert_eq!(fardel(tiny.path(), &batch).code, 0);
    let rows: Vec<Value> = tiny.read("rows.jsonl").lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(rows[0]["answer"], rows[1]["answer"]);
    let answer = &rows[0]["answer"];
    assert!(answer["all_rates_h"].as_f64() >= Some(0.0) && answer["kits_compared"].as_u64() >= Some(1));
    for own in answer["rates"].as_array().unwrap().iter().chain(answer["turned"].as_array().unwrap()) {
        assert!(own["hours"].as_f64() >= Some(0.0), "{own}");
    }
    let pooled = fardel(tiny.path(), &["season", "rows.jsonl", "--format", "json"]).json();
    assert_eq!(pooled["numbers"]["trips"], 2);
    let twice = 2.0 * answer["all_rates_h"].as_f64().unwrap();
    assert!((pooled["numbers"]["all_rates"].as_f64().unwrap() - twice).abs() < 1e-12);
}

#[test]
fn an_invented_season_is_drawn_from_its_seed() {
    let tiny = Tiny::new();
    let draw = |seed: &str, jobs: &str| fardel(tiny.path(), &["season-jobs", "--seed", seed, "--jobs", jobs]).out;
    let (few, many) = (draw("1", "5"), draw("1", "30"));
    assert!(many.starts_with(&few) && many.lines().count() == 30);
    assert_ne!(draw("2", "5"), few);
}

#[test]
fn masses_are_told_in_the_units_they_are_in() {
    let tiny = Tiny::new();
    tiny.write("jobs.jsonl", "{\"id\": \"a\", \"scenario\": \"trip.yaml\"}\n");
    let batch = ["batch", "jobs.jsonl", "--catalogues", "catalogue", "--quiet", "--out", "rows.jsonl"];
    assert_eq!(fardel(tiny.path(), &batch).code, 0);
    let told = fardel(tiny.path(), &["season", "rows.jsonl"]).out;
    assert!(told.contains("Kits 1, 4.06 kg on average."), "{told}");
    assert!(class(&two(), &[]).out.contains("\n2 riders, each with a kit of their own; Aino leads.\n"));
}
