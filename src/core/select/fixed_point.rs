//! A kit that is best by its own stakes.
//!
//! How far a stock reaches, and what a fall costs, hang on what else is in the kit ([`RiskModel::at`]). So a kit is chosen by
//! the stakes of the last one until it chooses itself: then it is best by the very figures that are shown with it. This
//! takes two or three rounds. Where kits choose each other in turn, the best of them by its own figures stands, and the
//! distance to the bound is told.

use super::Choice;
use crate::domain::Pooling;
use crate::resolve::Instance;
use crate::risk::{RiskModel, value};
use fardel_milp::{Deadline, EngineError, SolveOptions, Stop};

/// Kits that may choose each other in turn before the best of them is taken.
const MOST_ROUNDS: usize = 5;

/// Chooses by the stakes of the kit before until nothing changes.
///
/// # Errors
/// Those of the first choice.
pub fn fixed_point(
    instance: &Instance,
    start: &RiskModel,
    options: &SolveOptions,
    choose: &mut dyn FnMut(&RiskModel, &SolveOptions) -> Result<Choice, EngineError>,
    improve: Improve<'_>,
) -> Result<Choice, EngineError> {
    let deadline = Deadline::new(options);
    let mut risk_model = start.clone();
    let mut seen: Vec<Choice> = Vec::new();
    for _ in 0..MOST_ROUNDS {
        let Ok(left) = deadline.left() else { break };
        let choice = match choose(&risk_model, &left) {
            Ok(choice) => choice,
            Err(error) if seen.is_empty() => return Err(error),
            Err(_) => break,
        };
        let choice = bettered(instance, start, improve, choice);
        let own = risk_model.at(instance, &choice.counts);
        let chances = instance.stranded.is_none() || own.loaded == risk_model.loaded;
        if own.same_as(&risk_model) && chances {
            return Ok(choice);
        }
        let again = seen.iter().any(|before| before.counts == choice.counts);
        seen.push(choice);
        if again {
            break;
        }
        risk_model = own;
    }
    best(instance, start, seen).ok_or(EngineError::NoAnswerInTime)
}

/// A kit one step away that is better by its own figures, if there is one.
pub type Improve<'a> = &'a dyn Fn(&[u32]) -> Option<Vec<u32>>;

/// The choice, or a better kit near it, which then counts as a choice that is not settled yet.
fn bettered(instance: &Instance, start: &RiskModel, improve: Improve<'_>, choice: Choice) -> Choice {
    if instance.pooling == Pooling::EveryRepair {
        return choice;
    }
    match improve(&choice.counts) {
        None => choice,
        Some(counts) => {
            let objective = value(instance, start, &counts).objective();
            Choice { bound: choice.bound.max(objective), stop: Stop::WithinGap, counts, objective, ..choice }
        }
    }
}

/// The best by its own figures, with a bound that none of the choices was beyond.
fn best(instance: &Instance, start: &RiskModel, seen: Vec<Choice>) -> Option<Choice> {
    let bound = seen.last()?.bound;
    let own = |choice: &Choice| value(instance, start, &choice.counts).objective();
    let (objective, choice) = seen
        .into_iter()
        .map(|choice| (own(&choice), choice))
        .reduce(|best, now| if now.0 > best.0 { now } else { best })?;
    let risk_model = choice.risk_model.at(instance, &choice.counts);
    Some(Choice { objective, bound: bound.max(objective), stop: Stop::WithinGap, risk_model, ..choice })
}
