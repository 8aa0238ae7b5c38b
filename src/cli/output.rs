//! Where answers go and how they are shown: arguments that several commands share, and the delivery.

use super::{Ending, complain};
use crate::files::write::{self, Unwritten};
use crate::load;
use crate::report::Look;
use crate::units::UnitSystem;
use clap::{ArgGroup, Args, ValueEnum};
use fardel_words::say;
use std::fmt::Display;
use std::path::{Path, PathBuf};

/// Shapes to choose from; one of them is `text`.
pub(super) trait Shape: ValueEnum + Clone + Send + Sync + 'static {}

impl<F: ValueEnum + Clone + Send + Sync + 'static> Shape for F {}

/// How and where to show an answer in words or for machines.
#[derive(Debug, Args)]
pub(super) struct OutputArguments<F: Shape = Format> {
    /// Shape of the answer
    #[arg(long, value_enum, default_value = "text")]
    pub format: F,
    #[command(flatten)]
    to: Destination,
}

/// How much of an answer to show.
#[derive(Debug, Clone, Copy, Args)]
pub(super) struct FullArgument {
    /// Show everything, not one screen
    #[arg(long)]
    pub full: bool,
}

/// Where an answer goes, and how quantities are shown there.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("file").multiple(true))]
pub(super) struct Destination {
    /// Write the answer to a file instead of the terminal
    #[arg(long, value_name = "FILE", group = "file")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "file")]
    force: bool,
    /// Units of the answer (files may always use either)
    #[arg(long, value_enum, default_value_t = UnitsName::Metric)]
    units: UnitsName,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    // For reading
    Text,
    // For machines; versioned
    Json,
}

/// Shapes of an answer in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum WordFormat {
    // For reading
    Text,
    // For notes and shared plans
    Markdown,
    // For machines; versioned
    Json,
}

/// Shapes of the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum CardFormat {
    // For reading
    Text,
    // For notes and shared plans
    Markdown,
    // For machines; versioned
    Json,
    // For a browser or a printer: a booklet of small leaves
    Html,
}

/// Shapes of an answer that is shown in many ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PageFormat {
    // For reading
    Text,
    // For notes and shared plans
    Markdown,
    // For a spreadsheet: a flat row for each thing
    Csv,
    // For machines; versioned
    Json,
    // For a browser, on a phone or on paper: one file that loads nothing
    Html,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum UnitsName {
    // Grams, litres, kilometres
    Metric,
    // Pounds, US gallons, miles
    Imperial,
}

/// Width of text that does not go to a terminal.
const PLAIN_WIDTH: usize = 110;
/// A telephone held upright; narrower, and tables are no longer tables.
const NARROWEST: usize = 44;
/// Longer lines are hard to follow.
const WIDEST: usize = 140;

/// How to show an answer.
fn look(units: UnitsName, to_file: bool) -> Look {
    let units = match units {
        UnitsName::Metric => UnitSystem::Metric,
        UnitsName::Imperial => UnitSystem::Imperial,
    };
    Look { units, width: if to_file { PLAIN_WIDTH } else { width() } }
}

/// Columns of the terminal, within reason.
pub(super) fn width() -> usize {
    match terminal_size::terminal_size() {
        Some((terminal_size::Width(width), _)) if std::io::IsTerminal::is_terminal(&std::io::stdout()) => {
            usize::from(width).clamp(NARROWEST, WIDEST)
        }
        _ => PLAIN_WIDTH,
    }
}

/// Where an answer in several files goes, and how quantities are shown.
#[derive(Debug, Args)]
pub(super) struct FolderArguments {
    /// Write the answer, and a card for each rider, into this folder instead of the terminal
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "out")]
    force: bool,
    /// Units of the answer (files may always use either)
    #[arg(long, value_enum, default_value_t = UnitsName::Metric)]
    units: UnitsName,
}

impl FolderArguments {
    /// How to show the answer.
    pub(super) fn look(&self) -> Look {
        look(self.units, self.out.is_some())
    }

    /// Before the work is done: is nothing in the way of the file that comes first?
    pub(super) fn unobstructed(&self, first: &str) -> Result<(), Ending> {
        let folder = self.out.as_ref().filter(|folder| folder.exists());
        unobstructed(folder.map(|folder| folder.join(first)), self.force)
    }

