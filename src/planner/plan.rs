//! Answers that take a search: the kit, a curve of limits, a group's kit. Each goes out in parts, the last of which is the
//! answer of the command line.

use crate::host::{Host, Listener};
use crate::kit::no_kit;
use crate::line::one_line;
use crate::refused::Refused;
use crate::sessions::Session;
use crate::trip::Trip;
use fardel_core::answer::split::{self, Demands, MOST_RIDERS};
use fardel_core::answer::{self, Anew, Limits, PackAnswer, PackError};
use fardel_core::live::{Budget, LivePoint, Standing};
use fardel_core::resolve::{Amount, Measure};
use fardel_report::json;
use fardel_words::{say, word};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::ops::ControlFlow;
use std::time::Duration;

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
fn state(proven: bool) -> &'static str {
    if proven { "proven" } else { "good so far" }
}

fn part(state: &'static str, bound_h: Option<f64>, answer: &str) -> Result<String, Refused> {
    let answer = RawValue::from_string(one_line(answer))?;
    Ok(serde_json::to_string(&Part { state, bound_h, answer: &answer })?)
}

/// The kit, better and better, until it is proven or time is up. The last part has what takes packing anew, too.
pub(crate) fn plan(host: &Host, trip: &Trip, listener: &mut Listener<'_>) -> Result<String, Refused> {
    let mut session = host.sessions.open(host, trip)?;
    let notes = session.notes.clone();
    if session.live.at_hand().is_some() {
        let answer = session.live.answer().map_err(|error| no_kit("pack", session.live.catalogue(), error))?;
        listener.part(&told(&notes, answer)?)?;
        host.sessions.keep(&session);
    }
    if let Err(error) = improved(&mut session, trip.time(), listener) {
        listener.check()?;
        return nothing(&session, trip, error);
    }
    host.sessions.keep(&session);
    listener.check()?;
    let answer = session.live.pack(Anew::Few, true);
    told(&notes, answer.map_err(|error| no_kit("pack", session.live.catalogue(), error))?)
}

/// Improves the kit in hand, and tells of each that is better.
fn improved(session: &mut Session, time: Option<Duration>, listener: &mut Listener<'_>) -> Result<(), PackError> {
    let (teller, notes) = (session.live.clone(), &session.notes);
    let stop = listener.stop().clone();
    let mut hear = |standing: &Standing| {
        let part = teller.answer_of(standing).ok().and_then(|answer| told(notes, answer).ok());
        match part.map(|part| listener.part(&part)) {
            Some(Err(_)) => ControlFlow::Break(()),
            _ => ControlFlow::Continue(()),
        }
    };
    session.live.improve(Budget { time, gap: 0.0 }, &stop, &mut hear).map(drop)
}

/// A kit as a part of the answer.
fn told(notes: &[String], mut answer: PackAnswer) -> Result<String, Refused> {
    answer.warnings.extend(notes.iter().cloned());
    let bound = Some(answer.proof.bound).filter(|bound| bound.is_finite());
    part(state(answer.proof.proven), bound, &json::pack(&answer, None)?)
}

/// Why there is no kit, with the ways out, which take a search of their own.
fn nothing(session: &Session, trip: &Trip, error: PackError) -> Result<String, Refused> {
    let error = match error {
        PackError::Infeasible { .. } => session.live.refusal(&trip.options()),
        error => error,
    };
    none("pack", session.live.catalogue(), error)
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
    /// Limits to look at: grams, millilitres, whole money. Evenly about the present one where none are given.
    #[serde(default)]
    at: Vec<f64>,
    /// Is the answer of the command line to follow, from the least that will do to what is enough? It takes a proof a point.
    #[serde(default = "yes")]
    whole: bool,
}

const fn yes() -> bool {
    true
}

#[derive(Serialize)]
struct Point<'a> {
    point: &'a LivePoint,
}

#[derive(Serialize)]
struct Curve<'a> {
    curve: &'a RawValue,
}

/// How far about the present limit points lie, as shares of it.
const ABOUT: [f64; 2] = [0.6, 1.4];
/// Base units of amounts in the unit that the page writes: milligrams, microlitres, hundredths.
const fn base(measure: Measure) -> f64 {
    match measure {
        Measure::Mass | Measure::Volume => 1000.0,
        Measure::Money => 100.0,
    }
}

