//! What has been found wrong so far, in which file, and which parts are therefore not to be complained about again.

use super::Source;
use super::node::{Path, Step};
use super::yaml;
use crate::diagnostic::{Code, Fault, Faults, MOST_PER_FILE, nearest, plain, quoted};
use fardel_words::say;
use indexmap::{IndexMap, IndexSet};

/// Most letters of one side of a message; texts of the file may be among its words.
const LONGEST: usize = 700;

/// A node of a file.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub(crate) struct Place {
    /// Index of the file among the findings' files.
    pub file: usize,
    /// Where in it.
    pub path: Path,
}

impl Place {
    /// One step further, into a map.
    pub fn key(&self, key: &str) -> Self {
        Self { file: self.file, path: self.path.key(key) }
    }
    /// One step further, into a list.
    pub fn index(&self, index: usize) -> Self {
        Self { file: self.file, path: self.path.index(index) }
    }
}

/// The files being loaded and everything wrong with them.
#[derive(Debug, Clone, Default)]
pub(crate) struct Findings {
    files: Vec<Source>,
    /// The line of each row, for files that are spreadsheets.
    rows: IndexMap<usize, Vec<usize>>,
    faults: Vec<(usize, Fault)>,
    counts: Vec<usize>,
    /// Places already told; whatever is missing there is not missing a second time.
    spoilt: IndexSet<Place>,
    /// The same with every place around them, so that asking is quick even when thousands of things are wrong.
    around: IndexSet<Place>,
    /// A whole file is unusable, so nothing can be said about names any more.
    blind: bool,
}

