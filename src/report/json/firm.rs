//! How firm a kit is, as a table.

use super::changes::{Change, changes};
use fardel_core::answer;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Firm<'a> {
    things: u32,
    certain: u32,
    least_certain: &'a [String],
    dials: Vec<Dial<'a>>,
}

#[derive(Serialize)]
struct Dial<'a> {
    dial: &'static str,
    same_from_factor: f64,
    same_to_factor: f64,
    trials: Vec<Trial<'a>>,
}

#[derive(Serialize)]
struct Trial<'a> {
    factor: f64,
    leaving: Vec<Change<'a>>,
    entering: Vec<Change<'a>>,
}

pub(super) fn firm(firm: &answer::Firm) -> Firm<'_> {
    Firm {
        things: firm.things,
        certain: firm.certain,
        least_certain: &firm.least_certain,
        dials: firm.lines.iter().map(dial).collect(),
    }
}

fn dial(line: &answer::FirmLine) -> Dial<'_> {
    Dial {
        dial: line.dial.word(),
        same_from_factor: line.range.0,
        same_to_factor: line.range.1,
        trials: line.trials.iter().map(trial).collect(),
    }
}

fn trial(trial: &answer::FirmTrial) -> Trial<'_> {
    Trial { factor: trial.factor, leaving: changes(&trial.leaving), entering: changes(&trial.entering) }
}
