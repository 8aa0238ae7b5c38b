//! What a rider owns: items of the catalogue as the rider weighed them, and things that the catalogue lacks.
//!
//! An `id` must be in the catalogue. A `name` is looked for among ids and names, whatever its case. If nothing has it,
//! it is a thing of the rider's own: mass and volume are required, `longest` is the edge of a cube of its volume if
//! left out, `kind` is `comfort`, the price 0. It does nothing for repairs and needs, but can be put on the `always`
//! list. A thing is listed once, in the gear file or under `owns`.
//!
//! With one rider the items take the place of the catalogue's. With several, each rider's are in `Rider::weighed`, and
//! `Catalogue::as_weighed_by` gives the catalogue as that rider has it; whatever is reckoned for one rider begins
//! there.

use super::Draft;
use super::items::counts;
use crate::diagnostic::{Code, quoted};
use crate::domain::{Basis, BasisKind, Item, Kind, Map, Scenario};
use crate::load::file::{Counted, GearFile, GearShape};
use crate::load::findings::{Findings, Place};
use crate::load::list;
use crate::load::section::Section;
use crate::units::{Length, Money, Quantity as _};
use fardel_words::{say, several};
use indexmap::IndexSet;

/// A gear file as read.
pub(crate) struct Gear {
    /// Which rider's, by position.
    pub rider: usize,
    /// Index of the file.
    pub file: usize,
    /// What it says.
    pub shape: GearFile,
}

/// The things of one gear file.
#[derive(Debug, Default)]
pub(crate) struct Belongings {
    /// How many of each.
    pub counts: Map<u32>,
    /// Items that differ from the catalogue's.
    pub weighed: Map<Item>,
    /// Ids of things that the catalogue lacks.
    pub own: Vec<String>,
    /// Things of a list with the bags that they are in, as written, and how many.
    pub bags: Vec<(String, String, u32)>,
    /// Ids of things about which too little is known.
    pub broken: Vec<String>,
}

/// Gives every rider their gear. A single rider's items take the place of the catalogue's at once; with several riders
/// each keeps their own masses in `Rider::weighed`. Things the catalogue lacks are filed in it either way.
pub(crate) fn assign_gear(gear: &[Gear], scenario: &mut Scenario, draft: &mut Draft, findings: &mut Findings) {
    let alone = scenario.riders.len() == 1;
    // Everybody's things are read against the catalogue as it is, before anybody's are filed in it.
    let read: Vec<Belongings> = gear.iter().map(|gear| belongings(&gear.shape, gear.file, draft, findings)).collect();
    for (gear, belongings) in gear.iter().zip(read) {
        draft.notes.push(format!("{}: {}", findings.name(gear.file), belongings.title()));
        // What could not be read may be what another line speaks of.
        if findings.is_spoilt_below(&Place { file: gear.file, ..Place::default() }) {
            findings.go_blind();
        }
        draft.names.learn(Section::Items, &belongings.broken);
        for (id, item) in &belongings.weighed {
            draft.names.learn(Section::Items, [id]);
            if alone || !draft.catalogue.items.contains_key(id) {
                draft.catalogue.items.insert(id.clone(), item.clone());
            }
        }
        let Some(rider) = scenario.riders.get_mut(gear.rider) else { continue };
        let place = Place { file: gear.file, ..Place::default() };
        for (id, count) in belongings.counts {
            if rider.owns.insert(id.clone(), count).is_some() {
                let found = say!("{}, which {} has under `owns` too", quoted(&id), rider.name);
                let expected = say!("every thing in the gear file or under `owns`");
                findings.add(Code::Contradiction, &place, found, expected, None);
            }
        }
        rider.weighed = belongings.weighed;
    }
}

impl Belongings {
    /// What they are, in a line.
    pub fn title(&self) -> String {
        let differing = self.weighed.len() - self.own.len();
        let mut text =
            say!("{} owned, {differing} as weighed there", several!(self.counts.len(), "{n} thing", "{n} things"));
        if !self.own.is_empty() {
            text += &say!("; not in the catalogue: {}", self.own.join(", "));
        }
        text
    }
}

/// Reads the entries of a gear file against the catalogue.
pub(crate) fn belongings(shape: &GearFile, file: usize, draft: &Draft, findings: &mut Findings) -> Belongings {
    let mut things = Belongings::default();
    let mut seen = IndexSet::new();
    let shape = &list::settle(shape, &Place { file, ..Place::default() }, &draft.catalogue, findings);
    for (at, (key, shape)) in shape.items.0.iter().enumerate() {
        let items = Place { file, ..Place::default() }.key("items");
        let place = key.as_ref().map_or_else(|| items.index(at), |key| items.key(key));
        let Some((id, known)) = meant(shape, &place, draft, findings) else { continue };
        if !seen.insert(id.clone()) {
            let expected = say!("every thing once, with its `count`");
            findings.add(Code::DefinedTwice, &place, say!("{} again", quoted(&id)), expected, None);
            continue;
        }
        if known.is_none() && shape.free.is_some() && shape.mass.is_none() {
            // Told already, all such lines together.
            things.broken.push(id);
            continue;
        }
        let bags = shape.free.iter().flat_map(|free| &free.bags);
        things.bags.extend(bags.map(|(bag, count)| (id.clone(), bag.clone(), *count)));
        let price = price(shape, &place, draft, findings);
        let item = match known {
            Some(item) => Some(weighed(item, shape, price)),
            None => own(&id, shape, price, &place, draft, findings),
        };
        let Some(item) = item else {
            things.broken.push(id);
            continue;
        };
        things.counts.insert(id.clone(), shape.count.map_or(1, |count| count.0));
        if known.is_none() {
            things.own.push(id.clone());
        }
        if known != Some(&item) {
            things.weighed.insert(id, item);
        }
    }
    things.counts = counts(Some(Counted(things.counts)));
    things
}

