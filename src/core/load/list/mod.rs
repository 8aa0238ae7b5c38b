//! A list of things as a rider keeps it in a spreadsheet: any usual headings, names from memory, weights in any unit.
//!
//! A spreadsheet with a column of ids is not a list; it is read strictly. What a line is taken for is settled by
//! `settle`: a name of the catalogue, a name confirmed in the file of names beside the list, a guess that waits for being
//! confirmed, or a thing of the rider's own, of which only the weight must be known.
//!
//! Titles and a date above the heading, lines that head a part (`TOOLS`, `Camping:`) and totals are passed over. The
//! heading says what a column holds; bare numbers take the unit of their heading, and the decimal sign may be a comma.
//! A guess that is not in the file of names is a fault, one for all of them; `fardel gear` writes the file. A thing of
//! the rider's own gets its volume from the median density of the catalogue's things of its kind, and its basis says
//! so.

mod cells;
mod heading;
mod names;
mod settle;

pub(crate) use names::Names;
pub(crate) use settle::settle;
pub use settle::{How, List, Taken};

use super::file::{GearFile, GearShape, Listed, Text};
use super::findings::{Findings, Place};
use super::numbers::Count;
use super::quantity::Price;
use super::rows;
use super::source::{Source, Unreadable};
use crate::diagnostic::{Code, Faults, quoted};
use crate::domain::{Catalogue, Kind};
use crate::units::{Length, Mass, Quantity as _, Volume};
use csv::StringRecord;
use fardel_words::{say, word};
use heading::{Column, Holds};
use serde::Deserialize as _;
use serde::de::IntoDeserializer as _;
use std::path::{Path, PathBuf};

/// Rows above the heading that are passed over: a title, a date.
const TITLE_ROWS: usize = 5;
/// Names that only head or end a part of a list.
const TOTALS: &[&str] = &["total", "totals", "sum", "subtotal", "grand total", "total weight"];

/// A line of a list as written.
#[derive(Debug, Clone, Default)]
pub(crate) struct Free {
    /// Line in the file.
    pub line: usize,
    /// Bags that it is in, as written, with how many.
    pub bags: Vec<(String, u32)>,
    /// What one weighs where neither cell nor heading tells the unit.
    pub bare: Option<Bare>,
}

/// A weight without its unit.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Bare {
    /// As written, of one.
    pub number: f64,
    /// The heading that it stands below.
    pub title: String,
}

/// Where the file of names of a list stands: `my-list.names.csv` beside `my-list.csv`.
#[must_use]
pub fn names_path(list: &Path) -> PathBuf {
    list.with_extension("names.csv")
}

/// What a list comes to, line by line, and the file of names that confirms it.
///
/// # Errors
/// [`Faults`] where the list or its file of names cannot be read.
pub fn list_text(
    list: Result<Source, Unreadable>,
    names: Option<Result<Source, Unreadable>>,
    catalogue: &Catalogue,
    changes: &[(String, String)],
) -> Result<List, Faults> {
    let mut findings = Findings::default();
    let source = match list {
        Ok(source) => source,
        Err(unreadable) => return Err(Faults(vec![unreadable.fault()])),
    };
    let text = source.text.clone();
    let spreadsheet = rows::is_rows(&source.name);
    let file = findings.file(source);
    let read = if spreadsheet { read(&text, file, &mut findings) } else { None };
    if read.is_none() {
        let place = Place { file, ..Place::default() };
        let expected = word!(
            "a spreadsheet (.csv or .tsv) with a heading that has a column of names such as `item`, and no column `id`"
        );
        findings.add(Code::MissingKey, &place, say!("no such heading"), expected.to_owned(), None);
    }
    let mut known = Names::default();
    if let Some(names) = names {
        known = Names::read(names, &mut findings);
    }
    let changed = known.change(changes, catalogue);
    if let Some(read) = &read {
        settle::tell_unitless(read, &known, &Place { file, ..Place::default() }, &mut findings);
    }
    findings.finish()?;
    changed.map_err(|message| Faults(vec![crate::diagnostic::Fault {
        code: Code::UnknownName,
        file: say!("the command line"),
        place: String::new(),
        line: None,
        excerpt: None,
        found: message,
        expected: say!("NAME=ID with a name of the list and the id of an item, NAME= for a thing of your own, NAME=120 g for its weight"),
        nearest: None,
    }]))?;
    Ok(List::new(&read.unwrap_or_default(), known, catalogue))
}

