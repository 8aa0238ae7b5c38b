//! What there is to say about the kit in hand.

use super::{Live, Standing};
use crate::answer::solve::{Solved, Way};
use crate::answer::{PackAnswer, PackError, Ready, WhyAnswer, WhyError, why_of};
use crate::select::Choice;
use fardel_milp::Stop;

impl Live {
    /// Everything that `pack` tells, of the kit in hand; without preparations and without how firm the kit is, which take
    /// packing anew.
    ///
    /// # Errors
    /// [`PackError`]: no kit in hand, or an answer that did not survive checking.
    pub fn answer(&self) -> Result<PackAnswer, PackError> {
        let standing = self.known.in_hand.as_ref().ok_or(PackError::OutOfTime)?;
        self.ready().answer(&self.solved(standing), &self.options)
    }

    /// Why an item is in the kit in hand or not, or how a failure is dealt with, by key or name. `anew`: is the trip also packed
    /// without the item, or with it, which takes about as long as improving? Otherwise nothing is searched.
    ///
    /// # Errors
    /// [`WhyError`]: an unknown name, or no kit in hand.
    pub fn why(&self, name: &str, anew: bool) -> Result<WhyAnswer, WhyError> {
        let standing = self.known.in_hand.as_ref().ok_or(PackError::OutOfTime)?;
        why_of(&self.ready(), &self.solved(standing), name, anew, &self.options)
    }

    fn ready(&self) -> Ready<'_> {
        Ready {
            catalogue: std::borrow::Cow::Borrowed(&*self.catalogue),
            scenario: (*self.own).clone(),
            rider: self.rider(),
            instance: (*self.instance).clone(),
            risk_model: (*self.risk_model).clone(),
        }
    }

    /// The kit in hand as what a search came to.
    fn solved(&self, standing: &Standing) -> Solved {
        let counts = standing.counts().to_vec();
        let choice = Choice {
            objective: standing.objective(),
            bound: standing.bound.unwrap_or(f64::INFINITY),
            stop: if standing.proven { Stop::Proven } else { Stop::WithinGap },
            failed: standing.failed.clone(),
            risk_model: self.risk_model.at(&self.instance, &counts),
            counts,
        };
        Solved { choice, placement: standing.placement().clone(), rounds: self.known.cuts.len(), way: Way::Stowed }
    }
}
