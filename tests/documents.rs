//! What the documents say is so: commands run, examples load, samples are what the program prints, lists are complete.

use crate::support::{Run, fardel, pack_with};
use fardel::diagnostic::Code;
use fardel::lint::Lint;
use fardel::load::{self, Source, Unreadable};
use fardel::milp::Engine;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const README: &str = include_str!("../README.md");
pub const DEVELOPERS: &str = include_str!("../DEVELOPERS.md");

/// Set this to have the samples of README.md written anew instead of compared.
const REFRESH: &str = "UPDATE_README";

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A fenced block: the word after the fence, the line it opens at, its text.
struct Block {
    language: String,
    line: usize,
    text: String,
}

fn blocks(document: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut open: Option<Block> = None;
    for (at, line) in document.lines().enumerate() {
        match (open.take(), line.strip_prefix("```")) {
            (None, Some(language)) => {
                open = Some(Block { language: language.to_owned(), line: at + 1, text: String::new() });
            }
            (Some(block), Some("")) => blocks.push(block),
            (Some(mut block), _) => {
                block.text += line;
                block.text.push('\n');
                open = Some(block);
            }
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "a fence that does not close");
    blocks
}

/// A folder with the shipped scenarios in it, so that what the commands write is not left in the repository.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("scenarios")).unwrap();
    for path in files(&["scenarios"], &["yaml", "csv"]) {
        fs::copy(&path, folder.path().join("scenarios").join(path.file_name().unwrap())).unwrap();
    }
    let log = blocks(README).into_iter().find(is_log).expect("a ride log in the README");
    fs::write(folder.path().join("marrow-log.yaml"), log.text).unwrap();
    folder
}

fn is_log(block: &Block) -> bool {
    block.language == "yaml" && block.text.starts_with("rides:\n")
}

/// A ride log shown in a document is about bikes, failures and items that there are.
fn the_log_reads(block: &Block, document: &str, catalogue: &fardel::domain::Catalogue) {
    let name = format!("{document}, block at line {}", block.line);
    let rides = load::rides(vec![Ok(source(&name, &block.text))], catalogue);
    assert!(!rides.unwrap_or_else(|faults| panic!("{faults}")).is_empty());
}

fn yaml_files(folder: &str) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(root().join(folder)).unwrap().map(|e| e.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    paths.sort();
    assert!(!paths.is_empty(), "no files in {folder}");
    paths
}

/// Every line of a `sh` block is a command that works; what `cargo run` would start is run with the test binary.
#[test]
fn the_commands_of_the_readme_work() {
    let mut seen = BTreeSet::new();
    for block in blocks(README).iter().filter(|block| block.language == "sh") {
        let folder = folder();
        for line in block.text.lines().map(|line| line.split(" #").next().unwrap().trim()).filter(|l| !l.is_empty()) {
            let run = line.strip_prefix("cargo run --release --").or_else(|| line.strip_prefix("fardel"));
            match run {
                Some(rest) if seen.insert(rest.trim().to_owned()) => {
                    let run = fardel(folder.path(), &rest.split_whitespace().collect::<Vec<_>>());
                    assert_eq!(run.code, 0, "README.md, block at line {}: `{line}`\n{}", block.line, run.err);
                }
                Some(_) => {}
                None => assert!(
                    ["cargo test", "cargo install --path .", "cargo bench", ".ci/run"]
                        .iter()
                        .any(|own| line.starts_with(own)),
                    "README.md, block at line {}: what is `{line}`?",
                    block.line
                ),
            }
        }
    }
    assert!(seen.contains("pack scenarios/five-day-loop.yaml"), "the main job is in no block: {seen:?}");
    assert!(README.lines().any(|line| line == "cargo test"), ".ci/run takes its test command from the README");
}

/// A line `<!-- output of: pack ... -->` says that the block below it is what that command prints.
#[test]
fn the_samples_of_the_readme_are_what_the_program_prints() {
    let mut fresh = String::new();
    let mut rest = README;
    let mut samples = 0;
    while let Some(at) = rest.find("<!-- output of: ") {
        let (before, after) = rest.split_at(at);
        let (command, after) =
            after["<!-- output of: ".len()..].split_once(" -->\n```text\n").expect("marker, then block");
        let (sample, after) = after.split_once("\n```\n").expect("a block that closes");
        let Run { code, out, err } = fardel(folder().path(), &command.split_whitespace().collect::<Vec<_>>());
        assert_eq!(code, 0, "{command}: {err}");
        let out = out.trim_end();
        assert!(
            out == sample || std::env::var_os(REFRESH).is_some(),
            "The sample of `fardel {command}` in README.md is not what the program prints now. If the change is meant, \
             refresh it with\n\n    {REFRESH}=1 cargo test samples_of_the_readme\n\nFirst difference:\n{}",
            difference(sample, out)
        );
        fresh += &format!("{before}<!-- output of: {command} -->\n```text\n{out}\n```\n");
        rest = after;
        samples += 1;
    }
    assert!(samples > 0, "README.md shows no sample of output");
    fresh += rest;
    if std::env::var_os(REFRESH).is_some() {
        fs::write(root().join("README.md"), fresh).unwrap();
    }
}

