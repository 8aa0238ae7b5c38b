//! Every sort of fault has a broken file in `tests/faulty`, and the whole message about it is compared.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use fardel::diagnostic::{Code, Faults};
use fardel::load::{self, Loaded, Source, Unreadable};
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faulty")
}

/// The folders with something wrong, by name.
fn cases() -> Vec<String> {
    let entries = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = entries.filter(|name| name != "sound").collect();
    names.sort();
    names
}

/// Reads `case/file`, or the sound one; the message must not depend on where the tests run.
fn read(case: &str, file: &str) -> Result<Source, Unreadable> {
    let own = folder().join(case).join(file);
    let (case, path) = if own.exists() { (case, own) } else { ("sound", folder().join("sound").join(file)) };
    let name = format!("{case}/{file}");
    match load::source(&path) {
        Ok(source) => Ok(Source { name, ..source }),
        Err(unreadable) => Err(Unreadable { name, ..unreadable }),
    }
}

/// The sound catalogue, the case's file on top, and the case's scenario or the sound one.
fn outcome(case: &str) -> Result<Loaded, Faults> {
    let mut sources = vec![read("sound", "catalogue.yaml").unwrap()];
    if case != "sound" && folder().join(case).join("catalogue.yaml").exists() {
        match read(case, "catalogue.yaml") {
            Ok(source) => sources.push(source),
            // What cannot be read at all is asked for as a catalogue folder.
            Err(_) => load::catalogue_files(&folder().join(case)).map(|_| ())?,
        }
    }
    load::load_texts(&sources, read(case, "scenario.yaml").unwrap(), &|name| read(case, name))
}

#[test]
fn the_sound_files_load() {
    let loaded = outcome("sound").unwrap_or_else(|faults| panic!("{faults}"));
    assert_eq!(loaded.catalogue.functions.len(), 6);
    assert_eq!(loaded.catalogue.bikes["single"].attributes["axle_nut"], "27 mm");
    assert!(loaded.notes.is_empty());
}

#[test]
fn every_fault_reads_well() {
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_snapshot_path("snapshots/faulty");
    settings.add_filter(&regex_escaped(&folder().display().to_string()), "[faulty]");
    settings.bind(|| {
        for case in cases() {
            let told = match outcome(&case) {
                Ok(_) => "nothing found wrong".to_owned(),
                Err(faults) => faults.to_string(),
            };
            insta::assert_snapshot!(case, told);
        }
    });
}

fn regex_escaped(text: &str) -> String {
    text.chars().flat_map(|c| if c.is_alphanumeric() || c == '/' { vec![c] } else { vec!['\\', c] }).collect()
}

#[test]
fn every_code_has_a_faulty_file() {
    for code in Code::ALL {
        let told = cases()
            .iter()
            .filter(|case| case.strip_prefix(code.id()).is_some_and(|rest| rest.is_empty() || rest.starts_with('-')))
            .any(|case| outcome(case).is_err_and(|faults| faults.0.iter().any(|fault| fault.code == *code)));
        assert!(told, "{} ({}) has no file in tests/faulty that raises it", code.id(), code.title());
    }
}

#[test]
fn every_folder_is_named_after_what_it_raises() {
    for case in cases() {
        let raised = outcome(&case).unwrap_err();
        assert!(raised.0.iter().any(|fault| case.starts_with(fault.code.id())), "{case}: {raised}");
    }
}

/// What is in brackets after a title is words, not a letter with a number.
#[test]
fn no_message_has_a_code_of_letter_and_digits() {
    let numbered = |code: &str| code.starts_with(char::is_alphabetic) && code.ends_with(|c: char| c.is_ascii_digit());
    for case in cases() {
        let told = outcome(&case).unwrap_err().to_string();
        let codes: Vec<&str> =
            told.lines().filter_map(|line| line.strip_suffix(']')?.rsplit_once('[')).map(|(_, code)| code).collect();
        assert!(!codes.is_empty(), "{case}: {told}");
        assert!(!codes.iter().any(|code| numbered(code)), "{case}: {codes:?}");
    }
}
