//! Reading answers: a spreadsheet with a row for each question.

use super::question::About;
use crate::diagnostic::{Code, Fault, Faults, MOST_PER_FILE, nearest, quoted};
use crate::domain::{Catalogue, Map};
use crate::load::Source;
use csv::{ReaderBuilder, StringRecord, Trim};
use fardel_words::{say, word};

/// Larger files are no answers.
const LARGEST: usize = 1 << 20;
/// The columns that are read, in any order; others are passed over.
pub const COLUMNS: [&str; 5] = ["id", "lowest", "highest", "best", "confidence"];
/// Confidence in per cent, least and most: below one half an interval says nothing.
const CONFIDENCE: (f64, f64) = (50.0, 100.0);

/// What one rider answered.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// The rider, by the name of the file.
    pub rider: String,
    /// Answers by id of the question, in the order of the file.
    pub given: Map<Given>,
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// What was asked.
    pub about: About,
    /// Lowest and highest plausible value.
    pub between: (f64, f64),
    /// Best guess.
    pub best: f64,
    /// How sure the rider is that the truth lies between; 0.5 to 1.
    pub confidence: f64,
}

/// Reads a rider's answers. Questions without any cell filled in are passed over.
///
/// # Errors
/// [`Faults`] with everything wrong in the file: columns that are not there, cells that are no numbers or not filled in,
/// lowest, best and highest out of order, a confidence outside 50 to 100 %, values that cannot be, ids that nothing has.
pub fn read(source: &Source, catalogue: &Catalogue) -> Result<Answers, Faults> {
    let mut reading = Reading { file: &source.name, catalogue, faults: Vec::new() };
    let given = reading.rows(&source.text);
    if reading.faults.is_empty() {
        Ok(Answers { rider: rider(&source.name), given })
    } else {
        reading.faults.truncate(MOST_PER_FILE);
        Err(Faults(reading.faults))
    }
}

/// The name of the file without folder and ending.
fn rider(file: &str) -> String {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned()
}

struct Reading<'a> {
    file: &'a str,
    catalogue: &'a Catalogue,
    faults: Vec<Fault>,
}