fn difference(old: &str, new: &str) -> String {
    let pairs = old.lines().chain(std::iter::once("")).zip(new.lines().chain(std::iter::once("")));
    let first = pairs.into_iter().find(|(old, new)| old != new);
    first.map_or_else(|| "one is longer".to_owned(), |(old, new)| format!("- {old}\n+ {new}"))
}

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
}

/// YAML of the README is a scenario, or entries for a catalogue of one's own; either loads with the shipped catalogue,
/// and the scenario has an answer.
#[test]
fn the_yaml_of_the_readme_loads() {
    let own: Vec<Block> = blocks(README).into_iter().filter(|block| block.language == "yaml").collect();
    let (logs, own): (Vec<Block>, Vec<Block>) = own.into_iter().partition(is_log);
    let shipped = load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"));
    logs.iter().for_each(|log| the_log_reads(log, "README.md", &shipped));
    assert!(own.len() >= 2, "a scenario and an own catalogue belong in the README");
    let is_scenario = |block: &&Block| block.text.contains("\ntrip:\n");
    // A block of prices is a part of a scenario.
    let is_prices = |block: &&Block| block.text.starts_with("prices:");
    let prices = own.iter().filter(is_prices).map(|block| block.text.as_str()).collect::<Vec<_>>().join("\n");
    let extras: Vec<&Block> = own.iter().filter(|block| !is_scenario(block) && !is_prices(block)).collect();
    for block in own.iter().filter(is_scenario) {
        let name = format!("README.md, block at line {}", block.line);
        let read = |file: &str| match extras.first() {
            Some(extra) => Ok(source(file, &extra.text)),
            None => Err(Unreadable { name: file.to_owned(), reason: "not in the README".to_owned() }),
        };
        let loaded = load::load_texts(&load::shipped(), source(&name, &format!("{}\n{prices}", block.text)), &read);
        let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
        let answer = pack_with(&loaded, Engine::Microlp);
        answer.unwrap_or_else(|error| panic!("{name} loads, but there is no kit: {error:?}"));
    }
    for block in blocks(README).iter().filter(|block| block.language == "csv") {
        let trip = "name: a day\ntrip: { style: none, legs: [{ name: out, days: 1, hours_to_help: 5 h }] }\nriders:\n  - { \
                    name: Sanne, bike: single-450-tubed, riding_skill: novice, repair_skill: handy, mass: 78 kg, gear: g.csv }\n\
                    always: [paper-diary]\n";
        let read = |name: &str| Ok(source(name, &block.text));
        let loaded = load::load_texts(&load::shipped(), source("trip.yaml", trip), &read);
        let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
        assert!(
            loaded.notes[0].ends_with("2 as weighed there; not in the catalogue: paper-diary"),
            "{:?}",
            loaded.notes
        );
    }
    for block in extras {
        let name = format!("README.md, block at line {}", block.line);
        load::catalogue(&load::shipped(), &[source(&name, &block.text)]).unwrap_or_else(|faults| panic!("{faults}"));
    }
}

/// The format pages of DEVELOPERS.md, taken together, are a catalogue that stands by itself and a scenario with it.
#[test]
fn the_yaml_of_the_developers_page_loads() {
    let own: Vec<Block> = blocks(DEVELOPERS).into_iter().filter(|block| block.language == "yaml").collect();
    let (logs, own): (Vec<Block>, Vec<Block>) = own.into_iter().partition(is_log);
    assert_eq!(logs.len(), 1, "one block shows a book of rides");
    let (scenarios, others): (Vec<&Block>, Vec<&Block>) = own.iter().partition(|b| b.text.contains("\ntrip:\n"));
    assert_eq!(scenarios.len(), 1, "one block shows the scenario file");
    let is_gear = |block: &&Block| block.text.contains("\n  - patch-kit");
    let (gear, sections): (Vec<&Block>, Vec<&Block>) = others.into_iter().partition(is_gear);
    assert_eq!(gear.len(), 1, "one block shows the gear file");
    let named = |block: &Block| source(&format!("DEVELOPERS.md, block at line {}", block.line), &block.text);
    let catalogue: Vec<Source> = sections.into_iter().map(named).collect();
    let read = |_: &str| Ok(named(gear[0]));
    let mut scenario = named(scenarios[0]);
    // The gear names the same pump.
    scenario.text = scenario.text.replace(", pump: 1 }", " }");
    let loaded = load::load_texts(&catalogue, scenario, &read).unwrap_or_else(|faults| panic!("{faults}"));
    // Every section and every rule is shown at least once.
    let catalogue = loaded.catalogue;
    the_log_reads(&logs[0], "DEVELOPERS.md", &catalogue);
    for (section, entries) in [
        ("attributes", catalogue.attributes.len()),
        ("functions", catalogue.functions.len()),
        ("stocks", catalogue.stocks.len()),
        ("needs", catalogue.needs.len()),
        ("systems", catalogue.systems.len()),
        ("items", catalogue.items.len()),
        ("bikes", catalogue.bikes.len()),
        ("bags", catalogue.bags.len()),
        ("failures", catalogue.failures.len()),
        ("preparations", catalogue.preparations.len()),
        ("checks", catalogue.checks.len()),
    ] {
        assert!(entries > 0, "DEVELOPERS.md shows no entry of `{section}`");
    }
}

