//! The model files read back by a small reader of our own: the same columns, rows and numbers to the last bit.

use crate::cli::{Tiny, compare};
use crate::support::{Run, fardel, shipped};
use fardel::milp::{Column, Model, Sense, exchange};
use fardel::resolve::resolve;
use fardel::{risk, select};
use std::collections::BTreeMap;
use std::path::Path;

const SCENARIOS: [&str; 4] = ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"];

fn model(name: &str) -> Model {
    let loaded = shipped(name);
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    select::model(&instance, &risk::assess(&instance), &[]).0
}

/// A model without names: what a file can hold.
#[derive(Debug, PartialEq, Default)]
struct Bare {
    gains: BTreeMap<usize, f64>,
    rows: Vec<(BTreeMap<usize, f64>, bool, f64)>,
    bounds: BTreeMap<usize, (f64, f64)>,
    integer: Vec<usize>,
}

fn bare(model: &Model) -> Bare {
    let gains = model.columns.iter().enumerate().map(|(at, c)| (at, c.gain)).filter(|(_, gain)| *gain != 0.0);
    let row = |row: &fardel::milp::Row| (row.terms.iter().copied().collect(), row.sense == Sense::AtMost, row.bound);
    Bare {
        gains: gains.collect(),
        rows: model.rows.iter().map(row).collect(),
        bounds: model.columns.iter().enumerate().map(|(at, c)| (at, (c.lower, c.upper))).collect(),
        integer: model.columns.iter().enumerate().filter(|(_, c)| c.integer).map(|(at, _)| at).collect(),
    }
}

/// `x12_n_tyre_lever` is column 12.
fn number(name: &str) -> usize {
    let digits: String = name[1..].chars().take_while(char::is_ascii_digit).collect();
    digits.parse().unwrap()
}

/// `+ 0.5 x1_a - 2 x2_b`; a coefficient of 0 only fills an empty sum.
fn terms(text: &str) -> BTreeMap<usize, f64> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let signed = if words.first() == Some(&"0") { [&["+"], words.as_slice()].concat() } else { words };
    let term = |term: &[&str]| {
        let size: f64 = term[1].parse().unwrap();
        (number(term[2]), if term[0] == "-" { -size } else { size })
    };
    signed.chunks(3).map(term).filter(|(_, coefficient)| *coefficient != 0.0).collect()
}

fn read_lp(text: &str) -> Bare {
    let text: Vec<&str> = text.lines().filter(|line| !line.starts_with('\\')).collect();
    let text = text.join("\n") + "\n";
    let (objective, rest) = text.strip_prefix("Maximize\n obj:").unwrap().split_once("Subject To\n").unwrap();
    let (rows, rest) = rest.split_once("Bounds\n").unwrap();
    let rest = rest.strip_suffix("End\n").unwrap();
    let (bounds, integer) = rest.split_once("General\n").unwrap_or((rest, ""));
    let mut read = Bare { gains: terms(objective), ..Bare::default() };
    for row in rows.replace("\n  ", " ").lines() {
        let (_, sum) = row.split_once(':').unwrap();
        let at_most = sum.contains("<=");
        let (sum, bound) = sum.split_once(if at_most { "<=" } else { ">=" }).unwrap();
        read.rows.push((terms(sum), at_most, bound.trim().parse().unwrap()));
    }
    for line in bounds.lines() {
        let parts: Vec<&str> = line.split("<=").map(str::trim).collect();
        read.bounds.insert(number(parts[1]), (parts[0].parse().unwrap(), parts[2].parse().unwrap()));
    }
    read.integer = integer.split_whitespace().map(number).collect();
    read
}

