//! `fardel rehearse`.

use super::output::{FullArgument, OutputArguments, PageFormat};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::tradeoff::{drawn, picture};
use super::trip::{Opened, TripArguments};
use super::{Ending, complain, progress};
use crate::answer;
use crate::answer::RehearseError;
use crate::domain::Kit;
use crate::rehearse::{IN_HAND, Plan};
use crate::report::view::{self, Names, Typed};
use crate::report::{self, Look};
use crate::units::Hours;
use clap::Args;
use fardel_words::{say, word};
use std::path::PathBuf;

/// Ride the trip many thousand times with the kit that `pack` chooses, and see what happens.
///
/// Falls and breakdowns are drawn at the rates of the catalogue; each is dealt with by the best repair that is still
/// possible with what is aboard, and what is used up is gone. The same seed gives the same trips.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel rehearse scenarios/five-day-loop.yaml --trips 200000 --seed 7")]
pub(super) struct Rehearse {
    #[command(flatten)]
    trip: TripArguments,
    /// Kit to ride with instead of the one that `pack` chooses: YAML, CSV, or the JSON of an earlier `pack`
    #[arg(long, value_name = "FILE")]
    kit: Option<PathBuf>,
    /// Draw how the hours lost spread into a file whose name ends in .svg or .png
    #[arg(long, value_name = "FILE", group = "file", value_parser = picture)]
    plot: Option<PathBuf>,
    #[command(flatten)]
    riding: RidingArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<PageFormat>,
}

/// How to rehearse.
#[derive(Debug, Args)]
struct RidingArguments {
    /// How many times to ride the trip
    #[arg(long, value_name = "N", default_value_t = 100_000, value_parser = clap::value_parser!(u64).range(1..=1_000_000_000))]
    trips: u64,
    /// Number that decides all chances
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// Draw every rate anew for each trip, as far as its evidence leaves it open
    #[arg(long)]
    uncertain_rates: bool,
    /// Draw everything that is uncertain anew, again and again: rates, falls, repair times, hours to help, prices of worth
    #[arg(long, conflicts_with = "uncertain_rates")]
    uncertain: bool,
    /// Hours a day may lose before the night is spent somewhere else than planned
    #[arg(long, value_name = "HOURS", default_value_t = IN_HAND.get(), value_parser = hours)]
    hours_in_hand: f64,
}

fn hours(text: &str) -> Result<f64, String> {
    let hours = text.parse().ok().filter(|h: &f64| (0.0..=24.0).contains(h));
    hours.ok_or_else(|| say!("hours from 0 to 24 are expected"))
}

impl RidingArguments {
    const fn plan(&self) -> Plan {
        let in_hand = Hours::new(self.hours_in_hand);
        Plan { trips: self.trips, seed: self.seed, uncertain: self.uncertain_rates, in_hand }
    }
}

impl Rehearse {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let mut opened = match self.output.unobstructed(self.plot.as_deref()).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let kit = match self.kit(&mut opened, &look) {
            Ok(kit) => kit,
            Err(ending) => return ending,
        };
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let plan = self.riding.plan();
        let answer = progress::while_counting("riding", plan.trips, |ridden| {
            let rehearse = if self.riding.uncertain { answer::rehearse_uncertain } else { answer::rehearse };
            rehearse(catalogue, scenario, rider, &kit, &plan, ridden)
        });
        let answer = match answer {
            Ok(answer) => answer,
            Err(error) => {
                complain(&error.to_string());
                return if matches!(error, RehearseError::NoBike(_)) { Ending::Defect } else { Ending::BadInput };
            }
        };
        let (png, svg) = (|| report::histogram::png(&answer), || report::histogram::svg(&answer));
        let picture = match drawn(self.plot.as_deref(), "picture", png, svg) {
            Ok(picture) => picture,
            Err(ending) => return ending,
        };
        let text = match self.output.format {
            PageFormat::Text if self.full.full => Ok(report::terminal::rehearsal(&answer, &look)),
            PageFormat::Text => {
                let names = Names::of(opened.catalogue());
                Ok(report::terminal::brief(&view::rehearsal(&answer, &names, &self.typed(), &look), &look))
            }
            PageFormat::Markdown => report::markdown::rehearsal(&answer, &look).map_err(|error| error.to_string()),
            PageFormat::Csv => report::csv::rehearsal(&answer).map_err(|error| error.to_string()),
            PageFormat::Json => report::json::rehearsal(&answer).map_err(|error| error.to_string()),
            PageFormat::Html => report::pages::rehearse(&answer, &look).map_err(|error| error.to_string()),
        };
        self.output.finish_beside(text, picture.as_ref().map(|(path, picture)| (*path, picture.as_slice())))
    }

    /// What was typed, for the next command.
    fn typed(&self) -> Typed {
        let kit = self.kit.as_ref().map(|kit| kit.to_string_lossy());
        let further: Vec<&str> = kit.iter().flat_map(|kit| ["--kit", &**kit]).collect();
        self.trip.typed(&further)
    }

    /// The kit in the file, or the one that is best.
    fn kit(&self, opened: &mut Opened, look: &Look) -> Result<Kit, Ending> {
        if let Some(path) = &self.kit {
            return opened.kit(path).map(|packed| packed.kit);
        }
        let options = self.options.options();
        let pack = || answer::pack(opened.catalogue(), opened.scenario(), opened.rider(), &options);
        let packed = progress::while_busy(word!("packing first"), pack);
        packed.map(|answer| answer.kit).map_err(|error| refuse(opened.catalogue(), &error, look))
    }
}
