//! `fardel trim`.

use super::complaint::complain_of_limits;
use super::output::{FullArgument, OutputArguments, PageFormat};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::tradeoff::amount;
use super::trip::{Opened, TripArguments};
use super::{Ending, complain, progress};
use crate::answer::{self, PackError, Wish};
use crate::diagnostic::{did_you_mean, nearest};
use crate::domain::Kit;
use crate::report;
use crate::report::json::Unmet;
use crate::report::view::{self, Names, Typed};
use crate::resolve::{Amount, Measure};
use clap::{ArgGroup, Args};
use fardel_words::{say, word};
use std::path::PathBuf;

/// Say what to leave at home of a packed kit, so that least is lost.
///
/// Needs still hold, as far as the packed kit meets them. Everything packed counts as owned.
#[derive(Debug, Args)]
#[command(
    group = ArgGroup::new("how far").required(true).args(["to", "by"]),
    after_help = "Example: fardel trim scenarios/five-day-loop.yaml --kit packed.csv --to 21kg --keep first-aid-kit"
)]
pub(super) struct Trim {
    #[command(flatten)]
    trip: TripArguments,
    /// What is packed: YAML or CSV with ids and counts, or the JSON of an earlier `pack`
    #[arg(long, value_name = "FILE")]
    kit: PathBuf,
    /// What the kit is to come to, such as 13kg or 20L
    #[arg(long, value_name = "AMOUNT")]
    to: Option<String>,
    /// By how much it is to shrink, such as 2.5kg or 3L
    #[arg(long, value_name = "AMOUNT")]
    by: Option<String>,
    /// Let other things take the place of packed ones: owned ones for nothing, others for their price
    #[arg(long)]
    swap: bool,
    /// Item that stays; may be given several times
    #[arg(long, value_name = "ID")]
    keep: Vec<String>,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<PageFormat>,
}

impl Trim {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let mut opened = match self.output.unobstructed(None).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let kit = match opened.kit(&self.kit) {
            Ok(packed) => packed.kit,
            Err(ending) => return ending,
        };
        let wish = match self.wish(&opened, &kit) {
            Ok(wish) => wish,
            Err(message) => {
                complain(&message);
                return Ending::BadInput;
            }
        };
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let trimmed = progress::while_busy(word!("taking out and putting back"), || {
            answer::trim(catalogue, scenario, rider, &kit, &wish, &self.options.options())
        });
        match trimmed {
            Ok(mut answer) => {
                answer.warnings.extend(opened.notes().iter().cloned());
                self.output.finish(match self.output.format {
                    PageFormat::Text if self.full.full => Ok(report::terminal::trim(&answer, &look)),
                    PageFormat::Text => {
                        let names = Names::of(opened.catalogue());
                        Ok(report::terminal::brief(&view::trim(&answer, &names, &self.typed(), &look), &look))
                    }
                    PageFormat::Markdown => report::markdown::trim(&answer, &look).map_err(|error| error.to_string()),
                    PageFormat::Csv => report::csv::trim(&answer).map_err(|error| error.to_string()),
                    PageFormat::Json => report::json::trim(&answer).map_err(|error| error.to_string()),
                    PageFormat::Html => report::pages::trim(&answer, &Names::of(opened.catalogue()), &look)
                        .map_err(|error| error.to_string()),
                })
            }
            Err(PackError::Infeasible { shortfalls, .. }) => {
                let words = report::terminal::stuck(catalogue, &shortfalls, &look);
                complain_of_limits(&words, &Unmet { catalogue, shortfalls: &shortfalls, ways: &[], look: &look });
                Ending::NoKit
            }
            Err(error) => refuse(catalogue, &error, &look),
        }
    }

    /// What was typed, for the next command.
    fn typed(&self) -> Typed {
        let kit = self.kit.to_string_lossy();
        let mut further = vec!["--kit", &*kit];
        further.extend(self.to.iter().flat_map(|to| ["--to", to]));
        further.extend(self.by.iter().flat_map(|by| ["--by", by]));
        further.extend(self.keep.iter().flat_map(|keep| ["--keep", keep]));
        further.extend(self.swap.then_some("--swap"));
        self.trip.typed(&further)
    }

    fn wish(&self, opened: &Opened, kit: &Kit) -> Result<Wish, String> {
        if let Some(keep) = self.keep.iter().find(|keep| kit.count(keep) == 0) {
            let near = did_you_mean(nearest(keep, kit.iter().map(|(id, _)| id)));
            return Err(say!("--keep {keep}: it is not in the kit{near}"));
        }
        let read = |option: &str, text: &str| -> Result<(Measure, Amount), String> {
            let currency = opened.catalogue().currency;
            let mass = amount(Measure::Mass, text, currency);
            let volume = amount(Measure::Volume, text, currency);
            match (mass, volume) {
                (Ok(mass), _) => Ok((Measure::Mass, mass)),
                (_, Ok(volume)) => Ok((Measure::Volume, volume)),
                (Err(why), _) => Err(format!("--{option} {text}: {why}")),
            }
        };
        let catalogue = opened.catalogue().as_weighed_by(opened.rider());
        let (measure, target) = match (&self.to, &self.by) {
            (Some(to), _) => read("to", to)?,
            (None, by) => {
                let (measure, by) = read("by", by.as_deref().unwrap_or_default())?;
                let packed = if measure == Measure::Mass {
                    kit.mass(&catalogue).milligrams()
                } else {
                    kit.volume(&catalogue).microlitres()
                };
                (measure, (packed - by).max(0))
            }
        };
        Ok(Wish { measure, target, swap: self.swap, keep: self.keep.clone() })
    }
}
