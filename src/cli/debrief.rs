//! `fardel debrief`.
//!
//! The folder of the book is held (an advisory lock on the folder, which leaves nothing behind) from reading the book
//! to writing it. If the book has changed all the same, as by an editor, nothing is written: no ride is lost. Rates are
//! written together with the book.

use super::Ending;
use super::complaint::{Trouble, bad_input};
use super::output::{Format, FullArgument, OutputArguments, unobstructed};
use super::settings::CatalogueArguments;
use crate::debrief;
use crate::diagnostic::{Faults, nearest};
use crate::domain::{Catalogue, Ride};
use crate::files::write;
use crate::load::{self, Source, Unreadable};
use crate::report::{self, files};
use clap::Args;
use fardel_words::say;
use std::path::{Path, PathBuf};

/// Learn from rides that are over: what broke against what was expected, and rates that know it.
///
/// Rides go into your book, after those that are there; the rates are worked out anew from all of them and written as a
/// catalogue of your own, which a scenario names under `catalogues`. With anything wrong in any file, nothing is written.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel debrief may-ride.yaml --book my-rides.yaml --rates my-rates.yaml\n  \
                  fardel debrief --book mine.yaml --others ada.yaml --others ben.yaml --rates ours.yaml")]
pub(super) struct Debrief {
    /// Ride logs that are not in the book yet; without any, the rates are worked out anew
    logs: Vec<PathBuf>,
    /// Your book of rides; rides are added at its end
    #[arg(long, value_name = "FILE")]
    book: PathBuf,
    /// Catalogue to write the rates to
    #[arg(long, value_name = "FILE")]
    rates: PathBuf,
    /// Catalogue of your own that the rides are about, beside the one in use; may be given several times
    #[arg(long, value_name = "FILE")]
    own: Vec<PathBuf>,
    /// Book of another rider on a like bike, such as of a student: it teaches the rates, and stays as it is; may be given
    /// several times
    #[arg(long, value_name = "FILE")]
    others: Vec<PathBuf>,
    /// Rider whose rates are written; else yours, if your rides are among them, or those of a rider like all of them
    #[arg(long, value_name = "NAME")]
    rider: Option<String>,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments,
}

/// What has been read.
struct Reading {
    catalogue: Catalogue,
    /// The book as it stands; `None` if there is none yet.
    book: Option<String>,
    /// Rides in the book, then those that are new.
    rides: Vec<Ride>,
    /// How many are new.
    fresh: usize,
    /// Rides of the others.
    others: Vec<Ride>,
}

impl Reading {
    /// The rides of everybody.
    fn all(&self) -> Vec<Ride> {
        self.rides.iter().chain(&self.others).cloned().collect()
    }
}

