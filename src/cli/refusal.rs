//! Why there is no answer, said on standard error.

use super::{Ending, complain};
use crate::answer::PackError;
use crate::domain::Catalogue;
use crate::report::{self, Look};

/// Says why and gives how the run ends.
pub(super) fn refuse(catalogue: &Catalogue, error: &PackError, look: &Look) -> Ending {
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            complain(&report::terminal::infeasible(catalogue, shortfalls, ways, look));
            Ending::NoKit
        }
        PackError::OutOfTime => {
            complain("Time ran out before any kit was found: allow more with --time-limit.");
            Ending::NoKit
        }
        PackError::Engine(fault) => {
            complain(&format!("internal error: {fault}"));
            Ending::Defect
        }
        PackError::Unverified { violations, dump } => {
            complain("internal error: the answer did not survive checking and is withheld.");
            for violation in violations {
                complain(&format!("- {}: {} (by {})", violation.rule, violation.what, violation.by));
            }
            complain(dump);
            Ending::Defect
        }
    }
}
