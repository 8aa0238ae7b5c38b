//! `schema`: the form of a file, for editors.

use super::Tiny;
use crate::support::fardel;

#[test]
fn a_schema_is_printed_or_written() {
    let tiny = Tiny::new();
    let printed = fardel(tiny.path(), &["schema", "scenario"]).answered().to_owned();
    assert!(printed.starts_with("{\n  \"$schema\"") && printed.contains("\"hours_to_help\""), "{printed}");
    assert_eq!(fardel(tiny.path(), &["schema", "scenario", "--out", "scenario.json"]).answered(), "");
    assert_eq!(tiny.read("scenario.json"), printed);
    let again = fardel(tiny.path(), &["schema", "gear", "--out", "scenario.json"]);
    assert_eq!((again.code, tiny.read("scenario.json")), (2, printed), "{}", again.err);
}

#[test]
fn an_unknown_sort_is_answered_with_those_there_are() {
    let run = fardel(Tiny::new().path(), &["schema", "bike"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("catalogue, scenario, gear, kit"), "{}", run.err);
}
