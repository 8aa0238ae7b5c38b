//! Names with holes: `hex {rear_axle_nut}` becomes `hex 27 mm` on a bike whose rear axle nut is 27 mm.

use super::Map;
use fardel_words::say;
use thiserror::Error;

/// Why a name with holes could not be filled.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TemplateError {
    /// The bike does not say.
    #[error("{}", say!("the bike has no attribute `{0}`", .0))]
    Missing(String),
    /// Values that refer to each other in a ring.
    #[error("{}", say!("attribute `{0}` refers to itself, directly or through others", .0))]
    Cyclic(String),
    /// An opening brace without its partner.
    #[error("{}", say!("`{0}` has an unclosed or empty `{{}}`", .0))]
    Broken(String),
    /// Values within values that never come to an end, or fill a book.
    #[error("{}", say!("attribute `{0}` leads to more than a name can hold", .0))]
    TooLarge(String),
}

/// Deepest that values within values of a name are filled.
const DEEPEST: usize = 16;
/// Most holes filled for one name, those in values counted as often as they are used.
const MOST_HOLES: usize = 1000;
/// Most bytes of a filled name.
const LONGEST: usize = 4000;

/// The attribute names in the holes of `text`, in order.
///
/// # Errors
/// [`TemplateError::Broken`] for an unclosed or empty hole.
pub fn holes(text: &str) -> Result<Vec<&str>, TemplateError> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(open) = rest.find('{') {
        let tail = &rest[open + 1..];
        let close = tail.find('}').ok_or_else(|| TemplateError::Broken(text.to_owned()))?;
        let hole = tail[..close].trim();
        if hole.is_empty() || hole.contains('{') {
            return Err(TemplateError::Broken(text.to_owned()));
        }
        found.push(hole);
        rest = &tail[close + 1..];
    }
    Ok(found)
}

/// Fills every hole of `text` from `values`; a value may itself have holes.
///
/// # Errors
/// [`TemplateError`] when a value is missing, when values refer to each other in a ring, when a brace is unclosed, or
/// when values lead to values more than 16 deep, a thousand times, or to more than 4000 bytes.
pub fn fill(text: &str, values: &Map<String>) -> Result<String, TemplateError> {
    fill_below(text, values, &mut Vec::new(), &mut 0)
}

fn fill_below(
    text: &str,
    values: &Map<String>,
    open: &mut Vec<String>,
    done: &mut usize,
) -> Result<String, TemplateError> {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    for hole in holes(text)? {
        // A closing brace in front of the hole is a letter like any other.
        let (before, inside) = rest.split_once('{').unwrap_or((rest, ""));
        filled.push_str(before);
        rest = inside.split_once('}').map_or("", |(_, after)| after);
        if open.iter().any(|name| name == hole) {
            return Err(TemplateError::Cyclic(hole.to_owned()));
        }
        let value = values.get(hole).ok_or_else(|| TemplateError::Missing(hole.to_owned()))?;
        *done += 1;
        open.push(hole.to_owned());
        if open.len() > DEEPEST || *done > MOST_HOLES {
            return Err(TemplateError::TooLarge(hole.to_owned()));
        }
        filled.push_str(&fill_below(value, values, open, done)?);
        open.pop();
        if filled.len() > LONGEST {
            return Err(TemplateError::TooLarge(hole.to_owned()));
        }
    }
    filled.push_str(rest);
    Ok(filled)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(pairs: &[(&str, &str)]) -> Map<String> {
        pairs.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect()
    }

    #[test]
    fn fills_holes_and_holes_in_values() {
        let bike = values(&[("nut", "27 mm"), ("axle", "hex {nut}")]);
        assert_eq!(fill("hex {nut}", &bike), Ok("hex 27 mm".to_owned()));
        assert_eq!(fill("{axle}", &bike), Ok("hex 27 mm".to_owned()));
        assert_eq!(fill("plain", &bike), Ok("plain".to_owned()));
        assert_eq!(fill("{nut} and {nut}", &bike), Ok("27 mm and 27 mm".to_owned()));
        assert_eq!(fill("a } b {nut} }", &bike), Ok("a } b 27 mm }".to_owned()));
    }

    #[test]
    fn missing_cyclic_and_broken_are_told_apart() {
        let ring = values(&[("a", "{b}"), ("b", "{a}")]);
        assert_eq!(fill("{c}", &ring), Err(TemplateError::Missing("c".to_owned())));
        assert_eq!(fill("{a}", &ring), Err(TemplateError::Cyclic("a".to_owned())));
        assert_eq!(fill("hex {a", &ring), Err(TemplateError::Broken("hex {a".to_owned())));
        assert_eq!(fill("hex {}", &ring), Err(TemplateError::Broken("hex {}".to_owned())));
    }

    #[test]
    fn values_that_grow_without_measure_are_refused() {
        let chain = |times: usize| -> Map<String> {
            let ends = [("v40".to_owned(), String::new())];
            (0..40).map(|at| (format!("v{at}"), format!("{{v{}}}", at + 1).repeat(times))).chain(ends).collect()
        };
        assert_eq!(fill("{v25}", &chain(1)), Ok(String::new()));
        assert_eq!(fill("{v24}", &chain(1)), Err(TemplateError::TooLarge("v40".to_owned())));
        assert!(matches!(fill("{v30}", &chain(10)), Err(TemplateError::TooLarge(_))));
        let long = values(&[("a", &"x".repeat(3000))]);
        assert_eq!(fill("{a}{a}", &long), Err(TemplateError::TooLarge("a".to_owned())));
    }
}
