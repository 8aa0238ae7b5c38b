//! Reading a packed kit: what somebody has in their bags already, to be judged, trimmed or tried out.

use super::convert::{Draft, belongings, counted_items};
use super::file::{GearFile, KitFile, PackedFile};
use super::findings::{Findings, Place};
use super::gather;
use super::list::Names;
use super::source::{Source, Unreadable};
use crate::diagnostic::{Code, Faults, quoted};
use crate::domain::{Catalogue, Item, Kit, Map, Stowage};
use fardel_words::say;

/// A kit as a file has it.
#[derive(Debug, Clone, PartialEq)]
pub struct PackedKit {
    /// What there is.
    pub kit: Kit,
    /// Which bag each thing is in; `None` where no bag is named.
    pub stowage: Option<Stowage>,
    /// Things of a list that the catalogue lacks, or that the list weighs otherwise.
    pub own: Map<Item>,
    /// What the rider should know about how a list was read.
    pub note: Option<String>,
}

impl PackedKit {
    /// The catalogue with the list's own things in it; `None` where there are none.
    #[must_use]
    pub fn with_own(&self, catalogue: &Catalogue) -> Option<Catalogue> {
        (!self.own.is_empty()).then(|| {
            let mut all = catalogue.clone();
            all.items.extend(self.own.clone());
            all
        })
    }
}

/// Loads the kit in a text, in one of three forms: YAML (`items: { hand-pump: 1, tyre-lever: 2 }`, or a list of names
/// or of `{ id, count, bag }`), CSV with the columns `id` and `count` or as `pack` writes it, or the JSON of an earlier
/// `fardel pack --format json`, of which only `bags[].id` and their `items[].id` and `.count` are read. An item without a
/// count is there once; lines with the same id add up. A scenario's own gear is known if `catalogue` is that of the
/// loaded scenario. A spreadsheet with names instead of ids is read as a list (`load::list`), with the file of names
/// beside it.
///
/// # Errors
/// [`Faults`] with everything wrong in the file: unreadable, no kit at all, ids that the catalogue lacks (with the
/// nearest one it has), bags that it lacks.
pub fn kit_text(source: Source, catalogue: &Catalogue) -> Result<PackedKit, Faults> {
    kit_read(Ok(source), None, catalogue)
}

/// The same with a file of names beside it; a name ending in `.csv` or `.tsv` makes it a spreadsheet.
///
/// # Errors
/// As [`kit_text`], or when one of them cannot be read.
pub fn kit_read(
    source: Result<Source, Unreadable>,
    names: Option<gather::Read>,
    catalogue: &Catalogue,
) -> Result<PackedKit, Faults> {
    let mut findings = Findings::default();
    if let Some((file, Some(shape))) = gather::list(&source, &mut findings) {
        return of_list(shape, file, names, catalogue, findings);
    }
    let (file, root) = gather::tree(source, &mut findings);
    let lines = match root {
        Some(root) if gather::has_key(&root, "bags") => {
            gather::decoded(root, file, &mut findings).map(|shape| packed(&shape, file))
        }
        Some(root) => gather::decoded(root, file, &mut findings).map(|shape| listed(&shape, file)),
        None => None,
    };
    let mut counts: Map<u32> = Map::new();
    let mut stowage = Stowage::new();
    let place = Place { file, ..Place::default() };
    for line in lines.iter().flatten() {
        if let Some(id) = known(line, catalogue, &mut findings) {
            add(&mut counts, id, line.count);
            if let Some(bag) = bag(line, catalogue, &mut findings) {
                add(stowage.entry(bag.to_owned()).or_default(), id, line.count);
            }
        }
    }
    if lines.is_some_and(|lines| lines.is_empty()) && !findings.is_spoilt_below(&place) {
        let expected = say!("at least one item under `items`, such as `hand-pump: 1`");
        findings.add(Code::NothingThere, &place, say!("a kit without anything in it"), expected, None);
    }
    findings.finish().map(|()| PackedKit {
        kit: counted_items(catalogue, &counts),
        stowage: Some(stowage).filter(|stowage| !stowage.is_empty()),
        own: Map::new(),
        note: None,
    })
}

