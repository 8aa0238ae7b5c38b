//! What each line of a list is taken for.

use super::names::{BARE, Known, Names};
use crate::diagnostic::{Code, quoted};
use crate::domain::{Catalogue, Item, Kind};
use crate::find::matcher::Matcher;
use crate::load::file::{GearFile, GearShape, Text};
use crate::load::findings::{Findings, Place};
use crate::load::numbers::Count;
use crate::units::{Mass, Quantity as _, Volume};
use fardel_words::{say, several};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// How sure it is what a line stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum How {
    /// The catalogue's own name or id, or the same words.
    Name,
    /// Confirmed in the file of names.
    Confirmed,
    /// Guessed; waits for being confirmed.
    Guess,
    /// A thing of the rider's own.
    Own,
}

/// A line of a list, and what it is taken for.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Taken {
    /// Line in the file.
    pub line: usize,
    /// Name as written.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Mass of one in grams: the list's, or else the catalogue's; none if nobody knows.
    pub mass_g: Option<f64>,
    /// Is that the list's own?
    pub weighed: bool,
    /// How sure it is.
    pub how: How,
    /// Id of the item; none for a thing of one's own.
    pub id: Option<String>,
    /// Name of the item.
    pub item: Option<String>,
    /// Other ids that may be meant, the best first.
    pub others: Vec<String>,
    /// Volume of one in millilitres where it is estimated from the kind.
    pub estimated_volume_ml: Option<f64>,
}

/// A whole list.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct List {
    /// Line by line.
    pub lines: Vec<Taken>,
    #[serde(skip)]
    names: Names,
}

/// Other items named beside a guess.
const OTHERS: usize = 3;
/// Lines named in one message.
const NAMED: usize = 6;

impl List {
    pub(super) fn new(file: &GearFile, names: Names, catalogue: &Catalogue) -> Self {
        let judge = Judge::new(catalogue, &names);
        let shapes = file.items.0.iter().map(|(_, shape)| shape).filter(|shape| shape.free.is_some());
        let lines = shapes.map(|shape| judge.taken(shape)).collect();
        Self { lines, names }
    }

    /// The file of names that confirms all guesses.
    ///
    /// # Errors
    /// Never in practice: every name can be written.
    pub fn names(&self) -> Result<String, String> {
        let mut names = self.names.clone();
        for line in self.lines.iter().filter(|line| line.how != How::Name) {
            let mass = names.get(&line.name).and_then(|known| known.mass);
            names.set(&line.name, Known { id: line.id.clone(), mass });
        }
        names.text()
    }

    /// Lines of things whose weight nobody knows.
    pub fn unweighed(&self) -> impl Iterator<Item = &Taken> {
        self.lines.iter().filter(|line| line.mass_g.is_none())
    }

    /// Lines that are guesses.
    pub fn guesses(&self) -> impl Iterator<Item = &Taken> {
        self.lines.iter().filter(|line| line.how == How::Guess)
    }
}

/// Decides what names mean.
struct Judge<'a> {
    catalogue: &'a Catalogue,
    names: &'a Names,
    matcher: Matcher,
    densities: BTreeMap<Kind, f64>,
}

impl<'a> Judge<'a> {
    fn new(catalogue: &'a Catalogue, names: &'a Names) -> Self {
        Self { catalogue, names, matcher: Matcher::new(catalogue), densities: densities(catalogue) }
    }

    fn taken(&self, shape: &GearShape) -> Taken {
        let name = shape.name.as_ref().map_or("", |name| name.0.as_str()).to_owned();
        let known = self.names.get(&name);
        let bare = shape.free.as_ref().and_then(|free| free.bare.as_ref()).zip(self.names.bare());
        let bare = bare.and_then(|(written, unit)| mass(written.number * unit.grams()));
        let mass = shape.mass.or(bare).or_else(|| known.and_then(|known| known.mass));
        let (how, id, others) = self.meant(&name, mass);
        let item = id.as_ref().and_then(|id| self.catalogue.items.get(id));
        let (count, mass) = packets(shape.count.map_or(1, |count| count.0), mass, item);
        let own_volume = item.is_none() && shape.volume.is_none();
        let kind = shape.kind.unwrap_or(Kind::Comfort);
        Taken {
            line: shape.free.as_ref().map_or(0, |free| free.line),
            count,
            mass_g: mass.or_else(|| item.map(|item| item.mass)).map(Mass::grams),
            weighed: mass.is_some(),
            how,
            item: item.map(|item| item.name.clone()),
            id,
            others,
            estimated_volume_ml: mass.filter(|_| own_volume).map(|mass| self.volume(mass, kind)),
            name,
        }
    }

