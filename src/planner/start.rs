//! A trip to begin with, from a few answers.

use crate::host::Host;
use crate::refused::Refused;
use fardel_core::domain::{RepairSkill, RidingSkill};
use fardel_core::load::{self, Source};
use fardel_core::starter::{self, Ground, Help, Nights, OwnedSet, Season, Wish};
use fardel_words::say;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

/// Most days of a trip to begin with.
const MOST_DAYS: u32 = 60;

/// The answers; words are those of `fardel new`.
#[derive(Debug, Deserialize)]
pub(crate) struct Answers {
    bike: String,
    days: u32,
    /// `road`, `gravel`, `mixed` or `rough`.
    rough: String,
    /// Hours until help has a broken bike at a road head.
    help_h: f64,
    camping: bool,
    /// `cold`, `mild` or `hot`.
    #[serde(default)]
    season: Option<String>,
    #[serde(default)]
    riding_skill: Option<String>,
    #[serde(default)]
    repair_skill: Option<String>,
    /// Sets of things that are at home; all that suit the trip where nothing is said.
    #[serde(default)]
    owns: Option<Vec<String>>,
}

#[derive(Serialize)]
struct Begun<'a> {
    scenario: &'a RawValue,
    text: &'a str,
}

/// A scenario that can be packed for as it is.
pub(crate) fn start(host: &Host, answers: &Answers) -> Result<String, Refused> {
    let catalogue = host.catalogue();
    let bike = host.bike(&answers.bike)?;
    let text = starter::scenario(catalogue, bike, &wish(answers)?);
    let json = load::tree_json(Source { name: "scenario.yaml".to_owned(), text: text.clone() })?;
    Ok(serde_json::to_string(&Begun { scenario: &RawValue::from_string(json)?, text: &text })?)
}

fn wish(answers: &Answers) -> Result<Wish, Refused> {
    if !(1..=MOST_DAYS).contains(&answers.days) {
        return Err(Refused::words(say!("{} days: 1 to {MOST_DAYS} are expected", answers.days)));
    }
    let nights = match (answers.days, answers.camping) {
        (1, _) => Nights::None,
        (_, true) => Nights::Camping,
        (_, false) => Nights::Roofed,
    };
    let told = |text: &Option<String>, usual: &str| text.clone().unwrap_or_else(|| usual.to_owned());
    let riding = told(&answers.riding_skill, RidingSkill::Intermediate.word());
    let repair = told(&answers.repair_skill, RepairSkill::Handy.word());
    let season = told(&answers.season, Season::Mild.word());
    Ok(Wish {
        days: answers.days,
        nights,
        ground: one_of(Ground::ALL, Ground::word, "rough", &answers.rough)?,
        help: help(answers.help_h),
        season: one_of(Season::ALL, Season::word, "season", &season)?,
        riding_skill: one_of(RidingSkill::ALL, RidingSkill::word, "riding_skill", &riding)?,
        repair_skill: one_of(RepairSkill::ALL, RepairSkill::word, "repair_skill", &repair)?,
        owns: owns(answers, nights)?,
        hour: None,
        recovery: None,
    })
}

/// What is at home: all that suits the nights, or what is said.
fn owns(answers: &Answers, nights: Nights) -> Result<Vec<OwnedSet>, Refused> {
    if let Some(sets) = &answers.owns {
        return sets.iter().map(|set| one_of(&OwnedSet::ALL, OwnedSet::word, "owns", set)).collect();
    }
    let suits = |set: &OwnedSet| match set {
        OwnedSet::Sleeping | OwnedSet::Cooking => nights == Nights::Camping,
        OwnedSet::Away => nights != Nights::None,
        _ => true,
    };
    Ok(OwnedSet::ALL.into_iter().filter(suits).collect())
}

fn one_of<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str, key: &str, text: &str) -> Result<T, Refused> {
    let found = all.iter().copied().find(|one| word(*one) == text);
    let words = || all.iter().map(|one| word(*one)).collect::<Vec<_>>().join(", ");
    found.ok_or_else(|| Refused::words(say!("{key} `{}`: one of {} is expected", text.escape_debug(), words())))
}

/// The answer that is nearest to so many hours; the scenario says them again, to be changed.
fn help(hours: f64) -> Help {
    match hours {
        ..2.5 => Help::Near,
        ..7.0 => Help::Hours,
        ..17.0 => Help::HalfDay,
        _ => Help::Day,
    }
}