    /// Prints the first file's text, or writes all files into the folder: all of them, or none where one is in the way.
    pub(super) fn deliver(&self, files: &[(String, String)]) -> Ending {
        let Some(folder) = &self.out else {
            let text = files.first().map_or("", |(_, text)| text.as_str());
            return told(write::print(text));
        };
        let plain = |text: &str| anstream::adapter::strip_str(text).to_string();
        let files: Vec<(PathBuf, String)> = files.iter().map(|(name, text)| (folder.join(name), plain(text))).collect();
        if let Err(ending) = not_read(files.iter().map(|(path, _)| path)) {
            return ending;
        }
        told(write::into_folder(folder, files.iter().map(|(path, text)| (&**path, text.as_bytes())), self.force))
    }
}

impl<F: Shape> OutputArguments<F> {
    /// How to show the answer.
    pub(super) fn look(&self) -> Look {
        self.to.look()
    }

    /// Before the work is done: is nothing in the way of the answer, and of a file beside it?
    pub(super) fn unobstructed(&self, beside: Option<&Path>) -> Result<(), Ending> {
        self.to.unobstructed(beside)
    }

    /// Delivers an answer that may have failed to become what was asked for.
    pub(super) fn finish(&self, text: Result<String, impl Display>) -> Ending {
        self.to.finish(text, None)
    }

    /// The same with a file beside it: both are written, or neither.
    pub(super) fn finish_beside(&self, text: Result<String, impl Display>, beside: Option<(&Path, &[u8])>) -> Ending {
        self.to.finish(text, beside)
    }
}

impl Destination {
    /// How to show the answer.
    pub(super) fn look(&self) -> Look {
        look(self.units, self.out.is_some())
    }

    /// Before the work is done: is nothing in the way of the answer, and of a file beside it?
    pub(super) fn unobstructed(&self, beside: Option<&Path>) -> Result<(), Ending> {
        unobstructed(self.out.as_deref().into_iter().chain(beside), self.force)
    }

    /// Delivers an answer that may have failed to become what was asked for.
    pub(super) fn finish(&self, text: Result<String, impl Display>, beside: Option<(&Path, &[u8])>) -> Ending {
        match text {
            Ok(text) => {
                let files = self.out.as_deref().into_iter().chain(beside.map(|(path, _)| path));
                not_read(files).map_or_else(|ending| ending, |()| told(self.deliver(&text, beside)))
            }
            Err(error) => {
                complain(&say!("internal error: the answer cannot be written: {error}"));
                Ending::Defect
            }
        }
    }

    /// Delivers an answer to the terminal or the file, and what is beside it to its own.
    fn deliver(&self, text: &str, beside: Option<(&Path, &[u8])>) -> Result<(), Unwritten> {
        let plain = anstream::adapter::strip_str(text).to_string();
        let answer = self.out.as_deref().map(|path| (path, plain.as_bytes()));
        let files = beside.into_iter().chain(answer);
        write::whole_files(files, self.force)?;
        if self.out.is_none() { write::print(text) } else { Ok(()) }
    }
}

/// Prints a text that is for machines, or writes it to a file.
pub(super) fn put(text: &str, out: Option<&Path>, force: bool) -> Ending {
    told(out.map_or_else(|| write::print(text), |path| write::whole_file(path, text, force)))
}

/// Before the work is done: is nothing in the way of these files?
pub(super) fn unobstructed(files: impl IntoIterator<Item = impl AsRef<Path>>, force: bool) -> Result<(), Ending> {
    match told(files.into_iter().try_for_each(|path| write::unobstructed(path.as_ref(), force))) {
        Ending::Answered => Ok(()),
        ending => Err(ending),
    }
}

/// Does no file that the answer was made from stand where it is to be written? With `--force` it would be lost.
pub(super) fn not_read(files: impl IntoIterator<Item = impl AsRef<Path>>) -> Result<(), Ending> {
    match files.into_iter().find(|path| load::was_read(path.as_ref())) {
        None => Ok(()),
        Some(path) => {
            let path = path.as_ref().display();
            complain(&say!("{path}: cannot be written: the answer is made from it; choose another name"));
            Err(Ending::BadInput)
        }
    }
}

/// How a run ends that has written, or could not write.
pub(super) fn told(result: Result<(), Unwritten>) -> Ending {
    match result {
        Ok(()) => Ending::Answered,
        Err(unwritten) => {
            complain(&unwritten.to_string());
            Ending::BadInput
        }
    }
}