    fn meant(&self, name: &str, mass: Option<Mass>) -> (How, Option<String>, Vec<String>) {
        let known = self.names.get(name);
        if let Some(known) =
            known.filter(|known| known.id.as_ref().is_none_or(|id| self.catalogue.items.contains_key(id)))
        {
            let how = if known.id.is_some() { How::Confirmed } else { How::Own };
            return (how, known.id.clone(), Vec::new());
        }
        let plain = name.trim().to_lowercase();
        let dashed = plain.split_whitespace().collect::<Vec<_>>().join("-");
        let same = |item: &&Item| item.id == dashed || item.name.to_lowercase() == plain;
        if let Some(item) = self.catalogue.items.values().find(same) {
            return (How::Name, Some(item.id.clone()), Vec::new());
        }
        let found = self.matcher.of(name, mass);
        let alone = found.iter().filter(|candidate| candidate.same).count() == 1;
        let mut ids = found.iter().take(OTHERS + 1).map(|candidate| candidate.id.clone());
        match ids.next() {
            Some(id) if alone && found[0].same => (How::Name, Some(id), Vec::new()),
            Some(id) => (How::Guess, Some(id), ids.collect()),
            None => (How::Own, None, Vec::new()),
        }
    }

    /// Millilitres, by the density that is usual among things of the kind.
    fn volume(&self, mass: Mass, kind: Kind) -> f64 {
        mass.grams() / self.densities.get(&kind).copied().unwrap_or(1.0)
    }
}

/// Twenty zip ties are one packet of twenty: where the item is a packet, pieces are counted in packets, which weigh what
/// the catalogue says.
fn packets(count: u32, mass: Option<Mass>, item: Option<&Item>) -> (u32, Option<Mass>) {
    let pieces = item.and_then(|item| {
        let first = item.name.split_whitespace().next()?.parse::<u32>().ok()?;
        let sized = item
            .name
            .split_whitespace()
            .nth(1)
            .is_some_and(|next| matches!(next, "mm" | "mL" | "in" | "L" | "m" | "g" | "and"));
        (!sized && first > 1).then_some(first)
    });
    match pieces {
        Some(pieces) if count >= pieces => (count.div_ceil(pieces), None),
        _ => (count, mass),
    }
}

/// For each kind, the median of mass over packed volume of the catalogue's items, in grams per millilitre.
fn densities(catalogue: &Catalogue) -> BTreeMap<Kind, f64> {
    let mut all: BTreeMap<Kind, Vec<f64>> = BTreeMap::new();
    for item in catalogue.items.values().filter(|item| item.volume > Volume::ZERO && item.mass > Mass::ZERO) {
        all.entry(item.kind).or_default().push(item.mass.grams() / item.volume.millilitres());
    }
    let median = |mut values: Vec<f64>| {
        values.sort_by(f64::total_cmp);
        values[values.len() / 2]
    };
    all.into_iter().map(|(kind, values)| (kind, median(values))).collect()
}

/// The entries of a gear file with the free ones settled: ids where the catalogue has the thing, volumes where it lacks it.
/// Lines that come to the same thing are one. Guesses and unknown weights are told, each once.
pub(crate) fn settle(file: &GearFile, place: &Place, catalogue: &Catalogue, findings: &mut Findings) -> GearFile {
    if file.items.0.iter().all(|(_, shape)| shape.free.is_none()) {
        return file.clone();
    }
    tell_unitless(file, &file.names, place, findings);
    let judge = Judge::new(catalogue, &file.names);
    let (mut guesses, mut unweighed): (Vec<Taken>, Vec<Taken>) = (Vec::new(), Vec::new());
    let mut settled = file.clone();
    for (_, shape) in &mut settled.items.0 {
        if shape.free.is_none() {
            continue;
        }
        let taken = judge.taken(shape);
        shape.count = Some(Count(taken.count));
        shape.mass = if taken.weighed { taken.mass_g.and_then(mass) } else { None };
        if let Some(id) = &taken.id {
            (shape.id, shape.name) = (Some(Text(id.clone())), None);
        } else if taken.mass_g.is_none() {
            unweighed.push(taken.clone());
        }
        if let Some(volume) = taken.estimated_volume_ml {
            shape.volume = volume_of(volume);
            shape.estimated = true;
        }
        if taken.how == How::Guess {
            guesses.push(taken);
        }
    }
    tell_guesses(&guesses, place, findings);
    tell_unweighed(&unweighed, place, findings);
    settled.items.0 = merged(settled.items.0);
    let lines = settled.items.0.iter().map(|(_, shape)| shape.free.as_ref().map_or(0, |free| free.line)).collect();
    findings.set_rows(place.file, lines);
    settled
}

