//! The file of names beside a list: what each name is taken for, confirmed by the rider, and what own things weigh.

use crate::diagnostic::{Code, did_you_mean, nearest, quoted};
use crate::domain::{Catalogue, Map};
use crate::load::findings::{Findings, Place};
use crate::load::source::{Source, Unreadable};
use crate::units::{Mass, Quantity as _};
use csv::{ReaderBuilder, Trim, WriterBuilder};
use fardel_words::say;

/// What a name stands for.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Known {
    /// Id of an item; none for a thing of the rider's own.
    pub id: Option<String>,
    /// Of one, where the list does not say.
    pub mass: Option<Mass>,
}

/// Names with what they stand for, by the name in lower case.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Names(Map<(String, Known)>);

/// Stands in a file of names for every number of the list that lacks its unit; its mass is what such a number counts.
pub(super) const BARE: &str = "bare numbers";

fn key(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

impl Names {
    /// What a name stands for, if that has been confirmed.
    pub fn get(&self, name: &str) -> Option<&Known> {
        self.0.get(&key(name)).map(|(_, known)| known)
    }

    /// What a number without a unit counts, if that has been told.
    pub fn bare(&self) -> Option<Mass> {
        self.get(BARE).and_then(|known| known.mass)
    }

    /// Confirms a name.
    pub fn set(&mut self, name: &str, known: Known) {
        self.0.insert(key(name), (name.to_owned(), known));
    }

    /// Reads a file of names; ids are checked where they are used.
    pub fn read(read: Result<Source, Unreadable>, findings: &mut Findings) -> Self {
        let mut names = Self::default();
        let source = match read {
            Ok(source) => source,
            Err(Unreadable { name, reason }) => {
                let file = findings.file(Source { name, text: String::new() });
                let place = Place { file, ..Place::default() };
                findings.add(Code::Unreadable, &place, reason, say!("a text file in UTF-8"), None);
                return names;
            }
        };
        let text = source.text.clone();
        let file = findings.file(source);
        let place = Place { file, ..Place::default() };
        let mut reader = ReaderBuilder::new().flexible(true).trim(Trim::All).from_reader(text.as_bytes());
        let heading = reader.headers().cloned().unwrap_or_default();
        let at = |title: &str| heading.iter().position(|own| own.trim_start_matches('\u{feff}') == title);
        let (Some(name), Some(id)) = (at("name"), at("id")) else {
            let expected = say!("the columns `name`, `id` and `mass`, as `fardel gear` writes them");
            findings.add_at(
                Code::MissingKey,
                &place,
                Some(1),
                say!("a heading without `name` and `id`"),
                expected,
                None,
            );
            return names;
        };
        for row in reader.records().filter_map(Result::ok) {
            let cell = |at: Option<usize>| at.and_then(|at| row.get(at)).filter(|cell| !cell.is_empty());
            let Some(name) = cell(Some(name)) else { continue };
            let mass = cell(at("mass"));
            let read = mass.map(Mass::read).transpose();
            if read.is_err() {
                let line = row.position().and_then(|at| usize::try_from(at.line()).ok());
                let found = quoted(mass.unwrap_or_default());
                findings.add_at(Code::NotAQuantity, &place, line, found, say!("a mass such as 350 g"), None);
            }
            names.set(name, Known { id: cell(Some(id)).map(str::to_owned), mass: read.unwrap_or_default() });
        }
        names
    }

    /// As a file of names.
    pub fn text(&self) -> Result<String, String> {
        let mut writer = WriterBuilder::new().from_writer(Vec::new());
        let mut row = |cells: [&str; 3]| writer.write_record(cells).map_err(|error| error.to_string());
        row(["name", "id", "mass"])?;
        for (name, known) in self.0.values() {
            let mass = known.mass.map(|mass| format!("{} g", mass.grams())).unwrap_or_default();
            row([name, known.id.as_deref().unwrap_or_default(), &mass])?;
        }
        let bytes = writer.into_inner().map_err(|error| error.to_string())?;
        String::from_utf8(bytes).map_err(|error| error.to_string())
    }

    /// Takes in what was typed: a name with an id, with nothing (a thing of one's own), or with a mass.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn change(&mut self, changes: &[(String, String)], catalogue: &Catalogue) -> Result<(), String> {
        for (name, value) in changes {
            let mut known = self.get(name).cloned().unwrap_or_default();
            if value.is_empty() {
                known.id = None;
            } else if catalogue.items.contains_key(value) {
                known.id = Some(value.clone());
            } else if let Ok(mass) = Mass::read(value) {
                known.mass = Some(mass);
            } else {
                let near = nearest(value, catalogue.items.keys().map(String::as_str));
                let near = did_you_mean(near);
                return Err(say!("--is {name}={value}: no such item{near}"));
            }
            self.set(name, known);
        }
        Ok(())
    }
}
