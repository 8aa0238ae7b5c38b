//! What the program is built from: licences that allow passing it on, one registry, few crates twice, no compiler newer
//! than the one stated, nothing withdrawn, no unsafe code of our own.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

/// Licences that ask for no more than their own text beside the program, or for nothing (SPDX identifiers).
const PERMITTED: [&str; 15] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "OFL-1.1",
    "Ubuntu-font-1.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Crates that are built in two versions, because two crates that use them have not moved together yet. A new pair is a
/// choice to be made, not an accident.
const MOST_TWICE: usize = 8;

/// What cargo says of everything that is built on this machine, tests included; nothing is fetched.
fn metadata() -> Value {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let host = Command::new(std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned())).arg("-vV").output().unwrap();
    let host = String::from_utf8(host.stdout).unwrap();
    let host = host.lines().find_map(|line| line.strip_prefix("host: ")).unwrap();
    let output = Command::new(cargo)
        .args(["metadata", "--offline", "--locked", "--format-version", "1", "--filter-platform", host])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Is it one of the layers of this program?
fn is_ours(package: &Value) -> bool {
    package["name"].as_str().is_some_and(|name| name == "fardel" || name.starts_with("fardel-"))
}

/// The packages that take part, our own left out.
fn packages(metadata: &Value) -> Vec<&Value> {
    let nodes = metadata["resolve"]["nodes"].as_array().unwrap();
    let taking_part: BTreeSet<&str> = nodes.iter().map(|node| node["id"].as_str().unwrap()).collect();
    let all = metadata["packages"].as_array().unwrap().iter();
    all.filter(|own| taking_part.contains(own["id"].as_str().unwrap()) && !is_ours(own)).collect()
}

/// Is there a choice among the licences that is permitted? `A OR (B AND C)`, with the old slash for OR.
fn is_permitted(expression: &str) -> bool {
    let text = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = text.split_whitespace().collect();
    let (permitted, rest) = either(&words);
    assert!(rest.is_empty(), "{expression}: not understood");
    permitted
}

fn either<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    let (mut permitted, mut rest) = both(words);
    while let ["OR", more @ ..] = rest {
        let (another, left) = both(more);
        (permitted, rest) = (permitted || another, left);
    }
    (permitted, rest)
}

fn both<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    let (mut permitted, mut rest) = one(words);
    while let ["AND", more @ ..] = rest {
        let (another, left) = one(more);
        (permitted, rest) = (permitted && another, left);
    }
    (permitted, rest)
}

fn one<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    match words {
        ["(", inner @ ..] => {
            let (permitted, rest) = either(inner);
            assert_eq!(rest.first(), Some(&")"), "{words:?}");
            (permitted, &rest[1..])
        }
        [name, "WITH", exception, rest @ ..] => {
            (PERMITTED.contains(&format!("{name} WITH {exception}").as_str()), rest)
        }
        [name, rest @ ..] => (PERMITTED.contains(name), rest),
        [] => panic!("a licence is missing"),
    }
}

#[test]
fn licence_expressions_are_read_as_they_are_meant() {
    assert!(is_permitted("MIT") && is_permitted("GPL-3.0 OR MIT") && is_permitted("GPL-2.0/MIT"));
    assert!(is_permitted("(MIT OR GPL-3.0) AND Unicode-3.0") && is_permitted("Apache-2.0 WITH LLVM-exception"));
    assert!(!is_permitted("GPL-3.0") && !is_permitted("MIT AND GPL-3.0") && !is_permitted("GPL-3.0 AND (MIT OR Zlib)"));
}

#[test]
fn everything_may_be_passed_on_and_comes_from_one_registry() {
    let metadata = metadata();
    for own in packages(&metadata) {
        let name = own["name"].as_str().unwrap();
        let licence = own["license"].as_str().unwrap_or_else(|| panic!("{name}: no licence is stated"));
        assert!(is_permitted(licence), "{name}: {licence}");
        let source = own["source"].as_str().unwrap_or("a folder");
        assert_eq!(source, "registry+https://github.com/rust-lang/crates.io-index", "{name}");
    }
}

#[test]
fn few_crates_are_built_twice() {
    let metadata = metadata();
    let mut versions: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for own in packages(&metadata) {
        versions.entry(own["name"].as_str().unwrap()).or_default().push(own["version"].as_str().unwrap());
    }
    let twice: Vec<_> = versions.iter().filter(|(_, versions)| versions.len() > 1).collect();
    assert!(twice.len() <= MOST_TWICE, "{twice:?}");
}