fn mass(grams: f64) -> Option<Mass> {
    Mass::read(&format!("{grams:.3} g")).ok()
}

fn volume_of(millilitres: f64) -> Option<Volume> {
    Volume::read(&format!("{:.0} mL", millilitres.max(1.0))).ok()
}

/// Several lines of one thing as one entry in the place of the first. Where lines
/// weigh it differently, their mean is taken.
fn merged(entries: Vec<(Option<String>, GearShape)>) -> Vec<(Option<String>, GearShape)> {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut all: Vec<(Option<String>, GearShape)> = Vec::new();
    for (key, shape) in entries {
        let named = shape.id.as_ref().or(shape.name.as_ref()).map(|name| name.0.to_lowercase()).unwrap_or_default();
        let Some(at) = first.get(&named).copied() else {
            first.insert(named, all.len());
            all.push((key, shape));
            continue;
        };
        let earlier = &mut all[at].1;
        let (before, now) = (earlier.count.map_or(1, |n| n.0), shape.count.map_or(1, |n| n.0));
        earlier.mass = match (earlier.mass, shape.mass) {
            (Some(a), Some(b)) => mass(
                (a.grams() * f64::from(before) + b.grams() * f64::from(now))
                    / f64::from(before.saturating_add(now).max(1)),
            ),
            (a, b) => a.or(b),
        };
        if let (Some(free), Some(more)) = (&mut earlier.free, shape.free) {
            free.bags.extend(more.bags);
        }
        earlier.count = Some(Count(before.saturating_add(now)));
    }
    all
}

fn tell_guesses(guesses: &[Taken], place: &Place, findings: &mut Findings) {
    let Some(first) = guesses.first() else { return };
    let one =
        |own: &Taken| say!("line {} {} ({}?)", own.line, quoted(&own.name), own.id.as_deref().unwrap_or_default());
    let found = say!(
        "{} not in the catalogue but like others in it: {}",
        several!(guesses.len(), "{n} name", "{n} names"),
        some(guesses, one)
    );
    let file = findings.name(place.file).to_owned();
    let expected =
        say!("names that you have confirmed: `fardel gear {file}` shows what each is taken for and writes it down");
    findings.add_at(Code::UnknownName, place, Some(first.line), found, expected, None);
}

/// Weights without a unit where nobody has told what they count.
pub(super) fn tell_unitless(file: &GearFile, names: &Names, place: &Place, findings: &mut Findings) {
    let free = file.items.0.iter().filter_map(|(_, shape)| shape.free.as_ref());
    let bare: Vec<_> = free.filter_map(|free| Some((free.line, &free.bare.as_ref()?.title))).collect();
    let Some((line, title)) = bare.first().filter(|_| names.bare().is_none()) else { return };
    // Nobody is to be told as well that these things have no weight.
    findings.spoil(&place.key("weights"));
    let found =
        say!("{} with a number but no unit below {}", several!(bare.len(), "{n} cell", "{n} cells"), quoted(title));
    let own = findings.name(place.file).to_owned();
    let expected = say!(
        "the unit in the heading, such as `{title} (g)`, or behind each number; or typed: `fardel gear {own} --is '{BARE}=1 g'` \
         (or 1 kg, 1 oz, 1 lb)"
    );
    findings.add_at(Code::NotAQuantity, place, Some(*line), found, expected, None);
}

fn tell_unweighed(unweighed: &[Taken], place: &Place, findings: &mut Findings) {
    let Some(first) = unweighed.first().filter(|_| !findings.is_spoilt(&place.key("weights"))) else { return };
    let one = |own: &Taken| say!("line {} {}", own.line, quoted(&own.name));
    let found = say!(
        "{} of your own without a weight: {}",
        several!(unweighed.len(), "{n} thing", "{n} things"),
        some(unweighed, one)
    );
    let file = findings.name(place.file).to_owned();
    let expected = say!("the weight of each in the list, or typed: `fardel gear {file} --is '{}=120 g'`", first.name);
    findings.add_at(Code::MissingKey, place, Some(first.line), found, expected, None);
}

fn some(all: &[Taken], one: impl Fn(&Taken) -> String) -> String {
    let shown: Vec<String> = all.iter().take(NAMED).map(one).collect();
    let more = all.len().saturating_sub(NAMED);
    if more > 0 { say!("{} and {more} more", shown.join(", ")) } else { shown.join(", ") }
}
