//! The sources: constants and limits have comments, the map is complete, files are short and say what they are for.

use super::{DEVELOPERS, documents, files, folders, root};
use std::fs;

/// The doc comment above a line, in one line; empty where there is none.
fn comment_above(lines: &[&str], at: usize) -> String {
    let above = lines[..at].iter().rev().map(|line| line.trim());
    let comment = above.skip_while(|line| line.starts_with("#[")).map_while(|line| line.strip_prefix("///"));
    comment.collect::<Vec<_>>().into_iter().rev().map(str::trim).collect::<Vec<_>>().join(" ")
}

/// The name of a constant that a line declares, unless it is a part of a macro or a file that is built in.
fn constant(line: &str) -> Option<&str> {
    let declared = line.trim_start().trim_start_matches("pub(crate) ").trim_start_matches("pub(super) ");
    let (name, rest) = declared.trim_start_matches("pub ").strip_prefix("const ")?.split_once(": ")?;
    let plain = !rest.contains('$') && !rest.contains("include_str!");
    (plain && name.bytes().all(|b| b.is_ascii_uppercase() || b == b'_' || b.is_ascii_digit())).then_some(name)
}

/// A constant says what it decides, beside its value: limits, tolerances and other numbers of the method.
#[test]
fn every_constant_says_what_it_is_for() {
    let mut constants = 0;
    let mut bare = Vec::new();
    for path in files(&["src/milp", "src/core", "src/files", "src/cli"], &["rs"]) {
        let text = fs::read_to_string(&path).unwrap();
        // Tests come last in a file. What a quantity is made of is explained once, in its trait.
        let own = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap();
        let traits = ["readings.rs", "money.rs", "tests.rs"];
        if traits.iter().any(|file| path.ends_with(file)) {
            continue;
        }
        let lines: Vec<&str> = own.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let Some(name) = constant(line) else { continue };
            constants += 1;
            let comment = comment_above(&lines, at);
            if comment.split_whitespace().count() < 3 || comment.ends_with('?') {
                bare.push(format!("{}:{}: {name}: `{comment}`", path.strip_prefix(root()).unwrap().display(), at + 1));
            }
        }
    }
    assert!(constants > 150, "{constants} constants found");
    assert!(bare.is_empty(), "constants without a comment that says what they are for:\n{}", bare.join("\n"));
}

/// Every family of rows of the kit's program is in the table that explains them.
#[test]
fn every_family_of_rows_is_explained() {
    let table = fs::read_to_string(root().join("src/core/select/rows/mod.rs")).unwrap();
    let mut families = 0;
    for path in files(&["src/core/select/rows"], &["rs"]) {
        let text = fs::read_to_string(&path).unwrap();
        let calls =
            text.split("row(").skip(1).filter_map(|call| call.trim_start().strip_prefix('"')?.split('"').next());
        for family in calls {
            families += 1;
            assert!(
                table.lines().any(|line| line.starts_with("//! |") && line.contains(&format!("`{family}`"))),
                "src/core/select/rows/mod.rs does not explain the family `{family}` of {}",
                path.display()
            );
        }
    }
    assert!(families > 15, "{families} families found");
}

/// Every path in backquotes exists; every folder of the sources is on the map.
#[test]
fn the_map_of_the_code_is_complete() {
    for document in documents() {
        // Fences are three backquotes: an odd number of them, which would turn inside and outside round.
        let prose = document.text.replace("```", "");
        let name = document.path;
        for path in prose.split('`').skip(1).step_by(2) {
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

/// Exponentials of the platform differ in the last digit, and a search may then end at another kit that is as good: the
/// planner's own engine would not show what the program prints.
#[test]
fn answers_take_the_same_mathematics_everywhere() {
    let stages = ["resolve", "risk", "select", "stow", "allocation", "verify"].map(|stage| format!("src/core/{stage}"));
    for path in files(&stages.each_ref().map(String::as_str), &["rs"]) {
        let text = fs::read_to_string(&path).unwrap();
        let own = text.split("#[cfg(test)]").next().unwrap();
        for call in [".exp()", ".exp_m1()", ".ln()", ".ln_1p()", ".powf(", ".log10()", ".tanh()"] {
            assert!(!own.contains(call), "{} has {call}; `libm` has the same", path.display());
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
