//! Lists as riders keep them: the spreadsheets of `tests/lists`, all invented. Those in `good` that are not the long one say
//! the same in different ways and give the same kit; those in `bad` are refused, one message for each cause.

use crate::support::fardel;
use fardel::diagnostic::Faults;
use fardel::domain::Catalogue;
use fardel::load::{self, How, PackedKit};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// What every short list holds: id, count, mass of one in grams.
const KIT: [(&str, u32, f64); 6] = [
    ("tyre-lever", 2, 210.0),
    ("multi-tool", 1, 240.0),
    ("spanner-13", 1, 70.0),
    ("cloth-tape", 1, 60.0),
    ("headlamp", 1, 90.0),
    ("harmonica", 1, 95.0),
];

fn files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/lists").join(folder);
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

fn catalogue() -> Catalogue {
    load::catalogue(&load::shipped(), &[]).unwrap()
}

fn copied(file: &Path) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join(file.file_name().unwrap());
    fs::copy(file, &copy).unwrap();
    (folder, copy)
}

/// Confirms all guesses, then reads the list as a kit.
fn confirmed(file: &Path, catalogue: &Catalogue) -> Result<PackedKit, Faults> {
    let (_folder, copy) = copied(file);
    let list = load::list(&copy, catalogue, &[])?;
    fs::write(load::names_path(&copy), list.names().unwrap()).unwrap();
    load::kit(&copy, catalogue)
}

#[test]
fn there_are_forty() {
    assert!(files("good").len() + files("bad").len() >= 40);
}

#[test]
fn all_ways_of_writing_a_list_give_the_same_kit() {
    let catalogue = catalogue();
    for file in files("good").into_iter().filter(|file| !file.ends_with("forty-things.csv")) {
        let name = file.display();
        let packed = confirmed(&file, &catalogue).unwrap_or_else(|faults| panic!("{name}: {faults}"));
        let known = packed.with_own(&catalogue).unwrap_or_else(|| catalogue.clone());
        assert_eq!(packed.kit.len(), KIT.len(), "{name}: {:?}", packed.kit);
        for (id, count, grams) in KIT {
            assert_eq!(packed.kit.count(id), count, "{name}: {id} in {:?}", packed.kit);
            // Ounces and pounds are rounded to what a kitchen scale shows.
            let found = known.items[id].mass.grams();
            assert!((found - grams).abs() < 1.0, "{name}: {id} weighs {found} g");
        }
        assert!(known.items["harmonica"].basis.to_string().contains("estimated"), "{name}");
    }
}

#[test]
fn guesses_wait_for_being_confirmed() {
    let catalogue = catalogue();
    let file = files("good").into_iter().find(|file| file.ends_with("slips.csv")).unwrap();
    let refused = load::kit(&file, &catalogue).unwrap_err().to_string();
    assert!(refused.contains("5 names not in the catalogue") && refused.contains("(tyre-lever?)"), "{refused}");
    let list = load::list(&file, &catalogue, &[("Headlmap".to_owned(), String::new())]).unwrap();
    let of = |name: &str| list.lines.iter().find(|line| line.name == name).unwrap();
    assert_eq!(of("Tyer levrs").how, How::Guess);
    assert_eq!((of("Headlmap").how, of("Headlmap").id.as_ref()), (How::Own, None));
    let wrong = load::list(&file, &catalogue, &[("Headlmap".to_owned(), "headlmap".to_owned())]).unwrap_err();
    assert!(wrong.to_string().contains("did you mean `headlamp`?"), "{wrong}");
}

/// Bags that the list names are where things are; others are told.
#[test]
fn bags_of_a_list_are_kept() {
    let catalogue = catalogue();
    let file = files("good").into_iter().find(|file| file.ends_with("bags.csv")).unwrap();
    let packed = confirmed(&file, &catalogue).unwrap();
    let stowage = packed.stowage.unwrap();
    assert_eq!(stowage["tool-tube"]["tyre-lever"], 2);
    assert_eq!(stowage["tank-bag"]["headlamp"], 1);
    assert!(packed.note.unwrap().contains("not bags of the catalogue: my pocket"));
}

#[test]
fn bad_lists_are_refused_once_for_each_cause() {
    let catalogue = catalogue();
    let expected = [
        ("count-in-words", "also line 3 `few`"),
        ("empty", "an empty file"),
        ("foreign-unit", "`3 stone`"),
        ("halves", "a whole number of pieces"),
        ("negative", "`-210`"),
        ("no-heading", "one of the columns"),
        ("no-names", "one of the columns"),
        ("no-unit", "3 cells with a number but no unit below `Weight`"),
        ("no-weight", "2 things of your own without a weight: line 3 `Harmonica`, line 4 `Paperback novel`"),
        ("not-confirmed", "2 names not in the catalogue but like others in it"),
        ("only-a-heading", "a heading without things below it"),
        ("weight-in-words", "also line 3 `light`"),
    ];
    let bad = files("bad");
    assert_eq!(bad.len(), expected.len());
    for (file, (name, part)) in bad.iter().zip(expected) {
        assert!(file.ends_with(format!("{name}.csv")), "{}", file.display());
        let faults = load::kit(file, &catalogue).unwrap_err();
        let told = faults.to_string();
        assert!(told.contains(part), "{name}: {told}");
        let causes = if name == "no-heading" { 3 } else { 1 };
        assert!(faults.0.len() <= causes, "{name}: {told}");
    }
}

