//! Names that every reader of model files takes: letters, digits and underscores, none twice.

use crate::Model;

/// Longest part of a name that is taken over; some readers stop at 255 letters, and eyes much sooner.
const LONGEST: usize = 40;

/// Safe names for the columns and rows of a model, by number.
pub(super) struct Names {
    pub columns: Vec<String>,
    pub rows: Vec<String>,
}

impl Names {
    pub fn new(model: &Model) -> Self {
        let column = |(at, name): (usize, &str)| safe('x', at, name);
        let row = |(at, name): (usize, String)| safe('r', at, &name);
        Self {
            columns: model.columns.iter().map(|c| c.name.as_str()).enumerate().map(column).collect(),
            rows: model.rows.iter().map(|r| format!("{} {}", r.family, r.key)).enumerate().map(row).collect(),
        }
    }
}

/// `x12_n_tyre_lever`: the number makes it unique, and the letter in front keeps it from looking like a number.
fn safe(letter: char, at: usize, name: &str) -> String {
    let mut safe = format!("{letter}{at}");
    let words = name.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let start = safe.len();
    for word in words {
        if safe.len() - start + word.len() >= LONGEST {
            break;
        }
        safe.push('_');
        safe.push_str(word);
    }
    safe
}

/// A comment holds one line of plain text.
pub(super) fn one_line(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_safe_and_unique() {
        assert_eq!(safe('x', 12, "n[tyre-lever]"), "x12_n_tyre_lever");
        assert_eq!(safe('x', 3, "h[hex 24 mm, 2]"), "x3_h_hex_24_mm_2");
        assert_ne!(safe('x', 1, "é"), safe('x', 2, "è"));
        assert!(safe('r', 7, &"long ".repeat(50)).len() < 50);
        assert_eq!(one_line("two\nlines"), "two lines");
    }
}
