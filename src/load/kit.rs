//! Reading a packed kit: what somebody has in their bags already, to be judged, trimmed or tried out.

use super::convert::counted_items;
use super::file::{KitFile, PackedFile};
use super::findings::{Findings, Place};
use super::gather;
use super::source::{Source, Unreadable};
use crate::diagnostic::{Code, Faults, quoted};
use crate::domain::{Catalogue, Kit, Map};
use std::path::Path;

/// Loads the kit in a file, in one of three forms: YAML (`items: { hand-pump: 1, tyre-lever: 2 }`, or a list of names
/// or of `{ id, count }`), CSV with the columns `id` and `count`, or the JSON of an earlier `fardel pack --format json`,
/// of which only `bags[].items[].id` and `.count` are read. An item without a count is there once; lines with the same
/// id add up. A scenario's own gear is known if `catalogue` is that of the loaded scenario.
///
/// # Errors
/// [`Faults`] with everything wrong in the file: unreadable, no kit at all, ids that the catalogue lacks (with the
/// nearest one it has).
pub fn kit(path: &Path, catalogue: &Catalogue) -> Result<Kit, Faults> {
    read(Source::read(path), catalogue)
}

/// The same from a text; a name ending in `.csv` or `.tsv` makes it a spreadsheet.
///
/// # Errors
/// As [`kit`].
pub fn kit_text(source: Source, catalogue: &Catalogue) -> Result<Kit, Faults> {
    read(Ok(source), catalogue)
}

/// A line of a kit: where it stands, which item, how many.
struct Line {
    place: Place,
    id: Option<String>,
    count: u32,
}

fn read(source: Result<Source, Unreadable>, catalogue: &Catalogue) -> Result<Kit, Faults> {
    let mut findings = Findings::default();
    let (file, root) = gather::tree(source, &mut findings);
    let lines = match root {
        Some(root) if gather::has_key(&root, "bags") => {
            gather::decoded(root, file, &mut findings).map(|shape| packed(&shape, file))
        }
        Some(root) => gather::decoded(root, file, &mut findings).map(|shape| listed(&shape, file)),
        None => None,
    };
    let mut counts: Map<u32> = Map::new();
    let place = Place { file, ..Place::default() };
    for line in lines.iter().flatten() {
        if let Some(id) = known(line, catalogue, &mut findings) {
            let total = counts.entry(id.to_owned()).or_default();
            *total = total.saturating_add(line.count);
        }
    }
    if lines.is_some_and(|lines| lines.is_empty()) && !findings.is_spoilt_below(&place) {
        let expected = "at least one item under `items`, such as `hand-pump: 1`".to_owned();
        findings.add(Code::NothingThere, &place, "a kit without anything in it".to_owned(), expected, None);
    }
    findings.finish().map(|()| counted_items(catalogue, &counts))
}

fn listed(shape: &KitFile, file: usize) -> Vec<Line> {
    let items = Place { file, ..Place::default() }.key("items");
    let lines = shape.items.0.iter().enumerate();
    let lines = lines.map(|(at, (key, shape))| Line {
        place: key.as_ref().map_or_else(|| items.index(at), |key| items.key(key)),
        id: shape.id.as_ref().map(|id| id.0.clone()),
        count: shape.count.map_or(1, |count| count.0),
    });
    lines.collect()
}

fn packed(shape: &PackedFile, file: usize) -> Vec<Line> {
    let bags = Place { file, ..Place::default() }.key("bags");
    let lines = shape.bags.iter().enumerate().flat_map(|(at, bag)| {
        let items = bags.index(at).key("items");
        bag.items.iter().enumerate().map(move |(at, line)| Line {
            place: items.index(at),
            id: line.id.clone(),
            count: line.count.map_or(1, |count| count.0),
        })
    });
    lines.collect()
}

/// The id, if the catalogue has it.
fn known<'a>(line: &'a Line, catalogue: &Catalogue, findings: &mut Findings) -> Option<&'a str> {
    let Some(id) = line.id.as_deref() else {
        if findings.sound(&line.place, &["id"]) {
            let expected = "the id of an item, as `catalogues` has it".to_owned();
            findings.add(Code::MissingKey, &line.place, "no `id`".to_owned(), expected, None);
        }
        return None;
    };
    if catalogue.items.contains_key(id) {
        return Some(id);
    }
    let near = findings.nearest(&line.place, id, catalogue.items.keys().map(String::as_str));
    let expected = "the name of an item in the section `items`".to_owned();
    findings.add(Code::UnknownName, &line.place, quoted(id), expected, near);
    None
}
