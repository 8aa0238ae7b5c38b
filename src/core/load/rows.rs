//! A spreadsheet saved as CSV as a tree: one entry a row, under `items`, so that it is read like any other file.
//!
//! The separator is a comma, a semicolon or a tab, whichever the heading has most of; where it is not a comma, numbers
//! may have a decimal comma. A heading may carry the unit of its column: `mass (g)`.
//!
//! Cells may be quoted, a byte order mark is skipped, columns come in any order and case: `id`, `name` (or item),
//! `count` (quantity, number), `mass` (weight), `volume`, `longest` (length), `price` (cost), `kind`, `remarks`
//! (notes). Another column is the fault `unknown-key`; a row that cannot be read is reported with its line and column. A spreadsheet
//! with a column `bag_id` is one that `pack` or `split` wrote: of it only `id`, `count` and `bag_id` are read.

use super::findings::{Findings, Place};
use super::node::Node;
use super::tree::LONGEST_TEXT;
use crate::diagnostic::{Code, nearest, quoted};
use crate::domain::Map;
use csv::{ReaderBuilder, StringRecord, Trim};
use fardel_words::{say, several, word};

/// Most bytes of a spreadsheet; larger ones are refused before they are read.
pub(super) const LARGEST_FILE: usize = 4 << 20;
/// Most rows; nobody owns more.
pub(super) const MOST_ROWS: usize = 20_000;
/// Most columns, read or not.
pub(super) const MOST_COLUMNS: usize = 200;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holds {
    Text,
    Number,
    Quantity,
    /// Not read.
    Nothing,
}

/// The columns: key in the tree, other headings for it, what it holds.
const COLUMNS: &[(&str, &[&str], Holds)] = &[
    ("id", &[], Holds::Text),
    ("name", &["item"], Holds::Text),
    ("count", &["quantity", "number"], Holds::Number),
    ("mass", &["weight"], Holds::Quantity),
    ("volume", &[], Holds::Quantity),
    ("longest", &["length"], Holds::Quantity),
    ("price", &["cost"], Holds::Quantity),
    ("kind", &[], Holds::Text),
    ("remarks", &["remark", "notes", "note"], Holds::Text),
];

/// A spreadsheet with this column is one that the program wrote: a kit, of which only ids, counts and bags are read.
const WRITTEN_WITH: &str = "bag_id";

/// A column of this file.
struct Column {
    key: &'static str,
    holds: Holds,
    unit: String,
}

/// Is this the name of a spreadsheet?
pub(super) fn is_rows(name: &str) -> bool {
    let ending = name.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    ending == "csv" || ending == "tsv"
}

/// The rows of a text, cells without spaces around them; rows may differ in length, and what is no row is passed over.
pub(super) fn records(text: &str, separator: u8) -> impl Iterator<Item = StringRecord> {
    let mut builder = ReaderBuilder::new();
    builder.has_headers(false).flexible(true).trim(Trim::All).delimiter(separator);
    builder.from_reader(text.as_bytes()).into_records().filter_map(Result::ok)
}

