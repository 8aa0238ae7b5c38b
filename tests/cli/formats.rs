//! Answers for spreadsheets and as Markdown, and what hostile names come to there.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

/// Rows by column name.
fn rows(csv: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let head = reader.headers().unwrap().clone();
    let row =
        |record: csv::StringRecord| head.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect();
    reader.records().map(|record| row(record.unwrap())).collect()
}

fn run(tiny: &Tiny, command: &str, further: &[&str]) -> Run {
    fardel(tiny.path(), &[&[command, "trip.yaml", "--catalogues", "catalogue"], further].concat())
}

/// A world in which a pump is called something else.
fn renamed(name: &str) -> Tiny {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml");
    assert!(world.contains("name: hand pump"), "{world}");
    tiny.write("catalogue/world.yaml", &world.replace("name: hand pump", &format!("name: {name}")));
    tiny
}

#[test]
fn every_command_with_things_has_rows() {
    let tiny = Tiny::new();
    compare("pack-csv", &tiny.pack(&["--format", "csv"]));
    compare("rehearse-csv", &run(&tiny, "rehearse", &["--format", "csv"]));
    tiny.pack(&["--format", "json", "--out", "packed.json"]).answered();
    compare("trim-csv", &run(&tiny, "trim", &["--kit", "packed.json", "--to", "3.6kg", "--swap", "--format", "csv"]));
}

#[test]
fn rows_and_json_say_the_same() {
    let tiny = Tiny::new();
    let (told, json) = (tiny.pack(&["--format", "csv"]), tiny.pack(&["--format", "json"]).json());
    let told = rows(told.answered());
    let items =
        json["bags"].as_array().unwrap().iter().flat_map(|bag| {
            bag["items"].as_array().unwrap().iter().map(move |item| (bag["id"].as_str().unwrap(), item))
        });
    let mut mass = 0.0;
    for (row, (bag, item)) in told.iter().zip(items.clone()) {
        assert_eq!((row["bag_id"].as_str(), row["id"].as_str()), (bag, item["id"].as_str().unwrap()));
        let figure = |name: &str| row[name].parse::<f64>().unwrap();
        crate::support::close(figure("mass_g"), item["mass_g"].as_f64().unwrap(), 1e-12);
        crate::support::close(figure("unit_mass_g") * figure("count"), figure("mass_g"), 1e-12);
        mass += figure("mass_g");
    }
    assert_eq!(told.len(), items.count());
    crate::support::close(mass, json["totals"]["mass_g"].as_f64().unwrap(), 1e-12);
}

/// What `pack` writes for a spreadsheet is a kit for other commands.
#[test]
fn rows_are_a_kit_again() {
    let tiny = Tiny::new();
    for format in ["csv", "json"] {
        tiny.pack(&["--format", format, "--out", &format!("kit.{format}")]).answered();
    }
    let with = |kit: &str| run(&tiny, "rehearse", &["--kit", kit, "--trips", "2000"]);
    // The next command to type names the file.
    let answer = |kit: &str| with(kit).out.split("\nNext").next().map(str::to_owned);
    assert_eq!(answer("kit.csv"), answer("kit.json"));
    assert_eq!(with("kit.csv").code, 0, "{}", with("kit.csv").err);
}

#[test]
fn no_name_is_a_formula() {
    for name in ["\"=1+2\"", "\"+pump\"", "\"@pump\"", "\"-pump\""] {
        let tiny = renamed(name);
        let told = tiny.pack(&["--format", "csv"]);
        let names: Vec<String> = rows(told.answered()).into_iter().map(|mut row| row.remove("name").unwrap()).collect();
        assert!(names.contains(&format!("'{}", name.trim_matches('"'))), "{names:?}");
        assert!(names.iter().all(|name| !name.starts_with(['=', '+', '-', '@'])), "{names:?}");
    }
}

#[test]
fn every_answer_as_markdown() {
    let tiny = Tiny::new();
    let markdown = ["--format", "markdown"];
    compare("pack-markdown", &tiny.pack(&markdown));
    compare("rehearse-markdown", &run(&tiny, "rehearse", &markdown));
    compare("tradeoff-markdown", &run(&tiny, "tradeoff", &["--points", "5", "--format", "markdown"]));
    tiny.pack(&["--format", "json", "--out", "packed.json"]).answered();
    let trim = ["--kit", "packed.json", "--to", "3.6kg", "--format", "markdown"];
    compare("trim-markdown", &run(&tiny, "trim", &trim));
    for name in ["pump", "camera", "clutch-cable", "puncture", "clutch-cable-snapped"] {
        let why = ["why", name, "trip.yaml", "--catalogues", "catalogue", "--format", "markdown"];
        compare(&format!("why-markdown-{name}"), &fardel(tiny.path(), &why));
    }
    let trip = tiny.read("trip.yaml").replace("\nlimits:", crate::split::shown::SECOND);
    tiny.write("trip.yaml", &trip);
    compare("split-markdown", &run(&tiny, "split", &markdown));
    assert_eq!(run(&tiny, "split", &["--format", "markdown", "--out", "cards"]).code, 0);
    assert!(tiny.read("cards/2-pekka.md").contains("- [ ] 1 x **documents**"), "{}", tiny.read("cards/2-pekka.md"));
}

/// Tables keep their columns, lists their lines, and nothing becomes a heading, a link, code or a tag.
#[test]
fn no_name_is_markup() {
    let name = "a | b ](http://x) `c` <b onclick=x>\\n# d *e*";
    let tiny = renamed(&format!("\"{name}\""));
    let plain = Tiny::new();
    for (command, further) in [
        ("pack", &[][..]),
        ("rehearse", &["--trips", "2000"]),
        ("tradeoff", &["--points", "4"]),
        ("card", &[]),
        ("split", &[]),
    ] {
        let further = [further, &["--format", "markdown"]].concat();
        let (told, usual) = (run(&tiny, command, &further), run(&plain, command, &further));
        let shown = told.answered();
        assert_eq!(shown.lines().count(), usual.answered().lines().count(), "{command}");
        assert!(shown.contains("a \\| b \\](http://x) \\`c\\` \\<b onclick=x\\> \\# d \\*e\\*"), "{shown}");
        assert!(!shown.replace("\\<b", "").contains("<b"), "{shown}");
        let cells = |text: &str| -> Vec<usize> {
            text.lines().filter(|l| l.starts_with('|')).map(|l| l.replace("\\|", "").matches('|').count()).collect()
        };
        assert_eq!(cells(shown), cells(&usual.out), "{command}");
    }
}