impl Findings {
    /// Takes in a file; its index names it from now on.
    pub fn file(&mut self, source: Source) -> usize {
        self.files.push(source);
        self.counts.push(0);
        self.files.len() - 1
    }
    /// The file is a spreadsheet whose rows, in order, stand in these lines.
    pub fn set_rows(&mut self, file: usize, lines: Vec<usize>) {
        self.rows.insert(file, lines);
    }
    /// How a place is told.
    fn shown(&self, place: &Place) -> String {
        if !self.rows.contains_key(&place.file) {
            return place.path.to_string();
        }
        let column = place.path.0.iter().skip(2).find_map(|step| match step {
            Step::Key(column) => Some(say!("column {column}")),
            Step::Index(_) => None,
        });
        column.unwrap_or_default()
    }
    /// The line of a row of a spreadsheet.
    fn row(&self, place: &Place) -> Option<usize> {
        let row = place.path.0.iter().find_map(|step| match step {
            Step::Index(row) => Some(*row),
            Step::Key(_) => None,
        });
        self.rows.get(&place.file)?.get(row?).copied()
    }
    /// The line of a place. This reads a whole file of YAML again.
    pub fn line(&self, place: &Place) -> Option<usize> {
        if self.rows.contains_key(&place.file) || place.path.0.is_empty() {
            return self.row(place);
        }
        self.files.get(place.file).and_then(|source| yaml::line_of(&source.text, &place.path))
    }
    /// How many files there are.
    pub fn count(&self) -> usize {
        self.files.len()
    }
    /// Nothing more is told of this file; what has been told stays.
    pub fn mute(&mut self, file: usize) {
        if let Some(count) = self.counts.get_mut(file) {
            *count = MOST_PER_FILE;
        }
    }
    /// Is a whole section of this file gone?
    pub fn lost_section(&self, file: usize) -> bool {
        self.spoilt.iter().any(|place| place.file == file && place.path.0.len() <= 1)
    }
    /// The name of a file.
    pub fn name(&self, file: usize) -> &str {
        self.files.get(file).map_or("", |source| source.name.as_str())
    }
    /// File and line of a place.
    fn position(&self, place: &Place) -> String {
        let line = self.line(place);
        let name = self.name(place.file);
        line.map_or_else(|| name.to_owned(), |line| format!("{name}:{line}"))
    }
    /// Have as many faults of this file been told as are told of one?
    fn is_full(&self, file: usize) -> bool {
        self.counts.get(file).is_some_and(|count| *count >= MOST_PER_FILE)
    }
    /// The known name most like the one at this place, as long as it can still be told: thousands of unknown names
    /// among thousands of known ones would take minutes to compare.
    pub fn nearest<'a>(&self, place: &Place, name: &str, known: impl IntoIterator<Item = &'a str>) -> Option<String> {
        if self.is_full(place.file) { None } else { nearest(name, known) }
    }
    /// Records that something is there again, with where it was first.
    pub fn add_again(&mut self, place: &Place, name: &str, expected: &str, first: &Place) {
        // The line of the first one costs reading its file.
        if !self.is_full(place.file) {
            let expected = say!("{expected}; the other is at {}", self.position(first));
            self.add(Code::DefinedTwice, place, say!("{} again", quoted(name)), expected, None);
        }
    }
    /// Records a fault.
    pub fn add(&mut self, code: Code, place: &Place, found: String, expected: String, nearest: Option<String>) {
        self.add_at(code, place, None, found, expected, nearest);
    }
    /// Records a fault whose line is known already.
    #[allow(clippy::needless_pass_by_value, reason = "callers make these words for this call only")]
    pub fn add_at(
        &mut self,
        code: Code,
        place: &Place,
        line: Option<usize>,
        found: String,
        expected: String,
        nearest: Option<String>,
    ) {
        let Some(source) = self.files.get(place.file) else { return };
        let (found, expected) = (plain(&found, LONGEST), plain(&expected, LONGEST));
        let shown = self.shown(place);
        let line = line.or_else(|| self.row(place));
        let same = |told: &Fault| {
            told.code == code && told.place == shown && told.found == found && (line.is_none() || told.line == line)
        };
        if self.faults.iter().any(|(file, told)| *file == place.file && same(told)) {
            return;
        }
        self.counts[place.file] += 1;
        if self.counts[place.file] > MOST_PER_FILE {
            return;
        }
        let line = line.or_else(|| self.line(place));
        let excerpt = line.and_then(|line| source.line(line)).map(|line| plain(line, 110));
        let fault = Fault {
            code,
            file: source.name.clone(),
            place: shown,
            line,
            excerpt: excerpt.filter(|line| !line.is_empty()),
            found,
            expected,
            nearest,
        };
        self.faults.push((place.file, fault));
    }
    /// Marks a place as told.
    pub fn spoil(&mut self, place: &Place) {
        if !self.spoilt.insert(place.clone()) {
            return;
        }
        let mut around = place.clone();
        while self.around.insert(around.clone()) && around.path.0.pop().is_some() {}
    }
    /// Has this place been told?
    pub fn is_spoilt(&self, place: &Place) -> bool {
        self.spoilt.contains(place)
    }
    /// Has anything at or below this place been told?
    pub fn is_spoilt_below(&self, place: &Place) -> bool {
        self.around.contains(place)
    }
    /// Everything told, as paths.
    pub fn spoilt_paths(&self) -> impl Iterator<Item = &Path> {
        self.spoilt.iter().map(|place| &place.path)
    }
    /// Are none of these keys of the place told already?
    pub fn sound(&self, place: &Place, keys: &[&str]) -> bool {
        keys.iter().all(|key| !self.is_spoilt(&place.key(key)))
    }
    /// Has this path been told in any file?
    pub fn is_spoilt_anywhere(&self, path: &Path) -> bool {
        (0..self.files.len()).any(|file| self.is_spoilt(&Place { file, path: path.clone() }))
    }
    /// From now on no name can be called unknown.
    pub fn go_blind(&mut self) {
        self.blind = true;
    }
    /// Is a whole file unusable?
    pub fn blind(&self) -> bool {
        self.blind
    }
    /// Everything found, or `Ok` when there is nothing.
    pub fn finish(self) -> Result<(), Faults> {
        self.faultless().map(drop)
    }
    /// These findings, if there is nothing wrong; they still know the files.
    pub fn faultless(mut self) -> Result<Self, Faults> {
        if self.faults.is_empty() {
            return Ok(self);
        }
        self.faults.sort_by_key(|(file, fault)| (*file, fault.line.unwrap_or(0)));
        Err(Faults(self.faults.into_iter().map(|(_, fault)| fault).collect()))
    }
}
