//! What a search found, and one entry of the catalogue.

use super::table::{Set, table};
use super::{Look, heading, strong, wrapped};
use fardel_core::find::{Entry, Found, Hit, Sort};
use fardel_words::{say, word};

/// The entries found, by sort.
#[must_use]
pub fn found(found: &Found, look: &Look) -> String {
    if found.hits.is_empty() {
        let near = found.nearest.as_ref().map_or_else(String::new, |id| say!(" Did you mean `{id}`?"));
        return wrapped(&say!("Nothing is called `{}`, and nothing mends it.{near}", found.word), look, "");
    }
    let mut text = String::new();
    for hits in found.hits.chunk_by(|a, b| a.sort == b.sort) {
        text += &heading(hits[0].sort.plural());
        let rows = hits.iter().map(row).collect();
        text += &table(&[], &[Set::Left(None), Set::Left(None)], rows, look);
    }
    if found.left_out > 0 {
        text += &wrapped(&say!("{} more left out; `--all` shows them.", found.left_out), look, "");
    }
    let first = &found.hits[0].id;
    text + "\n" + &wrapped(&say!("Everything about one of them: fardel show {first}"), look, "  ")
}

fn row(hit: &Hit) -> Vec<String> {
    let serves = hit.serves.as_ref().map_or_else(String::new, |serves| say!("; for: {serves}"));
    let name = if hit.sort == Sort::Repair { hit.name.clone() } else { format!("{}{serves}", hit.name) };
    vec![hit.id.clone(), name]
}

/// Everything known of one entry.
#[must_use]
pub fn entry(entry: &Entry, look: &Look) -> String {
    let mut text = wrapped(&strong(&entry.name), look, "");
    text += &wrapped(&format!("{}, {}", entry.id, singular(entry.sort)), look, "");
    text += "\n";
    let rows = entry.facts.iter().map(|fact| vec![fact.label.clone(), fact.text.clone()]).collect();
    text += &table(&[], &[Set::Left(None), Set::Left(None)], rows, look);
    for list in &entry.lists {
        text += "\n";
        text += &super::titled(&list.title, look);
        for line in &list.entries {
            let id = line.id.as_ref().map_or_else(String::new, |id| format!(" [{id}]"));
            text += &unbroken(&format!("- {}{id}", line.text), look);
        }
    }
    text + "\n" + &wrapped(&say!("Basis of the numbers: {}", entry.basis), look, "  ")
}

/// Wrapped, ids in one piece.
fn unbroken(text: &str, look: &Look) -> String {
    let options = textwrap::Options::new(look.width)
        .subsequent_indent("  ")
        .word_separator(textwrap::WordSeparator::AsciiSpace)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    format!("{}\n", textwrap::fill(text, options))
}

fn singular(sort: Sort) -> &'static str {
    match sort {
        Sort::Item => word!("an item"),
        Sort::Failure => word!("a failure"),
        Sort::Repair => word!("a repair"),
        Sort::Bike => word!("a bike"),
        Sort::Bag => word!("a bag"),
        Sort::Preparation => word!("a preparation"),
    }
}
