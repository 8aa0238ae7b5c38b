//! Attribute values that refer to other attributes: `front_axle: hex {front_axle_nut}`.

use crate::diagnostic::Code;
use crate::domain::Map;
use crate::domain::template::{self, TemplateError};
use crate::load::file::Text;
use crate::load::findings::{Findings, Place};
use fardel_words::say;

/// Most bytes of a filled value; a longer one is a slip or a trap.
const LONGEST: usize = 200;
/// Most attributes that refer to each other in a row, and most holes in one of them.
const DEEPEST: usize = 16;

/// Why a value cannot be filled.
enum Unfilled {
    Template(TemplateError),
    TooLarge,
}

/// The attributes with every hole filled. What cannot be filled is told and left as it is.
pub(super) fn filled(shapes: Map<Text>, place: &Place, findings: &mut Findings) -> Map<String> {
    let raw: Map<String> = shapes.into_iter().map(|(name, text)| (name, text.0)).collect();
    let mut done = Map::new();
    for name in raw.keys() {
        if let Err(error) = fill(name, &raw, &mut done, &mut Vec::new()) {
            tell(error, &raw, &place.key(name), findings);
            findings.spoil(&place.key(name));
        }
    }
    raw.into_iter()
        .map(|(name, text)| {
            let value = done.swap_remove(&name).unwrap_or(text);
            (name, value)
        })
        .collect()
}

/// Fills one value after those it refers to, so that each is filled once.
fn fill(name: &str, raw: &Map<String>, done: &mut Map<String>, open: &mut Vec<String>) -> Result<(), Unfilled> {
    if done.contains_key(name) {
        return Ok(());
    }
    let Some(text) = raw.get(name) else { return Err(Unfilled::Template(TemplateError::Missing(name.to_owned()))) };
    if open.iter().any(|other| other == name) {
        return Err(Unfilled::Template(TemplateError::Cyclic(name.to_owned())));
    }
    if open.len() >= DEEPEST {
        return Err(Unfilled::TooLarge);
    }
    open.push(name.to_owned());
    let holes = template::holes(text).map_err(Unfilled::Template)?;
    if holes.len() > DEEPEST {
        return Err(Unfilled::TooLarge);
    }
    for hole in holes {
        fill(hole, raw, done, open)?;
    }
    open.pop();
    let value = template::fill(text, done).map_err(Unfilled::Template)?;
    if value.len() > LONGEST {
        return Err(Unfilled::TooLarge);
    }
    done.insert(name.to_owned(), value);
    Ok(())
}

fn tell(error: Unfilled, raw: &Map<String>, place: &Place, findings: &mut Findings) {
    match error {
        Unfilled::Template(error) => {
            let near = match &error {
                TemplateError::Missing(name) => findings.nearest(place, name, raw.keys().map(String::as_str)),
                _ => None,
            };
            let expected = say!("braces around the name of another attribute of this bike");
            findings.add(Code::BrokenTemplate, place, error.to_string(), expected, near);
        }
        Unfilled::TooLarge => {
            let expected = say!("at most {LONGEST} bytes once filled, and {DEEPEST} references");
            findings.add(Code::TooLarge, place, say!("a value that grows without measure"), expected, None);
        }
    }
}