/// The tree, or `None` when the heading is of no use. What is wrong with single rows is told, and the rest kept.
pub(super) fn parse(text: &str, file: usize, findings: &mut Findings) -> Option<Node> {
    let whole = Place { file, ..Place::default() };
    if text.len() > LARGEST_FILE {
        let (found, expected) = (word!("a file of more than 4 MB"), word!("a file of at most 4 MB"));
        findings.add(Code::TooLarge, &whole, found.to_owned(), expected.to_owned(), None);
        return None;
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let separator = separator(text);
    let mut records = records(text, separator).filter(|row| row.iter().any(|cell| !cell.is_empty()));
    let Some(heading) = records.next() else {
        let expected = say!("a heading such as `id,count,mass` and a row for each thing");
        findings.add(Code::NothingThere, &whole, say!("an empty file"), expected, None);
        return None;
    };
    if heading.len() > MOST_COLUMNS || is_long(&heading) {
        let found = say!("a heading without measure");
        let expected = say!("at most {MOST_COLUMNS} columns, each with at most {LONGEST_TEXT} bytes as its title");
        findings.add_at(Code::TooLarge, &whole, Some(line(&heading)), found, expected, None);
        return None;
    }
    let columns = columns(&heading, file, findings)?;
    let records: Vec<StringRecord> = records.take(MOST_ROWS + 1).collect();
    if records.len() > MOST_ROWS {
        let expected = say!("at most {MOST_ROWS} rows");
        findings.add(Code::TooLarge, &whole, say!("more rows"), expected, None);
        return None;
    }
    unclosed(text, records.last().unwrap_or(&heading), file, findings);
    let sound = records
        .iter()
        .filter(|record| !too_long(record, file, findings) && !too_wide(record, &columns, separator, file, findings));
    let (lines, entries) = sound.map(|record| (line(record), entry(record, &columns, separator))).unzip();
    findings.set_rows(file, lines);
    Some(Node::Map(Map::from_iter([("items".to_owned(), Node::List(entries))])))
}

fn line(record: &StringRecord) -> usize {
    record.position().map_or(0, |at| usize::try_from(at.line()).unwrap_or(0))
}

/// Whichever stands in the heading most often; the comma wins ties.
pub(super) fn separator(text: &str) -> u8 {
    let heading = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let (mut counts, mut open) = ([(b',', 0_usize), (b';', 0), (b'\t', 0)], false);
    for byte in heading.bytes() {
        open ^= byte == b'"';
        counts.iter_mut().filter(|(separator, _)| *separator == byte && !open).for_each(|(_, count)| *count += 1);
    }
    counts.into_iter().rev().max_by_key(|(_, count)| *count).map_or(b',', |(separator, _)| separator)
}

/// An open quotation mark swallows everything after it.
fn unclosed(text: &str, last: &StringRecord, file: usize, findings: &mut Findings) {
    if text.matches('"').count() % 2 == 1 {
        let place = Place { file, ..Place::default() };
        let found = say!("a quotation mark without its partner");
        let expected = say!("quotation marks in pairs; one inside a quoted cell is written twice");
        findings.add_at(Code::WrongType, &place, Some(line(last)), found, expected, None);
    }
}

/// The columns from the heading; `None` when one is unknown, so that no row is misread.
fn columns(heading: &StringRecord, file: usize, findings: &mut Findings) -> Option<Vec<Option<Column>>> {
    let place = Place { file, ..Place::default() };
    let at = Some(line(heading));
    let written = heading.iter().any(|title| title == WRITTEN_WITH);
    let mut columns: Vec<Option<Column>> = Vec::new();
    let mut sound = true;
    for title in heading {
        let (name, unit) = title_parts(title);
        if written && !["id", "count"].contains(&name.as_str()) {
            let (key, holds) = if name == WRITTEN_WITH { ("bag", Holds::Text) } else { ("", Holds::Nothing) };
            columns.push(Some(Column { key, holds, unit }));
            continue;
        }
        let known = COLUMNS.iter().find(|(key, others, _)| *key == name || others.contains(&name.as_str()));
        let twice = known.is_some_and(|(key, ..)| columns.iter().flatten().any(|column| column.key == *key));
        if twice {
            let expected = say!("every column once");
            findings.add_at(Code::DuplicateKey, &place, at, quoted(title), expected, None);
        } else if known.is_none() && !title.is_empty() {
            let keys: Vec<&str> = COLUMNS.iter().map(|(key, ..)| *key).collect();
            let near = nearest(&name, keys.iter().copied());
            let expected = say!("one of the columns `{}`", keys.join("`, `"));
            findings.add_at(Code::UnknownKey, &place, at, quoted(title), expected, near);
        }
        sound &= !twice && (known.is_some() || title.is_empty());
        columns.push(known.map(|(key, _, holds)| Column { key, holds: *holds, unit }));
    }
    if sound && !columns.iter().flatten().any(|column| matches!(column.key, "id" | "name")) {
        let expected = say!("a column `id` or `name`");
        findings.add_at(Code::MissingKey, &place, at, say!("neither `id` nor `name`"), expected, None);
        sound = false;
    }
    sound.then_some(columns)
}

/// `Mass (g)` is the column `mass` with its unit.
fn title_parts(title: &str) -> (String, String) {
    let end = title.find(['(', '[']).unwrap_or(title.len());
    let unit = title[end..].trim_matches(['(', ')', '[', ']', ' ']).to_owned();
    (title[..end].trim().to_lowercase(), unit)
}

fn is_long(record: &StringRecord) -> bool {
    record.iter().any(|cell| cell.len() > LONGEST_TEXT)
}

/// Tells of a cell that holds too much, as one does that begins with a stray quotation mark. The row is left out.
fn too_long(record: &StringRecord, file: usize, findings: &mut Findings) -> bool {
    let long = is_long(record);
    if long {
        let place = Place { file, ..Place::default() };
        let expected = say!("at most {LONGEST_TEXT} bytes in one cell");
        findings.add_at(Code::TooLarge, &place, Some(line(record)), say!("a very long text"), expected, None);
        findings.spoil(&place.key("rows").key(word!("left out")));
    }
    long
}

/// Tells of a cell without a heading. The row is left out, so that none of its cells is taken for another.
fn too_wide(
    record: &StringRecord,
    columns: &[Option<Column>],
    separator: u8,
    file: usize,
    findings: &mut Findings,
) -> bool {
    let headless = |at: usize| columns.get(at).is_none_or(Option::is_none);
    let wide = record.iter().enumerate().any(|(at, cell)| !cell.is_empty() && headless(at));
    if wide {
        let place = Place { file, ..Place::default() };
        let found = say!("{} under a heading of {}", several!(record.len(), "{n} cell", "{n} cells"), columns.len());
        let expected = if separator == b',' {
            word!(
                "a cell for each heading; quote a text with a comma, write decimals with a point, or separate by semicolons"
            )
        } else {
            word!("a cell for each heading; quote a text that holds the separator")
        };
        findings.add_at(Code::WrongType, &place, Some(line(record)), found, expected.to_owned(), None);
        findings.spoil(&place.key("rows").key(word!("left out")));
    }
    wide
}

fn entry(record: &StringRecord, columns: &[Option<Column>], separator: u8) -> Node {
    let filled = columns.iter().zip(record).filter(|(_, cell)| !cell.is_empty());
    let cell = |(column, cell): (&Option<Column>, &str)| {
        let column = column.as_ref().filter(|column| column.holds != Holds::Nothing)?;
        Some((column.key.to_owned(), value(cell, column, separator)))
    };
    Node::Map(filled.filter_map(cell).collect())
}

/// A bare number takes the unit of its heading.
fn value(cell: &str, column: &Column, separator: u8) -> Node {
    if column.holds == Holds::Text {
        return Node::Text(cell.to_owned());
    }
    let end = cell.find(|c: char| !(c.is_ascii_digit() || ".,-+ ".contains(c))).unwrap_or(cell.len());
    let point = if separator == b',' { "," } else { "." };
    let number = cell[..end].replace(',', point);
    let bare = cell[end..].is_empty();
    if column.holds == Holds::Quantity {
        let unit = if bare { column.unit.as_str() } else { &cell[end..] };
        return Node::Text(format!("{} {unit}", number.trim()).trim().to_owned());
    }
    match number.trim().parse::<f64>() {
        Ok(value) if bare => Node::Float(value),
        _ => Node::Text(cell.to_owned()),
    }
}