impl Debrief {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        if let Err(ending) = self.unobstructed() {
            return ending;
        }
        // Two runs with one book take their turns, from reading it to writing it.
        let _held = write::hold(&self.book);
        let written = self.read().and_then(|reading| {
            let rides = reading.all();
            self.refuse_unknown(&rides)?;
            let answer = debrief::debrief(&reading.catalogue, &rides, self.rider.as_deref());
            self.write(&reading, &answer).map(|()| answer).map_err(Trouble::from)
        });
        match written {
            Ok(answer) => self.output.finish(match self.output.format {
                Format::Text if self.full.full => Ok(report::terminal::debrief(&answer, &look)),
                Format::Text => {
                    let rates = self.rates.to_string_lossy();
                    Ok(report::terminal::brief(&report::view::debrief(&answer, &rates, &look), &look))
                }
                Format::Json => report::json::debrief(&answer),
            }),
            Err(trouble) => bad_input(trouble),
        }
    }

    /// What will be written can be, as far as that shows: nothing goes into the book if the answer cannot be delivered.
    fn unobstructed(&self) -> Result<(), Ending> {
        self.output.unobstructed(None)?;
        unobstructed([&self.book, &self.rates], true)
    }

    fn read(&self) -> Result<Reading, Trouble> {
        self.refuse_mistakes()?;
        let sources = self.catalogue.sources()?;
        let own: Vec<Source> =
            self.own.iter().map(|path| source(path)).collect::<Result<_, _>>().map_err(|error| unreadable(&error))?;
        let catalogue = load::catalogue(&sources, &own)?;
        let book =
            if self.book.exists() { Some(source(&self.book).map_err(|error| unreadable(&error))?) } else { None };
        let logs: Vec<_> = self.logs.iter().map(|path| source(path)).collect();
        if book.is_none() && logs.is_empty() {
            let book = self.book.display();
            return Err(say!("{book}: there is no such book yet, and no ride log was given").into());
        }
        let before = match &book {
            Some(book) => load::rides(vec![Ok(book.clone())], &catalogue)?.len(),
            None => 0,
        };
        let files = book.iter().cloned().map(Ok).chain(logs).collect();
        let rides = load::rides(files, &catalogue)?;
        let fresh = rides.len() - before;
        let others = self.others(&catalogue)?;
        Ok(Reading { catalogue, book: book.map(|book| book.text), rides, fresh, others })
    }

    /// Rides of the others. Where they name no rider, the rider is called what the file is called.
    fn others(&self, catalogue: &Catalogue) -> Result<Vec<Ride>, Trouble> {
        let mut others = Vec::new();
        for path in &self.others {
            let of_file = path.file_stem().map(|stem| stem.to_string_lossy().into_owned());
            let own = load::rides(vec![source(path)], catalogue)?;
            others.extend(own.into_iter().map(|ride| Ride { rider: ride.rider.or_else(|| of_file.clone()), ..ride }));
        }
        Ok(others)
    }

    /// A rider without a ride has no rates.
    fn refuse_unknown(&self, rides: &[Ride]) -> Result<(), String> {
        let Some(asked) = self.rider.as_deref() else { return Ok(()) };
        let known: Vec<&str> = rides.iter().filter_map(|ride| ride.rider.as_deref()).collect();
        if known.contains(&asked) {
            return Ok(());
        }
        let near = nearest(asked, known.iter().copied());
        let near = near.map_or_else(String::new, |near| say!("; did you mean `{near}`?"));
        Err(say!("--rider {asked}: no ride is by that rider{near}"))
    }

    /// Files that would teach the rates what they know already, or that must not be written over.
    fn refuse_mistakes(&self) -> Result<(), String> {
        let same = |a: &Path, b: &Path| match (a.canonicalize(), b.canonicalize()) {
            (Ok(a), Ok(b)) => a == b,
            _ => a == b,
        };
        let rates = self.rates.display();
        if self.own.iter().any(|own| same(own, &self.rates)) {
            return Err(say!("{rates}: rates that know the rides already must not be under --own as well"));
        }
        if same(&self.book, &self.rates) {
            return Err(say!("{rates}: book and rates are two files"));
        }
        if let Some(other) = self.others.iter().find(|other| same(other, &self.book) || same(other, &self.rates)) {
            return Err(say!("{}: a book of another rider is neither your book nor the rates", other.display()));
        }
        match std::fs::read_to_string(&self.rates) {
            Ok(text) if !text.starts_with(files::RATES_HEAD) => Err(say!(
                "{rates}: it exists and was not written by `fardel debrief`; choose another name, it would be lost"
            )),
            _ => Ok(()),
        }
    }

    /// Book and rates, whole or not at all, after reading both back.
    fn write(&self, reading: &Reading, answer: &debrief::Debrief) -> Result<(), String> {
        let fresh = &reading.rides[reading.rides.len() - reading.fresh..];
        let book = files::book(reading.book.as_deref(), fresh);
        let named = |path: &Path, text: &str| Source { name: path.display().to_string(), text: text.to_owned() };
        let again = load::rides(vec![Ok(named(&self.book, &book))], &reading.catalogue);
        if !again.is_ok_and(|rides| rides == reading.rides) {
            return Err(say!(
                "{}: nothing can be added at its end; let `rides:` be its last key, with one `- name:` a ride",
                self.book.display()
            ));
        }
        let rates = files::rates(answer);
        self.check(&named(&self.rates, &rates))?;
        self.refuse_changed(reading)?;
        let grown = (reading.fresh > 0).then_some((&*self.book, book.as_bytes()));
        let files = grown.into_iter().chain([(&*self.rates, rates.as_bytes())]);
        write::whole_files(files, true).map_err(|unwritten| unwritten.to_string())
    }

    /// An editor, or a system where books cannot be held, may have changed the book meanwhile: what was added there must
    /// not be lost.
    fn refuse_changed(&self, reading: &Reading) -> Result<(), String> {
        let now = if self.book.exists() { source(&self.book).ok().map(|book| book.text) } else { None };
        if now == reading.book {
            return Ok(());
        }
        Err(say!(
            "{}: it changed while the rates were worked out; nothing is written, run this again",
            self.book.display()
        ))
    }

    /// A catalogue that does not load is not written.
    fn check(&self, rates: &Source) -> Result<(), String> {
        let told = |faults: Faults| say!("internal error: the rates cannot be read back\n{faults}");
        let sources = self.catalogue.sources().map_err(told)?;
        let own: Result<Vec<Source>, Unreadable> = self.own.iter().map(|path| source(path)).collect();
        let extras: Vec<Source> = own.map_err(|error| unreadable(&error))?.into_iter().chain([rates.clone()]).collect();
        load::catalogue(&sources, &extras).map(drop).map_err(told)
    }
}

fn source(path: &Path) -> Result<Source, Unreadable> {
    load::source(path)
}

fn unreadable(error: &Unreadable) -> String {
    format!("{}: {}", error.name, error.reason)
}
