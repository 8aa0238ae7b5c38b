//! `fardel card`.

use super::output::{CardFormat, FullArgument, OutputArguments};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::trip::{Opened, TripArguments};
use super::{Ending, complain, progress};
use crate::answer::{self, Aboard, CardAnswer};
use crate::report::view::{self, Names};
use crate::report::{self, Look};
use clap::Args;
use fardel_words::{say, word};
use std::path::PathBuf;

/// A card for the pocket: what is likely to break, and how the kit mends it, step by step.
///
/// For each failure that the kit deals with, the likeliest first: what to reach for and in which bag it is, the steps in
/// few words, how long it takes, and what to look at afterwards. A reminder for those who have practised; it replaces no
/// manual.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel card scenarios/five-day-loop.yaml --top 12\n  \
                  fardel card scenarios/five-day-loop.yaml --format html --out card.html")]
pub(super) struct Card {
    #[command(flatten)]
    trip: TripArguments,
    /// Kit that is aboard instead of the one that `pack` chooses: YAML, CSV, or the JSON of an earlier `pack`
    #[arg(long, value_name = "FILE")]
    kit: Option<PathBuf>,
    /// How many failures, the likeliest first
    #[arg(long, value_name = "N", default_value_t = 16, value_parser = clap::value_parser!(u16).range(1..=500))]
    top: u16,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<CardFormat>,
}

impl Card {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let mut opened = match self.output.unobstructed(None).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let mut answer = match self.answer(&mut opened, &look) {
            Ok(answer) => answer,
            Err(ending) => return ending,
        };
        answer.warnings.extend(opened.notes().iter().cloned());
        self.output.finish(match self.output.format {
            CardFormat::Text if self.full.full => Ok(report::terminal::card_of_failures(&answer, &look)),
            CardFormat::Text => {
                let kit = self.kit.as_ref().map(|kit| kit.to_string_lossy());
                let further: Vec<&str> = kit.iter().flat_map(|kit| ["--kit", &**kit]).collect();
                let (names, typed) = (Names::of(opened.catalogue()), self.trip.typed(&further));
                Ok(report::terminal::brief(&view::card(&answer, &names, &typed, &look), &look))
            }
            CardFormat::Markdown => report::markdown::card(&answer, &look).map_err(|error| error.to_string()),
            CardFormat::Json => report::json::card_of_failures(&answer).map_err(|error| error.to_string()),
            CardFormat::Html => report::pages::booklet(&answer, &look).map_err(|error| error.to_string()),
        })
    }

    fn answer(&self, opened: &mut Opened, look: &Look) -> Result<CardAnswer, Ending> {
        let aboard = self.kit.as_ref().map(|path| opened.kit(path)).transpose()?;
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let card = |aboard: Aboard<'_>| {
            answer::card(catalogue, scenario, rider, aboard, usize::from(self.top)).ok_or_else(|| {
                complain(&say!("internal error: no bike `{}`", rider.bike));
                Ending::Defect
            })
        };
        if let Some(packed) = &aboard {
            return card(Aboard { kit: &packed.kit, stowage: packed.stowage.as_ref() });
        }
        let pack = || answer::pack(catalogue, scenario, rider, &self.options.options());
        match progress::while_busy(word!("packing first"), pack) {
            Ok(packed) => card(Aboard::packed(&packed)),
            Err(error) => Err(refuse(catalogue, &error, look)),
        }
    }
}
