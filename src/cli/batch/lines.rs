//! Jobs as they are read, one at a time.

use crate::season::{Job, Refused};
use fardel_words::{say, word};
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read, stdin};
use std::path::Path;

/// How jobs are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// A JSON object on each line.
    Json,
    /// Rows under a heading.
    Csv,
}

/// Longest line that is taken: a scenario with its lists may have 4 MiB each.
const LONGEST: u64 = 32 << 20;

/// A job with its place.
#[derive(Debug)]
pub(super) struct Line {
    /// Counted from one, the heading of a spreadsheet included.
    pub number: u64,
    pub job: Result<Job, Refused>,
}

/// All jobs, read as they are asked for.
pub(super) struct Lines {
    rows: Rows,
    number: u64,
}

type Input = Box<dyn BufRead + Send>;

enum Rows {
    Json(Input),
    Csv { heads: csv::StringRecord, rows: Box<csv::Reader<Input>> },
}

fn input(path: &Path) -> Result<Input, String> {
    if path == Path::new("-") {
        return Ok(Box::new(BufReader::new(stdin())));
    }
    let refuse = |reason: &str| say!("{}: {reason} is found, a file of jobs is expected", path.display());
    if path.is_dir() {
        return Err(refuse("a folder"));
    }
    let file = File::open(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => refuse(word!("no such file")),
        _ => format!("{}: {error}", path.display()),
    })?;
    Ok(Box::new(BufReader::new(file)))
}

impl Lines {
    /// Opens a file, or standard input for `-`. The first line has the number `first`.
    pub(super) fn open(path: &Path, form: Form, first: u64) -> Result<Self, String> {
        let input = input(path)?;
        crate::files::read::note(path);
        let rows = match form {
            Form::Json => Rows::Json(input),
            Form::Csv => {
                let mut rows = csv::ReaderBuilder::new().flexible(true).from_reader(input);
                let heads = rows.headers().map_err(|error| format!("{}: {error}", path.display()))?.clone();
                let twice =
                    heads.iter().enumerate().find(|(at, head)| heads.iter().take(*at).any(|other| other == *head));
                if let Some((_, head)) = twice {
                    return Err(say!("{}:1: the heading `{head}` is found twice", path.display()));
                }
                Rows::Csv { heads, rows: Box::new(rows) }
            }
        };
        Ok(Self { rows, number: first })
    }

    /// How many there are about, where that can be told without reading them as jobs.
    #[allow(clippy::naive_bytecount, reason = "once for a bar of progress")]
    pub(super) fn count(path: &Path, form: Form) -> Option<u64> {
        if !path.is_file() {
            return None;
        }
        let mut input = BufReader::new(File::open(path).ok()?);
        let mut lines = 0;
        loop {
            let piece = input.fill_buf().ok()?;
            if piece.is_empty() {
                return Some(lines - u64::from(form == Form::Csv && lines > 0));
            }
            lines += piece.iter().filter(|byte| **byte == b'\n').count() as u64;
            let length = piece.len();
            input.consume(length);
        }
    }

    fn next_json(&mut self) -> io::Result<Option<Line>> {
        let Rows::Json(input) = &mut self.rows else { return Ok(None) };
        loop {
            let mut bytes = Vec::new();
            if input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)? == 0 {
                return Ok(None);
            }
            let number = self.number;
            self.number += 1;
            let cut = bytes.len() as u64 == LONGEST && bytes.last() != Some(&b'\n');
            if cut {
                input.skip_until(b'\n')?;
                return Ok(Some(refused(
                    number,
                    say!("longer than {} MiB; shorter lines are expected", LONGEST >> 20),
                )));
            }
            match str::from_utf8(&bytes) {
                Ok(text) if text.trim().is_empty() => {}
                Ok(text) => return Ok(Some(Line { number, job: Job::from_json(text.trim()) })),
                Err(_) => return Ok(Some(refused(number, say!("bytes that are not UTF-8 text")))),
            }
        }
    }

    fn next_csv(&mut self) -> io::Result<Option<Line>> {
        let Rows::Csv { heads, rows } = &mut self.rows else { return Ok(None) };
        let mut row = csv::StringRecord::new();
        let number = |row: &csv::StringRecord| row.position().map_or(0, csv::Position::line) + self.number - 1;
        match rows.read_record(&mut row) {
            Ok(false) => Ok(None),
            Ok(true) if row.len() > heads.len() => {
                let found = say!("{} cells, the heading has {}", row.len(), heads.len());
                Ok(Some(refused(number(&row), found)))
            }
            Ok(true) => Ok(Some(Line { number: number(&row), job: Job::from_cells(heads.iter().zip(row.iter())) })),
            Err(error) if error.is_io_error() => Err(io::Error::other(error)),
            Err(error) => Ok(Some(refused(number(&row), error.to_string()))),
        }
    }
}

fn refused(number: u64, error: String) -> Line {
    Line { number, job: Err(Refused { id: None, errors: vec![error] }) }
}

impl Iterator for Lines {
    type Item = io::Result<Line>;

    fn next(&mut self) -> Option<Self::Item> {
        match &self.rows {
            Rows::Json(_) => self.next_json(),
            Rows::Csv { .. } => self.next_csv(),
        }
        .transpose()
    }
}

/// Is this the row of this job? Says what is wrong if not.
pub(super) fn same_job(row: &str, line: Option<&Line>) -> Result<(), String> {
    #[derive(serde::Deserialize)]
    struct Id {
        id: Option<String>,
    }
    let done = serde_json::from_str::<Id>(row).map_err(|error| say!("a line that is no result: {error}"))?.id;
    let Some(line) = line else { return Err(say!("more results than jobs")) };
    let wanted = match &line.job {
        Ok(job) => Some(&job.id),
        Err(refused) => refused.id.as_ref(),
    };
    if wanted == done.as_ref() {
        return Ok(());
    }
    let shown = |id: Option<&String>| id.map_or_else(|| say!("no id"), |id| format!("`{id}`"));
    Err(say!("line {} of the jobs has {}, its result {}", line.number, shown(wanted), shown(done.as_ref())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str, name: &str, form: Form) -> Vec<(u64, Option<String>)> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        let lines = Lines::open(&path, form, 1).unwrap().map(Result::unwrap);
        lines.map(|line| (line.number, line.job.map_or_else(|refused| refused.id, |job| Some(job.id)))).collect()
    }

    #[test]
    fn blank_lines_are_passed_over_and_bad_ones_are_not() {
        let text = "{\"id\":\"a\",\"scenario\":\"t\"}\n\n  \nnonsense\n{\"id\":\"b\"}";
        let expected = [(1, Some("a".to_owned())), (4, None), (5, Some("b".to_owned()))];
        assert_eq!(lines(text, "jobs.jsonl", Form::Json), expected);
    }

    #[test]
    fn rows_of_a_spreadsheet_have_their_lines() {
        let text = "id,scenario\na,t.yaml\nb,t.yaml,more\n\"c\nd\",t.yaml\ne,\n";
        let id = |id: &str| Some(id.to_owned());
        assert_eq!(lines(text, "jobs.csv", Form::Csv), [(2, id("a")), (3, None), (4, id("c\nd")), (6, id("e"))]);
    }
}
