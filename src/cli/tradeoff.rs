//! `fardel tradeoff`.

use super::output::{FullArgument, OutputArguments, PageFormat};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::trip::TripArguments;
use super::{Ending, complain, progress};
use crate::answer::{self, Limits, TradeoffAnswer};
use crate::report::view::{self, Names, Typed};
use crate::report::{self, Look};
use crate::resolve::{Amount, Measure};
use crate::units::{Currency, Mass, Money, Quantity, Volume};
use clap::{Args, ValueEnum};
use fardel_words::{say, word};
use std::fmt::Display;
use std::path::{Path, PathBuf};

/// Show what more mass, room or money would buy: the best kit under one limit after another.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel tradeoff scenarios/five-day-loop.yaml --points 24 --plot curve.svg\n  \
                  fardel tradeoff scenarios/five-day-loop.yaml --at 18kg,20kg,22kg\n  \
                  fardel tradeoff scenarios/five-day-loop.yaml --over money --from 150USD\n\n\
                  A time limit holds for each point.")]
pub(super) struct Tradeoff {
    #[command(flatten)]
    trip: TripArguments,
    /// What is limited
    #[arg(long, value_enum, default_value_t = Over::Mass)]
    over: Over,
    /// How many limits to look at, evenly from the least that the needs take to what is enough
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = clap::value_parser!(u16).range(2..=1000))]
    points: u16,
    /// Begin there instead, such as 15kg, 30L or 100USD
    #[arg(long, value_name = "AMOUNT")]
    from: Option<String>,
    /// End there
    #[arg(long, value_name = "AMOUNT")]
    to: Option<String>,
    /// Look at these limits only, such as 18kg,20kg,22kg
    #[arg(long, value_name = "AMOUNTS", value_delimiter = ',', conflicts_with_all = ["points", "from", "to"])]
    at: Vec<String>,
    /// Draw the curve into a file whose name ends in .svg or .png
    #[arg(long, value_name = "FILE", group = "file", value_parser = picture)]
    plot: Option<PathBuf>,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: OutputArguments<PageFormat>,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Over {
    // Mass of the kit
    Mass,
    // Its packed volume
    Volume,
    // Money for what is not owned
    Money,
}

/// A name that says how to draw.
pub(super) fn picture(name: &str) -> Result<PathBuf, String> {
    let path = PathBuf::from(name);
    match ending(&path) {
        Some("svg" | "png") => Ok(path),
        _ => Err(say!("a name ending in .svg or .png is expected")),
    }
}

/// What is drawn in the way that the name says, and where it goes.
pub(super) fn drawn<'a, E: Display>(
    path: Option<&'a Path>,
    what: &str,
    png: impl FnOnce() -> Result<Vec<u8>, E>,
    svg: impl FnOnce() -> Result<String, E>,
) -> Result<Option<(&'a Path, Vec<u8>)>, Ending> {
    let Some(path) = path else { return Ok(None) };
    let picture = if ending(path) == Some("png") { png() } else { svg().map(String::into_bytes) };
    picture.map(|picture| Some((path, picture))).map_err(|error| {
        complain(&say!("internal error: the {what} cannot be drawn: {error}"));
        Ending::Defect
    })
}

/// What follows the last full stop.
fn ending(path: &Path) -> Option<&str> {
    path.extension().and_then(std::ffi::OsStr::to_str)
}

impl Tradeoff {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let opened = match self.output.unobstructed(self.plot.as_deref()).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let measure = self.measure();
        let limits = match self.limits(measure, opened.catalogue().currency) {
            Ok(limits) => limits,
            Err(message) => {
                complain(&message);
                return Ending::BadInput;
            }
        };
        let many = if let Limits::At(limits) = &limits { limits.len() as u64 } else { u64::from(self.points) };
        let options = self.options.options();
        let answer = progress::while_counting(word!("kit after kit"), many, |done| {
            let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
            answer::tradeoff(catalogue, scenario, rider, (measure, &limits), &options, done)
        });
        match answer {
            Ok(mut answer) => {
                answer.warnings.extend(opened.notes().iter().cloned());
                self.deliver(&answer, &Names::of(opened.catalogue()), &look)
            }
            Err(error) => refuse(opened.catalogue(), &error, &look),
        }
    }

    const fn measure(&self) -> Measure {
        match self.over {
            Over::Mass => Measure::Mass,
            Over::Volume => Measure::Volume,
            Over::Money => Measure::Money,
        }
    }

    fn limits(&self, measure: Measure, currency: Currency) -> Result<Limits, String> {
        let read = |option: &str, text: &String| {
            amount(measure, text, currency).map_err(|why| format!("--{option} {text}: {why}"))
        };
        if !self.at.is_empty() {
            return self.at.iter().map(|text| read("at", text)).collect::<Result<_, _>>().map(Limits::At);
        }
        let from = self.from.as_ref().map(|text| read("from", text)).transpose()?;
        let to = self.to.as_ref().map(|text| read("to", text)).transpose()?;
        if from.zip(to).is_some_and(|(from, to)| from > to) {
            return Err(say!("--from is more than --to"));
        }
        Ok(Limits::Between { from, to, count: usize::from(self.points) })
    }

    /// What was typed, for the next command.
    fn typed(&self) -> Typed {
        let points = self.points.to_string();
        let over = match self.over {
            Over::Mass => "mass",
            Over::Volume => "volume",
            Over::Money => "money",
        };
        let mut further = vec!["--over", over];
        let at = self.at.join(",");
        if self.at.is_empty() {
            further.extend(["--points", &points]);
            further.extend(self.from.iter().flat_map(|from| ["--from", from]));
            further.extend(self.to.iter().flat_map(|to| ["--to", to]));
        } else {
            further.extend(["--at", &at]);
        }
        self.trip.typed(&further)
    }

    fn deliver(&self, answer: &TradeoffAnswer, names: &Names, look: &Look) -> Ending {
        let (png, svg) = (|| report::plot::png(answer, look), || report::plot::svg(answer, look));
        let curve = match drawn(self.plot.as_deref(), "curve", png, svg) {
            Ok(curve) => curve,
            Err(ending) => return ending,
        };
        let text = match self.output.format {
            PageFormat::Text if self.full.full => Ok(report::terminal::tradeoff(answer, look)),
            PageFormat::Text => Ok(report::terminal::brief(&view::tradeoff(answer, names, &self.typed(), look), look)),
            PageFormat::Markdown => report::markdown::tradeoff(answer, look).map_err(|error| error.to_string()),
            PageFormat::Csv => report::csv::tradeoff(answer).map_err(|error| error.to_string()),
            PageFormat::Json => report::json::tradeoff(answer).map_err(|error| error.to_string()),
            PageFormat::Html => report::pages::tradeoff(answer, look).map_err(|error| error.to_string()),
        };
        self.output.finish_beside(text, curve.as_ref().map(|(path, curve)| (*path, curve.as_slice())))
    }
}

/// Reads an amount of a measure.
pub(super) fn amount(measure: Measure, text: &str, currency: Currency) -> Result<Amount, String> {
    match measure {
        Measure::Mass => Mass::read(text).map(Mass::milligrams).map_err(|error| error.to_string()),
        Measure::Volume => Volume::read(text).map(Volume::microlitres).map_err(|error| error.to_string()),
        Measure::Money => match Money::read(text) {
            Ok((money, own)) if own == currency => Ok(money.cents()),
            Ok((_, own)) => Err(say!("the catalogue's prices are in {currency}, not {own}")),
            Err(error) => Err(error.to_string()),
        },
    }
}
