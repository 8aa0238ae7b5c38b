//! Answers on a terminal of 60 to 120 columns: no line is wider, no word is split, and a kit fits one screen.

use crate::cli::Tiny;
use crate::debrief::LOG;
use crate::split::shown::SECOND;
use crate::support::PATIENCE;
use std::collections::BTreeSet;
use std::fs;
use std::io::Read;
use std::path::Path;

const WIDTHS: [u16; 5] = [60, 72, 80, 100, 120];
/// A width at which tables have all the room that they want.
const WIDE: u16 = 140;

/// What the program writes to a terminal of this width; standard error goes to the same terminal.
pub fn on_a_terminal(folder: &Path, arguments: &[&str], width: u16) -> String {
    let (mut pty, pts) = pty_process::blocking::open().unwrap();
    pty.resize(pty_process::Size::new(50, width)).unwrap();
    let command = pty_process::blocking::Command::new(env!("CARGO_BIN_EXE_fardel")).env(PATIENCE.0, PATIENCE.1);
    let mut child =
        command.args(arguments).args(["--quiet", "--color", "never"]).current_dir(folder).spawn(pts).unwrap();
    let mut bytes = Vec::new();
    // Linux tells the end of a terminal as an error once the program has gone.
    let _ = pty.read_to_end(&mut bytes);
    let status = child.wait().unwrap();
    let text = String::from_utf8(bytes).unwrap();
    assert!(status.success(), "{arguments:?} at {width}: {status}\n{text}");
    text
}

/// Words with their hyphens taken as ends, since lines may be broken there.
fn words(text: &str) -> BTreeSet<&str> {
    let words = text.split(|c: char| c.is_whitespace() || c == '-');
    let words = words.map(|word| word.trim_end_matches([':', ',']));
    words.filter(|word| word.chars().any(char::is_alphabetic)).collect()
}

fn fits_at_all_widths(folder: &Path, arguments: &[&str]) {
    let wide = on_a_terminal(folder, arguments, WIDE);
    let whole = words(&wide);
    assert!(whole.len() > 10, "{arguments:?} says little: {wide}");
    for width in WIDTHS {
        let text = on_a_terminal(folder, arguments, width);
        for line in text.lines() {
            let columns = textwrap::core::display_width(line.trim_end_matches('\r'));
            // A command to copy is in one piece, however narrow the terminal.
            assert!(
                columns <= usize::from(width) || line.contains("fardel "),
                "{arguments:?} at {width}: {columns} columns in\n{line}"
            );
        }
        let split: Vec<&str> =
            words(&text).into_iter().filter(|word| !whole.contains(word) && *word != "full)").collect();
        assert!(split.is_empty(), "{arguments:?} at {width}: {split:?} are not words of\n{wide}\n\nbut of\n{text}");
    }
}

#[test]
fn the_kit_of_five_days_fits() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    fits_at_all_widths(folder, &["pack", "scenarios/five-day-loop.yaml"]);
}

#[test]
fn answers_about_the_shipped_catalogue_fit() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let day = "scenarios/day-ride.yaml";
    let packed = "scenarios/day-ride-packed.csv";
    let runs: [&[&str]; 15] = [
        &["pack", day],
        &["pack", day, "--full"],
        &["trim", day, "--kit", packed, "--by", "500g", "--full"],
        &["rehearse", day, "--kit", packed, "--trips", "1000", "--full"],
        &["card", day, "--kit", packed, "--full"],
        &["why", "hand-pump", day, "--full"],
        &["trim", day, "--kit", packed, "--by", "500g"],
        &["rehearse", day, "--kit", packed, "--trips", "1000"],
        &["card", day, "--kit", packed],
        &["why", "hand-pump", day],
        &["find", "tire"],
        &["show", "tyre-lever"],
        &["show", "single-450-tubed"],
        &["bike", "single-450-tubed"],
        &["bike", "single-450-tubed", "--kit", packed],
    ];
    runs.iter().for_each(|run| fits_at_all_widths(folder, run));
}

#[test]
fn answers_about_the_tiny_world_fit() {
    let tiny = Tiny::new();
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    tiny.write("log.yaml", &LOG.replace("falls: 2", "falls: 0"));
    let known = ["--catalogues", "catalogue"];
    let runs: [&[&str]; 5] = [
        &["split", "group.yaml", "--keep-if-one-leaves", "0.5"],
        &["split", "group.yaml", "--keep-if-one-leaves", "0.5", "--full"],
        &["tradeoff", "trip.yaml", "--over", "mass", "--points", "4", "--full"],
        &["tradeoff", "trip.yaml", "--over", "mass", "--points", "4"],
        &["pack", "trip.yaml", "--uncertain", "3"],
    ];
    runs.iter().for_each(|run| fits_at_all_widths(tiny.path(), &[run, &known[..]].concat()));
    for width in WIDTHS {
        // A debrief writes; each width begins anew.
        let tiny = Tiny::new();
        tiny.write("log.yaml", LOG);
        let run = ["debrief", "log.yaml", "--book", "book.yaml", "--rates", "rates.yaml", "--catalogues", "catalogue"];
        let text = on_a_terminal(tiny.path(), &run, width);
        assert!(text.lines().all(|line| textwrap::core::display_width(line) <= usize::from(width)), "{width}\n{text}");
    }
}

