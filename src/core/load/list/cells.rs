//! Cells as riders fill them: `1,2 kg`, `~200g`, `1 lb 3 oz`, `2x`, `tyre levers (2)`.

use super::heading::unit;

/// A mass in grams from a cell; `bare` is the unit of a number without one.
///
/// # Errors
/// `true` if only the unit is missing.
pub(super) fn grams(cell: &str, bare: &str, comma_is_point: bool) -> Result<f64, bool> {
    let text = cell.trim().trim_start_matches(['~', '≈', '<', '>']).trim();
    let text = ["ca.", "ca ", "about ", "approx.", "approx ", "c. "]
        .iter()
        .fold(text, |text, word| text.strip_prefix(word).unwrap_or(text));
    let parts = parts(text, comma_is_point).ok_or(false)?;
    let mut sum = 0.0;
    for (number, word) in &parts {
        let name = if word.is_empty() { bare } else { unit(word).ok_or(false)? };
        // The pound and the ounce of 1959: 453.59237 g and its sixteenth.
        sum += number
            * match name {
                "g" => 1.0,
                "kg" => 1000.0,
                "lb" => 453.592_37,
                "oz" => 28.349_523_125,
                "" => return Err(true),
                _ => return Err(false),
            };
    }
    Ok(sum).filter_finite()
}

trait Finite {
    fn filter_finite(self) -> Result<f64, bool>;
}

impl Finite for Result<f64, bool> {
    fn filter_finite(self) -> Result<f64, bool> {
        self.and_then(|value| if value.is_finite() && (0.0..=1e6).contains(&value) { Ok(value) } else { Err(false) })
    }
}

/// Numbers with the words after them: `1 lb 3 oz`.
fn parts(text: &str, comma_is_point: bool) -> Option<Vec<(f64, String)>> {
    let mut parts = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(rest.len());
        let value = number(&rest[..end], comma_is_point)?;
        rest = rest[end..].trim_start();
        let end = rest.find(|c: char| c.is_ascii_digit()).unwrap_or(rest.len());
        parts.push((value, rest[..end].trim().trim_end_matches(',').to_owned()));
        rest = &rest[end..];
    }
    (!parts.is_empty()).then_some(parts)
}

/// `1,2` and `1.2`; `1,200` is one thousand two hundred, and so is `1.200` where the comma is the decimal point.
pub(super) fn number(text: &str, comma_is_point: bool) -> Option<f64> {
    let thousands = |separator: char| {
        let (before, after) = text.split_once(separator)?;
        let is =
            after.len() == 3 && !before.is_empty() && before != "0" && before.len() <= 3 && !after.contains(['.', ',']);
        is.then(|| format!("{before}{after}"))
    };
    let plain = if text.contains(',') && text.contains('.') {
        let point = if text.rfind(',') > text.rfind('.') { ',' } else { '.' };
        text.chars().filter(|c| c.is_ascii_digit() || *c == point).map(|c| if c == point { '.' } else { c }).collect()
    } else if text.contains(',') {
        thousands(',').filter(|_| !comma_is_point).unwrap_or_else(|| text.replace(',', "."))
    } else {
        thousands('.').filter(|_| comma_is_point).unwrap_or_else(|| text.to_owned())
    };
    plain.parse().ok()
}

/// A count from a cell: `2`, `2x`, `x2`, `2 pcs`, `2,0`.
pub(super) fn count(cell: &str) -> Option<u32> {
    let text = cell.trim().to_lowercase();
    let text = text.trim_start_matches(['x', '×']).trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let word = text[end..].trim();
    let known = ["", "x", "×", "pcs", "pc", "pieces", "piece", "ea", "each", "off", "pair"].contains(&word);
    let value =
        number(&text[..end], true).filter(|value| known && value.fract() == 0.0 && (0.0..=10_000.0).contains(value))?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number within bounds")]
    let value = value as u32;
    Some(if word == "pair" { value * 2 } else { value })
}

/// A name without the count that stands in it: `2x tyre lever`, `tyre levers x2`, `tyre levers (2)`.
pub(super) fn counted_name(cell: &str) -> (String, Option<u32>) {
    let text = cell.trim();
    if let Some((first, rest)) = text.split_once(char::is_whitespace)
        && first.to_lowercase().ends_with(['x', '×'])
        && let Some(count) = first.to_lowercase().strip_suffix(['x', '×']).and_then(|digits| digits.parse().ok())
    {
        return (rest.trim().to_owned(), Some(count));
    }
    if let Some((before, last)) = text.rsplit_once(char::is_whitespace) {
        let last = last.to_lowercase();
        let inner = last.strip_prefix('(').and_then(|own| own.strip_suffix(')')).unwrap_or(&last);
        let marked = inner.len() < last.len() || inner.starts_with(['x', '×']);
        let digits = inner.trim_matches(['x', '×']);
        if let Some(count) = digits.parse().ok().filter(|_| marked) {
            return (before.trim().to_owned(), Some(count));
        }
    }
    (text.to_owned(), None)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn masses_in_every_usual_form() {
        let same = [
            ("210", "g", 210.0),
            ("0,21", "kg", 210.0),
            ("210g", "", 210.0),
            ("~ 210 gr", "kg", 210.0),
            ("1.2 kg", "g", 1200.0),
        ];
        for (cell, bare, grams_) in same {
            assert!(grams(cell, bare, true).is_ok_and(|found| (found - grams_).abs() < 1e-9), "{cell}");
        }
        // 1 lb 3 oz = 19 x 28.349523125 g
        assert!(grams("1 lb 3 oz", "", false).is_ok_and(|found| (found - 538.640_939).abs() < 1e-6));
        assert_eq!(grams("1,200", "g", false), Ok(1200.0));
        assert_eq!(grams("1.200,5", "g", true), Ok(1200.5));
        assert_eq!(grams("210", "", false), Err(true));
        assert_eq!(grams("heavy", "g", false), Err(false));
        assert_eq!(grams("-5 g", "g", false), Err(false));
    }

    #[test]
    fn counts_in_cells_and_names() {
        assert_eq!(
            (count("2"), count("x2"), count("3 pcs"), count("1.5"), count("many")),
            (Some(2), Some(2), Some(3), None, None)
        );
        assert_eq!(counted_name("2x tyre lever"), ("tyre lever".to_owned(), Some(2)));
        assert_eq!(counted_name("tyre levers (3)"), ("tyre levers".to_owned(), Some(3)));
        assert_eq!(counted_name("tyre levers x2"), ("tyre levers".to_owned(), Some(2)));
        assert_eq!(counted_name("spanner 13"), ("spanner 13".to_owned(), None));
    }
}