/// `1.88` and `1.88.0` alike.
fn version(text: &str) -> Vec<u32> {
    let mut numbers: Vec<u32> = text.split('.').map(|number| number.parse().unwrap()).collect();
    numbers.resize(3, 0);
    numbers
}

#[test]
fn no_crate_wants_a_newer_compiler_than_is_stated() {
    let metadata = metadata();
    let stated = version(env!("CARGO_PKG_RUST_VERSION"));
    for own in packages(&metadata) {
        if let Some(wanted) = own["rust_version"].as_str() {
            assert!(version(wanted) <= stated, "{} wants Rust {wanted}", own["name"]);
        }
    }
}

/// A version that its author has withdrawn, as for a hole in it. Making a package, cargo asks its copy of the registry's
/// index, and without it this is left out; with `FARDEL_ASK_REGISTRY=1`, as in `.ci/run`, it asks the registry. The package
/// is one of everything that the workspace depends on: layers that nobody publishes cannot be packed.
#[test]
fn no_version_has_been_withdrawn() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let manifest = fs::read_to_string(root.join("Cargo.toml")).unwrap();
    let after = manifest.split_once("[workspace.dependencies]\n").unwrap().1;
    let wanted = after.split("\n\n").next().unwrap().lines().filter(|line| !line.contains("path = "));
    let wanted: Vec<&str> = wanted.collect();
    assert!(wanted.len() > 20, "{wanted:?}");
    let folder = tempfile::tempdir().unwrap();
    let head =
        "[package]\nname = \"everything\"\nversion = \"0.0.0\"\nedition = \"2024\"\n\n[workspace]\n\n[dependencies]\n";
    fs::write(folder.path().join("Cargo.toml"), format!("{head}{}\n", wanted.join("\n"))).unwrap();
    fs::create_dir(folder.path().join("src")).unwrap();
    fs::write(folder.path().join("src/lib.rs"), "").unwrap();
    fs::copy(root.join("Cargo.lock"), folder.path().join("Cargo.lock")).unwrap();
    let ask = std::env::var_os("FARDEL_ASK_REGISTRY").is_some();
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let output = Command::new(cargo)
        .args(["package", "--no-verify", "--allow-dirty", "--target-dir", "target"])
        .args((!ask).then_some("--offline"))
        .current_dir(folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(!said.contains("yanked"), "{said}\ncargo update -p NAME");
    if !output.status.success() {
        println!("left out, no copy of the registry's index: {said}");
    }
}

#[test]
fn our_own_code_may_not_be_unsafe() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let manifest = fs::read_to_string(root.join("Cargo.toml")).unwrap();
    assert!(manifest.contains("unsafe_code = \"forbid\""));
    for own in metadata()["packages"].as_array().unwrap().iter().filter(|own| is_ours(own)) {
        let manifest = fs::read_to_string(own["manifest_path"].as_str().unwrap()).unwrap();
        assert!(manifest.contains("[lints]\nworkspace = true"), "{} has lints of its own", own["name"]);
    }
}

/// Each layer knows only those below it.
#[test]
fn the_layers_look_down_only() {
    let below = |name: &str| match name {
        "fardel" => {
            vec!["fardel-core", "fardel-milp", "fardel-planner", "fardel-report", "fardel-route", "fardel-words"]
        }
        "fardel-planner-web" => vec!["fardel-planner"],
        "fardel-planner" => vec!["fardel-core", "fardel-report", "fardel-route", "fardel-words"],
        "fardel-report" => vec!["fardel-core", "fardel-words"],
        "fardel-core" => vec!["fardel-milp", "fardel-words"],
        "fardel-route" => vec!["fardel-words"],
        "fardel-words" => vec!["fardel-words-macros"],
        _ => Vec::new(),
    };
    for own in metadata()["packages"].as_array().unwrap().iter().filter(|own| is_ours(own)) {
        let name = own["name"].as_str().unwrap();
        let wanted = own["dependencies"].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap());
        let layers: BTreeSet<&str> = wanted.filter(|wanted| wanted.starts_with("fardel")).collect();
        assert_eq!(layers, below(name).into_iter().collect(), "{name}");
        let solver = own["dependencies"].as_array().unwrap().iter().any(|one| one["name"] == "good_lp");
        assert_eq!(solver, name == "fardel-milp", "{name}");
    }
}