#[test]
fn the_guides_fit() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    fits_at_all_widths(folder, &["help"]);
    for entry in fs::read_dir(folder.join("src/cli/topics")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "md") {
            fits_at_all_widths(folder, &["help", path.file_stem().unwrap().to_str().unwrap()]);
        }
    }
}

#[test]
fn a_list_fits() {
    let folder = tempfile::tempdir().unwrap();
    fs::copy(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/lists/good/forty-things.csv"),
        folder.path().join("list.csv"),
    )
    .unwrap();
    fits_at_all_widths(folder.path(), &["gear", "list.csv", "--look-only"]);
}

/// Lines and columns of a screen on which every kit fits.
const SCREEN: (usize, u16) = (50, 80);

#[test]
fn every_shipped_trip_fits_one_screen() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut trips: Vec<_> =
        fs::read_dir(folder.join("scenarios")).unwrap().map(|entry| entry.unwrap().path()).collect();
    trips.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    assert!(trips.len() >= 6, "{trips:?}");
    for trip in trips {
        let loaded = fardel::load::load(&trip, None).unwrap();
        for rider in &loaded.scenario.riders {
            // In a group some cannot go alone.
            if loaded.scenario.riders.len() > 1 {
                continue;
            }
            let run = ["pack", trip.to_str().unwrap(), "--rider", &rider.name];
            let text = on_a_terminal(folder, &run, SCREEN.1);
            assert!(text.lines().count() <= SCREEN.0, "{} lines: {text}", text.lines().count());
            // Nothing of the kit is left out for it.
            assert!(!text.contains(" more (--full)"), "{text}");
            for word in ["Ride home", "Lost to breakdowns", "Room", "by bag", "Next", "fardel why ", "--full"] {
                assert!(text.contains(word), "{word}: {text}");
            }
            let headline = text.lines().take(12).collect::<String>();
            assert!(!headline.contains("microlp") && !headline.contains("highs"), "{text}");
        }
    }
}

#[test]
fn screens_at_four_widths() {
    let tiny = Tiny::new();
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    tiny.write("log.yaml", LOG);
    tiny.write("packed.csv", include_str!("cli/tiny/packed.csv"));
    let runs: [(&str, &[&str]); 8] = [
        ("pack", &["pack", "trip.yaml"]),
        ("split", &["split", "group.yaml", "--keep-if-one-leaves", "0.5"]),
        ("trim", &["trim", "trip.yaml", "--kit", "packed.csv", "--to", "3.6kg"]),
        ("tradeoff", &["tradeoff", "trip.yaml", "--points", "4"]),
        ("why", &["why", "pump", "trip.yaml"]),
        ("why-failure", &["why", "puncture", "trip.yaml"]),
        ("card", &["card", "trip.yaml"]),
        ("rehearse", &["rehearse", "trip.yaml", "--trips", "20000"]),
    ];
    for (name, run) in runs {
        let mut all = String::new();
        for width in [60, 80, 100, 120] {
            let text = on_a_terminal(tiny.path(), &[run, &["--catalogues", "catalogue"]].concat(), width);
            all += &format!("--- {width} columns\n{}", text.replace('\r', ""));
        }
        insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true,
            snapshot_path => "snapshots/screens" }, { insta::assert_snapshot!(name, all) });
    }
}

#[test]
fn the_screen_after_a_debrief() {
    let tiny = Tiny::new();
    tiny.write("log.yaml", LOG);
    let run = ["debrief", "log.yaml", "--book", "book.yaml", "--rates", "rates.yaml", "--catalogues", "catalogue"];
    let text = on_a_terminal(tiny.path(), &run, 80).replace('\r', "");
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true,
        snapshot_path => "snapshots/screens" }, { insta::assert_snapshot!("debrief", text) });
}

#[test]
fn help_follows_the_journey_and_fits_a_screen_and_a_bit() {
    let folder = tempfile::tempdir().unwrap();
    let help = anstream::adapter::strip_str(&on_a_terminal(folder.path(), &["--help"], 80)).to_string();
    let at = |command: &str| help.find(&format!("\n  {command} ")).unwrap_or_else(|| panic!("{command}: {help}"));
    let journey = ["new", "check", "pack", "why", "trim", "split"];
    assert!(journey.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{help}");
    let pack = anstream::adapter::strip_str(&on_a_terminal(folder.path(), &["pack", "--help"], 80)).to_string();
    assert!(pack.lines().count() <= 60, "{} lines: {pack}", pack.lines().count());
    let (_, solver) = pack.split_once("\nSolver:").expect("solver options under their own heading");
    for option in ["--engine", "--time-limit", "--gap"] {
        assert!(solver.contains(option), "{pack}");
    }
}
