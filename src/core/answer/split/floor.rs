//! A group's kit with a floor: enough is left whoever of the riders leaves.

use super::solve::{Chosen, Search, SplitSolved};
use super::twice::twice;
use crate::allocation::{self, Absence, NoGood, Redundancy, absence, missed, vital, wanting};
use crate::resolve::Instance;
use crate::risk;
use fardel_milp::{EngineError, control};

/// Of the time that is left for all, looking for the best kit that keeps the floor may take this share ...
const SEARCHING: f64 = 0.65;
/// ... choosing a kit again this one ...
const CHOOSING_AGAIN: f64 = 0.4;
/// ... and handing out a kit with much of it twice this one.
const AT_ONCE: f64 = 0.5;
/// What counts as much: these shares of what may be lost when somebody leaves.
const MUCH: [f64; 3] = [0.3, 0.1, 0.02];
/// How often more is asked for twice.
const MOST_ROUNDS: usize = 8;
/// How often one kit is handed out anew because too much would leave with one rider.
const MOST_HANDOUTS: usize = 8;

impl Search<'_> {
    /// A kit handed out so that the floor is kept.
    pub(super) fn with_floor(&self, first: &Chosen, bound: f64, share: f64) -> Result<SplitSolved, EngineError> {
        let solved = match control::within(SEARCHING, || self.search_floor(first.clone(), bound, share)) {
            Err(error @ (EngineError::NoAnswerInTime | EngineError::Infeasible)) => {
                self.with_much_twice(first, bound, share).ok_or(error)?
            }
            done => done?,
        };
        let before_floor = (risk::value::mass(self.instance, &first.choice.counts), first.choice.objective);
        Ok(SplitSolved { before_floor, ..solved })
    }

    /// A kit that has twice what would be missed by a little already: heavier than it has to be, but soon found.
    fn with_much_twice(&self, first: &Chosen, bound: f64, share: f64) -> Option<SplitSolved> {
        let whole = risk::assess(self.instance);
        let start = absences(self.instance, &first.choice.counts, share);
        MUCH.into_iter().take_while(|_| !control::is_cancelled()).find_map(|part| {
            let mut redundancies = vital(self.instance, &start);
            redundancies.extend(missed(self.instance, &start, &first.choice.counts, part * (1.0 - share)));
            redundancies.sort_unstable();
            redundancies.dedup();
            let choice = twice(self.instance, &whole, &first.choice, &redundancies)?;
            let absences = absences(self.instance, &choice.counts, share);
            let chosen = Chosen { choice, holdings: None };
            control::within(AT_ONCE, || self.keep_floor(&chosen, bound, &redundancies, &absences)).ok()?.ok()
        })
    }

    /// Asks for more and more twice, until the kit can be handed out so that the floor is kept.
    fn search_floor(&self, first: Chosen, bound: f64, share: f64) -> Result<SplitSolved, EngineError> {
        let start = absences(self.instance, &first.choice.counts, share);
        let mut redundancies = vital(self.instance, &start);
        let mut chosen = if redundancies.is_empty() { first } else { self.choose_again(&first, &redundancies)? };
        let bound = bound.min(chosen.choice.bound);
        for _ in 0..MOST_ROUNDS {
            self.deadline.left()?;
            let absences = absences(self.instance, &chosen.choice.counts, share);
            let alone = missed(self.instance, &absences, &chosen.choice.counts, 1.0 - share);
            let more = if alone.iter().all(|redundancy| redundancies.contains(redundancy)) {
                match self.keep_floor(&chosen, bound, &redundancies, &absences)? {
                    Ok(solved) => return Ok(solved),
                    Err(more) => more,
                }
            } else {
                alone
            };
            let before = redundancies.len();
            redundancies.extend(more);
            redundancies.sort_unstable();
            redundancies.dedup();
            if redundancies.len() == before {
                break;
            }
            chosen = self.choose_again(&chosen, &redundancies)?;
        }
        Err(EngineError::Infeasible)
    }

    /// The best kit that has these things twice; where it is not found in time, the one before with what is missing.
    fn choose_again(&self, before: &Chosen, redundancies: &[Redundancy]) -> Result<Chosen, EngineError> {
        match control::within(CHOOSING_AGAIN, || self.choose(redundancies, false)) {
            Err(EngineError::NoAnswerInTime) => {
                let whole = risk::assess(self.instance);
                let choice = twice(self.instance, &whole, &before.choice, redundancies);
                let choice = choice.ok_or(EngineError::NoAnswerInTime)?;
                Ok(Chosen { choice, holdings: None })
            }
            done => done,
        }
    }

    /// Hands this kit out until the floor is kept whoever leaves: what was too much to lose with one rider is not put on
    /// one bike again. Otherwise, what would be missed most of it.
    #[allow(clippy::type_complexity, reason = "an answer, what to ask for twice, or an error")]
    fn keep_floor(
        &self,
        chosen: &Chosen,
        bound: f64,
        redundancies: &[Redundancy],
        absences: &[Absence],
    ) -> Result<Result<SplitSolved, Vec<Redundancy>>, EngineError> {
        let counts = &chosen.choice.counts;
        let mut together: Vec<NoGood> = Vec::new();
        let mut wanted: Vec<Redundancy> = Vec::new();
        for _ in 0..MOST_HANDOUTS {
            self.deadline.left()?;
            let solved = match self.finish_apart(chosen, bound, redundancies, (absences, &together)) {
                Ok(solved) => solved,
                Err(EngineError::Infeasible) => break,
                Err(error) => return Err(error),
            };
            let holdings = &solved.allocation.holdings;
            let short: Vec<&Absence> = absences.iter().filter(|absence| !absence.is_kept(holdings)).collect();
            if short.is_empty() {
                return Ok(Ok(solved));
            }
            wanted = short
                .iter()
                .filter_map(|short| wanting(self.instance, short, holdings, counts).into_iter().next())
                .collect();
            for absence in short {
                let units = allocation::too_much(self.instance, absence, holdings, counts);
                let also = absences.iter().filter(|other| allocation::is_too_much(other, counts, &units));
                together.extend(also.map(|other| NoGood { rider: other.rider, units: units.clone() }));
            }
        }
        Ok(Err(wanted))
    }
}

/// The trip without each rider, and what must be saved on it.
#[must_use]
pub fn absences(instance: &Instance, counts: &[u32], share: f64) -> Vec<Absence> {
    let of = |rider: usize| {
        let situations = absence(instance, rider);
        let with_all: f64 = situations.iter().map(|situation| situation.saved(counts)).sum();
        Absence { rider, situations, with_all, least: share * with_all }
    };
    (0..instance.mounts.len()).map(of).collect()
}
