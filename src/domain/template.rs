//! Names with holes: `hex {rear_axle_nut}` becomes `hex 27 mm` on a bike whose rear axle nut is 27 mm.

use super::Map;
use thiserror::Error;

/// Why a name with holes could not be filled.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TemplateError {
    /// The bike does not say.
    #[error("the bike has no attribute `{0}`")]
    Missing(String),
    /// Values that refer to each other in a ring.
    #[error("attribute `{0}` refers to itself, directly or through others")]
    Cyclic(String),
    /// An opening brace without its partner.
    #[error("`{0}` has an unclosed or empty `{{}}`")]
    Broken(String),
}

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
/// [`TemplateError`] when a value is missing, when values refer to each other in a ring, or when a brace is unclosed.
pub fn fill(text: &str, values: &Map<String>) -> Result<String, TemplateError> {
    fill_below(text, values, &mut Vec::new())
}

fn fill_below(text: &str, values: &Map<String>, open: &mut Vec<String>) -> Result<String, TemplateError> {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    for hole in holes(text)? {
        let start = rest.find('{').unwrap_or(0);
        filled.push_str(&rest[..start]);
        let end = rest.find('}').unwrap_or(start);
        rest = &rest[end + 1..];
        if open.iter().any(|name| name == hole) {
            return Err(TemplateError::Cyclic(hole.to_owned()));
        }
        let value = values.get(hole).ok_or_else(|| TemplateError::Missing(hole.to_owned()))?;
        open.push(hole.to_owned());
        filled.push_str(&fill_below(value, values, open)?);
        open.pop();
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
    }

    #[test]
    fn missing_cyclic_and_broken_are_told_apart() {
        let ring = values(&[("a", "{b}"), ("b", "{a}")]);
        assert_eq!(fill("{c}", &ring), Err(TemplateError::Missing("c".to_owned())));
        assert_eq!(fill("{a}", &ring), Err(TemplateError::Cyclic("a".to_owned())));
        assert_eq!(fill("hex {a", &ring), Err(TemplateError::Broken("hex {a".to_owned())));
        assert_eq!(fill("hex {}", &ring), Err(TemplateError::Broken("hex {}".to_owned())));
    }
}
