//! `fardel new`.

use super::output::put;
use super::settings::CatalogueArguments;
use super::verbosity::quiet;
use super::{Ending, complain};
use crate::diagnostic::{did_you_mean, nearest, quoted};
use crate::domain::{Bike, Catalogue, RepairSkill, RidingSkill};
use crate::load;
use crate::starter::ask::{Interview, Offer};
use crate::starter::{self, Ground, Help, Nights, OwnedSet, Season, Wish};
use crate::units::Money;
use clap::Args;
use fardel_words::{say, word};
use std::io::{self, BufRead, IsTerminal, Write};
use std::path::PathBuf;

/// Write a commented scenario to begin with; on a terminal it asks for what is not said.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fardel new --bike single-450-tubed --days 5 --ground rough --help-is day --out trip.yaml"
)]
pub(super) struct New {
    /// Id of the bike
    #[arg(long, value_name = "ID")]
    bike: Option<String>,
    /// Days under way
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u32).range(1..=60))]
    days: Option<u32>,
    /// How the nights are spent: none, roofed or camping (the default; none for a single day)
    #[arg(long, value_parser = nights)]
    style: Option<Nights>,
    /// How rough: road, gravel, mixed (the default) or rough
    #[arg(long, value_parser = ground)]
    ground: Option<Ground>,
    /// How far help is: near, hours, half-day (the default) or day
    #[arg(long, value_name = "HELP", value_parser = help)]
    help_is: Option<Help>,
    /// The weather: cold, mild (the default) or hot
    #[arg(long, value_parser = season)]
    season: Option<Season>,
    /// What is at home already, separated by commas: basics, tools, tyres, away, sleeping, cooking, beacon; or none. All if left out
    #[arg(long, value_name = "SETS", value_parser = sets)]
    owns: Option<Sets>,
    /// How often you fall: novice, intermediate (the default), advanced or expert
    #[arg(long, value_name = "SKILL", value_parser = riding)]
    riding_skill: Option<RidingSkill>,
    /// What you can mend: anyone, handy (the default), skilled or expert
    #[arg(long, value_name = "SKILL", value_parser = repair)]
    repair_skill: Option<RepairSkill>,
    /// What an hour of trouble on this trip is worth to you, such as "40 USD"
    #[arg(long, value_name = "PRICE")]
    hour: Option<String>,
    /// What being fetched costs, such as "100 USD"
    #[arg(long, value_name = "PRICE")]
    recovery: Option<String>,
    /// Ask nothing, even on a terminal
    #[arg(long)]
    no_questions: bool,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

/// Sets of owned things.
#[derive(Debug, Clone)]
struct Sets(Vec<OwnedSet>);

impl New {
    pub(super) fn run(&self) -> Ending {
        let asks = !self.no_questions && !quiet() && io::stdin().is_terminal() && io::stderr().is_terminal();
        let mut interview = asks.then(|| Interview::new(io::stdin().lock(), io::stderr()));
        let made = self.read().and_then(|catalogue| {
            let bike = self.bike(&catalogue, interview.as_mut())?;
            let wish = self.wish(&catalogue, interview.as_mut())?;
            if wish.nights != Nights::None && wish.days == 1 {
                return Err(say!("--style: a single day has no nights; ask for more --days, or leave --style out"));
            }
            Ok(starter::scenario(&catalogue, bike, &wish))
        });
        match made {
            Ok(text) => put(&text, self.out.as_deref(), self.force),
            Err(message) => {
                complain(&message);
                Ending::BadInput
            }
        }
    }

    fn read(&self) -> Result<Catalogue, String> {
        let sources = self.catalogue.sources();
        sources.and_then(|sources| load::catalogue(&sources, &[])).map_err(|faults| faults.to_string())
    }

