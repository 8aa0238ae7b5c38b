//! Commands that the documents show work, and what they name exists.

use super::{README, blocks, documents, files, for_riders, guide, guides, root};
use crate::support::fardel;
use fardel::diagnostic::Code;
use fardel::lint::Lint;
use std::collections::BTreeSet;
use std::fs;
use tempfile::TempDir;

/// A track of three days, invented.
const LOOP: &str = r#"<gpx version="1.1" creator="invented" xmlns="http://www.topografix.com/GPX/1/1"><rte>
<rtept lat="44.0" lon="7.0"/><rtept lat="45.0" lon="8.0"/><rtept lat="44.5" lon="9.0"/><rtept lat="44.0" lon="7.0"/>
</rte></gpx>"#;

/// A folder with the shipped scenarios and the files that the guides speak of, so that what the commands write is not
/// left in the repository.
pub(super) fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("scenarios")).unwrap();
    for path in files(&["scenarios"], &["yaml", "csv"]) {
        fs::copy(&path, folder.path().join("scenarios").join(path.file_name().unwrap())).unwrap();
    }
    fs::copy(root().join("scenarios/day-ride.yaml"), folder.path().join("trip.yaml")).unwrap();
    let shown = |name: &str, begins: &str| {
        let block = blocks(&guide(name)).into_iter().find(|block| block.text.starts_with(begins));
        block.unwrap_or_else(|| panic!("`{begins}` in the guide `{name}`")).text
    };
    for log in ["marrow-log.yaml", "ada.yaml", "ben.yaml"] {
        fs::write(folder.path().join(log), shown("learning", "rides:\n")).unwrap();
    }
    fs::write(folder.path().join("loop.gpx"), LOOP).unwrap();
    fs::write(folder.path().join("my-list.csv"), shown("gear", "Item;")).unwrap();
    folder
}

/// Every line of a `sh` block is a command that works; what `cargo run` would start is run with the test binary. Commands
/// whose output is shown run when the samples are compared.
#[test]
fn the_commands_of_the_documents_work() {
    let mut seen = BTreeSet::new();
    for document in for_riders() {
        let name = &document.path;
        for block in blocks(&document.text).iter().filter(|block| block.language == "sh") {
            let folder = folder();
            for line in block.text.lines().map(str::trim).filter(|line| !line.is_empty()) {
                let run = line.strip_prefix("cargo run --release --").or_else(|| line.strip_prefix("fardel"));
                let place = format!("{name}, block at line {}: `{line}`", block.line);
                let Some(run) = run.map(str::trim) else {
                    let known = ["cargo test --locked", "cargo install --path .", ".ci/planner-html"];
                    assert!(known.contains(&line), "{place} is no known command");
                    continue;
                };
                // It ends with Ctrl-C only; tests/serve starts it. Here its options are read.
                let run = if run.split_whitespace().next() == Some("serve") {
                    format!("{run} --help")
                } else {
                    run.to_owned()
                };
                let sampled = document.text.contains(&format!("<!-- output of: {run},"));
                if seen.insert(run.clone()) && !(cfg!(unix) && sampled) {
                    let run = fardel(folder.path(), &run.split_whitespace().collect::<Vec<_>>());
                    assert_eq!(run.code, 0, "{place}\n{}", run.err);
                }
            }
        }
    }
    assert!(seen.contains("pack scenarios/five-day-loop.yaml"), "the main job is in no block: {seen:?}");
}

#[test]
fn the_readme_has_the_two_commands_of_a_new_machine() {
    let has = |command: &str| README.lines().any(|line| line == command);
    assert!(has("cargo run --release -- pack scenarios/five-day-loop.yaml"));
    assert!(has("cargo test --locked"), ".ci/run takes its test command from the README");
}

/// The commands, as the program lists them.
fn commands() -> Vec<String> {
    let help = fardel(root(), &["--help"]).out;
    let (_, list) = help.split_once("Commands:\n").expect("a list of commands");
    let (list, _) = list.split_once("\n\n").expect("an end of the list");
    // Further lines of a description are indented more.
    let lines = list.lines().filter_map(|line| line.strip_prefix("  ")).filter(|line| !line.starts_with(' '));
    lines.filter_map(|line| line.split_whitespace().next()).map(str::to_owned).collect()
}

#[test]
fn every_command_has_a_row_in_the_readme() {
    let table: String = README.lines().filter(|line| line.starts_with("| `")).collect::<Vec<_>>().join("\n");
    let commands = commands();
    assert!(commands.len() > 15, "{commands:?}");
    for command in commands.iter().filter(|command| *command != "help") {
        assert!(table.contains(&format!("`{command}`")), "the README has no row for `{command}`");
    }
}

/// `fardel help TOPIC`, wherever it is written, is a guide or a command.
#[test]
fn every_guide_that_is_named_exists() {
    let commands = commands();
    let mut named = BTreeSet::new();
    for document in documents() {
        for (_, after) in
            document.text.match_indices("fardel help ").map(|(at, found)| document.text.split_at(at + found.len()))
        {
            let name: String = after.chars().take_while(|c| c.is_ascii_lowercase() || *c == '-').collect();
            if !name.is_empty() {
                let guide = root().join("src/cli/topics").join(format!("{name}.md"));
                assert!(guide.is_file() || commands.contains(&name), "{} names `fardel help {name}`", document.path);
                named.insert(name);
            }
        }
    }
    for guide in guides() {
        let name = guide.path.trim_start_matches("src/cli/topics/").trim_end_matches(".md").to_owned();
        assert!(named.contains(&name), "no document leads to the guide `{name}`");
        let shown = fardel(root(), &["help", &name]);
        assert_eq!(shown.code, 0, "{}", shown.err);
        assert!(shown.out.lines().next() == guide.text.lines().next().map(|line| line.trim_start_matches("# ")));
    }
}

#[test]
fn the_guide_of_problems_lists_every_code() {
    let text = guide("problems");
    let listed = |heading: &str| -> Vec<String> {
        let (_, section) = text.split_once(heading).unwrap();
        let own = section.split("\n## ").next().unwrap_or_default().lines().filter(|line| line.starts_with("- `"));
        own.map(|line| line.replace('`', "")).collect()
    };
    let plain = |text: &str| text.replace('`', "");
    let faults: Vec<String> =
        Code::ALL.iter().map(|code| format!("- {} {}. ", code.id(), plain(code.title()))).collect();
    let shown = listed("\n## Faults\n");
    assert_eq!(shown.len(), faults.len());
    for (line, begins) in shown.iter().zip(&faults) {
        assert!(line.starts_with(begins) && line.len() > begins.len() + 10, "`{line}` should begin with `{begins}`");
    }
    let lints = Lint::ALL.iter().map(|lint| format!("- {} {}. {}", lint.id(), plain(lint.title()), plain(lint.when())));
    assert_eq!(listed("\n## Oddities\n"), lints.collect::<Vec<_>>());
}
