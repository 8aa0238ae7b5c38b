//! The page of `tradeoff`: the curve, its rows, and what comes and goes.

use super::PageError;
use super::curve::{self, Picture};
use super::frame::{page, whole};
use crate::Look;
use crate::amount::next;
use crate::cautions::cautions;
use crate::told::Line;
use crate::view::tradeoff::{BUYING, LEGEND, ends, opening, purchases, rows, steps};
use fardel_core::answer::TradeoffAnswer;
use fardel_core::resolve::Measure;
use fardel_words::{plain, say, word};
use serde::Serialize;

#[derive(Serialize)]
struct Tradeoff {
    opening: String,
    lines: Vec<Line>,
    curve: Option<Picture>,
    limits: Vec<Limit>,
    /// What a step gains: `per kg more`.
    each: String,
    legend: &'static str,
    /// Does each step tell what a budget buys, instead of what comes and goes?
    buying: Option<&'static str>,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// The best kit under a limit, and what came and went on the way to it.
#[derive(Serialize)]
struct Limit {
    limit: String,
    takes: String,
    things: String,
    saves: String,
    net: String,
    home: String,
    gain: String,
    marks: String,
    step: Option<String>,
}

/// The whole page.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn tradeoff(answer: &TradeoffAnswer, look: &Look) -> Result<String, PageError> {
    let money = answer.measure == Measure::Money;
    let content = Tradeoff {
        opening: opening(answer),
        lines: ends(answer, look),
        curve: curve::picture(answer, None, look),
        limits: limits(answer, look),
        each: say!("per {} more", next(answer.measure, answer.currency, look)),
        legend: plain(LEGEND).trim(),
        buying: money.then_some(plain(BUYING)),
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    let kind = match answer.measure {
        Measure::Mass => word!("More or less weight"),
        Measure::Volume => word!("More or less room"),
        Measure::Money => word!("More or less money"),
    };
    whole("tradeoff.html", page(&answer.trip.scenario, kind), content, look)
}

/// The rows, each with its step: of money every row has one, else every row but the first.
fn limits(answer: &TradeoffAnswer, look: &Look) -> Vec<Limit> {
    let all = rows(answer, look);
    let steps = if answer.measure == Measure::Money { purchases(answer, look) } else { steps(answer, look) };
    let skipped = all.len().saturating_sub(steps.len());
    let steps = std::iter::repeat_n(None, skipped).chain(steps.into_iter().map(|(_, text)| Some(text)));
    let limit = |(row, step): (Vec<String>, Option<String>)| {
        let mut cells = row.into_iter();
        let mut next = || cells.next().unwrap_or_default();
        Limit {
            limit: next(),
            takes: next(),
            things: next(),
            saves: next(),
            net: next(),
            home: next(),
            gain: next(),
            marks: next(),
            step,
        }
    };
    all.into_iter().zip(steps).map(limit).collect()
}