#[test]
fn every_shipped_file_loads() {
    for path in yaml_files("scenarios") {
        let loaded = load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
        assert!(loaded.notes.is_empty(), "{}: {:?}", path.display(), loaded.notes);
    }
    let sources = load::catalogue_files(&root().join("catalogues")).unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(sources.len(), load::shipped().len(), "the catalogue in the program is the one in the folder");
    for (file, built_in) in sources.iter().zip(load::shipped()) {
        assert_eq!(file.text, built_in.text, "{}", file.name);
    }
    load::catalogue(&sources, &[]).unwrap_or_else(|faults| panic!("{faults}"));
}

/// Rows of a table whose first cell passes: the cells, without backquotes.
pub fn rows(document: &str, first: impl Fn(&str) -> bool) -> Vec<Vec<String>> {
    let cells = |line: &str| -> Vec<String> {
        let inner = line.trim().trim_start_matches('|').trim_end_matches('|');
        inner.split('|').map(|cell| cell.trim().replace('`', "")).collect()
    };
    let table = document.lines().filter(|line| line.starts_with('|')).map(cells);
    table.filter(|cells| first(&cells[0])).collect()
}

#[test]
fn the_fault_codes_are_listed() {
    let is_code =
        |cell: &str| cell.len() == 3 && cell.starts_with('F') && cell[1..].bytes().all(|b| b.is_ascii_digit());
    let listed: Vec<(String, String)> =
        rows(DEVELOPERS, is_code).into_iter().map(|cells| (cells[0].clone(), cells[1].clone())).collect();
    let known: Vec<(String, String)> =
        Code::ALL.iter().map(|code| (code.id().to_owned(), code.title().replace('`', ""))).collect();
    assert_eq!(listed, known, "the table of fault codes in DEVELOPERS.md");
}

#[test]
fn the_lints_are_listed() {
    let is_lint =
        |cell: &str| cell.len() == 3 && cell.starts_with('L') && cell[1..].bytes().all(|b| b.is_ascii_digit());
    let listed = rows(DEVELOPERS, is_lint);
    let plain = |text: &str| text.replace('`', "");
    let known: Vec<Vec<String>> =
        Lint::ALL.iter().map(|lint| vec![lint.id().to_owned(), plain(lint.title()), plain(lint.when())]).collect();
    assert_eq!(listed, known, "the table of lints in DEVELOPERS.md");
}

/// The constants in DEVELOPERS.md's table of tolerances stand in the files it names, with the values it gives.
#[test]
fn the_tolerances_are_those_of_the_code() {
    let is_constant = |cell: &str| cell.len() > 2 && cell.bytes().all(|b| b.is_ascii_uppercase() || b == b'_');
    let table = rows(DEVELOPERS, is_constant);
    for folder in [
        "src/milp",
        "src/core/select",
        "src/core/select/rows",
        "src/core/stow",
        "src/core/risk",
        "src/core/verify",
        "src/core/answer",
        "src/core/rehearse",
        "src/core/debrief",
        "src/core/uncertain",
    ] {
        for entry in fs::read_dir(root().join(folder)).unwrap() {
            let path = entry.unwrap().path();
            let file = path.strip_prefix(root()).unwrap().display().to_string();
            let text = if path.is_file() { fs::read_to_string(&path).unwrap() } else { String::new() };
            let declared = text.lines().filter_map(|line| line.trim_start_matches("pub ").strip_prefix("const "));
            for name in declared.filter_map(|rest| rest.split_once(": ")).map(|(name, _)| name) {
                let listed = name.contains("fn ") || table.iter().any(|row| row[0] == name && row[2] == file);
                assert!(listed, "DEVELOPERS.md does not list the constant `{name}` of {file}");
            }
        }
    }
    for row in table {
        let [name, value, file, ..] = row.as_slice() else { panic!("{row:?}") };
        let text = fs::read_to_string(root().join(file)).unwrap_or_else(|error| panic!("{file}: {error}"));
        let line = text.lines().find(|line| line.contains(&format!("const {name}:")));
        let line = line.unwrap_or_else(|| panic!("{file} has no constant `{name}`"));
        assert!(line.ends_with(&format!("= {value};")), "DEVELOPERS.md says {name} = {value}, {file} says: {line}");
    }
}