/// The things of a list; `None` where the text is none. What is wrong is told once for each cause.
pub(crate) fn read(text: &str, file: usize, findings: &mut Findings) -> Option<GearFile> {
    if text.len() > rows::LARGEST_FILE {
        return None;
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let (columns, records, separator) = table(text)?;
    let mut reading = Reading {
        file,
        comma_is_point: separator != b',',
        columns,
        kind: None,
        bare: None,
        bad: Vec::new(),
        counts: Vec::new(),
    };
    let entries: Vec<(Option<String>, GearShape)> =
        records.iter().filter_map(|row| Some((None, reading.entry(row)?))).collect();
    findings.set_rows(file, entries.iter().map(|(_, shape)| shape.free.as_ref().map_or(0, |free| free.line)).collect());
    reading.tell(findings);
    if entries.is_empty() {
        let place = Place { file, ..Place::default() };
        findings.add(
            Code::NothingThere,
            &place,
            say!("a heading without things below it"),
            say!("a line for each thing"),
            None,
        );
    }
    Some(GearFile { items: Listed(entries), names: Names::default() })
}

/// The columns and the rows below the heading, by the separator with which there is a heading.
fn table(text: &str) -> Option<(Vec<Column>, Vec<StringRecord>, u8)> {
    [b',', b';', b'\t'].into_iter().find_map(|separator| {
        let rows: Vec<StringRecord> = rows::records(text, separator)
            .filter(|row| row.iter().any(|cell| !cell.is_empty()))
            .take(rows::MOST_ROWS + 1)
            .collect();
        if rows.len() > rows::MOST_ROWS
            || rows.iter().any(|row| {
                row.len() > rows::MOST_COLUMNS || row.iter().any(|cell| cell.len() > super::tree::LONGEST_TEXT)
            })
        {
            return None;
        }
        let at = rows
            .iter()
            .take(TITLE_ROWS)
            .position(|row| heading::columns(row).is_some_and(|found| found.len() > 1 || row.len() == 1))?;
        if heading::has_ids(&rows[at]) {
            return None;
        }
        let columns = heading::columns(&rows[at])?;
        Some((columns, rows[at + 1..].to_vec(), separator))
    })
}

struct Reading {
    file: usize,
    comma_is_point: bool,
    columns: Vec<Column>,
    /// Of the part of the list that a line heads.
    kind: Option<Kind>,
    /// Of the line that is read: a number under a heading without a unit.
    bare: Option<Bare>,
    /// Lines with a cell that cannot be read, and the cell.
    bad: Vec<(usize, String)>,
    /// The same for counts.
    counts: Vec<(usize, String)>,
}

impl Reading {
    fn cell<'a>(&self, row: &'a StringRecord, holds: Holds) -> Option<(&'a str, Column)> {
        let column = self.columns.iter().find(|column| column.holds == holds)?;
        let cell = row.get(column.at).map(str::trim).filter(|cell| !cell.is_empty() && *cell != "-")?;
        Some((cell, column.clone()))
    }

    fn entry(&mut self, row: &StringRecord) -> Option<GearShape> {
        let line = row.position().and_then(|at| usize::try_from(at.line()).ok()).unwrap_or(0);
        let (written, _) = self.cell(row, Holds::Name)?;
        if TOTALS.contains(&written.trim_end_matches(':').to_lowercase().as_str()) {
            return None;
        }
        let alone = row.iter().filter(|cell| !cell.trim().is_empty()).count() == 1;
        if alone && heads_a_part(written) {
            self.kind = kind_of(written.trim_matches(MARKS));
            return None;
        }
        let (name, in_name) = cells::counted_name(written);
        let count = match self.cell(row, Holds::Count) {
            Some((cell, _)) => cells::count(cell).or_else(|| {
                self.counts.push((line, cell.to_owned()));
                None
            }),
            None => in_name,
        };
        if count == Some(0) {
            return None;
        }
        let kind = self.cell(row, Holds::Kind).and_then(|(cell, _)| kind_of(cell)).or(self.kind);
        self.bare = None;
        Some(GearShape {
            name: Some(Text(name)),
            kind,
            mass: self.mass(row, line, count.unwrap_or(1)),
            volume: self.quantity(row, Holds::Volume, line, Volume::read),
            longest: self.quantity(row, Holds::Longest, line, Length::read),
            price: self.price(row),
            count: count.map(Count),
            free: Some(Free {
                line,
                bags: self
                    .cell(row, Holds::Bag)
                    .map(|(cell, _)| (cell.to_owned(), count.unwrap_or(1)))
                    .into_iter()
                    .collect(),
                bare: self.bare.take(),
            }),
            ..GearShape::default()
        })
    }

    /// Of one; a column of totals is shared out.
    fn mass(&mut self, row: &StringRecord, line: usize, count: u32) -> Option<Mass> {
        let one = self.cell(row, Holds::Mass).map(|cell| (cell, 1.0));
        let ((cell, column), among) =
            one.or_else(|| Some((self.cell(row, Holds::AllMass)?, f64::from(count.max(1)))))?;
        match cells::grams(cell, &column.unit, self.comma_is_point) {
            Ok(0.0) => None,
            Ok(grams) => Mass::read(&format!("{:.3} g", grams / among)).ok(),
            Err(true) => {
                let number = cells::grams(cell, "g", self.comma_is_point).ok()? / among;
                self.bare = Some(Bare { number, title: column.title });
                None
            }
            Err(false) => {
                self.bad.push((line, cell.to_owned()));
                None
            }
        }
    }

    fn quantity<T, E>(
        &mut self,
        row: &StringRecord,
        holds: Holds,
        line: usize,
        read: fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let (cell, column) = self.cell(row, holds)?;
        let text = if self.comma_is_point { cell.replace(',', ".") } else { cell.to_owned() };
        let bare = text.chars().all(|c| c.is_ascii_digit() || c == '.');
        let value = read(&if bare { format!("{text} {}", column.unit) } else { text }).ok();
        if value.is_none() {
            self.bad.push((line, cell.to_owned()));
        }
        value
    }

    /// A price that cannot be read does not matter for what is owned.
    fn price(&self, row: &StringRecord) -> Option<Price> {
        let (cell, column) = self.cell(row, Holds::Price)?;
        let text = format!("{cell} {}", column.unit);
        let text: serde::de::value::StrDeserializer<'_, serde::de::value::Error> = text.trim().into_deserializer();
        Price::deserialize(text).ok()
    }

    /// Every cause once.
    fn tell(&self, findings: &mut Findings) {
        let place = Place { file: self.file, ..Place::default() };
        if !self.bad.is_empty() {
            // Nobody is to be told as well that these things have no weight.
            findings.spoil(&place.key("weights"));
        }
        for (bad, expected) in [
            (&self.bad, word!("a weight such as `210 g`, `1,2 kg`, `7 oz` or `1 lb 3 oz`; a volume such as `400 mL`")),
            (&self.counts, word!("a whole number of pieces, such as `2`")),
        ] {
            if let Some((line, cell)) = bad.first() {
                findings.add_at(Code::NotAQuantity, &place, Some(*line), listed(bad, cell), expected.to_owned(), None);
            }
        }
    }
}

