//! `fardel pool`.

use super::complaint::bad_input;
use super::output::{Format, OutputArguments};
use super::trip::Known;
use super::{Ending, complain};
use crate::diagnostic::{Fault, Faults};
use crate::domain::Catalogue;
use crate::elicit::pool::Opinion;
use crate::elicit::{Answers, Elicited, Pooled, learn, pool, read};
use crate::load::{self, Source};
use crate::report::{elicited, json, terminal};
use clap::{Args, ValueEnum};
use fardel_words::say;
use std::path::{Path, PathBuf};

/// Read riders' answers to the questions of `ask` and say what they come to together.
///
/// One file a rider. Their distributions are averaged, all riders alike, and beside that by how well each knew what is
/// known. With --overlay the numbers go into a catalogue of your own, which a scenario names under `catalogues`. With
/// anything wrong in any file, nothing is written.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel pool anna.csv ben.csv --overlay asked.yaml")]
pub(super) struct Pool {
    /// Files of answers, one a rider
    #[arg(required = true)]
    answers: Vec<PathBuf>,
    /// Catalogue to write the numbers to
    #[arg(long, value_name = "FILE", group = "file")]
    overlay: Option<PathBuf>,
    /// Whose answers weigh how much in it
    #[arg(long, value_enum, default_value_t = Weights::Equal)]
    weights: Weights,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Weights {
    /// All riders alike
    Equal,
    /// By calibration and information
    Performance,
}

impl Pool {
    pub(super) fn run(&self) -> Ending {
        match self.answer() {
            Ok(ending) | Err(ending) => ending,
        }
    }

    fn answer(&self) -> Result<Ending, Ending> {
        let look = self.output.look();
        self.output.unobstructed(self.overlay.as_deref())?;
        let catalogue = self.known.catalogue()?;
        let answers = self.read(&catalogue)?;
        let (scores, pooled) = pool(&answers);
        let learnt = learn(&catalogue, &pooled, &|own| self.choose(own));
        let text = match self.output.format {
            Format::Text => Ok(terminal::pooled(&scores, &pooled, &learnt.changes, &look)),
            Format::Json => json::pooled(&scores, &pooled, &learnt.changes),
        };
        let overlay = self.overlay.as_deref().map(|path| Ok((path, self.checked(path, &learnt)?)));
        let overlay: Option<(&Path, String)> = overlay.transpose()?;
        Ok(self.output.finish_beside(text, overlay.as_ref().map(|(path, text)| (*path, text.as_bytes()))))
    }

    fn read(&self, catalogue: &Catalogue) -> Result<Vec<Answers>, Ending> {
        let mut faults: Vec<Fault> = Vec::new();
        let mut all: Vec<Answers> = Vec::new();
        for path in &self.answers {
            let source = load::source(path).map_err(|error| bad_input(format!("{}: {}", error.name, error.reason)))?;
            match read(&source, catalogue) {
                Ok(own) if all.iter().any(|known| known.rider == own.rider) => {
                    return Err(bad_input(say!("{}: a second file of answers by `{}`", source.name, own.rider)));
                }
                Ok(own) => all.push(own),
                Err(more) => faults.extend(more.0),
            }
        }
        if faults.is_empty() { Ok(all) } else { Err(bad_input(Faults(faults).to_string())) }
    }

    /// The pool that goes into the catalogue, and how it was weighed.
    fn choose(&self, own: &Pooled) -> (Opinion, String) {
        match (self.weights, own.performance) {
            (Weights::Performance, Some(opinion)) => (opinion, say!("weighed by calibration and information")),
            _ => (own.equal, say!("all riders alike")),
        }
    }

    /// A catalogue that does not load is not written.
    fn checked(&self, path: &Path, learnt: &Elicited) -> Result<String, Ending> {
        let text = elicited::catalogue(learnt);
        if learnt.changes.is_empty() {
            return Err(bad_input(say!("{}: no answer changes the catalogue; nothing is written", path.display())));
        }
        let sources = self.known.sources().map_err(bad_input)?;
        let source = Source { name: path.display().to_string(), text: text.clone() };
        let sound = load::catalogue(&sources, &[source]).map(drop);
        sound.map(|()| text).map_err(|faults| {
            complain(&say!("internal error: the catalogue cannot be read back\n{faults}"));
            Ending::Defect
        })
    }
}