/// The item an entry is about: by id, or by a name that is an id or a name of the catalogue; else a thing of its own.
fn meant<'a>(
    shape: &GearShape,
    place: &Place,
    draft: &'a Draft,
    findings: &mut Findings,
) -> Option<(String, Option<&'a Item>)> {
    let items = &draft.catalogue.items;
    let text = |text: &Option<super::super::file::Text>| text.as_ref().map(|text| text.0.clone());
    if let Some(id) = text(&shape.id) {
        draft.names.check(Section::Items, &id, &place.key("id"), findings);
        return items.get(&id).map(|item| (id, Some(item)));
    }
    let Some(name) = text(&shape.name).filter(|name| !id_of(name).is_empty()) else {
        if findings.sound(place, &["id", "name"]) {
            let expected = say!("the `id` of an item, or the `name` of a thing of your own");
            findings.add(Code::MissingKey, place, say!("neither `id` nor `name`"), expected, None);
        }
        return None;
    };
    let id = id_of(&name);
    let same = |item: &&Item| item.id == id || item.name.to_lowercase() == name.to_lowercase();
    let known = items.values().find(same);
    Some((known.map_or(id, |item| item.id.clone()), known))
}

/// The id of a thing that only has a name: `Paper diary` becomes `paper-diary`.
fn id_of(name: &str) -> String {
    let plain: String = name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    plain.split_whitespace().collect::<Vec<_>>().join("-")
}

fn price(shape: &GearShape, place: &Place, draft: &Draft, findings: &mut Findings) -> Option<Money> {
    shape.price.map(|price| draft.purse.paid(price, &place.key("price"), findings))
}

/// The catalogue's item, with whatever the rider knows better.
fn weighed(item: &Item, shape: &GearShape, price: Option<Money>) -> Item {
    let mut own = item.clone();
    if let (Some(name), Some(_)) = (&shape.name, &shape.id) {
        own.name.clone_from(&name.0);
    }
    own.kind = shape.kind.unwrap_or(own.kind);
    own.mass = shape.mass.unwrap_or(own.mass);
    own.volume = shape.volume.unwrap_or(own.volume);
    own.longest = shape.longest.unwrap_or(own.longest);
    own.price = price.unwrap_or(own.price);
    if own != *item {
        own.basis = basis();
    }
    own
}

/// A thing that the catalogue lacks: it does nothing for repairs and needs, but can be put on the `always` list.
fn own(
    id: &str,
    shape: &GearShape,
    price: Option<Money>,
    place: &Place,
    draft: &Draft,
    findings: &mut Findings,
) -> Option<Item> {
    let told = !findings.sound(place, &["mass", "volume"]);
    let (Some(mass), Some(volume)) = (shape.mass, shape.volume) else {
        let items = draft.catalogue.items.values();
        let near = findings.nearest(
            place,
            id,
            items.clone().map(|item| item.id.as_str()).chain(items.map(|item| item.name.as_str())),
        );
        let missing: Vec<&str> = [("mass", shape.mass.is_none()), ("volume", shape.volume.is_none())]
            .into_iter()
            .filter_map(|(key, gone)| gone.then_some(key))
            .collect();
        if !told && !findings.blind() {
            let found = say!("{}, which is not in the catalogue, without {}", quoted(id), missing.join(" and "));
            let expected = say!("mass and volume of a thing of your own, or the name of one in the catalogue");
            findings.add(Code::MissingKey, place, found, expected, near);
        }
        return None;
    };
    let name = shape.name.as_ref().map_or(id, |name| name.0.as_str()).to_owned();
    // Nothing of this volume is shorter than a cube.
    let edge = Length::read(&format!("{} cm", volume.millilitres().cbrt())).unwrap_or(Length::ZERO);
    Some(Item {
        id: id.to_owned(),
        short: name.clone(),
        name,
        kind: shape.kind.unwrap_or(Kind::Comfort),
        mass,
        volume,
        longest: shape.longest.unwrap_or(edge),
        price: price.unwrap_or(Money::ZERO),
        at_most: shape.count.map_or(1, |count| count.0).max(1),
        provides: Map::new(),
        holds: Map::new(),
        meets: Map::new(),
        requires: Map::new(),
        quick: false,
        dry: false,
        apart_from: Vec::new(),
        personal: true,
        on_request: true,
        basis: if shape.estimated { estimated() } else { basis() },
    })
}

fn estimated() -> Basis {
    let note = say!("mass from the rider's list; volume estimated from what is usual for its kind");
    Basis { kind: BasisKind::Derived, note }
}

fn basis() -> Basis {
    Basis { kind: BasisKind::RideLog, note: say!("the rider's gear file") }
}
