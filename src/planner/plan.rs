//! Answers that take a search: the kit, a curve of limits, a group's kit. Each goes out in parts, the last of which is the
//! answer of the command line.

use crate::host::{Host, Listener};
use crate::kit::no_kit;
use crate::line::one_line;
use crate::refused::Refused;
use crate::trip::{Opened, Trip};
use fardel_core::answer::split::{self, Demands};
use fardel_core::answer::{self, Anew, Limits, PackAnswer, PackError};
use fardel_core::milp::SolveOptions;
use fardel_core::resolve::Measure;
use fardel_report::json;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::time::Duration;

/// How long the first kit may be looked for, while nothing is there to be looked at.
const FIRST: Duration = Duration::from_millis(400);
/// Most riders of a group, as on the command line.
const MOST_RIDERS: usize = 12;
/// Points of a curve where nothing is said, and the most of them.
const POINTS: usize = 12;
const MOST_POINTS: usize = 100;

/// A part of an answer.
#[derive(Serialize)]
struct Part<'a> {
    state: &'static str,
    /// No kit does better than this, in hours.
    #[serde(skip_serializing_if = "Option::is_none")]
    bound_h: Option<f64>,
    answer: &'a RawValue,
}

/// Where the search stands.
const fn state(proven: bool) -> &'static str {
    if proven { "proven" } else { "good so far" }
}

fn part(state: &'static str, bound_h: Option<f64>, answer: &str) -> Result<String, Refused> {
    let answer = RawValue::from_string(one_line(answer))?;
    Ok(serde_json::to_string(&Part { state, bound_h, answer: &answer })?)
}

/// The kit, better and better.
pub(crate) fn plan(host: &Host, trip: &Trip, listener: &mut Listener<'_>) -> Result<String, Refused> {
    let opened = trip.open(host)?;
    let options = trip.options();
    let (catalogue, scenario) = (&opened.loaded.catalogue, &opened.loaded.scenario);
    let first = SolveOptions { time_limit: Some(options.time_limit.map_or(FIRST, |limit| limit.min(FIRST))), ..options };
    if let Ok(answer) = answer::pack_briefly(catalogue, scenario, opened.rider(), &first) {
        listener.part(&told(&opened, answer, false)?)?;
    }
    listener.check()?;
    match answer::pack_thoroughly(catalogue, scenario, opened.rider(), Anew::Few, &options) {
        Ok(answer) => {
            let proven = answer.proof.proven;
            told(&opened, answer, proven)
        }
        Err(error) => none("pack", &opened.loaded.catalogue, error),
    }
}

/// A kit as a part of the answer.
fn told(opened: &Opened, mut answer: PackAnswer, proven: bool) -> Result<String, Refused> {
    answer.warnings.extend(opened.loaded.notes.iter().cloned());
    part(state(proven), Some(answer.proof.bound), &json::pack(&answer, None)?)
}

/// No kit will do: an answer, too.
fn none(
    command: &'static str,
    catalogue: &fardel_core::domain::Catalogue,
    error: PackError,
) -> Result<String, Refused> {
    match no_kit(command, catalogue, error) {
        Refused::NoKit(answer) => part("no kit", None, &answer),
        other => Err(other),
    }
}

/// What a curve is over.
#[derive(Debug, Deserialize)]
pub(crate) struct Over {
    /// `mass`, `volume` or `money`.
    over: String,
    /// How many limits.
    #[serde(default)]
    points: Option<usize>,
}

#[derive(Serialize)]
struct Curve<'a> {
    curve: &'a RawValue,
}

/// The best kit under one limit after another.
pub(crate) fn curve(host: &Host, trip: &Trip, over: &Over, listener: &mut Listener<'_>) -> Result<String, Refused> {
    let opened = trip.open(host)?;
    let measure = [Measure::Mass, Measure::Volume, Measure::Money].into_iter().find(|own| own.word() == over.over);
    let measure = measure
        .ok_or_else(|| Refused::words(format!("over `{}`: mass, volume or money is expected", over.over.escape_debug())))?;
    let count = over.points.unwrap_or(POINTS);
    if !(2..=MOST_POINTS).contains(&count) {
        return Err(Refused::words(format!("{count} points: 2 to {MOST_POINTS} are expected")));
    }
    listener.check()?;
    let limits = Limits::Between { from: None, to: None, count };
    let (catalogue, scenario) = (&opened.loaded.catalogue, &opened.loaded.scenario);
    let answer = answer::tradeoff(catalogue, scenario, opened.rider(), (measure, &limits), &trip.options(), &|_| ());
    let mut answer = answer.map_err(|error| no_kit("tradeoff", catalogue, error))?;
    answer.warnings.extend(opened.loaded.notes.iter().cloned());
    let curve = RawValue::from_string(one_line(&json::tradeoff(&answer)?))?;
    Ok(serde_json::to_string(&Curve { curve: &curve })?)
}

/// What is asked of a group's kit.
#[derive(Debug, Deserialize)]
pub(crate) struct Wanted {
    /// Whoever leaves: the others keep at least this share of what the whole kit saves them.
    #[serde(default)]
    keep_if_one_leaves: Option<f64>,
}

/// One kit for a group, and who carries what of it.
pub(crate) fn split(host: &Host, trip: &Trip, wanted: &Wanted, listener: &mut Listener<'_>) -> Result<String, Refused> {
    let loaded = trip.load(host)?;
    let riders = loaded.scenario.riders.len();
    if riders > MOST_RIDERS {
        return Err(Refused::words(format!("{riders} riders: a group of at most {MOST_RIDERS} is expected; ride as two")));
    }
    if wanted.keep_if_one_leaves.is_some_and(|share| !(share > 0.0 && share <= 1.0)) {
        return Err(Refused::words("keep_if_one_leaves: a share above 0 and not above 1 is expected"));
    }
    let demands = Demands { keep_if_one_leaves: wanted.keep_if_one_leaves, max_moves: None };
    listener.check()?;
    match split::split(&loaded.catalogue, &loaded.scenario, &demands, None, &trip.options()) {
        Ok(mut answer) => {
            answer.warnings.extend(loaded.notes.iter().cloned());
            let (proven, bound) = (answer.proof.proven, answer.proof.bound);
            part(state(proven), Some(bound), &json::split(&answer)?)
        }
        Err(error) => none("pack", &loaded.catalogue, error),
    }
}