fn listed(bad: &[(usize, String)], first: &str) -> String {
    let lines: Vec<String> =
        bad.iter().skip(1).take(4).map(|(line, cell)| say!("line {line} {}", quoted(cell))).collect();
    let more = bad.len().saturating_sub(5);
    let rest = if lines.is_empty() { String::new() } else { say!("; also {}", lines.join(", ")) };
    format!("{}{rest}{}", quoted(first), if more > 0 { say!(" and {more} more") } else { String::new() })
}

/// Marks around the name of a part of a list.
const MARKS: [char; 5] = ['#', '=', '*', ':', ' '];

/// Does a name that stands alone in its row head a part of the list?
fn heads_a_part(name: &str) -> bool {
    let shouted = name.chars().any(char::is_alphabetic) && name == name.to_uppercase() && name.chars().count() > 3;
    let marked = name.ends_with(':') || name.starts_with(['#', '=', '*']);
    shouted || marked || kind_of(name.trim_matches(MARKS)).is_some()
}

/// Words for kinds in lists. Common practice, no source.
const KINDS: &[(&str, Kind)] = &[
    ("tools", Kind::Tool),
    ("tool kit", Kind::Tool),
    ("toolkit", Kind::Tool),
    ("workshop", Kind::Tool),
    ("spares", Kind::Spare),
    ("spare parts", Kind::Spare),
    ("parts", Kind::Spare),
    ("consumables", Kind::Consumable),
    ("fluids", Kind::Consumable),
    ("shelter", Kind::Shelter),
    ("tents", Kind::Shelter),
    ("camping", Kind::Shelter),
    ("camp", Kind::Shelter),
    ("sleeping", Kind::Sleep),
    ("sleep", Kind::Sleep),
    ("bedding", Kind::Sleep),
    ("cooking", Kind::Cooking),
    ("kitchen", Kind::Cooking),
    ("cook", Kind::Cooking),
    ("food", Kind::Food),
    ("water", Kind::Water),
    ("clothes", Kind::Clothing),
    ("clothing", Kind::Clothing),
    ("first aid", Kind::FirstAid),
    ("medical", Kind::FirstAid),
    ("electronics", Kind::Electronics),
    ("electrics", Kind::Electronics),
    ("papers", Kind::Papers),
    ("documents", Kind::Papers),
    ("fuel", Kind::Fuel),
    ("hygiene", Kind::Hygiene),
    ("toiletries", Kind::Hygiene),
    ("wash", Kind::Hygiene),
    ("comfort", Kind::Comfort),
    ("misc", Kind::Comfort),
    ("luxury", Kind::Comfort),
    ("other", Kind::Comfort),
];

fn kind_of(text: &str) -> Option<Kind> {
    let text = text.trim().to_lowercase();
    Kind::from_word(&text).or_else(|| KINDS.iter().find(|(word, _)| *word == text).map(|(_, kind)| *kind))
}
