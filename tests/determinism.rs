//! The same question has the same answer to the last byte: run after run, however many threads there are, whatever
//! language, time zone and width the surroundings claim, wherever it is asked, in whatever order files were written.

use crate::cli::Tiny;
use crate::support::{TRIED_ELSEWHERE, fardel, program};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// Questions to the tiny world; each is asked in every format that its command has.
const QUESTIONS: [&str; 23] = [
    "pack trip.yaml --catalogues catalogue --curve 4",
    "pack trip.yaml --catalogues catalogue --curve 0 --uncertain 6 --units imperial",
    "rehearse trip.yaml --catalogues catalogue --trips 20000 --plot picture.svg --force",
    "rehearse trip.yaml --catalogues catalogue --trips 20000 --plot picture.png --force --uncertain-rates",
    "tradeoff trip.yaml --catalogues catalogue --points 6 --plot picture.svg --force",
    "tradeoff trip.yaml --catalogues catalogue --over money --plot picture.png --force",
    "split group.yaml --catalogues catalogue --out plans --force",
    "trim trip.yaml --catalogues catalogue --kit packed.csv --to 3.6kg --swap",
    "why pump trip.yaml --catalogues catalogue",
    "card trip.yaml --catalogues catalogue",
    "check trip.yaml group.yaml packed.csv --catalogues catalogue",
    "find puncture --catalogues catalogue",
    "show pump --catalogues catalogue",
    "bike single --catalogues catalogue --kit packed.csv",
    "gear things.csv --catalogues catalogue --look-only",
    "new --bike single --days 2 --catalogues catalogue",
    "export-model group.yaml --catalogues catalogue --lp m.lp --mps m.mps --force",
    "rehearse trip.yaml --catalogues catalogue --trips 6400 --uncertain",
    "measure-first trip.yaml --catalogues catalogue --kits 6 --draws 300",
    "ask trip.yaml --catalogues catalogue --kits 6 --draws 300",
    "debrief log.yaml --book book.yaml --rates rates.yaml --catalogues catalogue",
    "schema scenario",
    "completions zsh",
];

/// Questions about what is shipped, where there is enough to do for several threads.
const SHIPPED: [&str; 4] = [
    "evidence chain-broken",
    "pack SCENARIOS/day-ride.yaml --format json --uncertain 3",
    "tradeoff SCENARIOS/day-ride.yaml --format csv --points 5",
    "man pack",
];

/// A second rider for the tiny trip.
const BEN: &str = "  - name: Ben\n    bike: tubeless\n    riding_skill: novice\n    repair_skill: handy\n    mass: 70 kg\n    \
                   bags: [side-left, tank-bag]\n    owns: { pump: 1 }\nlimits: {";

/// What is around a run and must not matter.
struct Surroundings {
    folder: &'static str,
    backwards: bool,
    variables: &'static [(&'static str, &'static str)],
}

const AROUND: [Surroundings; 3] = [
    Surroundings {
        folder: "here",
        backwards: false,
        variables: &[("RAYON_NUM_THREADS", "1"), ("LANG", "C"), ("LC_ALL", "C"), ("TZ", "UTC"), ("TERM", "dumb")],
    },
    Surroundings {
        folder: "a far off place, weit weg",
        backwards: true,
        variables: &[
            ("RAYON_NUM_THREADS", "2"),
            ("LANG", "de_DE.UTF-8"),
            ("LC_ALL", "tr_TR.UTF-8"),
            ("LC_NUMERIC", "de_DE.UTF-8"),
            ("TZ", "Asia/Kathmandu"),
            ("COLUMNS", "40"),
            ("LINES", "9"),
            ("HOME", "/nowhere"),
        ],
    },
    Surroundings {
        folder: "elsewhere",
        backwards: true,
        variables: &[
            ("RAYON_NUM_THREADS", "7"),
            ("LANG", "ar_EG.UTF-8"),
            ("LC_ALL", "ar_EG.UTF-8"),
            ("TZ", "America/St_Johns"),
            ("COLUMNS", "300"),
            ("TERM", "xterm-256color"),
            ("COLORTERM", "truecolor"),
        ],
    },
];

/// Files by name, and both streams and the exit status under names of their own.
type Outcome = BTreeMap<String, Vec<u8>>;

