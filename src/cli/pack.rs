//! `fardel pack`.

use super::output::{FullArgument, OutputArguments, PageFormat};
use super::refusal::refuse;
use super::settings::{LimitArguments, SolveArguments};
use super::trip::{Opened, TripArguments};
use super::{Ending, progress};
use crate::answer::{Anew, Limits, PackAnswer, PackError, Robust, TradeoffAnswer};
use crate::report::json::Unmet;
use crate::report::view::{self, Names};
use crate::report::{Look, pages};
use crate::resolve::Measure;
use crate::{answer, report};
use clap::Args;
use fardel_words::{say, word};
use std::time::Instant;

/// Choose and stow the kit for a scenario.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel pack scenarios/five-day-loop.yaml --units imperial")]
pub(super) struct Pack {
    #[command(flatten)]
    trip: TripArguments,
    /// Pack so many times more with all that is uncertain drawn anew; tell what depends on it and what to measure first
    #[arg(long, value_name = "K", value_parser = clap::value_parser!(u64).range(2..=1000))]
    uncertain: Option<u64>,
    /// Pack anew with each preparation done, not only with two
    #[arg(long)]
    every_preparation: bool,
    /// Number that decides the draws
    #[arg(long, value_name = "S", default_value_t = 1, requires = "uncertain")]
    seed: u64,
    /// Limits on the curve of mass in the page (with --format html), each packed for itself; 0 leaves the curve out
    #[arg(long, value_name = "N", default_value_t = 8, value_parser = clap::value_parser!(u16).range(0..=100))]
    curve: u16,
    #[command(flatten)]
    limits: LimitArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<PageFormat>,
}

impl Pack {
    pub(super) fn run(&self) -> Ending {
        let (look, begun) = (self.output.look(), Instant::now());
        let mut opened = match self.output.unobstructed(None).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        self.limits.apply(opened.scenario_mut());
        let packed = progress::while_busy(word!("weighing one thing against another"), || {
            let anew = if self.every_preparation { Anew::All } else { Anew::Few };
            answer::pack_thoroughly(
                opened.catalogue(),
                opened.scenario(),
                opened.rider(),
                anew,
                &self.options.options(),
            )
        });
        let robust = packed.and_then(|answer| Ok((self.robust(&opened, &answer)?, answer)));
        match robust {
            Ok((robust, mut answer)) => {
                answer.warnings.extend(opened.notes().iter().cloned());
                let robust = robust.as_ref();
                self.output.finish(match self.output.format {
                    PageFormat::Text => Ok(self.text(&opened, &answer, &look)
                        + &robust.map_or_else(String::new, |robust| report::terminal::robust(robust, &look))),
                    PageFormat::Markdown => report::markdown::pack(&answer, &look).map_err(|error| error.to_string()),
                    PageFormat::Csv => report::csv::pack(&answer).map_err(|error| error.to_string()),
                    PageFormat::Json => report::json::pack(&answer, robust).map_err(|error| error.to_string()),
                    PageFormat::Html => self.page(&opened, answer, (robust, begun), &look),
                })
            }
            Err(PackError::Infeasible { shortfalls, ways }) if self.output.format == PageFormat::Json => {
                let catalogue = opened.catalogue();
                let unmet = Unmet { catalogue, shortfalls: &shortfalls, ways: &ways, look: &look };
                match self.output.finish(report::json::infeasible("pack", &unmet)) {
                    Ending::Answered => refuse(catalogue, &PackError::Infeasible { shortfalls, ways }, &look),
                    failed => failed,
                }
            }
            Err(error) => refuse(opened.catalogue(), &error, &look),
        }
    }

    /// The answer on one screen, or all of it.
    fn text(&self, opened: &Opened, answer: &PackAnswer, look: &Look) -> String {
        if self.full.full {
            return report::terminal::pack(answer, look);
        }
        let names = Names::of(opened.catalogue());
        report::terminal::brief(&view::pack(answer, &names, &self.trip.typed(&[]), look), look)
    }

    /// The answer as a page.
    fn page(
        &self,
        opened: &Opened,
        mut answer: PackAnswer,
        (robust, begun): (Option<&Robust>, Instant),
        look: &Look,
    ) -> Result<String, String> {
        let catalogue = opened.catalogue();
        let bike = catalogue.bikes.get(&opened.rider().bike).ok_or(word!("the bike is not in the catalogue"))?;
        let curve = self.curve(opened, begun).unwrap_or_else(|error| {
            answer.warnings.push(say!("The curve of mass is not there: {error}."));
            None
        });
        let kit = pages::Kit { catalogue, bike, robust, curve: curve.as_ref() };
        pages::pack(&answer, &kit, look).map_err(|error| error.to_string())
    }

    /// The best kits under other limits of mass, if they were asked for.
    fn curve(&self, opened: &Opened, begun: Instant) -> Result<Option<TradeoffAnswer>, PackError> {
        if self.curve == 0 {
            return Ok(None);
        }
        let limits = Limits::Between { from: None, to: None, count: usize::from(self.curve.max(2)) };
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let options = self.options.rest(begun);
        let curve = progress::while_counting(word!("kit after kit, for the curve"), u64::from(self.curve), |done| {
            answer::tradeoff(catalogue, scenario, rider, (Measure::Mass, &limits), &options, done)
        });
        curve.map(Some)
    }

    /// The same trip under other rates, if that was asked for.
    fn robust(&self, opened: &Opened, answer: &PackAnswer) -> Result<Option<Robust>, PackError> {
        let Some(draws) = self.uncertain else { return Ok(None) };
        let trip = (opened.catalogue(), opened.scenario(), opened.rider());
        let options = self.options.each();
        let robust = progress::while_counting(word!("packing again"), draws, |done| {
            answer::robust(trip, &answer.kit, (draws, self.seed), &options, done)
        });
        robust.map(Some)
    }
}