    fn bike<'a, R: BufRead, W: Write>(
        &self,
        catalogue: &'a Catalogue,
        interview: Option<&mut Interview<R, W>>,
    ) -> Result<&'a Bike, String> {
        let ids: Vec<&str> = catalogue.bikes.keys().map(String::as_str).collect();
        let id = match (&self.bike, interview) {
            (Some(id), _) => id.clone(),
            (None, Some(interview)) if !ids.is_empty() => {
                let offers: Vec<Offer<'_>> =
                    catalogue.bikes.iter().map(|(id, bike)| Offer { word: id, means: &bike.name }).collect();
                let at =
                    interview.choose(word!("Which bike is most like yours?"), &offers, 0).map_err(|e| e.to_string())?;
                ids[at].to_owned()
            }
            (None, _) => return Err(say!("--bike: the id of a bike is expected\n  there are {}", ids.join(", "))),
        };
        catalogue.bikes.get(&id).ok_or_else(|| {
            let near = nearest(&id, ids.iter().copied());
            let near = near.map_or_else(String::new, |id| say!("\n  did you mean `{id}`?"));
            say!("--bike {}: no such bike{near}\n  there are {}", quoted(&id), ids.join(", "))
        })
    }

    /// What the flags say, what is answered, and what is usual, in this order.
    fn wish<R: BufRead, W: Write>(
        &self,
        catalogue: &Catalogue,
        mut interview: Option<&mut Interview<R, W>>,
    ) -> Result<Wish, String> {
        let failed = |error: io::Error| error.to_string();
        let days = match (self.days, interview.as_mut()) {
            (Some(days), _) => days,
            (None, Some(interview)) => interview.read(word!("How many days?"), "3", days).map_err(failed)?,
            (None, None) => return Err(say!("--days: a number of days from 1 to 60 is expected")),
        };
        let usual = if days == 1 { Nights::None } else { Nights::Camping };
        let style = self.style.or_else(|| (days == 1).then_some(Nights::None));
        let hour = money("--hour", self.hour.as_deref(), catalogue)?;
        let recovery = money("--recovery", self.recovery.as_deref(), catalogue)?;
        let mut wish = Wish {
            days,
            nights: style.unwrap_or(usual),
            ground: self.ground.unwrap_or(Ground::Mixed),
            help: self.help_is.unwrap_or(Help::HalfDay),
            season: self.season.unwrap_or(Season::Mild),
            riding_skill: self.riding_skill.unwrap_or(RidingSkill::Intermediate),
            repair_skill: self.repair_skill.unwrap_or(RepairSkill::Handy),
            owns: self.owns.clone().map_or_else(|| usually_owned(style.unwrap_or(usual)), |sets| sets.0),
            hour,
            recovery,
        };
        if let Some(interview) = interview {
            self.ask(&mut wish, style, catalogue, interview).map_err(failed)?;
        }
        Ok(wish)
    }

    /// Asks for what no flag says.
    fn ask<R: BufRead, W: Write>(
        &self,
        wish: &mut Wish,
        style: Option<Nights>,
        catalogue: &Catalogue,
        interview: &mut Interview<R, W>,
    ) -> io::Result<()> {
        if style.is_none() {
            let offers = offers(Nights::ALL, Nights::word, Nights::means);
            wish.nights = Nights::ALL[interview.choose(word!("How do you spend the nights?"), &offers, 2)?];
        }
        if self.ground.is_none() {
            let offers = offers(Ground::ALL, Ground::word, Ground::means);
            wish.ground = Ground::ALL[interview.choose(word!("How rough is it?"), &offers, 2)?];
        }
        if self.help_is.is_none() {
            let offers = offers(Help::ALL, Help::word, Help::means);
            let question = word!("How long until help has a broken bike at a road head or workshop, at the worst?");
            wish.help = Help::ALL[interview.choose(question, &offers, 2)?];
        }
        if self.owns.is_none() {
            let sets = usually_owned(wish.nights);
            let offers = offers(&sets, OwnedSet::word, OwnedSet::told);
            let question = word!("What do you own already? The bike's own tools are counted anyway.");
            wish.owns = interview.choose_some(question, &offers)?.into_iter().map(|at| sets[at]).collect();
        }
        let shown = |money: Money| format!("{} {}", money.units(), catalogue.currency);
        let prices = &catalogue.prices;
        if self.hour.is_none() {
            let question = word!("What is an hour of trouble on this trip worth to you?");
            let read = |text: &str| in_currency(text, catalogue);
            wish.hour = Some(interview.read(question, &shown(prices.hour), read)?);
        }
        if self.recovery.is_none() {
            let question = word!("What would it cost to have you and the bike fetched?");
            let read = |text: &str| in_currency(text, catalogue);
            wish.recovery = Some(interview.read(question, &shown(prices.recovery), read)?);
        }
        Ok(())
    }
}

