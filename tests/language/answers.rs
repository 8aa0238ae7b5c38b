//! Answers in German: no English sentence of the tables in them, and the figures of the English answer.

use super::{languages, root, table};
use crate::support::{Run, fardel};
use std::collections::BTreeMap;
use std::path::Path;

/// Commands of the five-day loop whose answers are read; `KIT` is the kit that `pack` chooses.
const COMMANDS: [&[&str]; 10] = [
    &["check"],
    &["pack"],
    &["pack", "--full"],
    &["pack", "--format", "markdown"],
    &["pack", "--format", "html"],
    &["trim", "--kit", "KIT", "--by", "3 kg", "--full"],
    &["card", "--kit", "KIT"],
    &["card", "--kit", "KIT", "--format", "html"],
    &["why", "hand-pump"],
    &["show", "chain-broken"],
];
/// Fewer words are no sentence: they may stand in a file, an id or a basis.
const SENTENCE: usize = 4;

fn run(folder: &Path, command: &[&str], scenario: &str, language: &str) -> Run {
    let given: Vec<&str> = command.iter().map(|own| if *own == "KIT" { "kit.json" } else { own }).collect();
    let scenario = [scenario];
    let scenario: &[&str] = if command[0] == "show" { &[] } else { &scenario };
    let run = fardel(folder, &[&given, scenario, &["--language", language]].concat());
    assert_eq!(run.code, 0, "{command:?}: {}", run.err);
    run
}

/// On one line, without what a page says to a browser.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace("&#x27;", "'").replace('\u{a0}', " ")
}

/// Whole stretches of English texts between their holes, where the language has other words.
fn sentences() -> Vec<String> {
    let mut all = Vec::new();
    for folder in languages() {
        for file in ["program.po", "catalogue.po"] {
            for (text, (_, words)) in table(&folder.join(file)) {
                let parts = text.split(['{', '}']).step_by(2).map(plain);
                let long = parts.filter(|part| part.split(' ').filter(|word| word.len() > 1).count() >= SENTENCE);
                all.extend(long.filter(|part| !words.iter().any(|word| plain(word).contains(part))));
            }
        }
    }
    all
}

/// Names may have a number more than in English. Every number, with a point before its decimals, and how often it is there.
fn figures(text: &str, sign: char) -> BTreeMap<String, usize> {
    let mut all = BTreeMap::new();
    let letters: Vec<char> = text.chars().collect();
    let mut at = 0;
    while at < letters.len() {
        let mut number = String::new();
        while at < letters.len() {
            let digit = |at: usize| letters.get(at).is_some_and(char::is_ascii_digit);
            match letters[at] {
                own if own.is_ascii_digit() => number.push(own),
                own if own == sign && !number.is_empty() && digit(at + 1) => number.push('.'),
                _ => break,
            }
            at += 1;
        }
        if !number.is_empty() {
            *all.entry(number).or_default() += 1;
        }
        at += 1;
    }
    all
}

fn compare(folder: &Path, command: &[&str], scenario: &str, sentences: &[String]) {
    let (english, german) = (run(folder, command, scenario, "en"), run(folder, command, scenario, "de"));
    assert_ne!(english.out, german.out, "{command:?}");
    for out in [&german.out, &german.err] {
        let text = plain(out);
        let found: Vec<&String> = sentences.iter().filter(|sentence| text.contains(*sentence)).collect();
        assert!(found.is_empty(), "{command:?} says in English: {found:#?}\n{out}");
    }
    // A page has its lengths and colours as well; sources are cited with the figures of their language.
    if !command.contains(&"html") && command[0] != "show" {
        let (wanted, found) = (figures(&plain(&english.out), '.'), figures(&plain(&german.out), ','));
        let differ: Vec<_> =
            wanted.iter().filter(|(number, times)| found.get(*number).is_none_or(|found| found < *times)).collect();
        assert!(differ.is_empty(), "{command:?}: {differ:?}\n{}", german.out);
    }
}

#[test]
fn the_five_day_loop_is_told_in_german_with_the_same_figures() {
    let folder = tempfile::tempdir().unwrap();
    let scenario = root().join("scenarios/five-day-loop.yaml").display().to_string();
    let packed = fardel(folder.path(), &["pack", &scenario, "--format", "json", "--out", "kit.json"]);
    assert_eq!(packed.code, 0, "{}", packed.err);
    let sentences = sentences();
    assert!(sentences.len() > 1000);
    for command in COMMANDS {
        compare(folder.path(), command, &scenario, &sentences);
    }
}

#[test]
fn a_group_is_told_in_german_with_the_same_figures() {
    let folder = tempfile::tempdir().unwrap();
    let scenario = root().join("scenarios/three-to-the-coast.yaml").display().to_string();
    compare(folder.path(), &["split", "--full"], &scenario, &sentences());
}

/// What is asked for on the command line counts before the file.
#[test]
fn a_scenario_may_choose_its_language() {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(root().join("scenarios/day-ride.yaml")).unwrap();
    let text = text.replace("my-day-gear.csv", "gear.csv");
    let german = text.replacen("name:", "language: de\nname:", 1);
    std::fs::write(folder.path().join("trip.yaml"), &german).unwrap();
    std::fs::write(folder.path().join("wrong.yaml"), german.replacen("language: de", "language: dee", 1)).unwrap();
    let own = fardel(folder.path(), &["check", "trip.yaml"]);
    assert!(own.out.contains("keine Fehler gefunden"), "{}{}", own.out, own.err);
    let asked = fardel(folder.path(), &["check", "trip.yaml", "--language", "en"]);
    assert!(asked.out.contains("no problems found"), "{}", asked.out);
    let wrong = fardel(folder.path(), &["check", "wrong.yaml"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.err.contains("`en`") && wrong.err.contains("did you mean `de`?"), "{}", wrong.err);
    let unknown = fardel(folder.path(), &["check", "trip.yaml", "--language", "xx"]);
    assert_eq!(unknown.code, 2);
    assert!(unknown.err.contains("en, de"), "{}", unknown.err);
}
