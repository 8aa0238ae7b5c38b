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
    use crate::answer::{PackAnswer, pack};
    use crate::load::{Loaded, load};
    use crate::milp::{Answer, CustomSolver, Engine, EngineError, Model, SolveOptions};
    use crate::units::UnitSystem;
    use std::path::Path;
    use std::time::Duration;

    /// A pack where the only solver there is behaves like this.
    fn packed(
        solve: fn(&Model, &SolveOptions) -> Result<Answer, EngineError>,
    ) -> (Result<PackAnswer, PackError>, Loaded) {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/day-ride.yaml");
        let loaded = load(&path, None).unwrap();
        let engine = Engine::Custom(CustomSolver { word: "liar", solve, has_fallback: false });
        let options = SolveOptions { engine, time_limit: Some(Duration::from_millis(500)), gap: 0.0 };
        (pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], &options), loaded)
    }

    /// What a rider sees then, and the exit status.
    fn with(solve: fn(&Model, &SolveOptions) -> Result<Answer, EngineError>) -> (String, u8) {
        let (result, loaded) = packed(solve);
        let look = Look { units: UnitSystem::Metric, width: 110 };
        let (words, ending) = told(&loaded.catalogue, &result.unwrap_err(), &look);
        (words, ending.code())
    }

    #[test]
    fn a_solver_without_an_answer_in_time_leaves_a_kit_that_is_not_proven() {
        let answer = packed(|_, _| Err(EngineError::NoAnswerInTime)).0.unwrap();
        assert!(!answer.proof.proven && !answer.bags.is_empty());
    }

    #[test]
    fn no_kit_in_time_is_told_as_that() {
        let (_, loaded) = packed(|_, _| Err(EngineError::NoAnswerInTime));
        let look = Look { units: UnitSystem::Metric, width: 110 };
        let (words, ending) = told(&loaded.catalogue, &PackError::OutOfTime, &look);
        assert_eq!(words, "Time ran out before any kit was found: allow more with --time-limit.");
        assert_eq!(ending.code(), 1);
    }

    #[test]
    fn a_failing_solver_is_a_defect_that_is_named() {
        let (words, code) = with(|_, _| Err(EngineError::Fault("Singular matrix".to_owned())));
        assert!(
            words.starts_with("internal error: the solver failed: liar: Singular matrix\nWith --dump FILE"),
            "{words}"
        );
        assert_eq!(code, 3);
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
