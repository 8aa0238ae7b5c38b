//! From texts to file shapes, with every fault on the way.

use super::convert::Merged;
use super::file::{CatalogueFile, GearFile, ScenarioFile};
use super::findings::{Findings, Place};
use super::list as lists;
use super::multi_error::recover;
use super::node::{Node, Path};
use super::rows;
use super::source::{Source, Unreadable};
use super::yaml;
use crate::diagnostic::Code;
use fardel_words::say;
use serde::Deserialize;

/// A text, or why there is none.
pub(super) type Read = Result<Source, Unreadable>;

/// Texts that are already there.
pub(super) fn known(sources: &[Source]) -> Vec<Read> {
    sources.iter().cloned().map(Ok).collect()
}

/// All catalogue files in one; `extras` override.
pub(super) fn merged(shipped: Vec<Read>, extras: Vec<Read>, findings: &mut Findings) -> Merged {
    let mut merged = Merged::default();
    let first = findings.count();
    add(&mut merged, shipped, false, findings);
    add(&mut merged, extras, true, findings);
    if merged.is_empty() && !findings.blind() {
        // Without any file the fault belongs to the catalogue as such.
        let none = || Source { name: "catalogue".to_owned(), text: String::new() };
        let file = if findings.count() > first { first } else { findings.file(none()) };
        let place = Place { file, ..Place::default() };
        let expected = say!("at least one entry, such as an item or a bike");
        findings.add(Code::NothingThere, &place, say!("an empty catalogue"), expected, None);
        findings.go_blind();
    }
    merged
}

/// Takes in more files.
pub(super) fn add(merged: &mut Merged, files: Vec<Read>, extra: bool, findings: &mut Findings) {
    for read in files {
        let (file, shapes) = shape::<CatalogueFile>(read, findings);
        // With a file or a whole section gone, every reference to it would look unknown.
        if shapes.is_none() || findings.lost_section(file) {
            findings.go_blind();
        }
        merged.add(shapes.unwrap_or_default(), file, extra, findings);
    }
    merged.settle_rates(findings);
}

/// The scenario's shape and the index of its file.
pub(super) fn scenario(read: Read, findings: &mut Findings) -> (usize, ScenarioFile) {
    let (file, shape) = shape(read, findings);
    let catalogues = Place { file, path: Path::default().key("catalogues") };
    // Names may stand in a catalogue that the scenario fails to name.
    if shape.is_none() || findings.is_spoilt_below(&catalogues) {
        findings.go_blind();
    }
    let nothing = || {
        findings.mute(file);
        ScenarioFile::default()
    };
    (file, shape.unwrap_or_else(nothing))
}

/// A gear file's shape and the index of the file. Without it, no name of a thing can be called unknown.
pub(super) fn gear(read: Read, findings: &mut Findings) -> (usize, Option<GearFile>) {
    if let Some(listed) = list(&read, findings) {
        return listed;
    }
    let (file, shape) = shape(read, findings);
    if shape.is_none() || findings.lost_section(file) {
        findings.go_blind();
    }
    (file, shape)
}

/// A list of things with free names, if it is one.
pub(super) fn list(read: &Read, findings: &mut Findings) -> Option<(usize, Option<GearFile>)> {
    let source = read.as_ref().ok().filter(|source| rows::is_rows(&source.name))?;
    let mut own = Findings::default();
    own.file(source.clone());
    lists::read(&source.text, 0, &mut own)?;
    // It is one: read it again under its own number.
    let file = findings.file(source.clone());
    Some((file, lists::read(&source.text, file, findings)))
}

/// Has the root of this tree such a key?
pub(super) fn has_key(root: &Node, key: &str) -> bool {
    matches!(root, Node::Map(entries) if entries.contains_key(key))
}

/// Decodes a tree.
pub(super) fn decoded<T: for<'de> Deserialize<'de>>(root: Node, file: usize, findings: &mut Findings) -> Option<T> {
    recover(root, file, findings)
}

/// Reads, parses and decodes one file.
fn shape<T: for<'de> Deserialize<'de>>(read: Read, findings: &mut Findings) -> (usize, Option<T>) {
    let (file, root) = tree(read, findings);
    (file, root.and_then(|root| recover(root, file, findings)))
}

/// Reads and parses one file.
pub(super) fn tree(read: Read, findings: &mut Findings) -> (usize, Option<Node>) {
    let source = match read {
        Ok(source) => source,
        Err(Unreadable { name, reason }) => {
            let file = findings.file(Source { name, text: String::new() });
            let place = Place { file, ..Place::default() };
            findings.add(Code::Unreadable, &place, reason, say!("a text file in UTF-8"), None);
            return (file, None);
        }
    };
    let (text, spreadsheet) = (source.text.clone(), rows::is_rows(&source.name));
    let file = findings.file(source);
    if spreadsheet {
        return (file, rows::parse(&text, file, findings));
    }
    match yaml::parse(&text) {
        Ok(root) => (file, Some(root)),
        Err(fault) => {
            let place = Place { file, path: fault.path };
            findings.add_at(fault.code, &place, fault.line, fault.found, fault.expected, None);
            (file, None)
        }
    }
}
