//! The page of `trim`: what to take out, to tick.

use super::PageError;
use super::frame::{page, whole};
use crate::Look;
use crate::cautions::cautions;
use crate::told::Line;
use crate::view::trim::{STARRED, lines, priced, row};
use fardel_core::answer::{Going, TrimAnswer};
use serde::Serialize;

#[derive(Serialize)]
struct Trim {
    who: String,
    lines: Vec<Line>,
    /// Whether the order means anything: not where other things come in instead.
    ordered: bool,
    order: Vec<Out>,
    starred: Option<&'static str>,
    entering: Vec<String>,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// Something that stays at home.
#[derive(Serialize)]
struct Out {
    tick: String,
    name: String,
    takes: String,
    left: String,
    given_up: String,
    in_all: String,
    remarks: String,
}

/// The whole page.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn trim(answer: &TrimAnswer, look: &Look) -> Result<String, PageError> {
    let trip = &answer.trip;
    let gone = answer.order.iter().map(|going| format!("{} {}", going.id, going.count));
    let ticked: Vec<String> = std::iter::once(trip.scenario.clone()).chain(gone).collect();
    let starred = answer.order.iter().any(|going| going.best_is_better_by.is_some());
    let content = Trim {
        who: format!("{} on a {}.", trip.rider, trip.bike),
        lines: lines(answer, look),
        ordered: answer.entering.is_empty(),
        order: answer.order.iter().enumerate().map(|(at, going)| out(answer, at, going, look)).collect(),
        starred: starred.then_some(STARRED),
        entering: answer.entering.iter().map(|change| priced(answer, change)).collect(),
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    whole("trim.html", page(&trip.scenario, "What to leave at home", &ticked), content, look)
}

fn out(answer: &TrimAnswer, at: usize, going: &Going, look: &Look) -> Out {
    let mut cells = row(answer, at, going, look).into_iter().skip(1);
    let mut next = || cells.next().unwrap_or_default();
    Out {
        tick: format!("out/{at}/{}", going.id),
        name: next(),
        takes: next(),
        left: next(),
        given_up: next(),
        in_all: next(),
        remarks: next(),
    }
}
