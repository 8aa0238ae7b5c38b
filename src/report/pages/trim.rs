//! The page of `trim`: what to take out, to tick.

use super::PageError;
use super::frame::{key, page, whole};
use super::glance::{Glance, glance};
use crate::Look;
use crate::cautions::cautions;
use crate::view::trim::{STARRED, priced, row};
use crate::view::{self, Names, Typed};
use crate::words::counted;
use fardel_core::answer::{Going, TrimAnswer};
use fardel_words::{plain, say, word};
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Serialize)]
struct Trim {
    glance: Glance,
    key: String,
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
    short: String,
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
pub fn trim(answer: &TrimAnswer, names: &Names, look: &Look) -> Result<String, PageError> {
    let trip = &answer.trip;
    let starred = answer.order.iter().any(|going| going.best_is_better_by.is_some());
    // A thing may go in several steps, each with a tick of its own.
    let mut steps: BTreeMap<&str, u32> = BTreeMap::new();
    let mut out = |(at, going)| out(answer, (at, going), steps.entry(&going.id).or_default(), names, look);
    let content = Trim {
        glance: glance(
            view::trim(answer, names, &Typed::default(), look),
            say!("{} on a {}", trip.rider, trip.bike),
            false,
        ),
        key: key(&trip.scenario, &trip.rider),
        ordered: answer.entering.is_empty(),
        order: answer.order.iter().enumerate().map(&mut out).collect(),
        starred: starred.then_some(plain(STARRED)),
        entering: answer.entering.iter().map(|change| priced(answer, change)).collect(),
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    whole("trim.html", page(&trip.scenario, word!("What to leave at home")), content, look)
}

fn out(answer: &TrimAnswer, (at, going): (usize, &Going), step: &mut u32, names: &Names, look: &Look) -> Out {
    let mut cells = row(answer, at, going, look).into_iter().skip(1);
    let mut next = || cells.next().unwrap_or_default();
    *step += 1;
    Out {
        tick: format!("out/{}/{step}", going.id),
        short: counted(going.count, names.short(&going.name)),
        name: next(),
        takes: next(),
        left: next(),
        given_up: next(),
        in_all: next(),
        remarks: next(),
    }
}