/// What can be answered, each word with what it means.
fn offers<T: Copy>(all: &[T], word: fn(T) -> &'static str, means: fn(T) -> &'static str) -> Vec<Offer<'static>> {
    all.iter().map(|own| Offer { word: word(*own), means: means(*own) }).collect()
}

/// Sets that are of use with such nights.
fn usually_owned(nights: Nights) -> Vec<OwnedSet> {
    let of_use = |set: &OwnedSet| match set {
        OwnedSet::Sleeping | OwnedSet::Cooking => nights == Nights::Camping,
        OwnedSet::Away => nights != Nights::None,
        _ => true,
    };
    OwnedSet::ALL.into_iter().filter(of_use).collect()
}

/// A price given by a flag.
fn money(flag: &str, text: Option<&str>, catalogue: &Catalogue) -> Result<Option<Money>, String> {
    let read =
        |text: &str| in_currency(text, catalogue).map_err(|expected| say!("{flag} `{text}`: {expected} is expected"));
    text.map(read).transpose()
}

/// A price in the catalogue's currency; a bare number is in it.
fn in_currency(text: &str, catalogue: &Catalogue) -> Result<Money, String> {
    let own = catalogue.currency;
    let text = if text.trim().parse::<f64>().is_ok() { format!("{text} {own}") } else { text.to_owned() };
    match Money::read(&text) {
        Ok((money, currency)) if currency == own || money == Money::ZERO => Ok(money),
        _ => Err(say!("an amount in {own}, such as `40 {own}`,")),
    }
}

fn days(text: &str) -> Result<u32, String> {
    let days = text.parse().ok().filter(|days| (1..=60).contains(days));
    days.ok_or_else(|| say!("a number of days from 1 to 60"))
}

/// One of these words.
fn word<T: Copy>(text: &str, all: &[T], word: impl Fn(T) -> &'static str) -> Result<T, String> {
    let words: Vec<&str> = all.iter().map(|own| word(*own)).collect();
    let found = words.iter().position(|own| *own == text).map(|at| all[at]);
    found.ok_or_else(|| {
        let near = did_you_mean(nearest(text, words.iter().copied()));
        say!("one of {} is expected{near}", words.join(", "))
    })
}

fn nights(text: &str) -> Result<Nights, String> {
    word(text, Nights::ALL, Nights::word)
}

fn ground(text: &str) -> Result<Ground, String> {
    word(text, Ground::ALL, Ground::word)
}

fn help(text: &str) -> Result<Help, String> {
    word(text, Help::ALL, Help::word)
}

fn season(text: &str) -> Result<Season, String> {
    word(text, Season::ALL, Season::word)
}

fn riding(text: &str) -> Result<RidingSkill, String> {
    word(text, RidingSkill::ALL, RidingSkill::word)
}

fn repair(text: &str) -> Result<RepairSkill, String> {
    word(text, RepairSkill::ALL, RepairSkill::word)
}

fn sets(text: &str) -> Result<Sets, String> {
    if text == "none" {
        return Ok(Sets(Vec::new()));
    }
    let each = text.split(',').map(|own| word(own.trim(), &OwnedSet::ALL, OwnedSet::word));
    each.collect::<Result<Vec<OwnedSet>, String>>().map(Sets)
}
