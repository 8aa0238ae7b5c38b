//! Samples of output in the documents are what the program prints.
//!
//! A line `<!-- output of: COMMAND, from "X" to "Y" -->` above a block says that the block holds the lines of that output
//! from the first one that begins with X to the next that begins with Y, spaces in front aside. Without `to` the sample ends
//! before the next empty line. The README has the lines of a pipe, the guides those of a terminal of 76 columns.

use super::commands::folder;
use super::{for_riders, root};
use crate::support::fardel;
use crate::terminal::on_a_terminal;
use std::collections::BTreeMap;
use std::fs;

/// Set this to have the samples written anew instead of compared.
const REFRESH: &str = "UPDATE_SAMPLES";
/// Columns for the guides: with the indent of samples they fill a terminal of 80.
const COLUMNS: u16 = 76;

/// What a command prints: in the README, or in a guide.
fn output(command: &str, in_the_readme: bool) -> String {
    let (folder, arguments) = (folder(), command.split_whitespace().collect::<Vec<_>>());
    if in_the_readme {
        let run = fardel(folder.path(), &arguments);
        assert_eq!(run.code, 0, "{command}: {}", run.err);
        run.out
    } else {
        on_a_terminal(folder.path(), &arguments, COLUMNS).replace('\r', "")
    }
}

/// The lines that a marker asks for.
fn excerpt(output: &str, from: &str, to: Option<&str>) -> Result<String, String> {
    let lines: Vec<&str> = output.lines().map(str::trim_end).collect();
    let begins = |line: &&str, with: &str| line.trim_start().starts_with(with);
    let first = lines.iter().position(|line| begins(line, from)).ok_or(format!("no line begins with `{from}`"))?;
    let last = match to {
        Some(to) => {
            lines[first..].iter().position(|line| begins(line, to)).ok_or(format!("none with `{to}` after it"))?
        }
        None => lines[first..].iter().position(|line| line.is_empty()).unwrap_or(lines.len() - first) - 1,
    };
    Ok(lines[first..=first + last].join("\n"))
}

fn difference(old: &str, new: &str) -> String {
    let pairs = old.lines().chain(std::iter::once("")).zip(new.lines().chain(std::iter::once("")));
    let first = pairs.into_iter().find(|(old, new)| old != new);
    first.map_or_else(|| "one is longer".to_owned(), |(old, new)| format!("- {old}\n+ {new}"))
}

#[test]
fn the_samples_of_the_documents_are_what_the_program_prints() {
    let refresh = std::env::var_os(REFRESH).is_some();
    let mut wrong = Vec::new();
    let mut samples = 0;
    for document in for_riders() {
        let mut fresh = String::new();
        let mut rest = document.text.as_str();
        let mut outputs: BTreeMap<&str, String> = BTreeMap::new();
        while let Some(at) = rest.find("<!-- output of: ") {
            let (before, after) = rest.split_at(at);
            let (marker, after) = after.split_once(" -->\n```text\n").expect("a marker, then a block");
            let (sample, after) = after.split_once("\n```\n").expect("a block that closes");
            let (command, lines) = marker["<!-- output of: ".len()..].split_once(", from \"").expect("which lines");
            let lines = lines.strip_suffix('"').expect("a quote that closes");
            let (from, to) = lines.split_once("\" to \"").map_or((lines, None), |(from, to)| (from, Some(to)));
            let whole = outputs.entry(command).or_insert_with(|| output(command, document.path == "README.md"));
            let own =
                excerpt(whole, from, to).unwrap_or_else(|why| panic!("{}: {command}: {why}\n{whole}", document.path));
            if own != sample {
                wrong.push(format!("{}: `fardel {command}`\n{}", document.path, difference(sample, &own)));
            }
            fresh += &format!("{before}{marker} -->\n```text\n{own}\n```\n");
            rest = after;
            samples += 1;
        }
        fresh += rest;
        if refresh && fresh != document.text {
            fs::write(root().join(&document.path), fresh).unwrap();
        }
    }
    assert!(samples > 5, "the documents show no output");
    assert!(
        refresh || wrong.is_empty(),
        "These samples are not what the program prints now. If the change is meant, refresh them with\n\n    {REFRESH}=1 \
         cargo test samples_of_the_documents\n\n{}",
        wrong.join("\n")
    );
}
