//! Many jobs: a line for each, in order, whatever happens to one of them, however many workers there are.

use super::Tiny;
use crate::support::{Run, fardel};
use serde_json::{Value, json};

/// The tiny world with these jobs.
fn with(jobs: &[Value]) -> Tiny {
    let tiny = Tiny::new();
    tiny.write("jobs.jsonl", &jobs.iter().map(|job| job.to_string() + "\n").collect::<String>());
    tiny
}

fn batch(tiny: &Tiny, more: &[&str]) -> Run {
    fardel(tiny.path(), &[&["batch", "jobs.jsonl", "--catalogues", "catalogue", "--quiet"], more].concat())
}

fn rows(run: &Run) -> Vec<Value> {
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    run.out.lines().map(|line| serde_json::from_str(line).expect("a row of JSON")).collect()
}

/// Limits from too little to plenty, riders near and far from help.
fn jobs(count: u32) -> Vec<Value> {
    let job = |at: u32| {
        let kilograms = 2.0 + f64::from(at % 7) * 0.5;
        let hours = 1 + at % 5 * 4;
        json!({"id": format!("job {at}"), "scenario": "trip.yaml", "hours_to_help": format!("{hours} h"),
               "limits": {"kit_mass": format!("{kilograms} kg")}})
    };
    (0..count).map(job).collect()
}

#[test]
fn an_answer_is_that_of_the_command() {
    let tiny = with(&[
        json!({"id": "one", "scenario": "trip.yaml"}),
        json!({"id": "group", "command": "split", "scenario_text": Tiny::new().read("trip.yaml")}),
        json!({"id": "far", "scenario": "trip.yaml", "hours_to_help": "20 h"}),
    ]);
    tiny.write("far.yaml", &tiny.read("trip.yaml").replace("hours_to_help: 9 h", "hours_to_help: 20 h"));
    let rows = rows(&batch(&tiny, &[]));
    for (at, (command, file)) in
        [("pack", "trip.yaml"), ("split", "trip.yaml"), ("pack", "far.yaml")].iter().enumerate()
    {
        let run = fardel(tiny.path(), &[command, file, "--catalogues", "catalogue", "--quiet", "--format", "json"]);
        assert_eq!(rows[at]["answer"], run.json(), "{command} {file}");
        assert_eq!(rows[at]["status"], "answered");
    }
    assert_ne!(rows[0]["answer"]["figures"], rows[2]["answer"]["figures"]);
}

/// What a short answer has stands where it stands in the whole one.
#[test]
fn a_short_answer_is_a_part_of_the_whole_one() {
    fn is_part(part: &Value, whole: &Value) -> bool {
        match (part, whole) {
            (Value::Object(part), Value::Object(whole)) => {
                part.iter().all(|(key, value)| whole.get(key).is_some_and(|other| is_part(value, other)))
            }
            (Value::Array(part), Value::Array(whole)) => {
                part.iter().all(|value| whole.iter().any(|other| is_part(value, other)))
            }
            (part, whole) => part == whole,
        }
    }
    let tiny = with(&jobs(7));
    let (whole, short) = (rows(&batch(&tiny, &[])), rows(&batch(&tiny, &["--brief"])));
    for (whole, short) in whole.iter().zip(&short) {
        assert!(is_part(short, whole), "{short}\n{whole}");
        assert!(short["status"] != "answered" || short.to_string().len() * 2 < whole.to_string().len());
    }
}

