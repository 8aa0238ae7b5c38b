//! Why there is no answer, said on standard error.

use super::complaint::complain_of_limits;
use super::{Ending, complain, dump};
use crate::answer::PackError;
use crate::domain::Catalogue;
use crate::report::json::Unmet;
use crate::report::{self, Look};
use fardel_words::say;

/// Says why and gives how the run ends.
pub(super) fn refuse(catalogue: &Catalogue, error: &PackError, look: &Look) -> Ending {
    let (words, ending) = told(catalogue, error, look);
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            complain_of_limits(&words, &Unmet { catalogue, shortfalls, ways, look });
        }
        _ => complain(&words),
    }
    ending
}

/// What is said, and how the run ends.
fn told(catalogue: &Catalogue, error: &PackError, look: &Look) -> (String, Ending) {
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            (report::terminal::infeasible(catalogue, shortfalls, ways, look), Ending::NoKit)
        }
        PackError::OutOfTime => {
            (say!("Time ran out before any kit was found: allow more with --time-limit."), Ending::NoKit)
        }
        PackError::TooMuch(_) => (error.to_string(), Ending::BadInput),
        PackError::Engine(fault) => (defect(&fault.to_string()), Ending::Defect),
        PackError::Unverified { violations, dump: kit } => {
            let mut words = say!("internal error: the answer did not survive checking and is withheld.\n");
            for violation in violations {
                words += &say!("- {}: {} (by {})\n", violation.rule, violation.what, violation.by);
            }
            dump::note(words.clone() + kit);
            (words + kit + &hint(), Ending::Defect)
        }
    }
}

/// What can be done about a defect.
fn hint() -> String {
    "\n".to_owned()
        + &say!("With --dump FILE all that is needed to see it again is written into a file that can be sent.")
}

fn defect(fault: &str) -> String {
    dump::note(fault);
    say!("internal error: {fault}") + &hint()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::pack;
    use crate::load::load;
    use crate::milp::{Answer, CustomSolver, Engine, EngineError, Model, SolveOptions};
    use crate::units::UnitSystem;
    use std::path::Path;
    use std::time::Duration;

    /// What a rider sees, and the exit status, where the only solver there is behaves like this.
    fn with(solve: fn(&Model, &SolveOptions) -> Result<Answer, EngineError>) -> (String, u8) {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/day-ride.yaml");
        let loaded = load(&path, None).unwrap();
        let engine = Engine::Custom(CustomSolver { word: "liar", solve, has_fallback: false });
        let options = SolveOptions { engine, time_limit: Some(Duration::from_millis(500)), gap: 0.0 };
        let error = pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], &options).unwrap_err();
        let (words, ending) = told(&loaded.catalogue, &error, &Look { units: UnitSystem::Metric, width: 110 });
        (words, ending.code())
    }

    #[test]
    fn a_solver_without_an_answer_in_time_is_no_kit() {
        let (words, code) = with(|_, _| Err(EngineError::NoAnswerInTime));
        assert_eq!((words.as_str(), code), ("Time ran out before any kit was found: allow more with --time-limit.", 1));
    }

    #[test]
    fn a_failing_solver_is_a_defect_that_is_named() {
        let (words, code) = with(|_, _| Err(EngineError::Fault("Singular matrix".to_owned())));
        assert_eq!((words.as_str(), code), ("internal error: the solver failed: liar: Singular matrix", 3));
    }

    #[test]
    fn an_answer_that_breaks_its_rows_is_a_defect() {
        let (words, code) = with(|model, _| {
            let values: Vec<f64> = model.columns.iter().map(|column| column.upper.min(1e6)).collect();
            let objective = model.objective(&values);
            let stop = crate::milp::Stop::Proven;
            Ok(Answer { values, objective, bound: objective, stop, failed: Vec::new() })
        });
        assert!(words.starts_with("internal error: the solver failed: liar: its answer breaks "), "{words}");
        assert_eq!(code, 3);
    }
}
