//! What the documents say is so: commands run, examples load, samples are what the program prints, lists are complete.
//!
//! The documents are the README, DEVELOPERS.md and the guides of `fardel help` in `src/cli/topics`.

mod commands;
#[cfg(unix)]
mod samples;
mod sources;

use crate::support::pack_with;
use fardel::domain::Catalogue;
use fardel::load::{self, Source, Unreadable};
use fardel::milp::Engine;
use std::fs;
use std::path::{Path, PathBuf};

const README: &str = include_str!("../../README.md");
const DEVELOPERS: &str = include_str!("../../DEVELOPERS.md");

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A document: its place in the repository, and its text.
struct Document {
    path: String,
    text: String,
}

/// The guides of `fardel help`.
fn guides() -> Vec<Document> {
    let paths = files(&["src/cli/topics"], &["md"]).into_iter();
    let relative = |path: &Path| path.strip_prefix(root()).unwrap().display().to_string();
    paths.map(|path| Document { path: relative(&path), text: fs::read_to_string(path).unwrap() }).collect()
}

/// What riders read: the README and the guides.
fn for_riders() -> Vec<Document> {
    let readme = Document { path: "README.md".to_owned(), text: README.to_owned() };
    std::iter::once(readme).chain(guides()).collect()
}

/// Everything.
fn documents() -> Vec<Document> {
    let developers = Document { path: "DEVELOPERS.md".to_owned(), text: DEVELOPERS.to_owned() };
    for_riders().into_iter().chain([developers]).collect()
}

/// The guide of this name.
fn guide(name: &str) -> String {
    fs::read_to_string(root().join("src/cli/topics").join(format!("{name}.md"))).unwrap()
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

/// The blocks of a guide in one language, as named texts.
fn sources(name: &str, language: &str) -> Vec<Source> {
    let own = blocks(&guide(name)).into_iter().filter(|block| block.language == language);
    own.map(|block| source(&format!("the guide `{name}`, block at line {}", block.line), &block.text)).collect()
}

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
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
fn the_documents_can_be_read_in_one_sitting() {
    for (name, text, most) in [("README.md", README, 250), ("DEVELOPERS.md", DEVELOPERS, 350)] {
        let lines = text.lines().count();
        assert!(lines <= most, "{name} has {lines} lines; {most} are the most");
    }
    for guide in guides() {
        let lines = guide.text.lines().count();
        assert!(lines <= 250, "{} has {lines} lines", guide.path);
    }
}

/// A scenario loads with the shipped catalogue and these further entries, and has a kit.
fn packs(scenario: Source, entries: Option<&Source>) {
    let name = scenario.name.clone();
    let read = |file: &str| match entries {
        Some(entries) => Ok(source(file, &entries.text)),
        None => Err(Unreadable { name: file.to_owned(), reason: "not in the document".to_owned() }),
    };
    let loaded = load::load_texts(&load::shipped(), scenario, &read).unwrap_or_else(|faults| panic!("{faults}"));
    let answer = pack_with(&loaded, Engine::Microlp);
    answer.unwrap_or_else(|error| panic!("{name} loads, but there is no kit: {error:?}"));
}

#[test]
fn the_scenario_of_the_readme_packs() {
    let own: Vec<Block> = blocks(README).into_iter().filter(|block| block.language == "yaml").collect();
    assert!(!own.is_empty(), "a scenario belongs in the README");
    own.iter().for_each(|block| packs(source("README.md", &block.text), None));
}

/// The guide of trips has a scenario, that of own things the entries it names, that of prices two parts of a scenario.
#[test]
fn the_scenario_of_the_guides_packs_with_the_entries_and_prices_of_the_guides() {
    let (trip, entries, prices) = (sources("trip", "yaml"), sources("gear", "yaml"), sources("prices", "yaml"));
    assert_eq!((trip.len(), entries.len(), prices.len()), (1, 1, 2));
    let whole = format!("{}\n{}\n{}", trip[0].text, prices[0].text, prices[1].text);
    packs(source(&trip[0].name, &whole), Some(&entries[0]));
    load::catalogue(&load::shipped(), &entries).unwrap_or_else(|faults| panic!("{faults}"));
}

#[test]
fn the_spreadsheet_of_the_guides_is_read_as_gear() {
    let sheets = sources("gear", "csv");
    assert_eq!(sheets.len(), 1);
    let trip = "name: a day\ntrip: { style: none, legs: [{ name: out, days: 1, hours_to_help: 5 h }] }\nriders:\n  - { \
                name: Sanne, bike: single-450-tubed, riding_skill: novice, repair_skill: handy, mass: 78 kg, gear: g.csv }\n\
                always: [paper-diary]\n";
    let read = |name: &str| Ok(source(name, &sheets[0].text));
    let loaded = load::load_texts(&load::shipped(), source("trip.yaml", trip), &read);
    let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
    assert!(loaded.notes[0].ends_with("2 as weighed there; not in the catalogue: paper-diary"), "{:?}", loaded.notes);
}

/// A ride log shown in a document is about bikes, failures and items that there are.
fn the_log_reads(log: Source, catalogue: &Catalogue) {
    let rides = load::rides(vec![Ok(log)], catalogue);
    assert!(!rides.unwrap_or_else(|faults| panic!("{faults}")).is_empty());
}

#[test]
fn the_log_of_the_guides_reads() {
    let shipped = load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"));
    let logs = sources("learning", "yaml");
    assert_eq!(logs.len(), 1);
    logs.into_iter().for_each(|log| the_log_reads(log, &shipped));
}

/// The guide of catalogues, taken together, is a catalogue that stands by itself; that of files has a scenario with it,
/// its gear and a book of rides.
#[test]
fn the_examples_of_every_key_load() {
    let mut files = sources("files", "yaml").into_iter();
    let (mut scenario, gear, rides) = (files.next().unwrap(), files.next().unwrap(), files.next().unwrap());
    assert!(files.next().is_none());
    let read = |_: &str| Ok(gear.clone());
    // The gear names the same pump.
    scenario.text = scenario.text.replace(", pump: 1 }", " }");
    let loaded = load::load_texts(&sources("catalogue", "yaml"), scenario, &read);
    let catalogue = loaded.unwrap_or_else(|faults| panic!("{faults}")).catalogue;
    the_log_reads(rides, &catalogue);
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
        assert!(entries > 0, "the guide of catalogues shows no entry of `{section}`");
    }
}

#[test]
fn every_shipped_file_loads() {
    let scenarios = fs::read_dir(root().join("scenarios")).unwrap().map(|entry| entry.unwrap().path());
    for path in scenarios.filter(|path| path.extension().is_some_and(|ending| ending == "yaml")) {
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