/// Forty things as a rider types them, from the spreadsheet to a trimmed kit in two commands.
#[test]
fn from_a_spreadsheet_to_a_trimmed_kit_in_two_commands() {
    let file = files("good").into_iter().find(|file| file.ends_with("forty-things.csv")).unwrap();
    let (folder, _) = copied(&file);
    let trip = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/five-day-loop.yaml");
    fs::copy(trip, folder.path().join("trip.yaml")).unwrap();
    let gear = fardel(folder.path(), &["gear", "forty-things.csv"]);
    assert_eq!((gear.code, gear.err.as_str()), (0, ""), "{}", gear.out);
    assert!(folder.path().join("forty-things.names.csv").is_file());
    let trim =
        fardel(folder.path(), &["trim", "trip.yaml", "--kit", "forty-things.csv", "--to", "10kg", "--format", "json"]);
    assert_eq!(trim.code, 0, "{}", trim.err);
    let json = trim.json();
    let stays = json["kit_after"]["mass_g"].as_f64().or_else(|| json["after"]["mass_g"].as_f64());
    assert!(stays.is_none_or(|mass| mass <= 10_000.0), "{stays:?}");
    assert!(trim.out.contains("forty-things.csv: "), "the answer says how the list was read");
}

/// The same list is a rider's gear, what others of the group have packed, and what a card is made for.
#[test]
fn a_list_is_gear_and_a_kit_for_every_command() {
    let file = files("good").into_iter().find(|file| file.ends_with("slips.csv")).unwrap();
    let (folder, _) = copied(&file);
    let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let day = fs::read_to_string(scenarios.join("day-ride.yaml")).unwrap();
    fs::write(folder.path().join("trip.yaml"), &day).unwrap();
    let gear = "name: an afternoon\ntrip:\n  style: none\n  legs:\n    - { name: out and back, days: 1, km: { track: 60 }, hours_to_help: 5 h }\n\
                riders:\n  - { name: Ilse, bike: single-450-tubed, riding_skill: intermediate, repair_skill: handy, mass: 80 kg, \
                bags: [tail-roll], gear: slips.csv }\n";
    fs::write(folder.path().join("geared.yaml"), gear).unwrap();
    let early = fardel(folder.path(), &["check", "geared.yaml"]);
    assert!(early.code == 2 && early.err.contains("fardel gear slips.csv"), "{}{}", early.out, early.err);
    assert_eq!(fardel(folder.path(), &["gear", "slips.csv"]).code, 0);
    let check = fardel(folder.path(), &["check", "geared.yaml"]);
    assert_eq!((check.code, check.err.as_str()), (0, ""), "{}", check.out);
    for run in [
        vec!["rehearse", "trip.yaml", "--kit", "slips.csv", "--trips", "500"],
        vec!["card", "trip.yaml", "--kit", "slips.csv"],
    ] {
        let ran = fardel(folder.path(), &run);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{run:?}");
    }
}

/// A column of weights without a unit is mended by a word on the command line, which the file of names keeps.
#[test]
fn bare_numbers_are_told_their_unit_without_an_editor() {
    let folder = tempfile::tempdir().unwrap();
    let list = "Item;Qty;Weight\nTyre levers;2;210\nHarmonica;1;0,095 kg\nBanjo;2;1500\n";
    fs::write(folder.path().join("mine.csv"), list).unwrap();
    let refused = fardel(folder.path(), &["gear", "mine.csv"]);
    assert!(refused.refused(2).contains("`fardel gear mine.csv --is 'bare numbers=1 g'`"), "{}", refused.err);
    assert!(!folder.path().join("mine.names.csv").exists());
    let run = fardel(folder.path(), &["gear", "mine.csv", "--is", "bare numbers=1 g", "--format", "json"]);
    let weights = |text: &str| -> Vec<f64> {
        let answer: serde_json::Value = serde_json::from_str(text).unwrap();
        answer["lines"].as_array().unwrap().iter().map(|line| line["mass_g"].as_f64().unwrap()).collect()
    };
    assert_eq!(weights(run.answered()), [210.0, 95.0, 1500.0]);
    // It is kept: neither this command nor another asks again.
    let again = fardel(folder.path(), &["gear", "mine.csv", "--format", "json"]);
    assert_eq!(weights(again.answered()), [210.0, 95.0, 1500.0]);
    let ounces =
        fardel(folder.path(), &["gear", "mine.csv", "--is", "bare numbers=1 oz", "--look-only", "--format", "json"]);
    // The ounce itself is rounded to a milligram.
    assert!((weights(ounces.answered())[2] - 1500.0 * 28.349_523_125).abs() < 1.0);
}
