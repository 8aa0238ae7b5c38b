//! What there is to say about the kit in hand.

use super::{Budget, Cancel, Live, Standing};
use crate::answer::solve::{Solved, Way};
use crate::answer::{Anew, PackAnswer, PackError, Ready, WhyAnswer, WhyError, told, told_thoroughly, why_of};
use crate::select::Choice;
use fardel_milp::{EngineError, SolveOptions, Stop};
use std::ops::ControlFlow;

impl Live {
    /// Everything that `pack` tells, of the kit in hand; without preparations and without how firm the kit is, which take
    /// packing anew.
    ///
    /// # Errors
    /// [`PackError`]: no kit in hand, or an answer that did not survive checking.
    pub fn answer(&self) -> Result<PackAnswer, PackError> {
        self.answer_of(self.known.in_hand.as_ref().ok_or(PackError::OutOfTime)?)
    }

    /// The same of a kit that was heard of while a clone was improving.
    ///
    /// # Errors
    /// As [`Live::answer`].
    pub fn answer_of(&self, standing: &Standing) -> Result<PackAnswer, PackError> {
        self.ready().answer(&self.solved(standing), &self.options)
    }

    /// The whole answer of `pack`: with what can still be done to the bike, and, if asked for, with how firm the kit is. The kit
    /// in hand is the one that is told; [`Self::improve`] first.
    ///
    /// # Errors
    /// As [`Self::answer`].
    pub fn pack(&self, anew: Anew, firm: bool) -> Result<PackAnswer, PackError> {
        let standing = self.known.in_hand.as_ref().ok_or(PackError::OutOfTime)?;
        let (ready, solved) = (self.ready(), self.solved(standing));
        if firm {
            told_thoroughly(&ready, solved, anew, &self.options)
        } else {
            told(&ready, solved, anew, &self.options).map(|(_, answer)| answer)
        }
    }

    /// Improves within the options that the plan was opened with, then tells as [`Self::pack`] does: the answer of the command, and
    /// where there is none, its refusal with what would let there be one.
    ///
    /// # Errors
    /// As `pack`.
    pub fn packed(&mut self, anew: Anew, firm: bool) -> Result<PackAnswer, PackError> {
        let budget = Budget { time: self.options.time_limit, gap: self.options.gap };
        match self.improve(budget, &Cancel::new(), &mut |_| ControlFlow::Continue(())) {
            Ok(_) => self.pack(anew, firm),
            Err(PackError::Infeasible { .. }) => Err(self.refusal(&self.options)),
            Err(error) => Err(error),
        }
    }

    /// That no kit keeps all limits, as [`Self::improve`] has found, with what would let there be one: the refusal of the command.
    #[must_use]
    pub fn refusal(&self, options: &SolveOptions) -> PackError {
        self.ready().explain(EngineError::Infeasible, options)
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
        if let Some(solved) = &standing.solved {
            return solved.clone();
        }
        let counts = standing.counts().to_vec();
        let choice = Choice {
            objective: standing.objective(),
            bound: standing.bound.unwrap_or(f64::INFINITY),
            stop: Stop::WithinGap,
            failed: Vec::new(),
            unaided: false,
            risk_model: self.risk_model.at(&self.instance, &counts),
            counts,
        };
        Solved { choice, placement: standing.placement().clone(), rounds: self.known.cuts.len(), way: Way::Stowed }
    }
}
