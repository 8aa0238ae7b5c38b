//! Texts with holes, filled.

use crate::number::number;
use crate::table::{translated, words};
use std::fmt::Arguments;

/// What goes into a hole.
#[derive(Debug, Clone, Copy)]
pub struct Hole<'a> {
    /// As in the text; where the text has none, its number.
    pub name: &'a str,
    /// Is it a number that may have decimals?
    pub number: bool,
    /// Formatted as the English text asks.
    pub text: Arguments<'a>,
}

/// A text of the program in the language that is spoken, with its holes filled.
#[must_use]
pub fn said(text: &str, holes: &[Hole<'_>]) -> String {
    filled(words(text).and_then(|words| words.first()).map_or(text, |found| *found), holes)
}

/// A text of the program with its holes filled by texts.
#[must_use]
pub fn said_with(text: &str, holes: &[(&str, &str)]) -> String {
    let mut pattern = translated(text);
    let mut filled = String::new();
    while let Some((before, after)) = pattern.split_once('{') {
        filled.push_str(before);
        let (name, rest) = after.split_once('}').unwrap_or((after, ""));
        filled.push_str(holes.iter().find(|hole| hole.0 == name).map_or("", |hole| hole.1));
        pattern = rest;
    }
    filled + pattern
}

/// The pattern with its holes filled; doubled braces are braces.
pub(crate) fn filled(pattern: &str, holes: &[Hole<'_>]) -> String {
    let mut text = String::with_capacity(pattern.len() + 16 * holes.len());
    let (mut rest, mut next) = (pattern, 0);
    while let Some(at) = rest.find(['{', '}']) {
        text.push_str(&rest[..at]);
        let (brace, after) = rest[at..].split_at(1);
        if after.starts_with(brace) {
            text.push_str(brace);
            rest = &after[1..];
            continue;
        }
        let end = after.find('}').unwrap_or(after.len());
        let name = after[..end].split(':').next().unwrap_or_default().trim();
        let numbered = next.to_string();
        let name = if name.is_empty() {
            next += 1;
            &numbered
        } else {
            name
        };
        if let Some(hole) = holes.iter().find(|hole| hole.name == name) {
            let shown = hole.text.to_string();
            text.push_str(&if hole.number { number(shown) } else { shown });
        }
        rest = after.get(end + 1..).unwrap_or_default();
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    use crate::{Language, say, several, within};

    #[test]
    fn holes_are_filled_as_format_fills_them() {
        let (name, share, width) = ("pump", 0.256, 6);
        assert_eq!(say!("{name}: {share:.1} {{x}} {0:>width$}|{1}", 1.5, name.len()), "pump: 0.3 {x}    1.5|4");
        assert_eq!(say!("{} {} {n:?}", 1, 2, n = "a"), "1 2 \"a\"");
        assert_eq!(say!("nothing"), "nothing");
    }

    #[test]
    fn decimals_follow_the_language() {
        let german = Language::read("de").unwrap();
        let share = 2.5;
        assert_eq!(within(german, || say!("{share} {0:.2} {1}", 1.0, "1.5")), "2,5 1,00 1.5");
        assert_eq!(say!("{share}"), "2.5");
        assert_eq!(several!(2_u32, "{n} x", "{n} x of {share:.1}"), "2 x of 2.5");
    }
}