/// A line of a kit: where it stands, which item, how many, in which bag.
struct Line {
    place: Place,
    id: Option<String>,
    count: u32,
    bag: Option<String>,
}

/// Which bag each thing of a list is in, and the names that are no bag's.
fn stowed(bags: &[(String, String, u32)], catalogue: &Catalogue) -> (Stowage, Vec<String>) {
    let (mut stowage, mut elsewhere) = (Stowage::new(), Vec::new());
    for (id, written, count) in bags {
        let same = |own: &&crate::domain::Bag| own.id == *written || own.name.to_lowercase() == written.to_lowercase();
        match catalogue.bags.values().find(same) {
            Some(bag) => add(stowage.entry(bag.id.clone()).or_default(), id, *count),
            None if elsewhere.contains(written) => {}
            None => elsewhere.push(written.clone()),
        }
    }
    (stowage, elsewhere)
}

/// A list with free names: its own things are in none of the catalogue's sections.
fn of_list(
    mut shape: GearFile,
    file: usize,
    names: Option<gather::Read>,
    catalogue: &Catalogue,
    mut findings: Findings,
) -> Result<PackedKit, Faults> {
    if let Some(names) = names {
        shape.names = Names::read(names, &mut findings);
    }
    let things = belongings(&shape, file, &Draft::of(catalogue), &mut findings);
    let mut note = format!("{}: {}", findings.name(file), things.title());
    findings.finish()?;
    let (stowage, elsewhere) = stowed(&things.bags, catalogue);
    if !elsewhere.is_empty() {
        note += &say!("; not bags of the catalogue: {}", elsewhere.join(", "));
    }
    let mut own = catalogue.clone();
    own.items.extend(things.weighed.clone());
    let kit = counted_items(&own, &things.counts);
    let stowage = Some(stowage).filter(|stowage| !stowage.is_empty());
    Ok(PackedKit { kit, stowage, own: things.weighed, note: Some(note) })
}

fn add(counts: &mut Map<u32>, id: &str, more: u32) {
    let total = counts.entry(id.to_owned()).or_default();
    *total = total.saturating_add(more);
}

fn listed(shape: &KitFile, file: usize) -> Vec<Line> {
    let items = Place { file, ..Place::default() }.key("items");
    let lines = shape.items.0.iter().enumerate();
    let lines = lines.map(|(at, (key, shape))| Line {
        place: key.as_ref().map_or_else(|| items.index(at), |key| items.key(key)),
        id: shape.id.as_ref().map(|id| id.0.clone()),
        count: shape.count.map_or(1, |count| count.0),
        bag: shape.bag.as_ref().map(|bag| bag.0.clone()),
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
            bag: bag.id.clone(),
        })
    });
    lines.collect()
}

/// The id, if the catalogue has it.
fn known<'a>(line: &'a Line, catalogue: &Catalogue, findings: &mut Findings) -> Option<&'a str> {
    let Some(id) = line.id.as_deref() else {
        if findings.sound(&line.place, &["id"]) {
            let expected = say!("the id of an item, as `catalogues` has it");
            findings.add(Code::MissingKey, &line.place, "no `id`".to_owned(), expected, None);
        }
        return None;
    };
    if catalogue.items.contains_key(id) {
        return Some(id);
    }
    let near = findings.nearest(&line.place, id, catalogue.items.keys().map(String::as_str));
    let expected = say!("the name of an item in the section `items`");
    findings.add(Code::UnknownName, &line.place, quoted(id), expected, near);
    None
}

/// The bag, if one is named and the catalogue has it.
fn bag<'a>(line: &'a Line, catalogue: &Catalogue, findings: &mut Findings) -> Option<&'a str> {
    let id = line.bag.as_deref()?;
    if catalogue.bags.contains_key(id) {
        return Some(id);
    }
    let near = findings.nearest(&line.place, id, catalogue.bags.keys().map(String::as_str));
    let expected = say!("the name of a bag in the section `bags`");
    findings.add(Code::UnknownName, &line.place, quoted(id), expected, near);
    None
}
