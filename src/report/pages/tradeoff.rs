//! The page of `tradeoff`: the curve, its rows, and what comes and goes.

use super::PageError;
use super::curve::{self, Picture};
use super::frame::{page, whole};
use crate::Look;
use crate::amount::next;
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use crate::view::tradeoff::{BUYING, LEGEND, ends, opening, purchases, rows, steps};
use fardel_core::answer::TradeoffAnswer;
use fardel_core::resolve::Measure;
use serde::Serialize;

#[derive(Serialize)]
struct Tradeoff {
    opening: String,
    lines: Vec<Line>,
    curve: Option<Picture>,
    rows: Rows,
    legend: &'static str,
    /// Does each step tell what a budget buys, instead of what comes and goes?
    buying: Option<&'static str>,
    steps: Vec<(String, String)>,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// The whole page.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn tradeoff(answer: &TradeoffAnswer, look: &Look) -> Result<String, PageError> {
    let each = format!("#per {} more", next(answer.measure, answer.currency, look));
    let head = ["Limit", "#kit takes", "#things", "#saves", "#net of weight", "#gets home", &each, "remarks"];
    let money = answer.measure == Measure::Money;
    let content = Tradeoff {
        opening: opening(answer),
        lines: ends(answer, look),
        curve: curve::picture(answer, None, look),
        rows: Rows::new(&head, rows(answer, look)),
        legend: LEGEND.trim(),
        buying: money.then_some(BUYING),
        steps: if money { purchases(answer, look) } else { steps(answer, look) },
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    let kind = match answer.measure {
        Measure::Mass => "More or less weight",
        Measure::Volume => "More or less room",
        Measure::Money => "More or less money",
    };
    whole("tradeoff.html", page(&answer.trip.scenario, kind, &[]), content, look)
}
