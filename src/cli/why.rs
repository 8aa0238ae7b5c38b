//! `fardel why`.

use super::output::{FullArgument, OutputArguments, WordFormat};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::trip::TripArguments;
use super::{Ending, complain, progress};
use crate::answer::{self, WhyError};
use crate::diagnostic::did_you_mean;
use crate::report;
use crate::report::view::{self, Names};
use clap::Args;
use fardel_words::{say, word};

/// Why an item is in the kit or is not, and how a failure is dealt with.
///
/// Losses are found by packing again without the thing, or with it: the rest of the kit rearranges.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel why hand-pump scenarios/five-day-loop.yaml\n  \
                  fardel why radiator-holed scenarios/five-day-loop.yaml")]
pub(super) struct Why {
    /// Id or name of an item or a failure
    name: String,
    #[command(flatten)]
    trip: TripArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<WordFormat>,
}

impl Why {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let opened = match self.output.unobstructed(None).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let asked = progress::while_busy(word!("packing with and without"), || {
            answer::why(catalogue, scenario, rider, &self.name, &self.options.options())
        });
        match asked {
            Ok(mut answer) => {
                answer.warnings.extend(opened.notes().iter().cloned());
                self.output.finish(match self.output.format {
                    WordFormat::Text if self.full.full => Ok(report::terminal::why(&answer, &look)),
                    WordFormat::Text => {
                        let (names, typed) = (Names::of(catalogue), self.trip.typed(&[]));
                        Ok(report::terminal::brief(&view::why(&answer, &names, &typed, &look), &look))
                    }
                    WordFormat::Markdown => report::markdown::why(&answer, &look).map_err(|error| error.to_string()),
                    WordFormat::Json => report::json::why(&answer).map_err(|error| error.to_string()),
                })
            }
            Err(WhyError::Pack(error)) => refuse(catalogue, &error, &look),
            Err(WhyError::Unknown { name, nearest, like }) => {
                complain(&unknown(&name, nearest, &like));
                Ending::BadInput
            }
        }
    }
}

/// What is said of a name that nothing has: what has its words in it, or else what is spelt like it.
fn unknown(name: &str, nearest: Option<String>, like: &[(String, String)]) -> String {
    let text = say!("`{name}` is neither an item nor a failure of the catalogue");
    if !like.is_empty() {
        let lines: Vec<String> = like.iter().map(|(id, name)| format!("  {id}: {name}")).collect();
        return say!("{text}. With that in its name there is:\n{}", lines.join("\n"));
    }
    text + &did_you_mean(nearest)
}
