//! Reading a sheet that was filled in at the bike, and writing it as a bike of one's own.

use super::findings::{Findings, Place};
use super::node::Node;
use super::rules::shape;
use super::source::{Source, Unreadable};
use super::{gather, rows};
use crate::diagnostic::{Code, Faults, nearest, quoted};
use crate::domain::{Bike, Catalogue, Map, Surface, tyre_load};
use crate::sheet::range_key;
use crate::units::{Distance, Length, Mass, Pressure, Quantity, Show as _, UnitError, UnitSystem, Volume};
use fardel_words::{plain, say};
use std::collections::BTreeMap;

/// What was written into the sheet: key, value, line.
struct Filled {
    key: String,
    value: String,
    place: Place,
    line: Option<usize>,
}

/// The bike of a filled sheet as text of a catalogue file: `like` the bike that the sheet began with, with what was filled
/// in, and with the sizes of tools that the catalogue lacks. A sheet is CSV with the columns `key` and `yours`, or YAML
/// with the keys.
///
/// # Errors
/// [`Faults`] with everything wrong in the sheet: unknown keys, values that cannot be.
pub fn bike_sheet(
    sheet: Result<Source, Unreadable>,
    catalogue: &Catalogue,
    base: &Bike,
    id: &str,
) -> Result<String, Faults> {
    let mut findings = Findings::default();
    let filled = read(sheet, &mut findings);
    let mut made = Made::default();
    for own in &filled {
        take(own, catalogue, base, &mut made, &mut findings);
    }
    let whole = Place::default();
    if filled.is_empty() && !findings.is_spoilt_below(&whole) {
        let expected = say!("a value in the column `yours` for whatever differs from the catalogue");
        findings.add(Code::NothingThere, &whole, say!("a sheet in which nothing is filled in"), expected, None);
    }
    findings.finish().map(|()| made.text(base, id))
}

fn read(sheet: Result<Source, Unreadable>, findings: &mut Findings) -> Vec<Filled> {
    match sheet {
        Ok(source) if rows::is_rows(&source.name) => {
            let text = source.text.clone();
            let file = findings.file(source);
            of_rows(&text, file, findings)
        }
        read => {
            let (file, root) = gather::tree(read, findings);
            let mut filled = Vec::new();
            if let Some(root) = root {
                of_tree(&root, &Place { file, ..Place::default() }, &mut filled, findings);
            }
            filled
        }
    }
}

fn of_rows(text: &str, file: usize, findings: &mut Findings) -> Vec<Filled> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let separator = rows::separator(text);
    let mut records = rows::records(text, separator);
    let place = Place { file, ..Place::default() };
    let heading: Vec<String> =
        records.next().map(|row| row.iter().map(str::to_lowercase).collect()).unwrap_or_default();
    let at = |title: &str| heading.iter().position(|own| own == title);
    let (Some(key), Some(yours)) = (at("key"), at("yours")) else {
        let expected = say!("the columns `key` and `yours`, as `fardel bike ID --format csv` writes them");
        findings.add_at(Code::MissingKey, &place, Some(1), say!("a heading without `key` and `yours`"), expected, None);
        return Vec::new();
    };
    let filled = records.filter_map(|row| {
        let (key, value) = (row.get(key)?.to_owned(), row.get(yours)?.to_owned());
        let line = row.position().and_then(|at| usize::try_from(at.line()).ok());
        (!value.is_empty()).then(|| Filled { key, value, place: place.clone(), line })
    });
    filled.collect()
}

fn of_tree(node: &Node, place: &Place, filled: &mut Vec<Filled>, findings: &mut Findings) {
    let Node::Map(entries) = node else {
        let expected = say!("keys and values, such as `rear_axle: hex 24 mm`");
        findings.add(Code::WrongType, place, say!("something else"), expected, None);
        return;
    };
    for (key, value) in entries {
        let place = place.key(key);
        let value = match value {
            Node::Null => continue,
            Node::Map(_) => {
                of_tree(value, &place, filled, findings);
                continue;
            }
            Node::Int(value) => value.to_string(),
            Node::Float(value) => value.to_string(),
            Node::Text(value) => value.trim().to_owned(),
            _ => {
                findings.add(Code::WrongType, &place, say!("a list or a truth value"), say!("a value as text"), None);
                continue;
            }
        };
        filled.push(Filled { key: key.clone(), value, place, line: None });
    }
}

/// What the sheet comes to.
#[derive(Default)]
struct Made {
    plain: Map<String>,
    attributes: Map<String>,
    /// Functions that the catalogue lacks, with their names.
    functions: BTreeMap<String, String>,
}

fn take(own: &Filled, catalogue: &Catalogue, base: &Bike, made: &mut Made, findings: &mut Findings) {
    let value = own.value.as_str();
    let read = match own.key.as_str() {
        "mass" | "max_mass" | "front_axle_limit" | "rear_axle_limit" => checked(Mass::read(value)),
        "front_pressure" | "rear_pressure" => checked(Pressure::read(value)),
        "wheelbase" | "front_travel" | "rear_travel" => checked(Length::read(value)),
        "tank" if base.energy.tank().is_some() => checked(Volume::read(value)),
        key if base.energy.range().is_some() && surface(key).is_some() => checked(Distance::read(value)),
        "front_load_index" | "rear_load_index" => {
            let known = value.parse().ok().and_then(tyre_load).map(drop);
            known.ok_or_else(|| (Code::OutOfRange, say!("a load index from the sidewall, such as 62"), None))
        }
        "name" => Ok(()),
        key => {
            attribute(key, own, catalogue, base, made, findings);
            return;
        }
    };
    match read {
        Ok(()) => drop(made.plain.insert(own.key.clone(), value.to_owned())),
        Err((code, expected, near)) => findings.add_at(code, &own.place, own.line, quoted(value), expected, near),
    }
}