impl Reading<'_> {
    fn add(&mut self, code: Code, at: (Option<usize>, &str), found: impl Into<String>, expected: impl Into<String>) {
        let (line, place) = at;
        self.faults.push(Fault {
            code,
            file: self.file.to_owned(),
            place: place.to_owned(),
            line,
            excerpt: None,
            found: found.into(),
            expected: expected.into(),
            nearest: None,
        });
    }

    fn rows(&mut self, text: &str) -> Map<Given> {
        let nothing = Map::new();
        if text.len() > LARGEST {
            self.add(Code::TooLarge, (None, ""), word!("a file of more than 1 MB"), word!("a file of answers"));
            return nothing;
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let separator = separator(text);
        let mut builder = ReaderBuilder::new();
        builder.has_headers(false).flexible(true).trim(Trim::All).delimiter(separator);
        let mut records = builder.from_reader(text.as_bytes()).into_records().filter_map(Result::ok);
        let Some(heading) = records.next() else {
            self.add(
                Code::NothingThere,
                (None, ""),
                word!("an empty file"),
                say!("the columns {}", COLUMNS.join(", ")),
            );
            return nothing;
        };
        let column = |name: &str| heading.iter().position(|own| own.eq_ignore_ascii_case(name));
        let places: Vec<Option<usize>> = COLUMNS.iter().map(|name| column(name)).collect();
        for (name, _) in COLUMNS.iter().zip(&places).filter(|(_, place)| place.is_none()) {
            self.add(Code::MissingKey, (line(&heading), name), word!("no such column"), say!("a column `{name}`"));
        }
        let [Some(id), Some(lowest), Some(highest), Some(best), Some(confidence)] = places[..] else { return nothing };
        let mut given: Map<Given> = Map::new();
        for record in records {
            let cell = |at: usize| record.get(at).unwrap_or_default();
            let cells = [cell(lowest), cell(highest), cell(best), cell(confidence)];
            if cells.iter().all(|cell| cell.is_empty()) {
                continue;
            }
            let at = (line(&record), cell(id));
            let Some(one) = self.row(at, cells, separator == b';') else { continue };
            if given.contains_key(cell(id)) {
                self.add(
                    Code::DefinedTwice,
                    at,
                    word!("a second answer to this question"),
                    word!("one answer to each question"),
                );
            }
            given.insert(cell(id).to_owned(), one);
        }
        if given.is_empty() && self.faults.is_empty() {
            self.add(
                Code::NothingThere,
                (None, ""),
                word!("no question answered"),
                word!("lowest, highest, best and confidence in a row"),
            );
        }
        given
    }

    fn row(&mut self, at: (Option<usize>, &str), cells: [&str; 4], comma: bool) -> Option<Given> {
        let about = self.about(at)?;
        let names = ["lowest", "highest", "best", "confidence"];
        let numbers: Vec<Option<f64>> =
            cells.iter().zip(names).map(|(cell, name)| self.number(at, (cell, name), comma)).collect();
        let [Some(lowest), Some(highest), Some(best), Some(confidence)] = numbers[..] else { return None };
        let before = self.faults.len();
        if lowest > best || best > highest || lowest >= highest {
            let found = say!("lowest {lowest}, best {best}, highest {highest}");
            self.add(Code::Contradiction, at, found, word!("lowest below highest, and the best guess between them"));
        }
        if !(CONFIDENCE.0..=CONFIDENCE.1).contains(&confidence) {
            self.add(Code::OutOfRange, at, say!("a confidence of {confidence} %"), "50 to 100 %");
        }
        let (least, most) = about.bounds();
        if lowest < least || highest > most {
            let found = say!("{lowest} to {highest}");
            self.add(Code::OutOfRange, at, found, say!("values from {least} to {most}"));
        }
        let sound = self.faults.len() == before;
        sound.then(|| Given { about, between: (lowest, highest), best, confidence: confidence / 100.0 })
    }

    fn number(&mut self, at: (Option<usize>, &str), (cell, name): (&str, &str), comma: bool) -> Option<f64> {
        if cell.is_empty() {
            self.add(
                Code::MissingKey,
                at,
                say!("no {name}"),
                word!("all four of lowest, highest, best and confidence, or none"),
            );
            return None;
        }
        let plain = cell.trim_end_matches('%').trim_end();
        let plain = if comma { plain.replace(',', ".") } else { plain.to_owned() };
        let number = plain.parse().ok().filter(|number: &f64| number.is_finite());
        if number.is_none() {
            self.add(Code::WrongType, at, say!("{} as {name}", quoted(cell)), "a number");
        }
        number
    }

    fn about(&mut self, at: (Option<usize>, &str)) -> Option<About> {
        let about = About::read(at.1);
        let known = |failure: &String| self.catalogue.failures.get(failure);
        let repaired = |failure: &String, repair: &String| {
            known(failure).is_some_and(|failure| failure.repairs.iter().any(|own| own.id == *repair))
        };
        let sound = match &about {
            None => false,
            Some(About::Rate(failure, _) | About::Limps(failure)) => known(failure).is_some(),
            Some(About::Time(failure, repair) | About::Restores(failure, repair)) => repaired(failure, repair),
            Some(_) => true,
        };
        if sound {
            return about;
        }
        self.add(Code::UnknownName, at, quoted(at.1), word!("the id of a question as `fardel ask` writes it"));
        let failure = at.1.split(':').nth(1).unwrap_or(at.1);
        let near = nearest(failure, self.catalogue.failures.keys().map(String::as_str));
        if let Some(fault) = self.faults.last_mut() {
            fault.nearest = near;
        }
        None
    }
}

fn line(record: &StringRecord) -> Option<usize> {
    record.position().and_then(|at| usize::try_from(at.line()).ok())
}

/// Whichever stands in the heading most often; the comma wins ties.
fn separator(text: &str) -> u8 {
    let heading = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let count = |separator: u8| heading.bytes().filter(|byte| *byte == separator).count();
    [b';', b'\t'].into_iter().fold(b',', |best, other| if count(other) > count(best) { other } else { best })
}
