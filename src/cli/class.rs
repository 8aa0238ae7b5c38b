//! `fardel class`.

use super::complaint::bad_input;
use super::output::FolderArguments;
use super::settings::{CatalogueArguments, LimitArguments, SolveArguments};
use super::split::file_name;
use super::verbosity::quiet;
use super::{Ending, complain, progress};
use crate::answer::class::{ClassAnswer, Member, class};
use crate::domain::Catalogue;
use crate::report::{self, Look, papers};
use clap::{Args, ValueEnum};
use fardel_words::{say, word};
use std::path::PathBuf;

/// A class: riders on one trip who each pack for themselves.
///
/// Each rider's kit, what has to be bought and of what one would do for all, which toolkit cannot turn which fastener of its
/// bike, and who lacks what the leader carries. The leader is the rider with the role `leads`, or the first.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel class my-class.yaml --format html --out class")]
pub(super) struct Class {
    /// Scenario file with the riders of the class
    scenario: PathBuf,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    /// Shape of the answer
    #[arg(long, value_enum, default_value_t = ClassFormat::Text)]
    format: ClassFormat,
    #[command(flatten)]
    limits: LimitArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    output: FolderArguments,
}

/// Shapes of the sheets of a class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ClassFormat {
    /// For reading
    Text,
    /// For a spreadsheet: a flat row for each thing
    Csv,
    /// For machines; versioned
    Json,
    /// For a browser, on a phone or on paper: files that load nothing
    Html,
}

impl ClassFormat {
    const fn ending(self) -> &'static str {
        match self {
            Self::Text => "txt",
            Self::Csv => "csv",
            Self::Json => "json",
            Self::Html => "html",
        }
    }
}

impl Class {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let coach = format!("coach.{}", self.format.ending());
        if let Err(ending) = self.output.unobstructed(&coach) {
            return ending;
        }
        let mut loaded = match super::trip::read(&self.scenario, &self.catalogue) {
            Ok(loaded) => loaded,
            Err(trouble) => return bad_input(trouble),
        };
        self.limits.apply(&mut loaded.scenario);
        let mut answer = progress::while_busy(word!("packing for everybody"), || {
            class(&loaded.catalogue, &loaded.scenario, &self.options.options())
        });
        if !quiet() {
            answer.warnings.extend(loaded.notes);
        }
        match self.files(coach, &answer, &loaded.catalogue, &look) {
            Ok(files) => match self.output.deliver(&files) {
                Ending::Answered if answer.members.iter().any(|member| member.kit.is_err()) => Ending::NoKit,
                ending => ending,
            },
            Err(error) => {
                complain(&say!("internal error: the answer cannot be written: {error}"));
                Ending::Defect
            }
        }
    }

    /// The coach's file first, then one for each rider.
    fn files(
        &self,
        coach: String,
        answer: &ClassAnswer,
        catalogue: &Catalogue,
        look: &Look,
    ) -> Result<Vec<(String, String)>, String> {
        let mut files = vec![(coach, self.of_coach(answer, catalogue, look)?)];
        for (at, member) in answer.members.iter().enumerate() {
            let name = format!("{}-{}.{}", at + 1, file_name(&member.rider), self.format.ending());
            files.push((name, self.of_rider(answer, member, catalogue, look)?));
        }
        Ok(files)
    }

    fn of_coach(&self, answer: &ClassAnswer, catalogue: &Catalogue, look: &Look) -> Result<String, String> {
        let paper = || papers::coach(answer, catalogue, look);
        match self.format {
            ClassFormat::Text => Ok(paper().text(look)),
            ClassFormat::Html => paper().page(look).map_err(|error| error.to_string()),
            ClassFormat::Csv => report::csv::class(answer).map_err(|error| error.to_string()),
            ClassFormat::Json => report::json::class(answer).map_err(|error| error.to_string()),
        }
    }

    fn of_rider(
        &self,
        answer: &ClassAnswer,
        own: &Member,
        catalogue: &Catalogue,
        look: &Look,
    ) -> Result<String, String> {
        let paper = || papers::member(answer, own, catalogue, look);
        match self.format {
            ClassFormat::Text => Ok(paper().text(look)),
            ClassFormat::Html => paper().page(look).map_err(|error| error.to_string()),
            ClassFormat::Csv => report::csv::class_member(own, answer.currency).map_err(|error| error.to_string()),
            ClassFormat::Json => report::json::class_member(own).map_err(|error| error.to_string()),
        }
    }
}