/// The surface that a key of the sheet gives the range of a battery for.
fn surface(key: &str) -> Option<Surface> {
    Surface::ALL.iter().copied().find(|surface| range_key(*surface) == key)
}

fn checked<T: Quantity>(read: Result<T, UnitError>) -> Result<(), (Code, String, Option<String>)> {
    read.map(drop).map_err(|_| (Code::NotAQuantity, say!("a {} such as {}", plain(T::NAME), T::EXAMPLE), None))
}

fn attribute(key: &str, own: &Filled, catalogue: &Catalogue, base: &Bike, made: &mut Made, findings: &mut Findings) {
    let Some(known) = catalogue.attributes.get(key) else {
        let near = nearest(key, catalogue.attributes.keys().map(String::as_str));
        let expected = say!("a key of the sheet, as `fardel bike ID --format csv` writes them");
        findings.add_at(Code::UnknownKey, &own.place, own.line, quoted(key), expected, near);
        return;
    };
    if !known.values.is_empty() && !known.values.contains(&own.value) {
        let near = nearest(&own.value, known.values.iter().map(String::as_str));
        let expected = say!("one of `{}`", known.values.join("`, `"));
        findings.add_at(Code::UnknownValue, &own.place, own.line, quoted(&own.value), expected, near);
        return;
    }
    let usual: Vec<&String> = base
        .attributes
        .get(key)
        .into_iter()
        .chain(catalogue.bikes.values().filter_map(|bike| bike.attributes.get(key)))
        .collect();
    if !usual.iter().any(|value| catalogue.functions.contains_key(*value)) {
        made.attributes.insert(key.to_owned(), own.value.clone());
        return;
    }
    if let Some((value, new)) = fastener(&own.value, &usual, catalogue) {
        made.functions.extend(new.map(|name| (value.clone(), name)));
        made.attributes.insert(key.to_owned(), value);
    } else {
        let near = nearest(&own.value, catalogue.functions.keys().map(String::as_str));
        let expected =
            say!("what turns it, such as {}", usual.first().map_or_else(|| say!("`hex 24 mm`"), |value| quoted(value)));
        findings.add_at(Code::UnknownValue, &own.place, own.line, quoted(&own.value), expected, near);
    }
}

/// What turns a fastener, from what was written: a function of the catalogue, a bare size (`24` or `24 mm`) in the form
/// that the bike has there, or a size of a known form that the catalogue lacks, with its name then.
fn fastener(written: &str, usual: &[&String], catalogue: &Catalogue) -> Option<(String, Option<String>)> {
    let functions = &catalogue.functions;
    let digits: String = written.chars().filter(char::is_ascii_digit).collect();
    let after = written.trim().trim_start_matches(|c: char| c.is_ascii_digit()).trim().trim_matches('.').to_lowercase();
    let bare = !digits.is_empty() && matches!(after.as_str(), "" | "mm");
    let forms = usual.iter().filter(|_| bare).map(|value| resized(value, &digits));
    let candidates: Vec<String> = std::iter::once(written.to_lowercase()).chain(forms).collect();
    if let Some(known) = candidates.iter().chain([&written.to_owned()]).find(|name| functions.contains_key(*name)) {
        return Some((known.clone(), None));
    }
    let new = candidates.into_iter().find_map(|name| {
        let like = functions.iter().find(|(id, _)| shape(id) == shape(&name) && shape(id).contains('#'))?;
        Some((name.clone(), resized(&like.1.name, &digits)))
    });
    new.map(|(name, words)| (name, Some(words)))
}

/// `hex 27 mm` with 24 is `hex 24 mm`.
fn resized(name: &str, digits: &str) -> String {
    shape(name).replacen('#', digits, 1)
}

impl Made {
    fn text(&self, base: &Bike, id: &str) -> String {
        let quote = |text: &str| serde_json::Value::from(text).to_string();
        let mut text = say!(
            "# Read from a sheet that was filled in at the bike; what is not here is as for {}.\n# Name this file under `catalogues` in \
             your scenario, and `bike: {id}` under the rider.\n\n",
            base.id
        );
        if !self.functions.is_empty() {
            text += "functions:\n";
            for (function, name) in &self.functions {
                text += &format!("  {}: {{ name: {} }}\n", quote(function), quote(name));
            }
        }
        text += &format!("bikes:\n  {}:\n    like: {}\n", quote(id), quote(&base.id));
        let ranges = Surface::ALL.iter().map(|surface| (surface, self.plain.get(&range_key(*surface))));
        if let Some(range) = base.energy.range().filter(|_| ranges.clone().any(|(_, own)| own.is_some())) {
            // What was not filled in stays as for the base: a range is taken over whole or not at all.
            let each = ranges.map(|(surface, own)| {
                let kept = || range.on(*surface).show(UnitSystem::Metric);
                format!("{}: {}", surface.word(), quote(&own.cloned().unwrap_or_else(kept)))
            });
            text += &format!("    range: {{ {} }}\n", each.collect::<Vec<_>>().join(", "));
        }
        for (key, value) in self.plain.iter().filter(|(key, _)| surface(key).is_none()) {
            let number = key.ends_with("load_index");
            text += &format!("    {key}: {}\n", if number { value.clone() } else { quote(value) });
        }
        if !self.attributes.is_empty() {
            text += "    attributes:\n";
            for (key, value) in &self.attributes {
                text += &format!("      {key}: {}\n", quote(value));
            }
        }
        text + "    basis: ride log; read at the bike\n"
    }
}