fn read_mps(text: &str) -> Bare {
    let mut read = Bare::default();
    let (mut section, mut integer) = ("", false);
    for line in text.lines().filter(|line| !line.starts_with('*')) {
        let words: Vec<&str> = line.split_whitespace().collect();
        if !line.starts_with(' ') {
            section = words[0];
            continue;
        }
        match (section, words.as_slice()) {
            ("ROWS", ["N", "obj"]) | ("BOUNDS", ["PL", ..]) => {}
            ("ROWS", [sense, _]) => read.rows.push((BTreeMap::new(), *sense == "L", 0.0)),
            ("COLUMNS", ["marker", _, kind]) => integer = *kind == "'INTORG'",
            ("COLUMNS", [column, row, value]) => {
                let (at, value): (usize, f64) = (number(column), value.parse().unwrap());
                if integer && read.integer.last() != Some(&at) {
                    read.integer.push(at);
                }
                match *row {
                    "obj" if value == 0.0 => None,
                    "obj" => read.gains.insert(at, -value),
                    row => read.rows[number(row)].0.insert(at, value),
                };
            }
            ("RHS", ["rhs", row, value]) => read.rows[number(row)].2 = value.parse().unwrap(),
            ("BOUNDS", ["LO", "bnd", column, value]) => {
                read.bounds.insert(number(column), (value.parse().unwrap(), f64::INFINITY));
            }
            ("BOUNDS", ["UP", "bnd", column, value]) => {
                read.bounds.get_mut(&number(column)).unwrap().1 = value.parse().unwrap();
            }
            ("BOUNDS", ["MI", "bnd", column]) => {
                read.bounds.insert(number(column), (f64::NEG_INFINITY, f64::INFINITY));
            }
            other => panic!("{other:?}"),
        }
    }
    read
}

#[test]
fn what_is_written_reads_back_to_the_last_bit() {
    for name in SCENARIOS {
        let model = model(name);
        assert_eq!(read_lp(&exchange::lp(&model, name)), bare(&model), "{name}, LP");
        assert_eq!(read_mps(&exchange::mps(&model, name)), bare(&model), "{name}, MPS");
    }
}

/// Where nobody is named, the model is that of the group: here with who carries what, since the group splits on a leg.
#[test]
fn a_group_is_exported_whole() {
    let loaded = shipped("three-to-the-coast.yaml");
    let model = fardel::answer::split::group_model(&loaded.catalogue, &loaded.scenario).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let scenario = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/three-to-the-coast.yaml");
    let lp = folder.path().join("group.lp");
    let run = fardel(folder.path(), &["export-model", scenario.to_str().unwrap(), "--lp", "group.lp"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let written = std::fs::read_to_string(&lp).unwrap();
    assert!(written.contains("the kit of the group"), "the title says whose it is");
    assert_eq!(read_lp(&written), bare(&model));
    let one = self::model("three-to-the-coast.yaml");
    assert!(model.columns.len() > one.columns.len(), "three riders' bikes break in more ways than one's");
}

/// What the shipped scenarios do not have: columns without limit, below zero, in no row; empty rows.
#[test]
fn odd_models_are_written_too() {
    let mut model = Model::default();
    for (lower, upper, integer, gain) in [
        (f64::NEG_INFINITY, f64::INFINITY, false, 0.1 + 0.2),
        (-3.0, -1e-7, true, -1.0),
        (0.0, 1e300, false, 0.0),
        (2.0, 2.0, true, 5e-324),
    ] {
        model.columns.push(Column { name: "two\nlines".to_owned(), lower, upper, integer, gain });
    }
    model.row("odd", "empty".to_owned(), Vec::new(), Sense::AtMost, 1.0);
    let all = (0..4).map(|at| (at, 1.0 / 3.0)).chain([(1, -7.0)]);
    model.row("odd", "long row".to_owned(), all.collect(), Sense::AtLeast, -0.1);
    assert_eq!(read_lp(&exchange::lp(&model, "odd")), bare(&model));
    assert_eq!(read_mps(&exchange::mps(&model, "odd")), bare(&model));
}

fn export(tiny: &Tiny, further: &[&str]) -> Run {
    let own = ["export-model", "trip.yaml", "--catalogues", "catalogue"];
    fardel(tiny.path(), &own.iter().chain(further).copied().collect::<Vec<_>>())
}

#[test]
fn the_command_writes_both_and_keeps_what_is_there() {
    let tiny = Tiny::new();
    compare("export-model", &export(&tiny, &["--lp", "trip.lp", "--mps", "trip.mps"]));
    let (lp, mps) = (tiny.read("trip.lp"), tiny.read("trip.mps"));
    assert_eq!(read_lp(&lp), read_mps(&mps));
    assert_eq!(export(&tiny, &["--lp", "trip.lp"]).code, 2, "it is there already");
    assert_eq!(tiny.read("trip.lp"), lp);
    assert_eq!(export(&tiny, &["--lp", "trip.lp", "--force"]).code, 0);
    assert_eq!(tiny.read("trip.lp"), lp, "the same input gives the same file");
    assert_eq!(export(&tiny, &[]).code, 2, "one of the two is wanted");
}