/// No limit on what a file may hold is left out of the table of limits.
#[test]
fn the_limits_are_listed() {
    for path in files(&["src/core/load", "src/core/domain", "src/core/diagnostic"], &["rs"]) {
        let (text, file) =
            (fs::read_to_string(&path).unwrap(), path.strip_prefix(root()).unwrap().display().to_string());
        let names = text.lines().filter_map(|line| line.split_once("const ")?.1.split_once(": ")).map(|(name, _)| name);
        let limits =
            names.filter(|name| ["MOST_", "LARGEST_FILE", "LONGEST", "DEEPEST"].iter().any(|l| name.starts_with(l)));
        for name in limits {
            let listed = rows(DEVELOPERS, |cell| cell == name).iter().any(|row| row[2] == file);
            assert!(listed, "DEVELOPERS.md does not list the limit `{name}` of {file}");
        }
    }
}

/// Every path in backquotes exists; every folder of the sources is on the map.
#[test]
fn the_map_of_the_code_is_complete() {
    for (document, name) in [(README, "README.md"), (DEVELOPERS, "DEVELOPERS.md")] {
        for path in document.split('`').skip(1).step_by(2) {
            let named = ["src/", "tests/", "catalogues/", "scenarios/", "benches/", ".ci/"].iter();
            let plain = !path.contains(['<', '*', ' ', '{']) && !path.contains("my-");
            if plain && named.into_iter().any(|folder| path.starts_with(folder)) {
                assert!(root().join(path).exists(), "{name} names `{path}`, which is not there");
            }
        }
    }
    for folder in folders(&root().join("src")) {
        let named = format!("`{}`", folder.strip_prefix(root()).unwrap().display());
        assert!(DEVELOPERS.contains(&named), "DEVELOPERS.md does not name {named}");
    }
}

fn folders(below: &Path) -> Vec<PathBuf> {
    let inside = fs::read_dir(below).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir());
    let mut all: Vec<PathBuf> = inside.flat_map(|folder| folders(&folder).into_iter().chain([folder])).collect();
    all.sort();
    all
}

/// All files below these folders whose names end so.
fn files(below: &[&str], endings: &[&str]) -> Vec<PathBuf> {
    let roots: Vec<PathBuf> = below.iter().map(|folder| root().join(folder)).collect();
    let all = roots.iter().flat_map(|folder| folders(folder).into_iter().chain([folder.clone()]));
    let paths = all.flat_map(|folder| fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()));
    let mut found: Vec<PathBuf> =
        paths.filter(|p| p.extension().is_some_and(|e| endings.contains(&e.to_str().unwrap_or("")))).collect();
    found.sort();
    assert!(!found.is_empty(), "{below:?}");
    found
}

#[test]
fn nothing_is_left_to_be_done_or_looked_at() {
    // Put together here, so that this file does not hold them.
    let markers = [("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("db", "g!("), ("to", "do!("), ("unimplement", "ed!(")];
    for path in files(&["src", "tests", "benches", "catalogues", "scenarios"], &["rs", "yaml"]) {
        // One of the faulty files is no UTF-8 on purpose.
        let text = String::from_utf8_lossy(&fs::read(&path).unwrap()).into_owned();
        for (at, line) in text.lines().enumerate() {
            let place = format!("{}:{}: {line}", path.display(), at + 1);
            for (a, b) in markers {
                assert!(!line.contains(&format!("{a}{b}")), "a marker was left at {place}");
            }
            let prints = path.starts_with(root().join("src")) && !line.contains("anstream::");
            let printed = ["println!(", "eprintln!(", "print!(", "eprint!("].iter().any(|call| line.contains(call));
            assert!(!(prints && printed && !line.contains("cargo:")), "output beside the report at {place}");
        }
    }
}

#[test]
fn every_source_file_says_what_it_is_for_and_stays_short() {
    for path in files(&["src", "tests", "benches"], &["rs"]) {
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("//! "), "{} has no `//!` header", path.display());
        let lines = text.lines().count();
        assert!(lines <= 400, "{} has {lines} lines; 400 are the most", path.display());
    }
}
