//! A whole answer laid out as it comes, where no part needs columns of its own.

use super::table::{Set, table};
use super::{Look, heading, titled, wrapped};
use crate::view::document::{Document, Part};
use fardel_words::word;

pub(super) fn document(own: &Document, look: &Look) -> String {
    let head = titled(&own.title, look) + &wrapped(&own.who, look, "") + "\n" + &super::brief::lines(&own.lines, look);
    let parts = own.parts.iter().map(|part| self::part(part, look));
    let care = own
        .care
        .iter()
        .fold(heading(word!("Take care")), |text, line| text + &wrapped(&format!("- {line}"), look, "  "));
    std::iter::once(head).chain(parts).chain([care]).collect::<Vec<_>>().join("\n")
}

fn part(part: &Part, look: &Look) -> String {
    let mut text = titled(&part.title, look);
    if !part.legend.is_empty() {
        text += &wrapped(&format!("  {}", part.legend), look, "  ");
    }
    if let Some(rows) = &part.rows {
        let set = |number: &bool| if *number { Set::Right(None) } else { Set::Left(None) };
        let head: Vec<&str> = rows.head.iter().map(String::as_str).filter(|text| !text.is_empty()).collect();
        text += &table(&head, &rows.numbers.iter().map(set).collect::<Vec<_>>(), rows.rows.clone(), look);
    }
    part.ticks.iter().for_each(|tick| text += &wrapped(&format!("  [ ] {}: {}", tick.name, tick.text), look, "      "));
    part.notes.iter().for_each(|note| text += &wrapped(&format!("- {note}"), look, "  "));
    text
}