#[test]
fn workers_order_and_resuming_change_nothing() {
    let all = jobs(60);
    let tiny = with(&all);
    let alone = batch(&tiny, &["--brief", "--workers", "1"]);
    assert_eq!(rows(&alone).len(), 60);
    assert_eq!(batch(&tiny, &["--brief", "--workers", "5"]), alone);
    // Backwards, the rows are those of the same jobs.
    let backwards = with(&all.iter().rev().cloned().collect::<Vec<_>>());
    let mut turned: Vec<String> = batch(&backwards, &["--brief"]).out.lines().map(str::to_owned).collect();
    turned.reverse();
    assert_eq!(turned, alone.out.lines().collect::<Vec<_>>());
    // Stopped anywhere, in the middle of a line too.
    for cut in [0, 1, 777, alone.out.len() / 2, alone.out.len() - 1, alone.out.len()] {
        tiny.write("rows.jsonl.part", &alone.out[..cut]);
        let run = batch(&tiny, &["--brief", "--out", "rows.jsonl", "--resume"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        assert_eq!(tiny.read("rows.jsonl"), alone.out);
        std::fs::remove_file(tiny.path().join("rows.jsonl")).unwrap();
    }
}

#[test]
fn a_bad_job_is_a_row_and_stops_nothing() {
    let tiny = with(&[]);
    let good = json!({"id": "good", "scenario": "trip.yaml"}).to_string();
    let lines = [
        "{\"id\": \"torn\", \"scenario\": ",
        "{\"id\": \"nowhere\", \"scenario\": \"no-such.yaml\"}",
        "{\"id\": \"broken\", \"scenario_text\": \"name: [\"}",
        "{\"id\": \"nobody\", \"scenario\": \"trip.yaml\", \"rider\": \"Ainu\"}",
        "{\"id\": \"heavy\", \"scenario\": \"trip.yaml\", \"limits.kit_mass\": \"5 L\"}",
        "{\"id\": \"little\", \"scenario\": \"trip.yaml\", \"limits.kit_mass\": \"10 g\"}",
        "{\"id\": \"missing\", \"scenario_text\": \"catalogues: [mine.yaml]\\nname: x\", \"files\": {\"other.yaml\": \"\"}}",
        &good,
    ];
    tiny.write("jobs.jsonl", &(lines.join("\n") + "\n"));
    let rows = rows(&batch(&tiny, &["--first-line", "101"]));
    let told =
        |at: usize| (rows[at]["id"].as_str(), rows[at]["status"].as_str().unwrap(), rows[at]["errors"][0].as_str());
    assert_eq!((told(0).0, told(0).1, &rows[0]["line"]), (None, "bad_input", &json!(101)));
    let words = [
        "not JSON",
        "no such file",
        "",
        "did you mean `Aino`?",
        "not a unit of mass",
        "cannot hold together",
        "no such file among",
    ];
    for (at, word) in words.iter().enumerate() {
        let status = if at == 5 { "no_kit" } else { "bad_input" };
        assert_eq!(told(at).1, status, "{}", rows[at]);
        assert!(rows[at]["errors"].to_string().contains(word), "{}", rows[at]);
    }
    assert_eq!(told(7), (Some("good"), "answered", None));
}

#[test]
fn a_spreadsheet_of_jobs_gives_the_same_rows() {
    let tiny = with(&jobs(6));
    let expected = batch(&tiny, &["--brief"]).out;
    let row = |job: &Value| {
        format!(
            "{},trip.yaml,{},{}\n",
            job["id"].as_str().unwrap(),
            job["limits"]["kit_mass"].as_str().unwrap(),
            job["hours_to_help"].as_str().unwrap()
        )
    };
    let rows: String = jobs(6).iter().map(row).collect();
    tiny.write("jobs.csv", &format!("id,scenario,limits.kit_mass,hours_to_help\n{rows}"));
    let run = fardel(tiny.path(), &["batch", "jobs.csv", "--catalogues", "catalogue", "--quiet", "--brief"]);
    assert_eq!((run.code, run.out), (0, expected));
}

#[test]
fn results_of_other_jobs_and_files_in_the_way_are_left_alone() {
    let tiny = with(&jobs(3));
    tiny.write("rows.jsonl", "{\"id\":\"job 0\"}\n{\"id\":\"job 7\"}\n");
    let run = batch(&tiny, &["--out", "rows.jsonl", "--resume"]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("rows.jsonl:2: these are results of other jobs: line 2 of the jobs has `job 1`"),
        "{}",
        run.err
    );
    for more in [&["--out", "rows.jsonl"][..], &["--out", "jobs.jsonl", "--force"]] {
        assert_eq!(batch(&tiny, more).code, 2, "{more:?}");
    }
    assert_eq!(tiny.read("rows.jsonl").lines().count(), 2);
    assert_eq!(tiny.read("jobs.jsonl").lines().count(), 3);
}

/// Ctrl-C: what was begun is finished and kept, and the rest goes on from there.
#[cfg(unix)]
#[test]
fn a_batch_that_is_stopped_loses_nothing() {
    use std::os::unix::process::ExitStatusExt;
    let tiny = with(&jobs(400));
    let whole = batch(&tiny, &[]).out;
    let arguments = ["batch", "jobs.jsonl", "--catalogues", "catalogue", "--quiet", "--out", "rows.jsonl"];
    let mut child = crate::support::program(tiny.path(), &arguments).spawn().unwrap();
    let part = tiny.path().join("rows.jsonl.part");
    let patience = std::time::Instant::now();
    while std::fs::metadata(&part).map_or(0, |file| file.len()) < 50_000 && patience.elapsed().as_secs() < 60 {}
    let id = child.id().to_string();
    assert!(std::process::Command::new("kill").args(["-s", "TERM", &id]).status().unwrap().success());
    assert_eq!(child.wait().unwrap().signal(), Some(15));
    let kept = tiny.read("rows.jsonl.part");
    assert!(kept.ends_with('\n') && whole.starts_with(&kept) && kept.len() < whole.len(), "{} bytes", kept.len());
    let run = batch(&tiny, &["--out", "rows.jsonl", "--resume"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert_eq!(tiny.read("rows.jsonl"), whole);
}