/// The tiny world with its catalogue in several files, written in this order or backwards.
fn lay_out(folder: &Path, backwards: bool) {
    let tiny = Tiny::new();
    let (world, trip) = (tiny.read("catalogue/world.yaml"), tiny.read("trip.yaml"));
    let mut parts: Vec<String> = Vec::new();
    for line in world.lines() {
        if parts.is_empty() || line.starts_with(|c: char| c.is_ascii_lowercase()) {
            parts.push(String::new());
        }
        parts.last_mut().unwrap().push_str(&format!("{line}\n"));
    }
    let packed = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/packed.csv");
    let named = parts.into_iter().enumerate().map(|(at, part)| (format!("catalogue/{at:02}.yaml"), part));
    let mut files: Vec<(String, String)> = named.collect();
    files.push(("group.yaml".to_owned(), trip.replace("limits: {", BEN)));
    files.push(("trip.yaml".to_owned(), trip));
    files.push(("log.yaml".to_owned(), crate::cli::RIDE.to_owned()));
    files.push(("packed.csv".to_owned(), fs::read_to_string(packed).unwrap()));
    files.push(("things.csv".to_owned(), "item,qty,weight (g)\npump,1,300\nharmonica,1,95\n".to_owned()));
    if backwards {
        files.reverse();
    }
    fs::create_dir_all(folder.join("catalogue")).unwrap();
    for (name, text) in files {
        fs::write(folder.join(name), text).unwrap();
    }
}

fn ask(around: &Surroundings, question: &str) -> Outcome {
    let world = TempDir::new().unwrap();
    let folder = world.path().join(around.folder);
    lay_out(&folder, around.backwards);
    let scenarios = concat!(env!("CARGO_MANIFEST_DIR"), "/scenarios");
    let arguments: Vec<String> = question.split(' ').map(|word| word.replace("SCENARIOS", scenarios)).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let run = program(&folder, &arguments).envs(around.variables.iter().copied()).output().unwrap();
    let mut outcome = Outcome::new();
    gather(&folder, "", &mut outcome);
    let code = run.status.code().unwrap_or_else(|| panic!("{question}: {}", run.status));
    assert!(code == 0, "{question}: {}", String::from_utf8_lossy(&run.stderr));
    outcome.insert("standard output".to_owned(), run.stdout);
    outcome.insert("standard error".to_owned(), run.stderr);
    outcome
}

fn gather(folder: &Path, within: &str, outcome: &mut Outcome) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = format!("{within}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            gather(&entry.path(), &format!("{name}/"), outcome);
        } else {
            outcome.insert(name, fs::read(entry.path()).unwrap());
        }
    }
}

/// The formats that a command names in its help; a command without any has one nameless.
fn formats(command: &str) -> Vec<String> {
    let help = fardel(Tiny::new().path(), &[command, "-h"]).out;
    let words: Vec<&str> = help.split_whitespace().collect();
    let text = words.join(" ");
    let Some((_, after)) = text.split_once("--format <FORMAT>") else { return vec![String::new()] };
    let listed = after.split_once("possible values: ").unwrap().1.split(']').next().unwrap();
    listed.split(", ").map(|format| format!(" --format {format}")).collect()
}

fn same_everywhere(question: &str) {
    let first = ask(&AROUND[0], question);
    assert!(first["standard output"].len() + first.len() > 100 || first.len() > 20, "{question}: nothing was answered");
    for around in &AROUND {
        let other = ask(around, question);
        assert_eq!(first.keys().collect::<Vec<_>>(), other.keys().collect::<Vec<_>>(), "{question}");
        for (name, content) in &first {
            assert!(content == &other[name], "{question}: {name} differs in `{}`", around.folder);
        }
    }
}

#[test]
fn every_answer_in_every_format_is_the_same_everywhere() {
    let mut asked = 0;
    for question in QUESTIONS {
        for format in formats(question.split(' ').next().unwrap()) {
            same_everywhere(&format!("{question}{format}"));
            asked += 1;
        }
    }
    assert!(asked > 40, "only {asked} questions");
}

#[test]
fn answers_about_what_is_shipped_are_the_same_everywhere() {
    SHIPPED.iter().for_each(|question| same_everywhere(question));
}

#[test]
fn every_command_is_asked() {
    let help = fardel(Tiny::new().path(), &["--help"]).out;
    let commands = help.lines().skip_while(|line| !line.starts_with("Commands:")).skip(1);
    let mut seen = 0;
    for line in commands.take_while(|line| !line.is_empty()).filter(|line| !line.starts_with("     ")) {
        let name = line.split_whitespace().next().unwrap();
        let asked = QUESTIONS.iter().chain(&SHIPPED).any(|question| question.split(' ').next() == Some(name));
        assert!(asked || name == "help" || TRIED_ELSEWHERE.contains(&name), "{name} is not asked");
        seen += 1;
    }
    assert!(seen > 10);
}
