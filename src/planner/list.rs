//! A list of things as somebody keeps or types it: what each line is taken for.

use crate::host::Host;
use crate::refused::Refused;
use fardel_core::load::{self, List, Source};
use fardel_report::json;
use fardel_words::{say, word};
use serde::Deserialize;

/// A list, pasted or read.
#[derive(Debug, Deserialize)]
pub(crate) struct Pasted {
    /// A spreadsheet with a heading, or a thing a line: `2 x tyre lever, 120 g`.
    rows: String,
    /// Confirmed names, as a file of names beside a list.
    #[serde(default)]
    names: Option<String>,
}

/// Longest list that is taken line by line.
const MOST_LINES: usize = 500;
/// What a list without a heading is called.
const NAME: &str = "list.csv";

/// What each line is taken for.
pub(crate) fn matched(host: &Host, pasted: &Pasted) -> Result<String, Refused> {
    let names = pasted.names.as_ref().map(|text| Source { name: "list.names.csv".to_owned(), text: text.clone() });
    let read = |text: String| -> Result<List, Refused> {
        let source = Source { name: NAME.to_owned(), text };
        Ok(load::list_text(Ok(source), names.clone().map(Ok), host.catalogue(), &[])?)
    };
    // Each line is compared with every name of the catalogue, so that their number is looked at first.
    let lines = pasted.rows.lines().filter(|line| !line.trim().is_empty()).count();
    if lines > MOST_LINES {
        return Err(Refused::words(say!("{lines} lines: at most {MOST_LINES} are expected")));
    }
    // With a heading it is a spreadsheet; otherwise every line is a thing.
    let list = match read(pasted.rows.clone()) {
        Ok(list) => list,
        Err(refused) if looks_like_a_sheet(&pasted.rows) => return Err(refused),
        Err(_) => read(as_rows(&pasted.rows)?)?,
    };
    Ok(json::list(&list)?)
}

/// A first line of several cells, none of which has a digit.
fn looks_like_a_sheet(text: &str) -> bool {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    first.contains([',', ';', '\t'])
        && !first.contains(|c: char| c.is_ascii_digit())
        && text.lines().count() > 1
        && text.lines().filter(|line| line.contains([',', ';', '\t'])).count()
            == text.lines().filter(|line| !line.trim().is_empty()).count()
}

/// Lines as the rows of a list: name, how many, mass of one.
fn as_rows(text: &str) -> Result<String, Refused> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    if lines.is_empty() {
        return Err(Refused::words(word!(
            "an empty list: a thing on each line is expected, such as `2 x tyre lever, 120 g`"
        )));
    }
    let mut rows = "item,qty,weight\n".to_owned();
    for line in lines {
        let typed = Typed::read(line);
        let name = typed.name.replace('"', "\"\"");
        rows += &format!("\"{name}\",{},{}\n", typed.count, typed.mass);
    }
    Ok(rows)
}

/// A line as typed: `- 2 x tyre lever, 120 g`.
#[derive(Debug, PartialEq)]
struct Typed {
    name: String,
    count: u32,
    mass: String,
}

impl Typed {
    fn read(line: &str) -> Self {
        let words: Vec<&str> = line
            .trim_start_matches(['-', '*', '\u{2022}', ' '])
            .split([' ', '\t', ',', ';', '(', ')'])
            .filter(|word| !word.is_empty())
            .collect();
        let (mut words, mass) = without_mass(&words);
        let count = without_count(&mut words);
        let name = if words.is_empty() { line.to_owned() } else { words.join(" ") };
        Self { name, count, mass }
    }
}

/// The words without a mass at their end, and the mass.
fn without_mass<'a>(words: &[&'a str]) -> (Vec<&'a str>, String) {
    let is_unit = |word: &str| matches!(word.to_ascii_lowercase().as_str(), "g" | "kg" | "oz" | "lb" | "lbs");
    let is_number = |word: &str| word.parse::<f64>().is_ok_and(|value| value.is_finite() && value >= 0.0);
    if let [rest @ .., number, unit] = words
        && is_unit(unit)
        && is_number(number)
    {
        return (rest.to_vec(), format!("{number} {}", unit.to_ascii_lowercase()));
    }
    if let [rest @ .., last] = words {
        let at = last.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(last.len());
        let (number, unit) = last.split_at(at);
        if is_number(number) && is_unit(unit) {
            return (rest.to_vec(), format!("{number} {}", unit.to_ascii_lowercase()));
        }
    }
    (words.to_vec(), String::new())
}

/// Takes a count from the beginning or the end: `2 x`, `2x`, `x2`.
fn without_count(words: &mut Vec<&str>) -> u32 {
    let number = |word: &str| word.parse::<u32>().ok().filter(|count| (1..=999).contains(count));
    let times = |word: &str| word.eq_ignore_ascii_case("x") || word == "\u{d7}";
    let joined = |word: &str| {
        let bare = word.trim_matches(|c: char| c.eq_ignore_ascii_case(&'x') || c == '\u{d7}');
        if bare.len() == word.len() { None } else { number(bare) }
    };
    let (count, from, to) = match words.as_slice() {
        [first, second, ..] if times(second) && number(first).is_some() => (number(first), 2, 0),
        [first, _, ..] if joined(first).is_some() => (joined(first), 1, 0),
        [first, _, ..] if number(first).is_some() => (number(first), 1, 0),
        [_, .., x, last] if times(x) && number(last).is_some() => (number(last), 0, 2),
        [_, .., last] if joined(last).is_some() => (joined(last), 0, 1),
        _ => (None, 0, 0),
    };
    words.drain(..from);
    words.truncate(words.len() - to);
    count.unwrap_or(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_line_is_a_name_a_count_and_a_mass() {
        let read = |line: &str| {
            let Typed { name, count, mass } = Typed::read(line);
            (name, count, mass)
        };
        let told = |name: &str, count, mass: &str| (name.to_owned(), count, mass.to_owned());
        assert_eq!(read("- 2 x tyre lever, 120 g"), told("tyre lever", 2, "120 g"));
        assert_eq!(read("tyre lever x2"), told("tyre lever", 2, ""));
        assert_eq!(read("3x zip tie 5g"), told("zip tie", 3, "5 g"));
        assert_eq!(read("2 tubes (1.1kg)"), told("tubes", 2, "1.1 kg"));
        assert_eq!(read("21 inch tube"), told("inch tube", 21, ""));
        assert_eq!(read("headlamp"), told("headlamp", 1, ""));
        assert_eq!(read("-"), told("-", 1, ""));
    }
}