/// The best kit under one limit after another.
pub(crate) fn curve(host: &Host, trip: &Trip, over: &Over, listener: &mut Listener<'_>) -> Result<String, Refused> {
    let measure = [Measure::Mass, Measure::Volume, Measure::Money].into_iter().find(|own| own.word() == over.over);
    let measure = measure.ok_or_else(|| {
        Refused::words(say!("over `{}`: mass, volume or money is expected", over.over.escape_debug()))
    })?;
    let count = over.points.unwrap_or(POINTS);
    if !(2..=MOST_POINTS).contains(&count) {
        return Err(Refused::words(say!("{count} points: 2 to {MOST_POINTS} are expected")));
    }
    let session = points(host, trip, (measure, count, &over.at), listener)?;
    if !over.whole {
        return Ok("{}".to_owned());
    }
    let (catalogue, scenario) = (session.live.catalogue(), session.live.scenario());
    let limits = Limits::Between { from: None, to: None, count };
    let options = trip.options();
    let answer = answer::tradeoff(catalogue, scenario, session.live.rider(), (measure, &limits), &options, &|_| ());
    let mut answer = answer.map_err(|error| no_kit("tradeoff", catalogue, error))?;
    answer.warnings.extend(session.notes.iter().cloned());
    let curve = RawValue::from_string(one_line(&json::tradeoff(&answer)?))?;
    Ok(serde_json::to_string(&Curve { curve: &curve })?)
}

/// Tells of the best kits at limits about the present one, the nearest first.
fn points(
    host: &Host,
    trip: &Trip,
    (measure, count, at): (Measure, usize, &[f64]),
    listener: &mut Listener<'_>,
) -> Result<Session, Refused> {
    let mut session = host.sessions.open(host, trip)?;
    if session.live.standing().is_none() {
        session.live.first();
        host.sessions.keep(&session);
    }
    let at =
        if at.is_empty() { about(&session, measure, count) } else { at.iter().map(|at| at * base(measure)).collect() };
    let limits: Vec<Amount> = at.into_iter().filter(|at| (0.0..1e15).contains(at)).map(amount).collect();
    if limits.len() > MOST_POINTS {
        return Err(Refused::words(say!("{} limits: at most {MOST_POINTS} are expected", limits.len())));
    }
    let stop = listener.stop().clone();
    let mut hear = |point: &LivePoint| {
        let told = serde_json::to_string(&Point { point }).map(|part| listener.part(&part));
        if matches!(told, Ok(Ok(()))) { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    };
    let budget = Budget { time: trip.time(), gap: 0.0 };
    let done = session.live.curve(measure, &limits, budget, &stop, &mut hear);
    done.map_err(|error| no_kit("tradeoff", session.live.catalogue(), error))?;
    listener.check()?;
    Ok(session)
}

/// Evenly about the present limit, or about what the kit in hand takes.
fn about(session: &Session, measure: Measure, count: usize) -> Vec<f64> {
    let (instance, standing) = (session.live.instance(), session.live.standing());
    let used = standing.map(|standing| measure.used(instance, standing.counts()));
    let here = measure.limit(instance).or(used).unwrap_or_default();
    let (from, to) = (as_number(here) * ABOUT[0], as_number(here) * ABOUT[1]);
    let step = |at: usize| {
        from + (to - from) * f64::from(u32::try_from(at).unwrap_or(0))
            / f64::from(u32::try_from(count - 1).unwrap_or(1))
    };
    (0..count).map(step).collect()
}

#[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
const fn as_number(amount: Amount) -> f64 {
    amount as f64
}

#[allow(clippy::cast_possible_truncation, reason = "kept between 0 and 1e15")]
fn amount(number: f64) -> Amount {
    number.round() as Amount
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
        return Err(Refused::words(say!("{riders} riders: a group of at most {MOST_RIDERS} is expected; ride as two")));
    }
    if wanted.keep_if_one_leaves.is_some_and(|share| !(share > 0.0 && share <= 1.0)) {
        return Err(Refused::words(word!("keep_if_one_leaves: a share above 0 and not above 1 is expected")));
    }
    let demands = Demands { keep_if_one_leaves: wanted.keep_if_one_leaves, max_moves: None };
    listener.check()?;
    match split::split(&loaded.catalogue, &loaded.scenario, &demands, None, &trip.options()) {
        Ok(mut answer) => {
            answer.warnings.extend(loaded.notes.iter().cloned());
            let (proven, bound) = (answer.proof.proven, answer.proof.bound);
            part(state(proven), Some(bound), &json::split(&answer)?)
        }
        Err(error) => none("split", &loaded.catalogue, error),
    }
}
